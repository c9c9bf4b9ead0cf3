"""Loading a tank, hanging wet film, moving it."""

from __future__ import annotations

import click

from filmrack.acts import hanging
from filmrack.cli.answer import answer
from filmrack.cli.call import Call, json_option
from filmrack.cli.output import at_clock, iso, print_json, roll_json, say, sentence
from filmrack.domain.asking import code_in, parse
from filmrack.domain.film import film_named
from filmrack.domain.names import clean
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.store import rolls, search
from filmrack.store.file import DarkroomFile
from filmrack.store.standings import see


@click.command()
@click.argument("who", nargs=-1, required=True)
@click.option("--clip", "clips", multiple=True, required=True, metavar="C", help="Its clip pair.")
@click.option("--clip2", metavar="C", help="The second roll's, in a double tank.")
@click.option("--film", default=hanging.COMMON_FILM, show_default=True)
@json_option
@click.pass_obj
def load(
    call: Call,
    *,
    who: tuple[str, ...],
    clips: tuple[str, ...],
    clip2: str | None,
    film: str,
    as_json: bool,
) -> None:
    """Say whose roll gets which clip pair, while it is in the tank."""
    with call.writing() as file:
        person = search.who(file.conn, " ".join(who)).number
        numbers = [clip_number(clip) for clip in (*clips, *([clip2] if clip2 else []))]
        loaded = hanging.load(file, call.hand(file), person, numbers, film_named(film).text)
        seen = see(file, loaded, call.now(file))
        if as_json:
            room = file.room()
            print_json({"rolls": [roll_json(each, seen, room) for each in seen.standings]})
        else:
            for each in seen.standings:
                say(sentence(each, seen))


@click.command()
@click.argument("what", nargs=-1)
@click.option("--clip", metavar="C", help="The clip pair it hangs on.")
@click.option("--rod", type=int, metavar="N", help="Where; else the owner's rod.")
@click.option("--position", type=int, metavar="N", help="Where on the rod; else the first free.")
@click.option("--film", default=hanging.COMMON_FILM, show_default=True)
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
    film: str,
    clue: str,
    tacky: bool,
    unknown: bool,
    as_json: bool,
) -> None:
    """Hang a loaded roll (WHO, its number or its clip), or load and hang one at once.

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
            film=film_named(film).text,
            clue=clean(clue, "the clue"),
            tacky=tacky,
        )
        _tell(call, file, hung, as_json=as_json)


@click.command()
@click.argument("roll", nargs=-1, required=True)
@click.option("--rod", type=int, required=True, metavar="N")
@click.option("--position", type=int, metavar="N")
@json_option
@click.pass_obj
def move(
    call: Call, *, roll: tuple[str, ...], rod: int, position: int | None, as_json: bool
) -> None:
    """Say that a hanging roll hangs elsewhere now."""
    with call.writing() as file:
        found = search.which(file.conn, " ".join(roll))
        moved = hanging.move(file, call.hand(file), found.id, rod, position)
        answer(call, file, [moved], as_json=as_json)


def clip_number(text: str) -> int:
    """Return the number of a clip pair: `17`, `clip 17`, or one of its tags scanned.

    Raises Refused for anything else.
    """
    code = code_in(text)
    if code is not None and code.kind == "C":
        return int(code.parts[0])
    number = text.casefold().removeprefix("clip").strip()
    if number.isascii() and number.isdecimal() and 1 <= int(number[:9]) <= 999:
        return int(number)
    raise Refused(f"{text[:40]!r} is no clip: give the number on it, from 1 to 999, or scan it")


def _meant(file: DarkroomFile, text: str) -> tuple[int | None, int | None]:
    """Return the roll that is meant, or else the person."""
    parts = parse(text)
    kind = parts[0].kind if len(parts) == 1 else "name"
    if kind in ("roll", "clip"):
        return search.which(file.conn, text).id, None
    if kind == "number" and len(parts[0].value) <= 3:
        on_clip = rolls.on_clip(file.conn, int(parts[0].value))
        if on_clip is not None:
            return on_clip.id, None
    return None, search.who(file.conn, text).number


def _tell(call: Call, file: DarkroomFile, hung: hanging.Hung, *, as_json: bool) -> None:
    room, now = file.room(), call.now(file)
    seen = see(file, [hung.roll], now)
    standing = seen.standings[0]
    lost = rolls.by_ids(file.conn, hung.displaced)
    if as_json:
        print_json(
            {
                **roll_json(standing, seen, room),
                "rod": hung.roll.place.number,
                "position": hung.roll.place.position,
                "before_bell": hung.before_bell,
                "dial_hours": hung.dial_hours,
                "not_seen_since": [
                    {"roll": roll.number, "since": iso(roll.seen_at, room.timetable.zone)}
                    for roll in lost
                ],
            }
        )
        return
    say(sentence(standing, seen))
    drying = standing.outlook
    if drying is not None:
        say(
            f"flip {at_clock(drying.flip_at, room, now)},"
            f" likely dry {at_clock(drying.likely_at, room, now)}"
        )
    if hung.dial_hours is not None:
        say(f"turn the dial to {hung.dial_hours:g} h (the record takes it as done)")
    for roll in lost:
        say(f"{roll.number} was there by the record: not seen since {_since(roll, call, file)}")


def _since(roll: Roll, call: Call, file: DarkroomFile) -> str:
    return at_clock(roll.seen_at, file.room(), call.now(file))
