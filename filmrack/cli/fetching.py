"""Taking dry film down."""

from __future__ import annotations

import click

from filmrack.acts import fetching
from filmrack.cli.answer import answer
from filmrack.cli.call import Call, json_option
from filmrack.store import search


@click.command()
@click.argument("roll", nargs=-1, required=True, metavar="ROLL")
@json_option
@click.pass_obj
def take(call: Call, *, roll: tuple[str, ...], as_json: bool) -> None:
    """Say that a roll went with its owner."""
    with call.writing() as file:
        found = search.which(file.conn, " ".join(roll))
        answer(call, file, [fetching.take(file, call.hand(file), found.id)], as_json=as_json)


@click.command()
@click.argument("rolls", nargs=-1, required=True, metavar="ROLL…")
@click.option("--period", metavar="P", help="Into another period's box than the owner's.")
@json_option
@click.pass_obj
def box(call: Call, *, rolls: tuple[str, ...], period: str | None, as_json: bool) -> None:
    """Put rolls in their period's box; `rod 3` for all on it."""
    with call.writing() as file:
        found = search.which_all(file.conn, rolls)
        number = None if period is None else file.room().period_meant(period).number
        numbers = [roll.id for roll in found]
        boxed = fetching.box(file, call.hand(file), numbers, period=number)
        answer(call, file, boxed, as_json=as_json, several=len(boxed) > 1)
