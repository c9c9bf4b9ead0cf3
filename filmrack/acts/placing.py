"""Where on the rods a roll is hung when nobody says so."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

from filmrack.acts.group import Group
from filmrack.domain.holdings import holdings
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.domain.room import Rod, Room
from filmrack.store import ledger, rolls

Places = set[tuple[int | None, int | None]]
"""Rods with a position."""


@dataclass(frozen=True, slots=True)
class Choice:
    """A position on a rod; `sent` where it is another period's, for want of room."""

    rod: int
    position: int
    sent: bool


def choose(
    group: Group,
    roll: Roll,
    rod: int | None,
    position: int | None,
    until: datetime | None = None,
) -> Choice:
    """Return where a roll is hung: see `hang`. `until` is when it came down, where known.

    Raises Refused for a rod or position that is not there, and where nothing is free.
    """
    if position is not None and rod is None:
        own = group.room.rods_of(roll.period)
        if not own:
            raise Refused("a position alone is no place: name its rod too")
        rod = own[0].number
    named = None if rod is None else _rod(group.room, rod)
    taken = _taken(group, until)
    if group.late and not any(
        _free(each, taken) for each in ([named] if named else group.room.rods)
    ):
        # It cannot have hung all the while, and who hung there next says until when it may have.
        taken = _taken(group, group.hand.at + timedelta(seconds=1))
    if named is not None:
        if position is None and (roll.place.kind, roll.place.number) == ("rod", named.number):
            position = roll.place.position
        return Choice(named.number, _position(named, position, taken), sent=False)
    return _best(group, roll, taken)


def _rod(room: Room, number: int) -> Rod:
    rod = room.rod(number)
    if rod is None:
        numbers = ", ".join(str(known.number) for known in room.rods)
        raise Refused(f"there is no rod {number}: this room has the rods {numbers}")
    return rod


def _position(rod: Rod, position: int | None, taken: Places) -> int:
    if position is None:
        free = _free(rod, taken)
        if not free:
            raise Refused(
                f"rod {rod.number} is full by the record: name the position where it hangs, and"
                " what the record has there is looked for, or hang it on another rod"
            )
        return free[0]
    if not 1 <= position <= rod.positions:
        raise Refused(
            f"rod {rod.number} has no position {position}: it has the positions 1 to"
            f" {rod.positions}"
        )
    return position


def _best(group: Group, roll: Roll, taken: Places) -> Choice:
    """The first free position of the owner's rods; else of the emptiest rod that nobody needs."""
    room = group.room
    for rod in room.rods_of(roll.period):
        if free := _free(rod, taken):
            return Choice(rod.number, free[0], sent=False)
    spare = [(len(_free(rod, taken)), rod) for rod in room.rods]
    spare.sort(key=lambda each: (each[1].period is not None, -each[0], each[1].number))
    for count, rod in spare:
        if count:
            return Choice(rod.number, _free(rod, taken)[0], sent=roll.period is not None)
    raise Refused("every rod is full by the record: take down what is dry, or name the position")


def _free(rod: Rod, taken: Places) -> list[int]:
    numbers = range(1, rod.positions + 1)
    return [number for number in numbers if (rod.number, number) not in taken]


def _taken(group: Group, until: datetime | None) -> Places:
    """Return what hangs now; for a late entry, all that hung from then on or up to `until`.

    Else film told of later would push aside what the record rightly had there.
    """
    if not group.late:
        rows = group.conn.execute("SELECT rod, position FROM rolls WHERE rod IS NOT NULL")
        return {(row[0], row[1]) for row in rows.fetchall()}
    at = group.hand.at
    return {
        holding.what
        for number in rolls.loose_since(group.conn, at)
        for holding in holdings(ledger.of_roll(group.conn, number))
        if isinstance(holding.what, tuple)
        and (holding.until is None or holding.until > at)
        and (until is None or holding.since < until)
    }
