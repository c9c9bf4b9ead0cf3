"""The period boxes as they stand side by side, and who lies in which."""

from __future__ import annotations

from collections import Counter
from typing import NamedTuple

from filmrack.domain.attention import Standing
from filmrack.domain.room import Room
from filmrack.store.standings import Seen

OWNERS = None
"""What is with its owner is shown like one more box; it has no number."""


class PeriodBox(NamedTuple):
    """One box and the rolls in it, or what is with its owners."""

    number: int | None
    title: str
    short: str
    rolls: tuple[Standing, ...]

    @property
    def urgent(self) -> int:
        """Return how many rolls in it want attention."""
        return sum(bool(each.why) for each in self.rolls)

    @property
    def reasons(self) -> list[tuple[str, int]]:
        """Return each reason in words, with how many rolls it is the first one for."""
        return Counter(each.why[0][0] for each in self.rolls if each.why).most_common()


def period_boxes(room: Room, seen: Seen) -> list[PeriodBox]:
    """Return every box of the room with its rolls, then what is with its owners."""
    by_box: dict[int | None, list[Standing]] = {}
    for each in seen.standings:
        place = each.roll.place
        by_box.setdefault(place.number if place.kind == "box" else OWNERS, []).append(each)
    boxes = [
        PeriodBox(box.number, *_names(room, box.number), tuple(by_box.pop(box.number, ())))
        for box in room.boxes
    ]
    with_owners = tuple(by_box.pop(OWNERS, ()))
    # Boxes that the room has no more, but that rolls are still in by the record.
    boxes += [
        PeriodBox(number, f"box {number}", f"{number}", tuple(some))
        for number, some in by_box.items()
    ]
    return [*boxes, PeriodBox(OWNERS, "with owners", "owners", with_owners)]


def _names(room: Room, number: int) -> tuple[str, str]:
    box = room.box(number)
    period = room.period(box.period) if box else None
    if period is None:
        return f"{number}", f"{number}"
    short = room.short_period(period)
    return f"{number} {period.name}", f"{number} {short}"
