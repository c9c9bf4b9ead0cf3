"""The dryer as it hangs: a rod a row, strips hanging from it, each drying from the top down."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from rich.style import Style
from rich.text import Text

from filmrack.desk.ink import fitted, ground, short_name, state_style, state_word, style
from filmrack.desk.lines import Spot
from filmrack.desk.session import Now
from filmrack.desk.strip import strip
from filmrack.desk.view import View
from filmrack.domain.attention import Standing
from filmrack.domain.room import Rod


@dataclass(frozen=True, slots=True)
class Plan:
    """How the cabinet is laid out on a screen, in cells and rows."""

    label: int
    cell: int
    film: int
    """Rows of film below each rod."""
    gap: int

    @property
    def rod(self) -> int:
        """Return the rows that one rod takes."""
        return 1 + self.film + self.gap


def plan_for(width: int, height: int, rods: int, positions: int) -> Plan:
    """Return the roomiest layout in which every rod can be seen, if there is one."""
    label = 13 if width >= 75 else 9
    cell = max(5, min(16, (width - label) // max(1, positions)))
    a_rod = height // max(1, rods)
    if a_rod >= 5:
        return Plan(label, cell, 3, 1)
    if a_rod == 4:
        return Plan(label, cell, 2, 1)
    return Plan(label, cell, 2 if a_rod == 3 else 1, 0)


class DryerView(View):
    """The map of the cabinet."""

    screen_id = "dryer"

    def draw(self, now: Now) -> None:
        """Show every rod, with what hangs from it."""
        rods = now.room.rods
        positions = max((rod.positions for rod in rods), default=1)
        plan = plan_for(self.content_size.width, self.content_size.height, len(rods), positions)
        self._keep_selection(now)
        lines: list[Text] = []
        spots: list[Spot] = []
        keep = None
        for rod in rods:
            hung = now.by_rod.get(rod.number, {})
            top = len(lines)
            lines += self._rod(now, rod, hung, plan)
            for position, standing in hung.items():
                left = plan.label + _column(rod, position) * plan.cell
                spots.append(
                    Spot(top, left, top + 1 + plan.film, left + plan.cell, standing.roll.id)
                )
                if standing.roll.id == self.selected:
                    keep = top + plan.film
        if not now.hanging:
            lines += [Text(""), *self._empty()]
        self.show(lines, spots, keep=keep)

    def _empty(self) -> list[Text]:
        quiet = style(self.palette.quiet)
        return [
            Text("Nothing hangs.", style=style(self.palette.text, bold=True)),
            Text("Load a roll with dry hands: scan or type its owner, then its clip.", style=quiet),
            Text("At the dryer, scan the clip once more.", style=quiet),
        ]

    def _rod(self, now: Now, rod: Rod, hung: dict[int, Standing], plan: Plan) -> list[Text]:
        period = now.room.period(rod.period)
        mine = now.meeting is not None and now.meeting.period == rod.period
        palette = self.palette
        head = f"{rod.number:>2} {period.name if period else 'no ' + now.room.period_word}"
        labels = [
            fitted(head, plan.label, style(palette.text, bold=mine)),
            fitted(f"   {len(hung)} of {rod.positions}", plan.label, style(palette.quiet)),
            *(Text(" " * plan.label) for _ in range(plan.film - 1)),
        ]
        rows = [labels[0], *labels[1 : 1 + plan.film]]
        for column in range(rod.positions):
            standing = hung.get(_position(rod, column))
            cells = self._bare(plan) if standing is None else self._strip(now, standing, plan)
            for row, cell in zip(rows, cells, strict=True):
                row.append_text(cell)
        return rows + [Text("")] * plan.gap

    def _bare(self, plan: Plan) -> list[Text]:
        rule = style(self.palette.rule)
        blank = Text(" " * plan.cell)
        return [Text("─" * plan.cell, style=rule), *(blank for _ in range(plan.film))]

    def _strip(self, now: Now, standing: Standing, plan: Plan) -> list[Text]:
        palette, roll = self.palette, standing.roll
        chosen = roll.id == self.selected
        chosen_ground = ground(palette) if chosen else Style()
        owner = now.owner(roll)
        name = short_name(owner) if plan.cell >= 12 or owner is None else owner.known_as
        word, how = state_word(standing), state_style(standing, palette)
        clip = f"{roll.clip or '–'}"
        if plan.film == 1:
            initials = owner.initials if owner else "?"
            beside = [(word, how)]
            clip = f"{clip} {initials}"
        else:
            beside = [(name, style(palette.text)), (word, how), ("", how)]
        number = Style(bold=True, reverse=chosen) + style(palette.text)
        rule = style(palette.rule)
        rod = Text.assemble(("┬", rule), (clip[: plan.cell - 2], number))
        rod.append("─" * (plan.cell - rod.cell_len), style=rule)
        cells = [rod]
        assert standing.outlook is not None
        for row, (film, ink) in enumerate(strip(standing.outlook, plan.film, palette)):
            text, its = beside[row]
            cell = Text.assemble((film, ink), fitted(text, plan.cell - 2, its), " ")
            cell.stylize(chosen_ground, 0, plan.cell - 1)
            cells.append(cell)
        return cells

    def _keep_selection(self, now: Now) -> None:
        if self.selected is None and now.hanging:
            urgent = min(now.hanging, key=lambda each: each.urgency)
            self.selected = urgent.roll.id

    def move(self, key: str) -> None:
        """Move along a rod, or to the nearest strip on the next rod that has one."""
        now = self.session.look()
        here = next((each for each in now.hanging if each.roll.id == self.selected), None)
        if here is None or here.roll.place.number is None:
            self._keep_selection(now)
            return
        rods = {rod.number: rod for rod in now.room.rods}
        at = rods[here.roll.place.number]
        column = _column(at, here.roll.place.position or 1)
        if key in ("left", "right", "first", "last"):
            self._along(now, at, column, key)
        else:
            step = 1 if key in ("down", "page_down") else -1
            self._across(now, at, column, step)

    def _along(self, now: Now, rod: Rod, column: int, key: str) -> None:
        columns = sorted(_column(rod, position) for position in now.by_rod[rod.number])
        wanted: dict[str, Callable[[], int | None]] = {
            "left": lambda: max((c for c in columns if c < column), default=None),
            "right": lambda: min((c for c in columns if c > column), default=None),
            "first": lambda: columns[0],
            "last": lambda: columns[-1],
        }
        found = wanted[key]()
        if found is not None:
            self.selected = now.by_rod[rod.number][_position(rod, found)].roll.id

    def _across(self, now: Now, rod: Rod, column: int, step: int) -> None:
        order = [each for each in now.room.rods if now.by_rod.get(each.number)]
        nth = order.index(rod) + step
        if 0 <= nth < len(order):
            there = order[nth]
            nearest = min(
                now.by_rod[there.number],
                key=lambda position: abs(_column(there, position) - column),
            )
            self.selected = now.by_rod[there.number][nearest].roll.id


def _column(rod: Rod, position: int) -> int:
    """Return the column of a position on the screen, from the left."""
    return position - 1 if rod.counted_from == "left" else rod.positions - position


def _position(rod: Rod, column: int) -> int:
    return column + 1 if rod.counted_from == "left" else rod.positions - column
