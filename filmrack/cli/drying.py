"""While film dries: the dial, the flip, the touch check."""

from __future__ import annotations

import click

from filmrack.acts import drying
from filmrack.acts.clips import flip_warnings
from filmrack.cli.answer import answer
from filmrack.cli.call import Call, json_option
from filmrack.cli.output import iso, print_json, say
from filmrack.domain.asking import parse
from filmrack.domain.clip import clips_of
from filmrack.domain.clock import clock_or_dash
from filmrack.domain.dryer import FanRun, fan_until
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.store import fan as fans
from filmrack.store import search
from filmrack.store.file import DarkroomFile


@click.command()
@click.argument("setting", type=click.Choice(["on", "off"]), required=False)
@click.option("--hours", type=float, metavar="H", help="What the dial was turned to.")
@click.option("--dryer", type=int, metavar="D", help="Which dryer, where there are several.")
@json_option
@click.pass_obj
def fan(
    call: Call, *, setting: str | None, hours: float | None, dryer: int | None, as_json: bool
) -> None:
    """Say that the dial was turned, or that the fan was found off.

    Without either it says how the fan runs.
    """
    if setting is None:
        with call.reading() as file:
            moment = call.moment(file)
            room = file.room()
            asked = room.dryers[0] if dryer is None else room.dryer_meant(dryer)
            known = fans.runs_as_of(file.conn, moment - fans.LONGEST_RUN, moment)
            _tell(call, file, known.get(asked.number, []), as_json=as_json)
        return
    if setting == "off" and hours is not None:
        raise click.UsageError("a fan that is off has no hours")
    with call.writing() as file:
        hand = call.hand(file)
        run = drying.turn_dial(file, hand, 0.0 if setting == "off" else hours, dryer)
        number = file.room().dryer_meant(dryer).number
        enough = None if run is None else drying.enough_hours(file, run, number)
        runs = fans.runs(file.conn, hand.at - fans.LONGEST_RUN).get(number, [])
        _tell(call, file, runs, as_json=as_json)
        if enough is not None and not as_json:
            say(f"{enough:g} h is enough for film that is hung now")


@click.command()
@click.argument("rolls", nargs=-1, required=True, metavar="ROLL…")
@json_option
@click.pass_obj
def flip(call: Call, *, rolls: tuple[str, ...], as_json: bool) -> None:
    """Flip strips, end for end.

    `rod 3` flips those on it that are wet and were not flipped yet.
    """
    with call.writing() as file:
        rod = _rod(rolls)
        left: tuple[str, ...] = ()
        early: list[Roll] = []
        if rod is None:
            found = search.which_all(file.conn, rolls)
            flipped = drying.flip(file, call.hand(file), [roll.id for roll in found])
        else:
            flipped, left, early = drying.flip_rod(file, call.hand(file), rod)
        several = len(flipped) > 1
        heed = {roll.id: flip_warnings(file, [roll]) for roll in flipped}
        answer(call, file, flipped, as_json=as_json, several=several, warnings=heed)
        if early and not as_json:
            say(f"flipped before time: {clips_of(early)}")
        if left and not as_json:
            say(f"not flipped: {', '.join(left)}")


def _rod(texts: tuple[str, ...]) -> int | None:
    """Return the rod that is meant, where it is one alone; what is none is refused later."""
    try:
        parts = parse(" ".join(texts))
    except Refused:
        return None
    return int(parts[0].value) if [part.kind for part in parts] == ["rod"] else None


@click.command()
@click.argument("roll", nargs=-1, required=True, metavar="ROLL")
@click.argument("result", type=click.Choice(["dry", "tacky"]))
@json_option
@click.pass_obj
def touch(call: Call, *, roll: tuple[str, ...], result: str, as_json: bool) -> None:
    """Say what a clean dry finger found at both ends: dry or tacky."""
    with call.writing() as file:
        found = search.which(file.conn, " ".join(roll))
        touched = drying.touch(file, call.hand(file), found.id, dry=result == "dry")
        answer(call, file, [touched], as_json=as_json)


def _tell(call: Call, file: DarkroomFile, runs: list[FanRun], *, as_json: bool) -> None:
    room, now = file.room(), call.now(file)
    moment = call.then(file) or now
    until = fan_until(runs, moment)
    on = next((run for run in runs if run.starts <= moment < run.ends), None)
    assumed = on is not None and on.assumed
    if as_json:
        zone = room.timetable.zone
        running = until is not None
        print_json({"running": running, "until": iso(until, zone), "assumed": assumed})
    elif until is None:
        say("the fan is noted as off")
    else:
        how = "assumed" if assumed else "logged"
        say(f"the fan runs until {clock_or_dash(until, room.timetable.zone, now)} ({how})")
