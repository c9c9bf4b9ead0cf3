"""The bench card: the actions as symbols to scan after a clip, with the cautions."""

from __future__ import annotations

from typing import NamedTuple

from filmrack.domain import codes
from filmrack.printing.cautions import CAUTIONS
from filmrack.printing.leaf import Leaf, wrap

_MEANS = {
    "FLIP": ("flip", "The strip was turned end for end."),
    "DRY": ("dry", "Touched at both ends: dry."),
    "TACKY": ("tacky", "Touched: still tacky, it hangs on."),
    "TAKE": ("take", "The roll leaves with its owner."),
    "BOX": ("box", "The roll goes into its period's box."),
    "UNDO": ("undo", "Takes back what was scanned last."),
    "FAN": ("fan on", "The dial was turned on."),
    "FANOFF": ("fan off", "The fan was found off."),
}
_ROW = 38.0
_TIMES = 2.0
"""Scanned from a wall or over a sink, so from further away than a label."""


class BenchCard(NamedTuple):
    """One page, to laminate and hang beside the dryer."""

    room: str = ""

    def draw(self, leaf: Leaf) -> None:
        """Fill a page: two columns of actions, then the cautions."""
        how = "Scan a clip, then what you did to its roll."
        leaf.open("Bench card", f"{self.room} · {how}" if self.room else how)
        half = leaf.width / 2
        top = leaf.y
        for number, word in enumerate(codes.ACTIONS):
            row, column = divmod(number, 2)
            _action(leaf, (leaf.left + column * half, top + row * _ROW), half, word)
        leaf.y = top + _ROW * ((len(codes.ACTIONS) + 1) // 2) + 2
        draw_cautions(leaf, 12.0)


def draw_cautions(leaf: Leaf, points: float) -> None:
    """Write the cautions as a list under a rule."""
    leaf.make_room(40)
    leaf.pen.line((leaf.left, leaf.y), (leaf.left + leaf.width, leaf.y), width_mm=0.5)
    leaf.y += 3
    *cautions, above_all = CAUTIONS
    for caution in cautions:
        leaf.paragraph(caution, points, mark="!")
    leaf.paragraph(above_all, points, bold=True)


def _action(leaf: Leaf, at: tuple[float, float], width: float, word: str) -> None:
    x, y = at
    payload = codes.action_code(word)
    side = leaf.symbol((x, y + 2), payload, _TIMES)
    name, means = _MEANS[word]
    left, room = x + side, width - side - 1
    middle = y + 2 + side / 2
    leaf.text((left, middle - 2), name, 26.0, room=room, bold=True)
    for number, line in enumerate(wrap(means, 10.0, False, room)[:2]):
        leaf.text((left, middle + 3.5 + 4.2 * number), line, 10.0, room=room)
    leaf.text((left, middle + 12.5), payload, 9.0, room=room)
