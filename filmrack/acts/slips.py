"""The slips of a sweep: a page a box, to lie with the rolls that went in."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime

from filmrack.acts.inscriptions import owners_initials, period_title
from filmrack.domain.clock import clock
from filmrack.domain.ranges import numbers_in
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.domain.room import HIGHEST_NUMBER
from filmrack.printing import SlipRoll, SweepSlip
from filmrack.store import rolls, sweeps
from filmrack.store.file import DarkroomFile
from filmrack.store.findings import findings
from filmrack.store.open_counts import left_open


def slips(file: DarkroomFile, asked: str, moment: datetime) -> Iterable[SweepSlip]:
    """Yield the slip of each box of the latest sweep, or of the boxes asked for.

    What is missing stands on the slip of the box that it was meant for, a count that nobody
    explained on that of the rod's box. Raises Refused where
    nothing was swept yet.
    """
    room, conn = file.room(), file.conn
    swept = sweeps.going_on(conn) or next((each for each, _ in sweeps.finished(conn, 1)), None)
    if swept is None:
        raise Refused("nothing was swept yet: sweep the dryer first")
    boxed: dict[int, list[int]] = {}
    missing: dict[int, list[int]] = {}
    told = findings(conn, swept.id)
    for each in told.boxed:
        boxed.setdefault(each.box, []).append(each.roll.id)
    for roll in told.turned_up:
        if roll.place.kind == "box" and roll.place.number is not None:
            boxed.setdefault(roll.place.number, []).append(roll.id)
    for roll in told.missing:
        meant_for = room.box_for(roll.period, roll.seen.rod) or room.boxes[0]
        missing.setdefault(meant_for.number, []).append(roll.id)
    unexplained: dict[int, list[str]] = {}
    for count in left_open(conn, swept.id):
        meant_for = room.box_for(None, count.rod) or room.boxes[0]
        unexplained.setdefault(meant_for.number, []).append(count.told)
    with_words = {*boxed, *missing, *unexplained}
    wanted = numbers_in(asked, "box", HIGHEST_NUMBER) or sorted(with_words)
    if not wanted or not with_words & {*wanted}:
        raise Refused("that sweep put nothing there: name a box that rolls went into")
    when = clock(swept.finished or swept.started, room.timetable.zone, moment)
    for number in wanted:
        box = room.box(number)
        yield SweepSlip(
            number,
            period_title(room, box.period if box else None),
            when,
            _listed(file, boxed.get(number, ()), number),
            _listed(file, missing.get(number, ()), number),
            tuple(unexplained.get(number, ())),
        )


def _listed(file: DarkroomFile, numbers: Iterable[int], box: int) -> tuple[SlipRoll, ...]:
    room = file.room()
    there = rolls.by_ids(file.conn, dict.fromkeys(numbers))
    initials = owners_initials(file, there)

    def note(roll: Roll) -> str:
        if roll.place.kind == "missing":
            return f"last seen {roll.seen}"
        if roll.person is None:
            return "unknown roll"
        own = room.box_of(roll.period)
        return f"belongs in box {own.number}" if own and own.number != box else ""

    return tuple(
        SlipRoll(roll.number, str(roll.clip or ""), initials.get(roll.id, ""), note(roll))
        for roll in there
    )
