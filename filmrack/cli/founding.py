"""Making a darkroom file."""

from __future__ import annotations

from pathlib import Path

import click

from filmrack.acts.founding import make_darkroom_file
from filmrack.cli.call import Call, json_option
from filmrack.cli.output import print_json, say
from filmrack.domain.counted import counted


@click.command()
@click.option(
    "--room",
    "room_file",
    type=click.Path(path_type=Path, dir_okay=False, exists=True),
    help="The room file that says what the room is like.",
)
@json_option
@click.pass_obj
def new(call: Call, *, room_file: Path | None, as_json: bool) -> None:
    """Make a darkroom file; never over one that exists."""
    from filmrack.cli.asking import room_for

    now = call.machine()
    if call.db is None:
        call.path.parent.mkdir(parents=True, exist_ok=True)
    room, text = room_for(room_file, now, ask=not as_json)
    with make_darkroom_file(call.path, room, now, text) as file:
        term = file.room().term_at(now)
    periods = [period.name for period in room.periods]
    if as_json:
        print_json(
            {
                "db": str(call.path),
                "rods": [rod.number for rod in room.rods],
                "periods": periods,
                "term": term.code if term else None,
            }
        )
        return
    say(f"{call.path} is made: {counted(len(room.rods), 'rod')} for {', '.join(periods)}")
    say(
        "next: “filmrack roster FILE.csv” for the students,"
        " “filmrack labels clips 1-60” for the tags"
    )
