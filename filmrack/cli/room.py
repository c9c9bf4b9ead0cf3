"""The room: its file out, looked over, and in again."""

from __future__ import annotations

from pathlib import Path
from typing import BinaryIO

import click

from filmrack.cli.call import Call, json_option
from filmrack.cli.output import harmless, print_json, print_table, say
from filmrack.domain.roomproblems import Problem

_MOST_BYTES = 20_000_000
"""More than any file of a room may have: what is longer is refused by its reader."""


@click.group()
def room() -> None:
    """Export, check and apply the room file; add days off."""


@room.command()
@click.argument("target", type=click.Path(path_type=Path), metavar="[FILE]", required=False)
@json_option
@click.pass_obj
def export(call: Call, *, target: Path | None, as_json: bool) -> None:
    """Write the room as a file to edit, or print it. Never over a file that exists."""
    from filmrack.acts.new_files import write_new
    from filmrack.acts.refitting import export_room

    with call.reading() as file:
        text = export_room(file)
    if target is None or str(target) == "-":
        if as_json:
            print_json({"room": text})
        else:
            click.echo(harmless(text), nl=False)
        return
    write_new(target, text.encode())
    if as_json:
        print_json({"file": str(target)})
    else:
        say(f"{target} is written: edit it, then “filmrack room check” and “filmrack room apply”")


@room.command()
@click.argument("source", type=click.File("rb"), metavar="FILE")
@json_option
@click.pass_context
def check(ctx: click.Context, *, source: BinaryIO, as_json: bool) -> None:
    """Name every mistake in a room file, by its key. Nothing is changed."""
    from filmrack.domain.roomfile import examine

    reading = examine(source.read(_MOST_BYTES))
    _tell(reading.problems, "it is a room; “filmrack room apply” takes it over", as_json=as_json)
    ctx.exit(1 if reading.problems else 0)


@room.command()
@click.argument("source", type=click.File("rb"), metavar="FILE")
@json_option
@click.pass_context
def apply(ctx: click.Context, *, source: BinaryIO, as_json: bool) -> None:
    """Take a room file over, whole or not at all. Refused where rolls would lose their place."""
    from filmrack.acts.refitting import refit
    from filmrack.domain.roomfile import examine

    call: Call = ctx.obj
    data = source.read(_MOST_BYTES)
    reading = examine(data)
    if reading.room is not None:
        with call.writing() as file:
            refit(file, call.hand_now(file), reading.room, data.decode("utf-8-sig"))
    _tell(reading.problems, "the room is as the file says", as_json=as_json)
    ctx.exit(1 if reading.problems else 0)


@room.command("days-off")
@click.argument("source", type=click.File("rb"), metavar="FILE.ics")
@click.option("--matching", default="", metavar="WORDS", help="Only events with these words.")
@click.option("--dry-run", is_flag=True, help="Show the days, change nothing.")
@json_option
@click.pass_obj
def days_off(call: Call, *, source: BinaryIO, matching: str, dry_run: bool, as_json: bool) -> None:
    """Add the days off of a calendar file.

    These are its whole-day events that fall in the room's terms.
    """
    from filmrack.acts.refitting import add_days_off
    from filmrack.domain.calendarfile import days_off_within

    with call.reading() if dry_run else call.writing() as file:
        found = days_off_within(source.read(_MOST_BYTES), file.room().terms, matching)
        if not dry_run:
            found = add_days_off(file, call.hand_now(file), found)
    if as_json:
        print_json(
            {
                "added": [
                    {"name": off.name, "first": str(off.first), "last": str(off.last)}
                    for off in found
                ]
            }
        )
    elif not found:
        say("no new day off within the terms")
    else:
        print_table([(str(off.first), str(off.last), off.name) for off in found])
        say("nothing was changed" if dry_run else "these days off were added")


def _tell(problems: tuple[Problem, ...], well: str, *, as_json: bool) -> None:
    if as_json:
        print_json({"problems": [{"key": one.key, "advice": one.advice} for one in problems]})
    elif not problems:
        say(well)
    else:
        for problem in problems:
            say(str(problem))
        click.echo("filmrack: the room file has mistakes: nothing was changed", err=True)
