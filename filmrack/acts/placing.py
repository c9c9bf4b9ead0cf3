"""Where on the rods a roll is hung when nobody says so."""

from __future__ import annotations

from datetime import datetime, timedelta

from filmrack.acts.group import Group
from filmrack.domain.film import film_named
from filmrack.domain.places import ChosenPlace, Places, best_place, free_positions, span, taken_by
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.domain.room import Rod
from filmrack.store import ledger, rolls
from filmrack.store.places import hanging_now, hanging_since


class RodFull(Refused):
    """A rod that was named has no free position; `other` is a rod that has one, if any."""

    def __init__(self, rod: Rod, other: int | None) -> None:
        elsewhere = "another rod" if other is None else f"rod {other}"
        super().__init__(
            f"rod {rod.number} is noted as full: hang it on {elsewhere}, or name the position where"
            " it hangs all the same: what is noted there is missing then"
        )
        self.rod, self.other = rod.number, other


def choose(
    group: Group,
    roll: Roll,
    rod: int | None,
    position: int | None,
    until: datetime | None = None,
) -> ChosenPlace:
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
    named = None if rod is None else group.room.rod_meant(rod)
    if named is not None:
        if position is None and (roll.place.kind, roll.place.number) == ("rod", named.number):
            position = roll.place.position
        if position is not None:
            return ChosenPlace(named.number, _existing(named, position), sent=False)
    among = [named] if named else group.room.rods
    taken = _taken(group, until)
    if group.late and not any(free_positions(each, taken) for each in among):
        # It cannot have hung all the while, and who hung there next says until when it may have.
        taken = _taken(group, group.hand.at + timedelta(seconds=1))
    if named is not None:
        return ChosenPlace(named.number, _first_free(group, named, taken, roll), sent=False)
    best = best_place(group.room, roll, taken)
    if best is None:
        raise Refused("every rod is noted as full: take down what is dry, or name the position")
    return best


def where_it_hung(group: Group, roll: Roll) -> ChosenPlace | None:
    """Return where a roll hung last; None where it never did, or something else hangs there now.

    What is put back at once never left its place, whatever a hurried hand has told.
    """
    told = ledger.of_roll(group.conn, roll.id, until=group.hand.at)
    last = next((each.detail for each in reversed(told) if "position" in each.detail), None)
    rod = None if last is None else group.room.rod(last["rod"])
    if last is None or rod is None:
        return None
    free = free_positions(rod, _taken(group, None), film_named(roll.film))
    if last["position"] not in free:
        return None
    return ChosenPlace(rod.number, last["position"], sent=last.get("sent", False))


def crowded(group: Group, hung: Roll) -> list[str]:
    """Return what to tell whoever hung a roll so that it and a neighbour may touch."""
    rod = None if hung.place.number is None else group.room.rod(hung.place.number)
    if rod is None:
        return []
    own = hung.place.position or 0
    own_span = span(rod, own, film_named(hung.film))
    close = [
        other.position
        for other in hanging_now(group.conn, rod.number)
        if other.position != own and own_span & span(rod, other.position, film_named(other.film))
    ]
    if not close:
        return []
    there = rolls.on_rod(group.conn, rod.number)
    numbers = ", ".join(
        f"{other.number} ({other.place})" for other in there if other.place.position in close
    )
    return [
        f"move it, or it may touch {numbers}: wide film takes more than one position, and film"
        " that touches dries with marks"
    ]


def _existing(rod: Rod, position: int) -> int:
    if not 1 <= position <= rod.positions:
        raise Refused(
            f"rod {rod.number} has no position {position}: it has the positions 1 to"
            f" {rod.positions}"
        )
    return position


def _first_free(group: Group, rod: Rod, taken: Places, roll: Roll) -> int:
    free = free_positions(rod, taken, film_named(roll.film)) or free_positions(rod, taken)
    if not free:
        other = best_place(group.room, roll, taken)
        raise RodFull(rod, None if other is None else other.rod)
    return free[0]


def _taken(group: Group, until: datetime | None) -> Places:
    """Return what hangs now; for a late entry, all that hung from then on or up to `until`.

    Else film told of later would push aside what the record rightly had there.
    """
    there = (
        hanging_since(group.conn, group.hand.at, until) if group.late else hanging_now(group.conn)
    )
    return taken_by(group.room, there)
