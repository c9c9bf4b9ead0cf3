"""Taking in a roster."""

from __future__ import annotations

from functools import partial
from typing import BinaryIO

import click

from filmrack.acts.rostering import Rostered, take_roster, would_take_roster
from filmrack.cli.call import Call, json_option
from filmrack.cli.output import print_json, print_table, say
from filmrack.domain.headings import IN_WORDS
from filmrack.domain.roster import MOST_BYTES, Mapping, read_roster
from filmrack.domain.termcode import term_code


@click.command()
@click.argument("source", type=click.File("rb"), metavar="FILE.csv")
@click.option("--period", metavar="P", help="For lines that name no period.")
@click.option("--term", metavar="CODE", help="Another term than the one in force.")
@click.option(
    "--others-left", is_flag=True, help="Who is in these periods and not on the roster has left."
)
@click.option("--dry-run", is_flag=True, help="Show what would happen, change nothing.")
@json_option
@click.pass_obj
def roster(
    call: Call,
    *,
    source: BinaryIO,
    period: str | None,
    term: str | None,
    others_left: bool,
    dry_run: bool,
    as_json: bool,
) -> None:
    """Add or update people from a school's list; again is harmless."""
    with call.reading() if dry_run else call.writing() as file:
        room = file.room()
        read = read_roster(source.read(MOST_BYTES + 1), room.period_word)
        if not as_json:
            _show(read.mapping)
        code = None if term is None else term_code(term)
        number = None if period is None else room.period_meant(period).number
        hand = call.hand(file)
        if dry_run:
            take = partial(would_take_roster, file, hand.at)
        else:
            take = partial(take_roster, file, hand)
        done = take(read, term=code, period=number, others_left=others_left)
    if as_json:
        print_json(_json(done, read.mapping))
    else:
        _tell(done, others_left=others_left, dry_run=dry_run)


def _json(done: Rostered, mapping: Mapping) -> dict[str, object]:
    return {
        "term": done.term,
        "added": done.added,
        "updated": done.updated,
        "unchanged": done.unchanged,
        "left": done.left,
        "refused": [{"line": line, "why": why} for line, why in done.refused],
        "mapping": {
            "encoding": mapping.encoding,
            "separator": mapping.separator,
            "columns": dict(mapping.columns),
            "not_used": list(mapping.not_used),
        },
    }


def _tell(done: Rostered, *, others_left: bool, dry_run: bool) -> None:
    for line, why in done.refused:
        say(f"line {line}: {why}")
    left = f", {done.left} left" if others_left else ""
    say(
        f"{done.term}: {done.added} added, {done.updated} updated, {done.unchanged} unchanged"
        f"{left}, {len(done.refused)} refused"
    )
    if others_left and done.refused:
        say("nobody is taken to have left while a line is refused")
    if dry_run:
        say("nothing was changed")


def _show(mapping: Mapping) -> None:
    say(f"read as {mapping.encoding}, cells parted by {mapping.separator}")
    rows = [(heading, "is the", IN_WORDS[meaning]) for heading, meaning in mapping.columns]
    print_table([*rows, *((heading, "is not used", "") for heading in mapping.not_used)])
