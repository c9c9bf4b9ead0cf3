"""Whose roll goes to which box: said before a rod is taken down, and after."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from filmrack.domain.counted import listed
from filmrack.domain.names import Person
from filmrack.domain.roll import Roll, owner_of
from filmrack.domain.room import Rod, Room

_NAMED = 6


class Ways(NamedTuple):
    """The rod's own box, the box that most go to, how many do, who goes to another or to none."""

    own: int | None
    box: int | None
    many: int
    others: tuple[tuple[int, tuple[str, ...]], ...]
    nowhere: tuple[str, ...]

    @property
    def most(self) -> str:
        """Return `to box 2`, with the rod's own box where that is another."""
        other = self.own is not None and self.box not in (self.own, None)
        return f"to box {self.box}" + (f", though the rod's is box {self.own}" if other else "")

    @property
    def elsewhere(self) -> list[str]:
        """Return `clip 3 (Mara O.) to box 1`, a phrase for each other box."""
        return [f"{listed(who, _NAMED)} to box {box}" for box, who in self.others]

    @property
    def staying(self) -> str:
        """Return why some stay where they hang and what to do, or nothing."""
        if not self.nowhere:
            return ""
        hang = "has no box of its own and hangs" if len(self.nowhere) == 1 else "have none and hang"
        return (
            f"{listed(self.nowhere, _NAMED)} {hang} on: type its clip and a box, as in “61 box 4”"
        )


def ways(
    pairs: Iterable[tuple[Roll, int | None]], owners: dict[int, Person], *, own: int | None
) -> Ways:
    """Sort rolls by the box that each goes to; `own` is the rod's box, which wins a tie."""
    by_box: dict[int | None, list[str]] = {}
    for roll, box in pairs:
        by_box.setdefault(box, []).append(which(roll, owners))
    nowhere = by_box.pop(None, [])
    numbers = [box for box in by_box if box is not None]
    most = max(numbers, key=lambda box: (len(by_box[box]), box == own), default=None)
    others = tuple((box, tuple(by_box[box])) for box in sorted(numbers) if box != most)
    return Ways(own, most, len(by_box.get(most, ())), others, tuple(nowhere))


def box_ahead(room: Room, rod: Rod, roll: Roll) -> int | None:
    """Return the box that a roll on a rod will go to: its period's, without one the rod's."""
    box = room.box_for(roll.period, rod.number)
    return None if box is None else box.number


def which(roll: Roll, owners: dict[int, Person]) -> str:
    """Return `clip 3 (Mara O.)`; the roll's number where it is on no clip."""
    owner = owner_of(roll, owners)
    whose = owner.short if owner else "unknown roll"
    return f"clip {roll.clip} ({whose})" if roll.clip else f"{roll.number} ({whose})"
