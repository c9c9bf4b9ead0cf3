"""The substitute's page: a day in the darkroom for somebody who has never run it."""

from __future__ import annotations

from typing import NamedTuple

from filmrack.printing.bench_card import draw_cautions
from filmrack.printing.leaf import Column, Leaf

_COLUMNS = (Column("period", 2.0), Column("time", 1.6), Column("rod", 0.8), Column("box", 0.8))


class DayPeriod(NamedTuple):
    """A period of the day: its name, its times as shown, its rods and its box."""

    name: str
    times: str
    rod: str
    box: str


class SubstitutePage(NamedTuple):
    """One page for one day; `dial` is what the dial is turned to, such as "1 h", and `sweeps` tells
    whether whoever has no passphrase may empty the dryer.
    """

    room: str
    date: str
    dial: str
    periods: tuple[DayPeriod, ...]
    sweeps: bool = True
    note: str = ""

    def draw(self, leaf: Leaf) -> None:
        """Fill a page: the periods, what to do step by step, a note, the cautions."""
        leaf.open("For the substitute", f"{self.room} · {self.date}")
        rows = [(each.name, each.times, each.rod, each.box) for each in self.periods]
        leaf.table(_COLUMNS, rows, row=7.0)
        leaf.y += 5
        for number, step in enumerate(self._steps(), 1):
            leaf.paragraph(step, 11.5, mark=f"{number}.")
            leaf.y += 1
        leaf.y += 1
        leaf.paragraph(
            "Nothing you do spoils the record: what happened is written down and sorted out later.",
            11.5,
            bold=True,
        )
        if self.note:
            leaf.y += 2
            leaf.paragraph(self.note, 11.5)
        leaf.y += 3
        draw_cautions(leaf, 10.0)

    def _end_of_the_day(self) -> str:
        if not self.sweeps:
            return "At the end of the day leave all film where it hangs: the teacher empties it."
        return (
            "At the end of the day type “sweep”. At each rod count the strips: Enter if they are "
            "as many as the screen says, else type how many and do as it says, to the last Enter "
            "at “finish”. Dry film goes to its box; what is not dry hangs on."
        )

    def _steps(self) -> tuple[str, ...]:
        return (
            "The desk at the dryer shows what hangs there. Is it closed? Type “filmrack” in a "
            "terminal. Each line that you type ends with Enter.",
            "While film develops, its owner says with dry hands which clip pair the roll will get: "
            "“17” and three letters of the name.",
            "At the dryer the roll is hung on its period's rod and its clip is scanned, or typed: "
            f"“hang 17”. Turn the dial to {self.dial}.",
            "Whose film is where? Type three letters of the name.",
            "When the screen says flip, turn the strip end for end; scan the clip and FLIP, or "
            "type “17 flip”.",
            "When it says touch, touch the edge at both ends with a clean dry finger; scan the "
            "clip and DRY or TACKY, or type “17 dry”, “17 tacky”.",
            "A dry roll leaves with its owner (“17 take”) or goes into its period's box "
            "(“17 box”), always with its clip.",
            self._end_of_the_day(),
            "Wrong? Type “undo”. No power, no screen? Write it all on the hang sheet.",
        )
