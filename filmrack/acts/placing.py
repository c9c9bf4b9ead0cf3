"""Where on the rods a roll is hung when nobody says so."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import NamedTuple

from filmrack.acts.group import Group
from filmrack.domain.film import Film, film_named
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.domain.room import Rod, Room
from filmrack.store import rolls
from filmrack.store.places import hanging_now, hanging_since

Places = set[tuple[int, int]]
"""Rods with a position; of a wide strip all the positions that it needs."""


class Choice(NamedTuple):
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

    A format that needs more than one position gets so many free ones side by side while there are
    any; a position that is named is taken as it is. Raises Refused for a rod or position that is
    not there, and where nothing is free.
    """
    if position is not None and rod is None:
        own = group.room.rods_of(roll.period)
        if not own:
            raise Refused("a position alone is no place: name its rod too")
        rod = own[0].number
    named = None if rod is None else _rod(group.room, rod)
    film = film_named(roll.film)
    among = [named] if named else group.room.rods
    taken = _taken(group, until)
    if group.late and not any(_free(each, taken) for each in among):
        # It cannot have hung all the while, and who hung there next says until when it may have.
        taken = _taken(group, group.hand.at + timedelta(seconds=1))
    if named is not None:
        if position is None and (roll.place.kind, roll.place.number) == ("rod", named.number):
            position = roll.place.position
        return Choice(named.number, _position(named, position, taken, film), sent=False)
    return _best(group, roll, taken, film)


def crowded(group: Group, hung: Roll) -> list[str]:
    """Return what to tell whoever hung a roll so that it and a neighbour may touch."""
    rod = None if hung.place.number is None else group.room.rod(hung.place.number)
    if rod is None:
        return []

    own = hung.place.position or 0
    span = _span(rod, own, film_named(hung.film))
    close = [
        other.position
        for other in hanging_now(group.conn)
        if other.rod == rod.number
        and other.position != own
        and span & _span(rod, other.position, film_named(other.film))
    ]
    if not close:
        return []
    there = rolls.read(group.conn, "rod = ? ORDER BY position", (rod.number,))
    numbers = ", ".join(
        f"{other.number} ({other.place})" for other in there if other.place.position in close
    )
    return [
        f"move it, or it may touch {numbers}: wide film takes more than one position, and film"
        " that touches dries with marks"
    ]


def _rod(room: Room, number: int) -> Rod:
    rod = room.rod(number)
    if rod is None:
        numbers = ", ".join(str(known.number) for known in room.rods)
        raise Refused(f"there is no rod {number}: this room has the rods {numbers}")
    return rod


def _position(rod: Rod, position: int | None, taken: Places, film: Film) -> int:
    if position is None:
        free = _free(rod, taken, film) or _free(rod, taken)
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


def _best(group: Group, roll: Roll, taken: Places, film: Film) -> Choice:
    """The first place of the owner's rods; else on the emptiest rod that nobody needs.

    Where no rod has so many positions side by side, a wide strip is hung as if it were narrow.
    """
    room = group.room
    for wanted in (film, None):
        for rod in room.rods_of(roll.period):
            if free := _free(rod, taken, wanted):
                return Choice(rod.number, free[0], sent=False)
        spare = [(len(_free(rod, taken, wanted)), rod) for rod in room.rods]
        spare.sort(key=lambda each: (each[1].period is not None, -each[0], each[1].number))
        for count, rod in spare:
            if count:
                first = _free(rod, taken, wanted)[0]
                return Choice(rod.number, first, sent=roll.period is not None)
    raise Refused("every rod is full by the record: take down what is dry, or name the position")


def _free(rod: Rod, taken: Places, film: Film | None = None) -> list[int]:
    """Return the positions from which a film has room, or which are free by themselves."""
    wide = 1 if film is None else film.places_on_rod(rod.spacing_mm)
    return [
        first
        for first in range(1, rod.positions - wide + 2)
        if not any((rod.number, first + more) in taken for more in range(wide))
    ]


def _span(rod: Rod, position: int, film: Film) -> set[int]:
    """Return the positions that a film takes: its own and, where it is wide, those after it."""
    return set(range(position, position + film.places_on_rod(rod.spacing_mm)))


def _taken(group: Group, until: datetime | None) -> Places:
    """Return what hangs now; for a late entry, all that hung from then on or up to `until`.

    Else film told of later would push aside what the record rightly had there.
    """
    there = (
        hanging_since(group.conn, group.hand.at, until) if group.late else hanging_now(group.conn)
    )
    taken: Places = set()
    for each in there:
        rod = group.room.rod(each.rod)
        if rod is not None:
            span = _span(rod, each.position, film_named(each.film))
            taken.update((rod.number, position) for position in span)
    return taken
