"""Loading a tank, hanging wet film, moving it."""

from __future__ import annotations

from collections.abc import Sequence

import click

from filmrack.acts import hanging
from filmrack.cli.call import Call, json_option
from filmrack.cli.output import (
    iso,
    print_json,
    roll_json,
    say,
    sentence,
    tell_warnings,
)
from filmrack.domain.asking import parse
from filmrack.domain.clip import clip_number
from filmrack.domain.clock import clock_or_dash
from filmrack.domain.names import clean
from filmrack.store import people, rolls, search
from filmrack.store.file import DarkroomFile
from filmrack.store.standings import see


@click.command()
@click.argument("who", nargs=-1, required=True, metavar="WHO")
@click.option(
    "--clip",
    "clips",
    multiple=True,
    required=True,
    metavar="C",
    help="Its clip pair; named twice for the two rolls of a double tank.",
)
@click.option("--film", metavar="135-36", help="Else the room's usual film.")
@json_option
@click.pass_obj
def load(
    call: Call,
    *,
    who: tuple[str, ...],
    clips: tuple[str, ...],
    film: str | None,
    as_json: bool,
) -> None:
    """Say whose roll gets which clip pair, while it is in the tank."""
    with call.writing() as file:
        person = search.who(file.conn, " ".join(who)).number
        numbers = [clip_number(clip) for clip in clips]
        loaded = hanging.load(file, call.hand(file), person, numbers, film)
        seen = see(file, loaded.rolls, call.now(file))
        if as_json:
            room = file.room()
            print_json(
                {
                    "rolls": [roll_json(each, seen, room) for each in seen.standings],
                    "not_seen_since": _lost_json(file, loaded.displaced),
                    "warnings": list(loaded.warnings),
                    "bell": iso(loaded.bell, room.timetable.zone),
                    "start_by": iso(loaded.start_by, room.timetable.zone),
                }
            )
            return
        for each in seen.standings:
            say(sentence(each, seen))
        _tell_start(call, file, loaded)
        _tell_lost(call, file, loaded.displaced)
        tell_warnings(loaded.warnings)


@click.command()
@click.argument("what", nargs=-1, metavar="[ROLL|WHO]")
@click.option("--clip", metavar="C", help="The clip pair it hangs on.")
@click.option("--rod", type=int, metavar="N", help="Where; else the owner's rod.")
@click.option("--position", type=int, metavar="N", help="Where on the rod; else the first free.")
@click.option("--film", metavar="135-36", help="Else the room's usual film.")
@click.option("--clue", default="", metavar="TEXT", help="What is on it: “bicycle, first frame”.")
@click.option("--tacky", is_flag=True, help="Put back: it was taken down too early.")
@click.option("--unknown", is_flag=True, help="A roll without an owner.")
@json_option
@click.pass_obj
def hang(
    call: Call,
    *,
    what: tuple[str, ...],
    clip: str | None,
    rod: int | None,
    position: int | None,
    film: str | None,
    clue: str,
    tacky: bool,
    unknown: bool,
    as_json: bool,
) -> None:
    """Hang a loaded roll, named by its owner, number or clip.

    Without one a new roll is loaded and hung at once.

    Hanging assumes that the dial is turned where the fan is not on for long enough.
    """
    if unknown == bool(what):
        raise click.UsageError("say whose roll it is, or --unknown for one without an owner")
    with call.writing() as file:
        number = None if clip is None else clip_number(clip)
        roll, person = (None, None) if unknown else _meant(file, " ".join(what))
        hung = hanging.hang(
            file,
            call.hand(file),
            roll=roll,
            person=person,
            clip=number,
            rod=rod,
            position=position,
            film=film,
            clue=clean(clue, "the clue"),
            tacky=tacky,
        )
        _tell(call, file, hung, as_json=as_json)


@click.command()
@click.argument("roll", nargs=-1, required=True, metavar="ROLL")
@click.option("--rod", type=int, required=True, metavar="N", help="The rod it hangs on now.")
@click.option("--position", type=int, metavar="N", help="Where on the rod; else the first free.")
@json_option
@click.pass_obj
def move(
    call: Call, *, roll: tuple[str, ...], rod: int, position: int | None, as_json: bool
) -> None:
    """Say that a hanging roll hangs elsewhere now."""
    with call.writing() as file:
        found = search.which(file.conn, " ".join(roll))
        _tell(
            call,
            file,
            hanging.move(file, call.hand(file), found.id, rod, position),
            as_json=as_json,
        )


def _meant(file: DarkroomFile, text: str) -> tuple[int | None, int | None]:
    """Return the roll that is meant, or else the person.

    A bare number is a clip's or a roll's, unless a school gave it to somebody.
    """
    parts = parse(text)
    kind = parts[0].kind if len(parts) == 1 else "name"
    if kind in ("roll", "clip"):
        return search.which(file.conn, text).id, None
    if kind == "number" and people.by_school_id(file.conn, text.strip()) is None:
        return search.which(file.conn, text).id, None
    return None, search.who(file.conn, text).number


def _tell(call: Call, file: DarkroomFile, hung: hanging.Hung, *, as_json: bool) -> None:
    room, now = file.room(), call.now(file)
    seen = see(file, [hung.roll], now)
    standing = seen.standings[0]
    if as_json:
        print_json(
            {
                **roll_json(standing, seen, room),
                "rod": hung.roll.place.number,
                "position": hung.roll.place.position,
                "dial_hours": hung.dial_hours,
                "not_seen_since": _lost_json(file, hung.displaced),
                "warnings": list(hung.warnings),
            }
        )
        return
    say(sentence(standing, seen))
    drying = standing.outlook
    if drying is not None:
        say(
            f"flip {clock_or_dash(drying.flip_at, room.timetable.zone, now)},"
            f" likely dry {clock_or_dash(drying.likely_at, room.timetable.zone, now)}"
        )
    if hung.dial_hours is not None:
        say(f"turn the dial to {hung.dial_hours:g} h (the record takes it as done)")
    _tell_lost(call, file, hung.displaced)
    tell_warnings(hung.warnings)


def _tell_start(call: Call, file: DarkroomFile, loaded: hanging.Loaded) -> None:
    if loaded.start_by is None:
        return
    room, now = file.room(), call.now(file)
    if loaded.start_by < (call.then(file) or now):
        bell = clock_or_dash(loaded.bell, room.timetable.zone, now)
        say(f"it will hardly be dry before the bell at {bell}")
    else:
        start = clock_or_dash(loaded.start_by, room.timetable.zone, now)
        say(f"start developing by {start} to leave dry")


def _tell_lost(call: Call, file: DarkroomFile, displaced: Sequence[int]) -> None:
    """Name whoever had the clip or the place by the record."""
    for roll in rolls.by_ids(file.conn, displaced):
        since = clock_or_dash(roll.seen_at, file.room().timetable.zone, call.now(file))
        say(f"{roll.number} was noted there, {roll.seen}: not seen since {since}")


def _lost_json(file: DarkroomFile, displaced: Sequence[int]) -> list[dict[str, str | None]]:
    zone = file.room().timetable.zone
    lost = rolls.by_ids(file.conn, displaced)
    return [{"roll": roll.number, "since": iso(roll.seen_at, zone)} for roll in lost]
