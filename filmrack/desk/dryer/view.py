"""The dryer as it hangs: a rod a row, strips hanging from it, each drying from the top down."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence

from rich.cells import cell_len, set_cell_size
from rich.style import Style
from rich.text import Text

from filmrack.desk.dryer.plan import Plan, column_of, plan_for, position_of, rod_head
from filmrack.desk.dryer.strip import strip
from filmrack.desk.ink import (
    at,
    fit,
    ground,
    padded,
    short_name,
    state_style,
    state_word,
    style,
    wrapped,
)
from filmrack.desk.lines import Piece, PiecedRow, Spot
from filmrack.desk.now import Now
from filmrack.desk.session import Session
from filmrack.desk.view import View
from filmrack.domain.attention import Standing
from filmrack.domain.places import Hanging, Places, free_positions, taken_by
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
        self._taken: Places = frozenset()
        self._drawn: dict[int, tuple[object, list[PiecedRow]]] = {}
        """The rows of each rod as last drawn, with what they followed from."""

    def draw(self, now: Now) -> None:
        """Show every rod, with what hangs from it."""
        rods = now.room.rods
        positions = max((rod.positions for rod in rods), default=1)
        longest = max((cell_len(rod_head(now, rod)) for rod in rods), default=1)
        size = self.content_size
        lines: list[Text | PiecedRow] = [*self._shut(now, size.width)]
        plan = plan_for(size.width, size.height - len(lines), len(rods), positions, longest)
        self._keep_selection(now)
        self._taken = taken_by(
            now.room,
            (
                Hanging(rod, position, each.roll.film)
                for rod, on_it in now.by_rod.items()
                for position, each in on_it.items()
            ),
        )
        spots: list[Spot] = []
        keep = None
        for rod in rods:
            hung = now.by_rod.get(rod.number, {})
            top = len(lines)
            lines.extend(self._rod(now, rod, hung, plan))
            for position, standing in hung.items():
                left = plan.label + column_of(rod, position) * plan.cell
                spots.append(
                    Spot(top, left, top + 1 + plan.film, left + plan.cell, standing.roll.id)
                )
                if standing.roll.id == self.selected:
                    keep = top + plan.film
        if not now.hanging:
            lines = [*self._empty(), Text(""), *lines]
        self.show(lines, spots, keep=keep)

    def _shut(self, now: Now, width: int) -> list[Text]:
        """Return that of some film nothing is flipped, touched or taken: its term is closed."""
        many = Counter(each.roll.term for each in now.hanging)
        said = [
            f"Term {term} is closed: “reopen term {term}” before anything is done with"
            f" {'its roll' if many[term] == 1 else f'its {many[term]} rolls'} here."
            for term in sorted(many.keys() & set(self.session.closed_terms()))
        ]
        how = style(self.palette.left, bold=True)
        return [Text(row.plain, style=how) for each in said for row in wrapped(each, width)]

    def _empty(self) -> list[Text]:
        quiet = style(self.palette.quiet)
        return [
            Text("Nothing hangs.", style=style(self.palette.text, bold=True)),
            Text("Load a roll with dry hands: scan or type its owner, then its clip.", style=quiet),
            Text("At the dryer, scan the clip once more.", style=quiet),
        ]

    def _rod(self, now: Now, rod: Rod, hung: dict[int, Standing], plan: Plan) -> list[PiecedRow]:
        """Return the rows of a rod; drawn anew only when something on it looks another way."""
        mine = now.meeting is not None and now.meeting.period == rod.period
        count = f"{len(hung)}/{rod.positions}" if plan.short else f"{len(hung)} of {rod.positions}"
        if not free_positions(rod, self._taken):
            count = "full" if plan.short else f"{len(hung)}, full"
        looks = [self._looks(now, each, plan) for each in hung.values()]
        key = (plan, self.palette.name, mine, rod_head(now, rod, short=plan.short), count, looks)
        known = self._drawn.get(rod.number)
        if known is None or known[0] != key:
            rows = self._labels(key[3], count, plan, mine=mine)
            for column in range(rod.positions):
                place = position_of(rod, column)
                if (standing := hung.get(place)) is not None:
                    cells = self._strip(now, standing, plan)
                else:
                    cells = self._bare(plan, "wide" if (rod.number, place) in self._taken else "")
                for row, cell in zip(rows, cells, strict=True):
                    row.extend(cell)
            gap = [PiecedRow(())] * plan.gap
            known = self._drawn[rod.number] = (key, [*map(PiecedRow, map(tuple, rows)), *gap])
        return known[1]

    def _looks(self, now: Now, standing: Standing, plan: Plan) -> tuple[object, ...]:
        """Return all that a strip's looks follow from."""
        roll, drying, owner = standing.roll, standing.outlook, now.owner(standing.roll)
        chosen = roll.id == self.selected
        looks = roll.id, roll.place, roll.film, roll.clip, owner, state_word(standing), chosen
        if drying is None or drying.state == "dry":
            return looks
        ends = round(drying.top_fraction, 2), round(drying.bottom_fraction, 2)
        return (*looks, ends, self._when(now, standing, plan))

    def _labels(self, head: str, count: str, plan: Plan, *, mine: bool) -> list[list[Piece]]:
        indent = "" if plan.short else "  "
        return [
            [(padded(head, plan.label - 1) + " ", style(self.palette.text, bold=mine))],
            [(padded(indent + count, plan.label), style(self.palette.quiet))],
            *([(" " * plan.label, Style())] for _ in range(plan.film - 1)),
        ]

    def _bare(self, plan: Plan, why: str) -> list[list[Piece]]:
        """Return the cells of a place where nothing hangs, and `why` it is not free: as far from
        the words before it as those beside a strip.
        """
        said, blank = padded(f" {why}", plan.cell), (" " * plan.cell, Style())
        film = [[(said, style(self.palette.quiet))], *([blank] for _ in range(plan.film - 1))]
        return [[("─" * plan.cell, style(self.palette.rule))], *film]

    def _strip(self, now: Now, standing: Standing, plan: Plan) -> list[list[Piece]]:
        palette, roll = self.palette, standing.roll
        chosen = roll.id == self.selected
        owner = now.owner(roll)
        clip = set_cell_size(f"{roll.clip or '–'}", min(3, plan.cell - 1)).rstrip()
        rule, left = style(palette.rule), plan.cell - 1 - cell_len(clip)
        rod = [("┬", rule), (clip, Style(bold=True, reverse=chosen) + style(palette.text))]
        if plan.film == 1 and owner is not None:
            # The only room for whose it is: the map says initials, the card the name.
            whose = _beside_clip(owner.initials, left)
            rod.append((whose, style(palette.quiet)))
            left -= cell_len(whose)
        cells = [[*rod, ("─" * left, rule)]]
        film = strip(standing.outlook, plan.film, palette) if standing.outlook else []
        beside = self._beside(now, standing, plan)
        beside += [(" " * (plan.cell - 1), Style())] * (len(film) - len(beside))
        for row in zip(film, beside, strict=False):
            cells.append(_on(ground(palette), *row) if chosen else [*row])
        return cells

    def _beside(self, now: Now, standing: Standing, plan: Plan) -> list[Piece]:
        """Return what stands beside a strip: whose it is, how it is, and when the next thing is."""
        palette, owner, room = self.palette, now.owner(standing.roll), plan.cell - 1
        word = padded(state_word(standing), room), state_style(standing, palette)
        if plan.film == 1:
            return [word]
        name = short_name(owner) if plan.cell >= 12 or owner is None else owner.known_as
        if owner is None and room < 8:
            name = "who?"
        # Three dots would take a third of a narrow place.
        name = fit(name, room - 1) if room > 6 else set_cell_size(name, room - 1)
        lines = [(padded(name, room), style(palette.text)), word]
        when = self._when(now, standing, plan)
        return [*lines, (padded(when, room), style(palette.quiet))] if when else lines

    def _when(self, now: Now, standing: Standing, plan: Plan) -> str:
        """Return when the next thing comes for a wet strip, where there is room to say it."""
        drying = standing.outlook
        if plan.cell < 12 or plan.film == 1 or drying is None or drying.state != "wet":
            return ""
        flip = None if standing.roll.flipped else drying.flip_at
        return f"{'flip' if flip else 'dry'} {at(flip or drying.likely_at, now.room, now.at)}"

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


def _on(ground: Style, film: Piece, beside: Piece) -> list[Piece]:
    """Return a row of the selected strip on its ground, which ends before the next strip's cell."""
    (shape, ink), (words, how) = film, beside
    return [(shape, ink + ground), (words[:-1], how + ground), (words[-1:], how)]


def _beside_clip(initials: str, room: int) -> str:
    """Return initials as they fit behind a clip's number: without a gap behind a long one, and of
    those that are wider than the place their beginning.
    """
    gap = cell_len(initials) < room
    return (" " if gap else "") + set_cell_size(initials, min(room, cell_len(initials))).rstrip()


def _most_urgent(hanging: Sequence[Standing]) -> Standing:
    """Return the most urgent roll; of the less urgent it is not asked since when they are so."""
    for state in ("flip", "touch"):
        due = [each for each in hanging if each.state == state]
        if due:
            return min(due, key=lambda each: each.urgency)
    return min(hanging, key=lambda each: each.urgency)
