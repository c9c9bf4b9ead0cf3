"""Looking: where is my roll, what wants attention, what happened to this one."""

from __future__ import annotations

import click

from filmrack.cli.call import Call, json_option
from filmrack.cli.output import (
    iso,
    print_json,
    print_rolls,
    print_table,
    roll_json,
    say,
)
from filmrack.domain.clock import clock_or_dash
from filmrack.domain.refusal import Refused
from filmrack.store import search
from filmrack.store.standings import in_need, look_for, see, see_as_of


@click.command()
@click.argument("text", nargs=-1, required=True, metavar="TEXT")
@json_option
@click.pass_obj
def find(call: Call, *, text: tuple[str, ...], as_json: bool) -> None:
    """Find rolls by names, numbers, clips and places, mixed. As in `okafor 26f` or `clip 17`."""
    line = " ".join(text)
    with call.reading() as file:
        now, then = call.now(file), call.then(file)
        seen = look_for(file, line, now, then)
        if not seen.standings and not as_json:
            raise Refused(f"nothing is found for “{line[:60]}”: type less of the name, or a number")
        print_rolls(seen, file.room(), as_json=as_json)


@click.command()
@json_option
@click.pass_obj
def due(call: Call, *, as_json: bool) -> None:
    """List all that wants attention, most urgent first."""
    with call.reading() as file:
        room, now, then = file.room(), call.now(file), call.then(file)
        seen = in_need(file, now, then)
        if as_json:
            print_json(
                [
                    {
                        **roll_json(each, seen, room),
                        "why": each.why[0][0],
                        "since": iso(each.why[0][1], room.timetable.zone),
                        "also": [why for why, _ in each.why[1:]],
                    }
                    for each in seen.standings
                ]
            )
        elif not seen.standings:
            say("nothing wants attention")
        else:
            rows = [
                (
                    each.why[0][0],
                    clock_or_dash(each.why[0][1], room.timetable.zone, then or now),
                    each.roll.number,
                    seen.whose(each.roll),
                    seen.place(each.roll),
                    each.next.words,
                )
                for each in seen.standings
            ]
            print_table(rows, ("why", "since", "roll", "who", "where", "next"))


@click.command()
@click.argument("roll", nargs=-1, required=True, metavar="ROLL")
@json_option
@click.pass_obj
def show(call: Call, *, roll: tuple[str, ...], as_json: bool) -> None:
    """Show one roll with its ledger, newest first."""
    from filmrack.cli.story import print_story, story_json

    with call.reading() as file:
        room, now, then = file.room(), call.now(file), call.then(file)
        found = search.which(file.conn, " ".join(roll))
        seen = see(file, [found], now) if then is None else see_as_of(file, [found.id], then)
        if not seen.standings:
            raise Refused(f"{found.number} was not there yet: name a later time")
        if as_json:
            document = roll_json(seen.standings[0], seen, room)
            print_json({**document, "ledger": story_json(file, found.id, then)})
        else:
            print_story(file, seen, then or now, then)
