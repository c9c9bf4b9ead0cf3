"""The screen Dryer: the map of the cabinet, and which strip on it is selected."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence

from rich.cells import cell_len
from rich.text import Text

from filmrack.desk.dryer.drawing import DrawnRods, RodDrawing
from filmrack.desk.dryer.plan import column_of, plan_for, position_of, rod_head
from filmrack.desk.ink import style, styled
from filmrack.desk.lines import PiecedRow, Spot
from filmrack.desk.now import Now
from filmrack.desk.session import Session
from filmrack.desk.view import View
from filmrack.domain.attention import Standing
from filmrack.domain.places import Hanging, taken_by
from filmrack.domain.roll import Place
from filmrack.domain.room import Rod


class DryerView(View):
    """The map of the cabinet."""

    screen_id = "dryer"
    shows = frozenset({"tank", "rod"})
    stays = True

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self._hung: dict[int, Place] = {}
        """Where each roll hung when the map was last drawn."""
        self._came_down: Place | None = None
        """Where the selected roll hung that hangs no more; an arrow goes on from there."""
        self._drawn: DrawnRods = {}

    def draw(self, now: Now) -> None:
        """Show every rod, with what hangs from it."""
        rods = now.room.rods
        positions = max((rod.positions for rod in rods), default=1)
        longest = max((cell_len(rod_head(now.room, rod)) for rod in rods), default=1)
        size = self.content_size
        lines: list[Text | PiecedRow] = [*self._closed_terms(now, size.width)]
        plan = plan_for(size.width, size.height - len(lines), len(rods), positions, longest)
        self._keep_selection(now)
        hung = (
            Hanging(rod, position, each.roll.film)
            for rod, on_it in now.by_rod.items()
            for position, each in on_it.items()
        )
        drawing = RodDrawing(
            now,
            plan,
            self.palette,
            selected=self.selected,
            taken=taken_by(now.room, hung),
            drawn=self._drawn,
        )
        spots: list[Spot] = []
        keep = None
        for rod in rods:
            top = len(lines)
            lines.extend(drawing.rows(rod))
            bottom = top + 1 + plan.film
            for position, standing in now.by_rod.get(rod.number, {}).items():
                left = plan.label + column_of(rod, position) * plan.cell
                spots.append(Spot(top, left, bottom, left + plan.cell, standing.roll.id))
                if standing.roll.id == self.selected:
                    keep = bottom - 1
        if not now.hanging:
            lines = [*self._empty(size.width), Text(""), *lines]
        self.show(lines, spots, keep=keep)

    def _closed_terms(self, now: Now, width: int) -> list[Text]:
        """Return that of some film nothing is flipped, touched or taken: its term is closed."""
        many = Counter(each.roll.term for each in now.hanging)
        said = [
            f"Term {term} is closed: “reopen term {term}” before anything is done with"
            f" {'its roll' if many[term] == 1 else f'its {many[term]} rolls'} here."
            for term in sorted(many.keys() & set(self.session.closed_terms()))
        ]
        how = style(self.palette.left, bold=True)
        return [row for each in said for row in styled(each, width, how)]

    def _empty(self, width: int) -> list[Text]:
        quiet = style(self.palette.quiet)
        load = "Load a roll with dry hands: scan or type its owner, then its clip."
        return [
            Text("Nothing hangs.", style=style(self.palette.text, bold=True)),
            *styled(load, width, quiet),
            *styled("At the dryer, scan the clip once more.", width, quiet),
        ]

    def _keep_selection(self, now: Now) -> None:
        """Select the most urgent roll at first; one that came down stays so, and Enter rests, as it
        does with one that was selected on another screen.
        """
        places = {each.roll.id: each.roll.place for each in now.hanging}
        if self.selected is None:
            if not self.resting:
                self._select_nearest(now)
        elif self.selected in self._hung and self.selected not in places:
            self._came_down = self._hung[self.selected]
            self.keep(self.selected)
        elif self.selected not in places:
            self.resting = all(each.roll.id != self.selected for each in now.tank) or self.resting
        self._hung = places

    def put_down(self) -> None:
        """Leave no strip selected; an arrow goes on from where the last one hangs."""
        super().put_down()
        self._came_down = self._hung.get(self.selected or 0, self._came_down)
        self.selected = None

    def _select_nearest(self, now: Now) -> None:
        """Select what hangs nearest to where the last one came down, else the most urgent."""
        gone = self._came_down
        on_it = now.by_rod.get(gone.number) if gone is not None and gone.number else None
        if gone is not None and on_it:
            nearest = min(on_it, key=lambda position: abs(position - (gone.position or 0)))
            self.select(on_it[nearest].roll.id)
        elif now.hanging:
            self.select(_most_urgent(now.hanging).roll.id)
        self._came_down = None

    def acted_on(self, roll: int) -> str:
        """Select the roll that an act was done to."""
        self.select(roll)
        return ""

    def move(self, key: str) -> None:
        """Move along a rod, or to the nearest strip on the next rod that has one."""
        now = self.session.look()
        here = next((each for each in now.hanging if each.roll.id == self.selected), None)
        if here is None or here.roll.place.number is None:
            self._select_nearest(now)
            return
        rods = {rod.number: rod for rod in now.room.rods}
        rod = rods[here.roll.place.number]
        column = column_of(rod, here.roll.place.position or 1)
        if key in ("left", "right", "first", "last"):
            self._along(now, rod, column, key)
        else:
            step = 1 if key in ("down", "page_down") else -1
            self._across(now, rod, column, step)

    def _along(self, now: Now, rod: Rod, column: int, key: str) -> None:
        columns = sorted(column_of(rod, position) for position in now.by_rod[rod.number])
        wanted: dict[str, Callable[[], int | None]] = {
            "left": lambda: max((c for c in columns if c < column), default=None),
            "right": lambda: min((c for c in columns if c > column), default=None),
            "first": lambda: columns[0],
            "last": lambda: columns[-1],
        }
        found = wanted[key]()
        if found is not None:
            self.selected = now.by_rod[rod.number][position_of(rod, found)].roll.id

    def _across(self, now: Now, rod: Rod, column: int, step: int) -> None:
        order = [each for each in now.room.rods if now.by_rod.get(each.number)]
        nth = order.index(rod) + step
        if 0 <= nth < len(order):
            there = order[nth]
            nearest = min(
                now.by_rod[there.number],
                key=lambda position: abs(column_of(there, position) - column),
            )
            self.selected = now.by_rod[there.number][nearest].roll.id


def _most_urgent(hanging: Sequence[Standing]) -> Standing:
    """Return the most urgent roll; of the less urgent it is not asked since when they are so."""
    for state in ("flip", "touch"):
        due = [each for each in hanging if each.state == state]
        if due:
            return min(due, key=lambda each: each.urgency)
    return min(hanging, key=lambda each: each.urgency)
