"""The contact log: the strips of a sleeve with their frame numbers, to mark picks on."""

from __future__ import annotations

from typing import NamedTuple

from filmrack.domain.refusal import Refused
from filmrack.printing.labels import SleeveLabel
from filmrack.printing.leaf import Leaf

_MOST_HIGH = 22.0
_LEAST_HIGH = 11.0
_LINES = 4
_LINE = 9.0


class ContactLog(NamedTuple):
    """One sleeve: its code, film, term and date, the frame numbers strip by strip, the picks."""

    code: str
    film: str
    term: str
    date: str
    strips: tuple[tuple[int, ...], ...]
    picks: frozenset[int] = frozenset()
    initials: str = ""

    def draw(self, leaf: Leaf) -> None:
        """Fill a page: a row of frames a strip, each pick ringed, then lines for notes."""
        if not self.strips or not all(self.strips):
            raise Refused(
                f"there is no contact log for {self.code} because it has no strips: cut it first"
            )
        label = SleeveLabel(self.code, self.film, self.term, self.date)
        parts = (self.film, self.term, self.date, self.initials)
        subtitle = " · ".join(part for part in parts if part)
        leaf.open(label.fields()["code"], subtitle, label.payload)
        most = max(map(len, self.strips))
        room = leaf.bottom - leaf.y - _LINES * _LINE - 6
        high = max(_LEAST_HIGH, min(_MOST_HIGH, room / len(self.strips)))
        wide = leaf.width / most
        for strip in self.strips:
            leaf.make_room(high)
            for place, frame in enumerate(strip):
                self._frame(leaf, leaf.left + place * wide, wide, high, frame)
            leaf.y += high
        leaf.y += 4
        leaf.make_room(_LINES * _LINE)
        for _ in range(_LINES):
            leaf.y += _LINE
            end = leaf.left + leaf.width
            leaf.pen.line((leaf.left, leaf.y), (end, leaf.y), width_mm=0.15, grey=0.6)

    def _frame(self, leaf: Leaf, x: float, wide: float, high: float, frame: int) -> None:
        picked = frame in self.picks
        width = 0.8 if picked else 0.2
        leaf.pen.box((x + 0.8, leaf.y + 0.8), (wide - 1.6, high - 1.6), line_mm=width)
        base = leaf.y + 5.8
        leaf.text((x + 2.4, base), str(frame), 11.0, room=wide - 4, bold=True)
        if picked:
            end = (x + wide - 2.4, base)
            leaf.text(end, "pick", 9.0, room=wide / 2, align="right")
