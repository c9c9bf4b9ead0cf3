"""Taking dry film down: to the period's box, or with its owner."""

from __future__ import annotations

from collections.abc import Sequence

from filmrack.acts.group import Group, Hand, one_group, settled
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Detail, Roll
from filmrack.domain.room import Room
from filmrack.store.file import DarkroomFile


def take(file: DarkroomFile, hand: Hand, number: int) -> Roll:
    """Keep that a roll went with its owner. Raises Refused once it is sleeved."""
    with one_group(file, hand) as group:
        group.append("take", number)
        return settled(group, [number])[0]


def box(
    file: DarkroomFile,
    hand: Hand,
    numbers: Sequence[int],
    *,
    period: int | None = None,
    box_number: int | None = None,
) -> list[Roll]:
    """Put rolls in their own period's box, in that of another period, or in a box by its number.

    One roll boxed by hand counts as found dry; several at once teach nothing. Raises Refused when
    one of them has no box: none is boxed then.
    """
    with one_group(file, hand) as group:
        for number in numbers:
            put_in_box(group, number, period=period, box=box_number, by_count=len(numbers) > 1)
        return settled(group, numbers)


def put_in_box(
    group: Group,
    number: int,
    *,
    period: int | None = None,
    box: int | None = None,
    by_count: bool = False,
    found: Detail | None = None,
) -> None:
    """Append a boxing to a group: see `box`. `found` says which sweep found it, and where.

    Raises Refused when the roll has no box, or there is none of that number.
    """
    if box is None:
        roll = group.roll(number)
        theirs = group.room.period_for_box(
            roll.period if period is None else period, roll.place.rod
        )
        own = group.room.box_of(theirs)
        if own is None:
            raise Refused(_no_box(group.room, roll, theirs))
        box = own.number
    else:
        group.room.box_meant(box)
    detail = Detail(box=box)
    if by_count:
        detail["by_count"] = True
    detail.update(found or {})
    group.append("box", number, detail, at_hand=found is not None)


def _no_box(room: Room, roll: Roll, period: int | None) -> str:
    named = room.period(period)
    what = f"{named.name} has no box" if named else f"{roll.number} has no {room.period_word}"
    return f"{what}, so it is not clear where it goes: name the {room.period_word}"
