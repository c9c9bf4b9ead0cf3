"""What cannot be in a room, each mistake by the key under which the room file has it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from filmrack.domain.room import Room


class Problem(NamedTuple):
    """One mistake: the key it stands at, and what to do about it."""

    key: str
    advice: str

    def __str__(self) -> str:
        """Return both as a line: `rods[3].positions: give a whole number from 1 to 99`."""
        return f"{self.key}: {self.advice}"


def expected(key: str, what: str) -> Problem:
    """Return that something else was expected at a key: `a whole number from 1 to 99`."""
    return Problem(key, f"give {what}")


def room_problems(room: Room) -> list[Problem]:
    """Return what does not hold together between the parts of a room.

    Lists count from 1, as a person counts their entries.
    """
    return [*_repeated(room), *_unknown(room), *_too_few(room)]


def _too_few(room: Room) -> Iterator[Problem]:
    for key, what, things in (
        ("periods", "at least one period", room.periods),
        ("dryers", "at least one dryer", room.dryers),
        ("rods", "at least one rod", room.rods),
    ):
        if not things:
            yield expected(key, what)


def _repeated(room: Room) -> Iterator[Problem]:
    days = room.timetable.days
    tables: list[tuple[str, str, Iterable[object]]] = [
        ("periods", "number", [period.number for period in room.periods]),
        ("periods", "name", [period.name.casefold() for period in room.periods]),
        ("dryers", "number", [dryer.number for dryer in room.dryers]),
        ("dryers", "name", [dryer.name.casefold() for dryer in room.dryers]),
        ("rods", "number", [rod.number for rod in room.rods]),
        ("boxes", "number", [box.number for box in room.boxes]),
        ("boxes", "period", [box.period for box in room.boxes]),
        ("binders", "number", [(binder.term, binder.number) for binder in room.binders]),
        ("terms", "code", [term.code for term in days.terms]),
        ("days_off", "first", [(off.first, off.last) for off in days.days_off]),
        ("papers", "name", [paper.name for paper in room.materials.more_papers]),
    ]
    for table, key, values in tables:
        seen: set[object] = set()
        for nth, value in enumerate(values, 1):
            if value in seen:
                yield expected(f"{table}[{nth}].{key}", "one that no other has")
            seen.add(value)


def _unknown(room: Room) -> Iterator[Problem]:
    periods = {period.number for period in room.periods}
    a_period = f"one of the periods {', '.join(period.name for period in room.periods)}"
    dryers = {dryer.number for dryer in room.dryers}
    terms = {term.code for term in room.terms}
    for nth, rod in enumerate(room.rods, 1):
        if rod.dryer not in dryers:
            numbers = ", ".join(str(number) for number in sorted(dryers))
            yield expected(f"rods[{nth}].dryer", f"the number of a dryer: {numbers}")
        if rod.period is not None and rod.period not in periods:
            yield expected(f"rods[{nth}].period", a_period)
    for nth, box in enumerate(room.boxes, 1):
        if box.period not in periods:
            yield expected(f"boxes[{nth}].period", a_period)
    for nth, binder in enumerate(room.binders, 1):
        if binder.term not in terms:
            yield expected(f"binders[{nth}].term", f"one of the terms {', '.join(sorted(terms))}")
        if binder.period is not None and binder.period not in periods:
            yield expected(f"binders[{nth}].period", a_period)
    for name, plan in room.timetable.plans.items():
        if any(slot.period not in periods for slot in plan):
            yield expected(f"timetable.plans.{name}", a_period)
    for nth, one in enumerate(room.timetable.days.one_offs, 1):
        if not isinstance(one.plan, str) and any(s.period not in periods for s in one.plan):
            yield expected(f"one_offs[{nth}].plan", a_period)
