"""A person's names, and whether they are still here."""

from __future__ import annotations

import click

from filmrack.acts import people
from filmrack.cli.call import Call, json_option
from filmrack.cli.output import print_json, say
from filmrack.domain.codes import person_code
from filmrack.domain.names import Person
from filmrack.store import search


@click.group()
def person() -> None:
    """Rename a person, or keep that they left or came back."""


@person.command()
@click.argument("who", nargs=-1, required=True)
@click.option("--given", metavar="NAME")
@click.option("--family", metavar="NAME")
@click.option("--called", metavar="NAME", help="The name they go by; '' takes it away.")
@json_option
@click.pass_obj
def rename(
    call: Call,
    *,
    who: tuple[str, ...],
    given: str | None,
    family: str | None,
    called: str | None,
    as_json: bool,
) -> None:
    """Give a person the name they ask for; the former one is found and shown no more."""
    with call.writing() as file:
        number = search.who(file.conn, " ".join(who)).number
        named = people.rename(file, number, given=given, family=family, called=called)
    _tell(named, "is the name from now on", as_json=as_json)


@person.command()
@click.argument("who", nargs=-1, required=True)
@json_option
@click.pass_obj
def left(call: Call, *, who: tuple[str, ...], as_json: bool) -> None:
    """Keep that a person has left: their rolls stay theirs, new ones are not offered."""
    with call.writing() as file:
        number = search.who(file.conn, " ".join(who)).number
        gone = people.leave(file, number, call.then(file) or call.now(file))
    _tell(gone, f"has left; “filmrack person back {gone.number}” if not", as_json=as_json)


@person.command()
@click.argument("who", nargs=-1, required=True)
@json_option
@click.pass_obj
def back(call: Call, *, who: tuple[str, ...], as_json: bool) -> None:
    """Keep that a person who had left is here again: by number, school id or code."""
    with call.writing() as file:
        number = search.who(file.conn, " ".join(who)).number
        here = people.come_back(file, number)
    _tell(here, "is here again", as_json=as_json)


def _tell(one: Person, what: str, *, as_json: bool) -> None:
    if as_json:
        print_json(
            {
                "person": one.number,
                "code": person_code(one.number),
                "given": one.given,
                "family": one.family,
                "called": one.called,
            }
        )
    else:
        say(f"{one.full} {what}")
