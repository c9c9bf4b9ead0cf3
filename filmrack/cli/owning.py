"""Whose a roll is, and notes."""

from __future__ import annotations

import click

from filmrack.acts import owning
from filmrack.cli.answer import answer
from filmrack.cli.call import Call, json_option
from filmrack.store import search


@click.command()
@click.argument("roll")
@click.argument("who", nargs=-1, required=True, metavar="WHO")
@json_option
@click.pass_obj
def claim(call: Call, *, roll: str, who: tuple[str, ...], as_json: bool) -> None:
    """Say whose a roll is, that had no owner or the wrong one."""
    with call.writing() as file:
        found = search.which(file.conn, roll)
        person = search.who(file.conn, " ".join(who))
        claimed = owning.claim(file, call.hand(file), found.id, person.number)
        answer(call, file, [claimed], as_json=as_json)


@click.command()
@click.argument("roll")
@click.argument("other")
@json_option
@click.pass_obj
def swap(call: Call, *, roll: str, other: str, as_json: bool) -> None:
    """Exchange the owners of two rolls that were mixed up."""
    with call.writing() as file:
        one, two = search.which(file.conn, roll), search.which(file.conn, other)
        swapped = owning.swap(file, call.hand(file), one.id, two.id)
        answer(call, file, swapped, as_json=as_json, several=True)


@click.command()
@click.argument("roll")
@click.argument("text", nargs=-1, required=True, metavar="TEXT")
@json_option
@click.pass_obj
def note(call: Call, *, roll: str, text: tuple[str, ...], as_json: bool) -> None:
    """Keep a note with a roll."""
    with call.writing() as file:
        found = search.which(file.conn, roll)
        noted = owning.note(file, call.hand(file), found.id, " ".join(text))
        answer(call, file, [noted], as_json=as_json)
