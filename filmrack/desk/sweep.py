"""The sweep at the open cabinet: one key a rod whose count is right, one scan a roll where not."""

from __future__ import annotations

from rich.text import Text

from filmrack.desk.course import Course, Turn, read_course
from filmrack.desk.ink import style
from filmrack.desk.lines import Spot
from filmrack.desk.said import Said
from filmrack.desk.session import Now, Session
from filmrack.desk.sweep_acts import UNDO, count, finish, meant, print_slips, scan, undo
from filmrack.desk.sweep_page import Page, draw_box, draw_end, draw_turn, rod_list
from filmrack.desk.view import View
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.store import people

_LIST = 34
_NARROW_LIST = 31
_ROOMY = 24
"""Rows from which figures are large and the rods stand apart."""
_ACTION = -1
"""The spot of the right part: a second click on it is Enter."""


_LOOKED_UP = ("number", "clip", "roll")
"""What is only shown, and no find of a sweep, once the sweep is finished."""


class SweepView(View):
    """Rod by rod, the current one large; then what it comes to."""

    screen_id = "sweep"
    shows_card = False

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self._rod: int | None = None
        """The rod whose turn it is; None before the first look, and at the end."""
        self._begun = False
        self._box: int | None = None
        """A box that was scanned: what is scanned next lies in it."""
        self._left: set[int] = set()
        """Rods that were left as they are, at this desk."""
        self._number: int | None = None
        """The sweep that was seen last; shown as finished when it goes on no longer."""
        self._scrolled = 0
        self._known: tuple[tuple[int, int | None, object], Course] | None = None

    def draw(self, now: Now) -> None:
        """Show the rods at the left, the current one or the end at the right."""
        course = self._look(now)
        width, height = self.content_size.width, self.content_size.height
        side = _LIST if width >= 90 else _NARROW_LIST
        page = Page(now, self.palette, max(20, width - side - 3), roomy=height >= _ROOMY)
        self._draw_page(page, course)
        listed = rod_list(
            now,
            course,
            current=self._rod,
            left=frozenset(self._left),
            palette=self.palette,
            width=side,
        )
        gap = 2 if height >= 2 * len(listed) + 2 else 1
        self._scrolled = max(0, min(self._scrolled, len(page.rows) - height))
        right = page.rows[self._scrolled :]
        here = next(
            (n for n, turn in enumerate(course.turns) if turn.rod.number == self._rod), None
        )
        first = max(0, (len(listed) - 1 if here is None else here) * gap - height + 1)
        lines: list[Text] = []
        spots: list[Spot] = [Spot(0, side + 3, height, max(width, side + 4), _ACTION)]
        for row in range(height):
            nth, between = divmod(row + first, gap)
            line = Text(" " * side)
            if not between and nth < len(listed):
                line = Text().append_text(listed[nth])
                spots.append(Spot(row, 0, row + 1, side, nth))
            line.append("   ")
            if row == height - 1 and len(right) > height:
                line.append("page down: more", style=style(self.palette.quiet))
            elif row < len(right):
                line.append_text(right[row])
            lines.append(line)
        self.show(lines, spots)

    def _draw_page(self, page: Page, course: Course) -> None:
        turn = course.turn(self._rod)
        if self._box is not None:
            draw_box(page, self._box, course.boxed, f"rod {self._rod}" if turn else "the end")
        elif turn is not None:
            draw_turn(page, turn)
        else:
            draw_end(page, course)

    def _look(self, now: Now) -> Course:
        """Read how the sweep stands, and where this desk is in it."""
        # Whoever hangs and how is judged each second; the file is read when it has changed.
        key = self.session.stamp, self._number, now.hanging
        if self._known is None or self._known[0] != key:
            self._known = key, read_course(self.session, now, self._number)
            if self._number is not None and self._known[1].finished:
                self._rod, self._begun, self._box = None, True, None
            elif not self._known[1].finished:
                self._number = self._known[1].number
        course = self._known[1]
        now.people.update(
            people.read_people(
                self.session.file.conn,
                (r.person for r in self._rolls(course) if r.person not in now.people and r.person),
            )
        )
        if not self._begun or (self._rod is not None and course.turn(self._rod) is None):
            self._begun = True
            self._go_on(course)
        return course

    @staticmethod
    def _rolls(course: Course) -> list[Roll]:
        return [each.roll for each in course.boxed] + list(course.missing)

    def _go_on(self, course: Course) -> None:
        """Go to the next rod that has had no turn, or to the end; one that was left stays so."""
        numbers = [turn.rod.number for turn in course.turns]
        at = numbers.index(self._rod) + 1 if self._rod in numbers else 0
        ahead = [turn for turn in course.turns[at:] if not turn.done]
        self._to(ahead[0].rod.number if ahead else None)

    def _to(self, rod: int | None) -> None:
        self._rod, self._begun, self._box, self._scrolled = rod, True, None, 0

    def move(self, key: str) -> None:
        """Up and Down go from rod to rod; one that is left as it is says so in the list."""
        course = self._look(self.session.look())
        if course.finished and key not in ("page_up", "page_down"):
            self._begin_anew()
            return
        stops: list[int | None] = [*(turn.rod.number for turn in course.turns), None]
        at = stops.index(self._rod) if self._rod in stops else 0
        if key in ("up", "down"):
            self._leave(course)
            self._to(stops[max(0, min(at + (1 if key == "down" else -1), len(stops) - 1))])
        elif key in ("first", "last"):
            self._to(stops[0 if key == "first" else -1])
        elif key in ("page_up", "page_down"):
            self._scrolled = max(0, self._scrolled + (10 if key == "page_down" else -10))

    def _begin_anew(self) -> None:
        """Leave a finished sweep: the next one begins with the first rod."""
        self._number, self._known = None, None
        self._left.clear()
        self._begun, self._rod = False, None

    def _leave(self, course: Course) -> None:
        turn = course.turn(self._rod)
        if turn is not None and not turn.done:
            self._left.add(turn.rod.number)

    def choose(self, what: int) -> None:
        """A click on a rod goes to it."""
        if what == _ACTION:
            return
        course = self._look(self.session.look())
        if not course.finished:
            stops = [*(turn.rod.number for turn in course.turns), None]
            self._to(stops[what])

    def acts_on(self, what: int) -> bool:
        """Only in the right part is a second click Enter: in the list it would box a whole rod."""
        return what == _ACTION

    def select(self, roll: int) -> None:
        """Nothing is selected here: the rod is what is worked at."""

    def enter_does(self) -> str:
        """Return what Enter does to the rod, or at the end."""
        course = self._look(self.session.look())
        turn = course.turn(self._rod)
        if self._box is not None:
            return "back"
        if turn is None:
            return "print the slips" if course.finished else "finish"
        if turn.count is None and turn.not_dry:
            return "leave this rod"
        if turn.count is None:
            return f"{turn.expected} is right" if turn.expected else "it is empty"
        return "next rod" if turn.done else "that is all"

    def enter(self) -> Said:
        """The count is right; or that is all of them; or the end."""
        shown = self._look(self.session.look()).turn(self._rod)
        if self.session.changed():
            fresh = self._look(self.session.look()).turn(self._rod)
            if shown is not None and (fresh is None or _told(fresh) != _told(shown)):
                return Said(f"rod {self._rod}", "another desk changed it just now: look once more")
        course = self._look(self.session.look())
        turn = course.turn(self._rod)
        if self._box is not None:
            self._box = None
            return Said("")
        if turn is None:
            return print_slips(self.session) if course.finished else self._finish(course)
        if turn.count is None and turn.not_dry:
            self.move("down")
            few = f"{turn.not_dry} of {turn.expected} not dry"
            words = f"left hanging, {few}. Type the count to box them all the same"
            return Said(f"rod {turn.rod.number}", words)
        if turn.count is None:
            return self._count(turn, turn.expected)
        self._leave(course)
        self._go_on(course)
        return Said("")

    def takes(self, text: str) -> bool:
        """Scans, counts and places are the sweep's; names and other sentences are not."""
        line = meant(text)
        if line is None:
            return False
        course = self._look(self.session.look())
        return not (course.finished and line[0] in _LOOKED_UP)

    def take(self, text: str) -> Said | None:
        """Take a count, a clip or roll, a rod or a box. Raises Refused for what cannot be."""
        line = meant(text)
        if line is None:
            return None
        kind, value = line
        course = self._look(self.session.look())
        if kind == UNDO:
            return self._undo(course)
        if course.finished and kind == "count":
            raise Refused("the sweep is finished, so nothing is counted: “rod 3” begins another")
        if course.finished:
            self._begin_anew()
            course = self._look(self.session.look())
        if kind == "rod":
            return self._to_rod(course, int(value))
        if kind == "box":
            return self._to_box(int(value))
        turn = course.turn(self._rod)
        if turn is None and kind == "number" and self._box is None:
            # No rod is shown at the end, so a bare number is one that was left out, and no clip.
            return self._to_rod(course, int(value))
        untouched = turn is not None and turn.count is None and self._box is None
        if kind == "count" or (kind == "number" and untouched):
            if turn is None:
                raise Refused("which rod was counted is not said: go to it, or scan its label")
            return self._count(turn, int(value))
        return self._scan(course, text)

    def _count(self, turn: Turn, counted: int) -> Said:
        said = count(self.session, turn, counted)
        self._left.discard(turn.rod.number)
        after = self._again()
        now = after.turn(turn.rod.number)
        if now is not None and now.right:
            self._go_on(after)
        return said

    def _scan(self, course: Course, text: str) -> Said:
        said = scan(
            self.session,
            course,
            text,
            rod=None if self._box is not None else self._rod,
            box=self._box,
        )
        after = self._again()
        if self._rod is None and self._box is None:
            self._follow(course, after)
        turn = after.turn(self._rod)
        if turn is not None and turn.done and self._box is None:
            self._go_on(after)
            if turn.unseen:
                many = len(turn.unseen)
                words = f"Rod {turn.rod.number} is through, {many} not seen. {said.words}"
                return said._replace(words=words)
        return said

    def _finish(self, course: Course) -> Said:
        said = finish(self.session, course)
        self._to(None)
        self._again()
        return said

    def _undo(self, before: Course) -> Said:
        said = undo(self.session)
        after = self._again()
        self._follow(before, after)
        return said

    def _follow(self, before: Course, after: Course) -> None:
        """Go to the rod whose count has changed, if there is one."""
        for turn in after.turns:
            was = before.turn(turn.rod.number)
            if was is not None and was.count != turn.count:
                self._left.discard(turn.rod.number)
                self._to(turn.rod.number)
                break

    def _again(self) -> Course:
        """Look again after an act of this desk."""
        self.session.acted()
        return self._look(self.session.look())

    def _to_rod(self, course: Course, rod: int) -> Said:
        turn = course.turn(rod)
        if turn is None:
            numbers = ", ".join(str(each.rod.number) for each in course.turns)
            raise Refused(f"there is no rod {rod} in this sweep: it goes over the rods {numbers}")
        self._to(rod)
        return Said("")

    def _to_box(self, box: int) -> Said:
        room = self.session.file.room()
        if room.box(box) is None:
            numbers = ", ".join(str(known.number) for known in room.boxes)
            raise Refused(f"there is no box {box}: this room has the boxes {numbers}")
        self._box, self._scrolled = box, 0
        return Said("")

    def hint(self) -> str:
        """Say what is wanted of the hand at the cabinet."""
        course = self._look(self.session.look())
        turn = course.turn(self._rod)
        if self._box is not None:
            return "scan what lies in the box"
        if turn is None:
            return (
                "a rod's number goes there, pgup pgdn to read on"
                if not course.finished
                else "↓ another sweep"
            )
        if turn.count is None and turn.not_dry:
            return f"scan what is dry; Enter leaves rod {turn.rod.number}, {turn.expected} boxes it"
        if turn.count is None:
            return f"count rod {turn.rod.number}: Enter if it is {turn.expected}, else the number"
        return f"scan what hangs on rod {turn.rod.number}, or type the clip"


def _told(turn: Turn) -> tuple[object, ...]:
    return turn.count, tuple(each.roll.id for each in turn.hanging)
