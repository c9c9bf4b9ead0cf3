"""Places on the rods: which are free, and which one a roll gets when nobody names one."""

from collections.abc import Iterable, Set
from typing import NamedTuple

from filmrack.domain.film import Film, film_named
from filmrack.domain.roll import Roll
from filmrack.domain.room import Rod, Room

Places = Set[tuple[int, int]]
"""Rods with a position; of a wide strip all the positions that it needs."""


class Hanging(NamedTuple):
    """A film at a position of a rod."""

    rod: int
    position: int
    film: str


class ChosenPlace(NamedTuple):
    """A position on a rod; `sent` where it is another period's, for want of room."""

    rod: int
    position: int
    sent: bool


def best_place(room: Room, roll: Roll, taken: Places) -> ChosenPlace | None:
    """Return the first place of the owner's rods, else one on the emptiest rod nobody needs.

    Where no rod has so many positions side by side, a wide strip is hung as if it were narrow.
    None when every rod is full.
    """
    for film in (film_named(roll.film), None):
        for rod in room.rods_of(roll.period):
            if free := free_positions(rod, taken, film):
                return ChosenPlace(rod.number, free[0], sent=False)
        spare = [(len(free_positions(rod, taken, film)), rod) for rod in room.rods]
        spare.sort(key=lambda each: (each[1].period is not None, -each[0], each[1].number))
        for count, rod in spare:
            if count:
                first = free_positions(rod, taken, film)[0]
                return ChosenPlace(rod.number, first, sent=roll.period is not None)
    return None


def free_positions(rod: Rod, taken: Places, film: Film | None = None) -> list[int]:
    """Return the positions from which a film has room, or which are free by themselves."""
    wide = 1 if film is None else film.places_on_rod(rod.spacing_mm)
    return [
        first
        for first in range(1, rod.positions - wide + 2)
        if not any((rod.number, first + more) in taken for more in range(wide))
    ]


def span(rod: Rod, position: int, film: Film) -> set[int]:
    """Return the positions that a film takes: its own and, where it is wide, those after it."""
    return set(range(position, position + film.places_on_rod(rod.spacing_mm)))


def taken_by(room: Room, there: Iterable[Hanging]) -> set[tuple[int, int]]:
    """Return all places that what hangs there takes."""
    taken: set[tuple[int, int]] = set()
    for each in there:
        rod = room.rod(each.rod)
        if rod is not None:
            positions = span(rod, each.position, film_named(each.film))
            taken.update((rod.number, position) for position in positions)
    return taken
