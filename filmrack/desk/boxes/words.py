"""What is said of a period box and of the rolls in it."""

from __future__ import annotations

from datetime import datetime
from typing import NamedTuple

from filmrack.desk.boxes.period_boxes import OWNERS, PeriodBox
from filmrack.desk.enter import enter_words
from filmrack.desk.now import Now
from filmrack.desk.said import headline
from filmrack.desk.session import Session
from filmrack.domain.attention import Standing
from filmrack.domain.clock import clock_or_dash
from filmrack.domain.counted import counted
from filmrack.domain.room import Room
from filmrack.store import sweeps


class _Why(NamedTuple):
    """How a reason for attention is said: on the row of a roll, of some of the open box, and under
    a box, where least room is.
    """

    on_a_row: str
    of_some: str
    under_a_box: str


_WHY = {
    "in the wrong box": _Why("wrong box", "in the wrong box", "wrong box"),
    "long in its box": _Why("here too long", "in it too long", "too long"),
    "long with its owner": _Why("long with its owner", "with them too long", "too long"),
    "unknown roll": _Why("whose?", "unknown", "unknown"),
}
"""Every reason why a roll that lies in a box or is with its owner wants attention."""


def box_title(room: Room, box: PeriodBox) -> str:
    """Return what a box is called: `Box 2, Period 2`."""
    if box.number is OWNERS:
        return "With their owners"
    known = room.box(box.number)
    period = room.period(known.period if known else None)
    return f"Box {box.number}" + (f", {period.name}" if period else "")


def nothing_in(box: PeriodBox) -> str:
    """Return that nothing lies in an empty box, and how something comes there."""
    if box.number is OWNERS:
        return "Nobody has an uncut roll. One that leaves with its owner: type “17 take”."
    return "Nothing lies in it. Dry film comes here: type “17 box”, or sweep the dryer."


def whys_of(box: PeriodBox) -> list[str]:
    """Return why rolls in it want attention, with how many each is the first reason for."""
    return [f"{many} {_WHY[reason].of_some}" for reason, many in box.reasons]


def under_a_box(box: PeriodBox) -> str:
    """Return how many rolls in it want attention, and why if that is the same for all; empty for
    none.
    """
    whys = {_WHY[reason].under_a_box for reason, _ in box.reasons}
    if not whys:
        return ""
    return f"{box.urgent} {whys.pop() if len(whys) == 1 else 'want a look'}"


def what_lies_in(session: Session, now: Now, box: PeriodBox) -> str:
    """Return what lies in a box, what Enter does with the first of it, and that a sweep that is
    going on stays as it is.
    """
    words = nothing_in(box).rstrip(".")
    if box.rolls:
        whys = "".join(f", {why}" for why in whys_of(box))
        words = f"{counted(len(box.rolls), 'roll')} to cut and sleeve{whys}"
        does = enter_words(box.rolls[0].next, session.by)
        roll = box.rolls[0].roll
        words += f". Enter: {headline(roll, now.owner(roll))}, {does}" if does else ""
    goes_on = sweeps.going_on(session.file.conn) is not None
    return words + (". The sweep stays as it is: “sweep” goes back to it" if goes_on else "")


def since(now: Now, moment: datetime) -> str:
    """Return when it came there: a time of today, or a day."""
    read = clock_or_dash(moment, now.room.timetable.zone, now.at)
    return read if " " not in read else read.rpartition(" ")[0]


def remark(now: Now, each: Standing, why: str) -> str:
    """Return why a roll wants attention, as its row says it: of some with what to do."""
    roll = each.roll
    if why == "in the wrong box":
        own = now.room.box_of(roll.period)
        return f"belongs in box {own.number}" if own else _WHY[why].on_a_row
    if why == "unknown roll":
        return f"{_WHY[why].on_a_row} “{roll.clip or roll.number}” and a name"
    return _WHY[why].on_a_row
