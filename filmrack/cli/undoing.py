"""Taking back."""

from __future__ import annotations

import click

from filmrack.acts import undoing
from filmrack.cli.call import Call, json_option
from filmrack.cli.output import iso, print_json, say
from filmrack.domain.clock import clock_or_dash
from filmrack.domain.story import act_in_words
from filmrack.store import rolls, search


@click.command()
@click.argument("roll", nargs=-1, metavar="[ROLL]")
@json_option
@click.pass_obj
def undo(call: Call, *, roll: tuple[str, ...], as_json: bool) -> None:
    """Take back the last act of the command line, or of a roll. Again goes further back."""
    with call.writing() as file:
        roll_id = search.which(file.conn, " ".join(roll)).id if roll else None
        undone = undoing.undo(file, call.hand(file), roll_id)
        room = file.room()
        names = {
            found.id: found.number
            for found in rolls.by_ids(file.conn, {one for _, one in undone.acts if one})
        }
        acts = [(act, names.get(one or 0)) for act, one in undone.acts]
        if as_json:
            print_json(
                {
                    "undone": [{"act": act, "roll": name} for act, name in acts],
                    "happened": iso(undone.happened, room.timetable.zone),
                }
            )
            return
        at = clock_or_dash(undone.happened, room.timetable.zone, call.now(file))
        for words in undone.settings:
            say(f"taken back: {words}")
        for act, name in acts:
            if name is None and undone.settings:
                continue  # what of the room or the term it was is said above
            say(f"taken back: “{act_in_words(act)}” of {at}" + (f", {name}" if name else ""))
