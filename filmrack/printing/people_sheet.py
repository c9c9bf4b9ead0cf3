"""The people sheet: a page a period, a code a person, to hang beside the dryer."""

from __future__ import annotations

from typing import NamedTuple

from filmrack.domain import codes
from filmrack.domain.refusal import Refused
from filmrack.printing import lettering
from filmrack.printing.leaf import Leaf

_ACROSS = 3
_LEAST_ROW, _MOST_ROW = 17.5, 28.0
_SIZES = (16.0, 14.0, 12.0, 10.0)


class PersonRow(NamedTuple):
    """A person of the sheet: the number of their code, given name, initial of the family name."""

    number: int
    given: str
    initial: str = ""

    @property
    def tail(self) -> str:
        """What follows the given name on the wall: the K. of `Mara K.`"""
        return f"{self.initial.rstrip('.')}." if self.initial else ""


class PeopleSheet(NamedTuple):
    """The people of one period, in the order given."""

    period: str
    people: tuple[PersonRow, ...]

    def draw(self, leaf: Leaf) -> None:
        """Fill a page; a period of more people than it holds goes on over the next."""
        if not self.people:
            raise Refused(
                f"there is no sheet for {self.period} because nobody is in it: add people first"
            )
        leaf.open(self.period, "Scan your own code, then a clip.")
        rows = -(-len(self.people) // _ACROSS)
        height = max(_LEAST_ROW, min(_MOST_ROW, (leaf.bottom - leaf.y) / rows))
        width = leaf.width / _ACROSS
        for start in range(0, len(self.people), _ACROSS):
            leaf.make_room(height - 0.01)
            for column, person in enumerate(self.people[start : start + _ACROSS]):
                _cell(leaf, leaf.left + column * width, width, height, person)
            leaf.y += height


def _cell(leaf: Leaf, x: float, width: float, height: float, person: PersonRow) -> None:
    try:
        payload = codes.person_code(person.number)
    except ValueError as trouble:
        raise Refused(
            f"there is no code for person {person.number}: numbers go from 0 to 9999"
        ) from trouble
    side = leaf.symbol((x, leaf.y + (height - 14.8) / 2), payload)
    left, room = x + side, width - side - 2
    middle = leaf.y + height / 2
    name, points = _fitted(person, room)
    leaf.text((left, middle + 1), name, points, room=room, bold=True)
    leaf.text((left, middle + 5.5), payload, 8.0, room=room)


def _fitted(person: PersonRow, room: float) -> tuple[str, float]:
    """Return a name and its size: long ones are set smaller, then the given name is cut.

    The initial is never cut, since it is what tells two people of one given name apart.
    """
    given, tail = lettering.clean(person.given), lettering.clean(person.tail)
    name = f"{given} {tail}".strip()
    for points in _SIZES:
        if lettering.width_mm(name, points, True) <= room:
            return name, points
    left = room - lettering.width_mm(f" {tail}", points, True)
    return f"{lettering.shorten(given, points, True, left)} {tail}".strip(), points
