"""Clip pairs: the right one of a roll; lost parts, retired, put right again."""

from __future__ import annotations

import click

from filmrack.acts import clips, reclipping
from filmrack.cli.answer import answer
from filmrack.cli.call import Call, json_option
from filmrack.cli.output import print_json, print_table, say
from filmrack.domain.busiest import LOOKED_BACK
from filmrack.domain.clip import Clip, clip_number, lost_named
from filmrack.domain.clock import day_words
from filmrack.store import search
from filmrack.store.clips import all_clips, busiest, in_use


@click.command()
@click.argument("roll")
@click.argument("number", metavar="C")
@click.option("--exchange", is_flag=True, help="The roll that has C gets this one's clip.")
@json_option
@click.pass_obj
def reclip(call: Call, *, roll: str, number: str, exchange: bool, as_json: bool) -> None:
    """Say which clip pair a roll is on really: `reclip 61 62`. Nothing else of it changes."""
    with call.writing() as file:
        found, right = search.which(file.conn, roll), clip_number(number)
        told = reclipping.reclip(file, call.hand(file), found.id, right, exchange=exchange)
        some = [told.roll, *([told.other] if told.other is not None else [])]
        heed = {each.id: told.warnings if each is told.roll else () for each in some}
        answer(call, file, some, as_json=as_json, several=len(some) > 1, warnings=heed)


@click.group()
def clip() -> None:
    """Retire or restore a clip pair, say what it lost, list all."""


@clip.command()
@click.argument("number", nargs=-1, required=True, metavar="C")
@json_option
@click.pass_obj
def retire(call: Call, *, number: tuple[str, ...], as_json: bool) -> None:
    """Use a clip pair no more. A roll on it keeps it until it is sleeved."""
    with call.writing() as file:
        done = clips.retire(file, call.hand(file), clip_number(" ".join(number)))
    _tell(done, as_json=as_json)


@clip.command()
@click.argument("number", nargs=-1, required=True, metavar="C")
@json_option
@click.pass_obj
def restore(call: Call, *, number: tuple[str, ...], as_json: bool) -> None:
    """Use a clip pair again: it is whole."""
    with call.writing() as file:
        done = clips.restore(file, call.hand(file), clip_number(" ".join(number)))
    _tell(done, as_json=as_json)


@clip.command()
@click.argument("number", metavar="C")
@click.argument("part", type=click.Choice(["hook", "tag"], case_sensitive=False))
@click.argument("side", type=click.Choice(["A", "B"], case_sensitive=False))
@json_option
@click.pass_obj
def lost(call: Call, *, number: str, part: str, side: str, as_json: bool) -> None:
    """Say that a clip lost its hook or its tag: `lost 17 hook A`."""
    with call.writing() as file:
        lost_part = lost_named(f"{part} {side}")
        done = clips.lose(file, call.hand(file), clip_number(number), lost_part)
    _tell(done, as_json=as_json)


@clip.command("list")
@json_option
@click.pass_obj
def list_(call: Call, *, as_json: bool) -> None:
    """List the clip pairs that are known.

    Says what is wrong with some, and whether they are enough.
    """
    with call.reading() as file:
        known, used = all_clips(file.conn), in_use(file.conn)
        day = busiest(file.conn, file.room().timetable, call.now(file))
    usable = sum(not each.retired for each in known)
    if as_json:
        print_json(
            {
                "clips": [{**_json(each), "in_use": each.number in used} for each in known],
                "in_use": len(used),
                "usable": usable,
                "busiest_day": str(day.day) if day else None,
                "at_once": day.at_once if day else 0,
                "more_needed": day.more_than(usable) if day else 0,
            }
        )
        return
    if known:
        print_table(
            [
                (f"clip {each.number}", "on a roll" if each.number in used else "", each.says)
                for each in known
            ]
        )
    say(f"{len(used)} of {usable} clip pairs are on a roll")
    if day is not None:
        more = day.more_than(usable)
        enough = f"a day like that needs {more} more" if more else "enough for a day like that"
        say(
            f"busiest of the last {LOOKED_BACK.days // 7} weeks: {day_words(day.day, day.day)},"
            f" {day.at_once} pairs on rolls at once: {enough}"
        )


def _tell(changed: Clip, *, as_json: bool) -> None:
    if as_json:
        print_json(_json(changed))
    else:
        say(f"clip {changed.number}: {changed.says or 'whole and in use'}")


def _json(one: Clip) -> dict[str, object]:
    return {
        "clip": one.number,
        "lost": [str(part) for part in one.lost],
        "retired": one.retired,
        "can_be_flipped": one.can_be_flipped,
    }
