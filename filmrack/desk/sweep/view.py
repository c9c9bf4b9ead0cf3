"""The sweep at the open cabinet: one key a rod whose count is right, one scan a roll where not."""

from __future__ import annotations

from rich.text import Text

from filmrack.desk.ink import fit, style
from filmrack.desk.lines import Spot
from filmrack.desk.now import Now
from filmrack.desk.question import Question
from filmrack.desk.said import Said
from filmrack.desk.session import Session
from filmrack.desk.sweep.course import SweepCourse
from filmrack.desk.sweep.end_page import draw_box, draw_end
from filmrack.desk.sweep.page import SweepPage
from filmrack.desk.sweep.place import SweepPlace
from filmrack.desk.sweep.rod_list import rod_list
from filmrack.desk.sweep.rod_page import draw_turn
from filmrack.desk.sweep.sweeper import Sweeper
from filmrack.desk.view import View
from filmrack.domain.roll import Roll

_LIST = 34
_NARROW_LIST = 31
_ROOMY = 24
"""Rows from which figures are large and the rods stand apart."""
_BESIDE = 9
"""Rows of the desk beside a list, an answer among them: it is not moved when one comes or goes."""
_ACTION = -1
"""The spot of the right part: a second click on it is Enter."""
_PAGE = 10


class SweepView(View):
    """Rod by rod, the current one large; then what it comes to."""

    screen_id = "sweep"
    shows_card = False

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self._place = SweepPlace(session)
        self._sweeper = Sweeper(self._place)
        self._scrolled = 0
        self._shown: tuple[int | None, int | None, bool] = None, None, False
        """The rod and the box that are scrolled, and whether the sweep is finished."""

    def draw(self, now: Now) -> None:
        """Show the rods at the left, the current one or the end at the right."""
        course = self._place.look(now)
        width, height = self.content_size.width, self.content_size.height
        side = _LIST if width >= 90 else _NARROW_LIST
        listed = rod_list(now, course, self._place, palette=self.palette, width=side)
        apart = 2 if self.app.size.height >= 2 * len(listed) + _BESIDE else 1
        stops: list[int | None] = [*(turn.rod.number for turn in course.turns), None]
        first = max(0, stops.index(self._place.rod) * apart - height + 1)
        right = self._right(now, course, max(20, width - side - 3), height)
        lines: list[Text] = []
        spots: list[Spot] = [Spot(0, side + 3, height, max(width, side + 4), _ACTION)]
        for row in range(height):
            nth, between = divmod(row + first, apart)
            line = Text(" " * side)
            if not between and nth < len(listed):
                line = Text().append_text(listed[nth])
                spots.append(Spot(row, 0, row + 1, side, nth))
            lines.append(line.append("   ").append_text(right[row]))
        self.show(lines, spots)

    def _right(self, now: Now, course: SweepCourse, width: int, height: int) -> list[Text]:
        """Return as many rows of the right part as fit, from where it is scrolled to; the last one
        says what is below.
        """
        page = self._page(now, course, width, height)
        shown = self._place.rod, self._place.box, course.finished
        if self._shown != shown:
            self._shown, self._scrolled = shown, 0
        self._scrolled = max(0, min(self._scrolled, len(page.rows) - height))
        rows = page.rows[self._scrolled :]
        if len(rows) > height:
            below = page.below(self._scrolled + height - 1)
            words = fit(f"page down: {below}", width)
            rows = [*rows[: height - 1], Text(words, style=style(self.palette.quiet))]
        return [*rows, *(Text("") for _ in range(height - len(rows)))]

    def _page(self, now: Now, course: SweepCourse, width: int, height: int) -> SweepPage:
        page = SweepPage(now, self.palette, width, roomy=height >= _ROOMY, is_asked=bool(self.does))
        turn, enter = course.turn(self._place.rod), self.does or self._sweeper.enter_does()
        if self._place.box is not None:
            draw_box(page, self._place.box, course, enter)
        elif turn is not None:
            draw_turn(page, turn, course, enter)
        else:
            draw_end(page, course, enter)
        return page

    def move(self, key: str) -> None:
        """Up and Down go from rod to rod."""
        match key:
            case "up" | "down" | "first" | "last":
                self._place.go(key)
            case "page_up" | "page_down":
                step = _PAGE if key == "page_down" else -_PAGE
                self._scrolled = max(0, self._scrolled + step)

    def choose(self, what: int) -> None:
        """A click on a rod goes to it."""
        if what != _ACTION:
            self._place.go_to(what)

    def enters_on_second_click(self, what: int) -> bool:
        """Only in the right part is a second click Enter: in the list it would box a whole rod."""
        return what == _ACTION

    def select(self, roll: int) -> None:
        """Nothing is selected here: the rod is what is worked at."""

    def back(self) -> bool:
        """Leave a box, or what is looked at in a finished sweep."""
        return self._place.back()

    def escape_does(self) -> str:
        """Say that what is looked at is left; the rod whose turn it is is not left so."""
        return "back" if self._place.is_looked_at else ""

    def enter_does(self) -> str:
        """Return what Enter does to the rod, or at the end."""
        return self._sweeper.enter_does()

    def enter(self) -> Said:
        """The count is right; or that is all of them; or the end."""
        return self._sweeper.enter()

    def reads(self, text: str) -> str:
        """Return what is said of somebody's strip as it is said of a clip on the rod in hand.

        Raises Refused where not just one strip of the rod is meant.
        """
        return self._sweeper.reads(text)

    def tells_of(self, roll: Roll) -> Said | None:
        """Say where a roll is that was found by name; a sweep under way is not left for it."""
        return self._sweeper.tells_of(roll)

    def takes(self, text: str) -> bool:
        """Scans, counts and places are the sweep's; names and other sentences are not."""
        return self._sweeper.takes(text)

    def take(self, text: str) -> Said | Question | None:
        """Take a count, a clip or roll, a rod or a box; what is costly is asked about first.

        Raises Refused for what cannot be.
        """
        return self._sweeper.take(text)

    def hint(self) -> str:
        """Say what is wanted of the hand at the cabinet."""
        return self._sweeper.hint()
