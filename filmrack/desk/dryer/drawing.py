"""How a rod of the map is drawn: the bar, and the strips that hang from it with what is said beside
them.
"""

from __future__ import annotations

from rich.cells import cell_len, set_cell_size
from rich.style import Style

from filmrack.desk.dryer.plan import Plan, position_of, rod_head
from filmrack.desk.dryer.strip import strip
from filmrack.desk.ink import fit, ground, padded, short_name, state_style, state_word, style
from filmrack.desk.lines import Piece, PiecedRow
from filmrack.desk.now import Now
from filmrack.desk.themes import Palette
from filmrack.domain.attention import Standing
from filmrack.domain.clock import clock_or_dash
from filmrack.domain.places import Places, free_positions
from filmrack.domain.room import Rod

DrawnRods = dict[int, tuple[object, list[PiecedRow]]]
"""The rows of each rod as drawn last, by its number, with all that their looks follow from."""

_Cells = list[list[Piece]]
"""What stands at one place of a rod: the pieces of each of its rows."""


class RodDrawing:
    """Draws the rods of one moment, one by one.

    `taken` are the places that are not free, `drawn` is what was drawn last, and is kept up.
    """

    def __init__(
        self,
        now: Now,
        plan: Plan,
        palette: Palette,
        *,
        selected: int | None,
        taken: Places,
        drawn: DrawnRods,
    ) -> None:
        self._now = now
        self._plan = plan
        self._palette = palette
        self._selected = selected
        self._taken = taken
        self._drawn = drawn

    def rows(self, rod: Rod) -> list[PiecedRow]:
        """Return the rows of a rod; drawn anew only when something on it looks another way."""
        now, plan = self._now, self._plan
        hung = now.by_rod.get(rod.number, {})
        is_on_now = now.class_on is not None and now.class_on.meeting.period == rod.period
        head, count = rod_head(now.room, rod, short=plan.short), self._count(rod, len(hung))
        looks = [self._looks(each) for each in hung.values()]
        key = (plan, self._palette.name, is_on_now, head, count, looks)
        known = self._drawn.get(rod.number)
        if known is None or known[0] != key:
            rows = self._labels(head, count, is_on_now=is_on_now)
            for column in range(rod.positions):
                place = position_of(rod, column)
                if (standing := hung.get(place)) is not None:
                    cells = self._strip(standing)
                else:
                    cells = self.bare("wide" if (rod.number, place) in self._taken else "")
                for row, cell in zip(rows, cells, strict=True):
                    row.extend(cell)
            gap = [PiecedRow(())] * plan.gap
            known = self._drawn[rod.number] = (key, [*map(PiecedRow, map(tuple, rows)), *gap])
        return known[1]

    def _count(self, rod: Rod, hanging: int) -> str:
        """Return how many strips hang on a rod, of how many that can; wide ones take two places."""
        free = len(free_positions(rod, self._taken))
        if not free:
            return "full" if self._plan.short else f"{hanging}, full"
        return f"{hanging}{'/' if self._plan.short else ' of '}{hanging + free}"

    def _looks(self, standing: Standing) -> tuple[object, ...]:
        """Return all that a strip's looks follow from."""
        roll, drying, owner = standing.roll, standing.outlook, self._now.owner(standing.roll)
        chosen = roll.id == self._selected
        looks = roll.id, roll.place, roll.film, roll.clip, owner, state_word(standing), chosen
        if drying is None or drying.state == "dry":
            return looks
        ends = round(drying.top_fraction, 2), round(drying.bottom_fraction, 2)
        return (*looks, ends, self._when(standing))

    def _labels(self, head: str, count: str, *, is_on_now: bool) -> _Cells:
        """Return what stands before the strips: the rod, stronger while its class is on, and how
        full it is.
        """
        plan, indent = self._plan, "" if self._plan.short else "  "
        return [
            [(padded(head, plan.label - 1) + " ", style(self._palette.text, bold=is_on_now))],
            [(padded(indent + count, plan.label), style(self._palette.quiet))],
            *([(" " * plan.label, Style())] for _ in range(plan.film - 1)),
        ]

    def bare(self, why: str) -> _Cells:
        """Return a place where nothing hangs, and `why` it is not free: as far from the words
        before it as those beside a strip.
        """
        plan = self._plan
        said, blank = padded(f" {why}", plan.cell), (" " * plan.cell, Style())
        film = [[(said, style(self._palette.quiet))], *([blank] for _ in range(plan.film - 1))]
        return [[("─" * plan.cell, style(self._palette.rule))], *film]

    def _strip(self, standing: Standing) -> _Cells:
        """Return a strip under its clip, with what is said beside it."""
        palette, plan, roll = self._palette, self._plan, standing.roll
        chosen, owner = roll.id == self._selected, self._now.owner(roll)
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
        beside = self._beside(standing)
        beside += [(" " * (plan.cell - 1), Style())] * (len(film) - len(beside))
        for row in zip(film, beside, strict=False):
            cells.append(_on(ground(palette), *row) if chosen else [*row])
        return cells

    def _beside(self, standing: Standing) -> list[Piece]:
        """Return what stands beside a strip: whose it is, how it is, and when the next thing is."""
        palette, owner, room = self._palette, self._now.owner(standing.roll), self._plan.cell - 1
        word = padded(state_word(standing), room), state_style(standing, palette)
        if self._plan.film == 1:
            return [word]
        name = short_name(owner) if self._plan.roomy or owner is None else owner.known_as
        if owner is None and room < 8:
            name = "who?"
        # Three dots would take a third of a narrow place.
        name = fit(name, room - 1) if room > 6 else set_cell_size(name, room - 1)
        lines = [(padded(name, room), style(palette.text)), word]
        when = self._when(standing)
        return [*lines, (padded(when, room), style(palette.quiet))] if when else lines

    def _when(self, standing: Standing) -> str:
        """Return when the next thing comes for a wet strip, where there is room to say it."""
        drying, now = standing.outlook, self._now
        if not self._plan.roomy or drying is None or drying.state != "wet":
            return ""
        flip = None if standing.roll.flipped else drying.flip_at
        moment, zone = flip or drying.likely_at, now.room.timetable.zone
        return f"{'flip' if flip else 'dry'} {clock_or_dash(moment, zone, now.at)}"


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
