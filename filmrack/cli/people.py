"""A person's names, whether they are still here, and wiping names for good."""

from __future__ import annotations

import sys

import click

from filmrack.acts import people, wiping
from filmrack.cli.call import Call, json_option
from filmrack.cli.output import harmless, print_json, say
from filmrack.domain.codes import person_code
from filmrack.domain.names import Person
from filmrack.domain.refusal import Refused
from filmrack.store import search


@click.group()
def person() -> None:
    """Rename a person, say that they left or came back, wipe names."""


@person.command()
@click.argument("who", nargs=-1, required=True, metavar="WHO")
@click.option("--given", metavar="NAME", help="The given name.")
@click.option("--family", metavar="NAME", help="The family name.")
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
    """Give a person the name they ask for. The former one is found and shown no more."""
    with call.writing() as file:
        number = search.who(file.conn, " ".join(who)).number
        named = people.rename(
            file, call.hand(file), number, given=given, family=family, called=called
        )
    _tell(named, "is the name from now on", as_json=as_json)


@person.command()
@click.argument("who", nargs=-1, required=True, metavar="WHO")
@json_option
@click.pass_obj
def left(call: Call, *, who: tuple[str, ...], as_json: bool) -> None:
    """Say that a person has left. Their rolls stay theirs, new ones are not offered."""
    with call.writing() as file:
        number = search.who(file.conn, " ".join(who)).number
        gone = people.leave(file, call.hand(file), number)
    _tell(gone, f"has left; “filmrack person back {gone.number}” if not", as_json=as_json)


@person.command()
@click.argument("who", nargs=-1, required=True, metavar="WHO")
@json_option
@click.pass_obj
def back(call: Call, *, who: tuple[str, ...], as_json: bool) -> None:
    """Say that a person who had left is here again. Name them by number, school id or code."""
    with call.writing() as file:
        number = search.who(file.conn, " ".join(who)).number
        here = people.come_back(file, call.hand(file), number)
    _tell(here, "is here again", as_json=as_json)


@person.command()
@click.argument("who", nargs=-1, metavar="[WHO]")
@click.option("--old", is_flag=True, help="All whose names the room's rule keeps no longer.")
@click.option("--yes", is_flag=True, help="Do not ask.")
@json_option
@click.pass_obj
def wipe(call: Call, *, who: tuple[str, ...], old: bool, yes: bool, as_json: bool) -> None:
    """Wipe a person's names, for good.

    Notes and backups lose them too; their rolls stay.

    It cannot be taken back.
    """
    if bool(who) == old:
        raise click.UsageError("say whose names go, or --old for all that the rule keeps no longer")
    with call.writing() as file:
        now = call.now(file)
        named = [] if old else [search.who(file.conn, " ".join(who))]
        going = named or wiping.kept_too_long(file, now)
        if not going:
            years = file.room().rules.keep_names_years
            done = wiping.Wiped((), 0, (), ())
            words = f"no name is kept for longer than the room's {years} years"
        else:
            _ask(going, wiping.first_the_room(wiping.room_says(file, going)), yes=yes)
            done = wiping.wipe(file, [one.number for one in going], now)
            words = wiping.gone_words(done)
    if as_json:
        print_json(
            {
                "wiped": list(done.people),
                "notes": done.notes,
                "backups": [str(path) for path in done.backups],
                "left": [{"file": str(path), "why": why} for path, why in done.left],
                "room": list(done.room),
            }
        )
    else:
        say(words)
    for _, why in done.left:
        click.echo(harmless(f"filmrack: a name may still be in a backup: {why}"), err=True)
    if done.left:
        click.get_current_context().exit(3)


def _ask(going: list[Person], first: str, *, yes: bool) -> None:
    if yes:
        return
    if not sys.stdin.isatty():
        raise Refused("nothing was wiped because nobody can be asked here: add --yes to do it")
    say(f"these names go for good: {', '.join(one.full for one in going)}")
    if first:
        say(first)
    click.confirm("Wipe them? It cannot be taken back", abort=True)


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
