"""The sweep at the open cabinet: one key a rod whose count is right, one scan a roll where not."""

from __future__ import annotations

from rich.text import Text

from filmrack.acts import sweeping, undoing
from filmrack.desk.course import Course, Turn, read_course
from filmrack.desk.ink import short_name, style
from filmrack.desk.lines import Spot
from filmrack.desk.sentences import Said
from filmrack.desk.session import Now, Session
from filmrack.desk.sweep_page import Page, draw_box, draw_end, draw_turn, rod_list
from filmrack.desk.view import View
from filmrack.domain.asking import parse
from filmrack.domain.codes import read
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.store import people, rolls

_LIST = 34
_NARROW_LIST = 31
_ROOMY = 24
"""Rows from which figures are large and the rods stand apart."""
_ACTION = -1
"""The spot of the right part: a second click on it is Enter."""
_UNDO = "undo"


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
        now = self.session.look()
        course = self._look(now)
        if course.finished:
            if key in ("page_up", "page_down"):
                self._scrolled += 10 if key == "page_down" else -10
                return
            self._number, self._known = None, None
            self._left.clear()
            self._begun, self._rod = False, None
            self._look(now)
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
            return self._print() if course.finished else self._finish(course)
        if turn.count is None:
            return self._count(turn, turn.expected)
        self._leave(course)
        self._go_on(course)
        return Said("")

    def _count(self, turn: Turn, counted: int) -> Said:
        number, session = turn.rod.number, self.session
        if counted > 2 * turn.rod.positions:
            raise Refused(
                f"{counted} rolls cannot hang on rod {number}, which has {turn.rod.positions}"
                f" positions: if you mean the clip, type clip {counted}"
            )
        hanging = len(turn.hanging)
        swept = sweeping.sweep(session.file, session.hand(), counts={number: counted})
        self._left.discard(number)
        course = self._again()
        if counted != hanging:
            return Said(
                f"rod {number}: {counted}, not {hanging}",
                "scan what hangs there, clip by clip. Wrong? Type undo",
                done=True,
            )
        boxed = rolls.by_ids(session.file.conn, swept.boxed)
        self._go_on(course)
        return Said(*self._to_the_boxes(turn, boxed), done=True)

    def _to_the_boxes(self, turn: Turn, boxed: list[Roll]) -> tuple[str, str]:
        """Say which box each roll of a rod goes to: most of them to its own period's."""
        name = f"rod {turn.rod.number}"
        if not boxed:
            return f"{name}: empty", "as it should be. Wrong? Type undo"
        numbers = [roll.place.number for roll in boxed]
        most = max(numbers, key=numbers.count)
        others = [
            f"{self._which(roll)} to box {roll.place.number}"
            for roll in boxed
            if roll.place.number != most
        ]
        words = "; ".join(["" if not others else "but " + others[0], *others[1:]])
        return f"{name}: {numbers.count(most)} to box {most}", f"{words}. Wrong? Type undo".lstrip(
            ". "
        )

    def _which(self, roll: Roll) -> str:
        what = f"clip {roll.clip}" if roll.clip else roll.number
        return f"{what} ({self._whose(roll)})"

    def _whose(self, roll: Roll) -> str:
        if roll.person is None:
            return "unknown roll"
        return short_name(people.read_people(self.session.file.conn, [roll.person])[roll.person])

    def _again(self) -> Course:
        """Look again after an act of this desk."""
        self.session.acted()
        return self._look(self.session.look())

    def takes(self, text: str) -> bool:
        """Scans, counts and places are the sweep's; names and other sentences are not."""
        return _meant(text) is not None

    def take(self, text: str) -> Said | None:
        """Take a count, a clip or roll, a rod or a box. Raises Refused for what cannot be."""
        meant = _meant(text)
        if meant is None:
            return None
        kind, value = meant
        course = self._look(self.session.look())
        if course.finished and kind != _UNDO:
            self.move("down")
            course = self._look(self.session.look())
        turn = course.turn(self._rod)
        if kind == _UNDO:
            return self._undo(course)
        if kind == "rod":
            return self._to_rod(course, int(value))
        if kind == "box":
            return self._to_box(int(value))
        if kind == "count" or (kind == "number" and turn and turn.count is None and not self._box):
            if turn is None:
                raise Refused(
                    "which rod was counted is not said: go to it first, or scan its label"
                )
            return self._count(turn, int(value))
        return self._scan(course, text)

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

    def _scan(self, course: Course, text: str) -> Said:
        words, session = text, self.session
        box = self._box
        parts = parse(text)
        if len(parts) == 2:
            words, box = f"{parts[0].kind} {parts[0].value}", int(parts[1].value)
            if parts[0].kind in ("number", "roll"):
                words = parts[0].value
        scan = sweeping.scanned(session.file, words, box=box)
        before = None if scan.roll is None else rolls.by_id(session.file.conn, scan.roll)
        standing = next((s for s in session.look().hanging if s.roll.id == scan.roll), None)
        rod = None if self._box is not None else self._found_on(course, before)
        scan = sweeping.Scan(scan.roll, scan.clip, rod, box)
        swept = sweeping.sweep(session.file, session.hand(), scans=[scan])
        after = self._again()
        if not swept.found:
            assert before is not None
            return Said(
                f"{before.clip or before.number} → {self._whose(before)}",
                f"was found before, and is in {before.place}",
            )
        roll = rolls.by_id(session.file.conn, swept.found[0])
        headline = f"{roll.clip or roll.number} → {self._whose(roll)}, {roll.place}"
        turn = after.turn(self._rod)
        if turn is not None and turn.done and self._box is None:
            self._go_on(after)
        remarks = []
        if swept.unknown:
            remarks.append("no record explains it")
        elif swept.wrong_place and before is not None and rod != before.place.number:
            remarks.append(f"found in the wrong place: by the record {before.place}")
        if standing is not None and standing.state != "dry":
            remarks.append("not dry by the record: touch both ends")
        if turn is not None and turn.done and turn.unseen and self._box is None:
            remarks.append(f"rod {turn.rod.number} is through, {len(turn.unseen)} not seen")
        return Said(headline, ". ".join([*remarks, "Wrong? Type undo"]), done=True)

    def _found_on(self, course: Course, roll: Roll | None) -> int | None:
        """Return the rod on which a scan was made: the one whose turn it is.

        As long as nothing is told of that one, what is still looked for on a rod that was scanned
        belongs there: the hand was not through with it.
        """
        turn = course.turn(self._rod)
        if turn is None:
            return None
        if turn.count is None and roll is not None and roll.place.kind == "rod":
            recorded = course.turn(roll.place.number)
            if recorded is not None and recorded.scanning:
                return recorded.rod.number
        return turn.rod.number

    def _undo(self, before: Course) -> Said:
        undone = undoing.undo(self.session.file, self.session.hand())
        after = self._again()
        for turn in after.turns:
            was = before.turn(turn.rod.number)
            if was is not None and was.count != turn.count:
                self._left.discard(turn.rod.number)
                self._to(turn.rod.number)
                break
        count = len(undone.rolls)
        what = f"{count} roll{'s' if count != 1 else ''} as before" if count else "the last count"
        return Said("taken back", f"{what}. Again goes one further back", done=True)

    def _finish(self, course: Course) -> Said:
        if course.number is None:
            raise Refused("nothing was counted or scanned yet: go to a rod and count it")
        session = self.session
        swept = sweeping.sweep(session.file, session.hand(), finish=True)
        self._to(None)
        self._again()
        missing = rolls.by_ids(session.file.conn, swept.missing)
        names = ", ".join(self._which(roll) for roll in missing[:3])
        more = f" and {len(missing) - 3} more" if len(missing) > 3 else ""
        words = f"missing: {names}{more}" if missing else "nothing is missing"
        return Said(
            f"swept: {len(course.boxed)} to the boxes", f"{words}. Wrong? Type undo", done=True
        )

    def _print(self) -> Said:
        from filmrack.acts import labelling

        session = self.session
        local = session.now.astimezone(session.file.room().timetable.zone)
        out = session.path.with_name(f"sweep-slips-{local:%Y-%m-%d-%H%M}.pdf")
        order = labelling.order(session.file, "sweepslip", [], session.now)
        labelling.print_order(session.file, order, out)
        pages = len(order.pages)
        return Said(
            f"{pages} slip{'s' if pages != 1 else ''} to print",
            f"{out}: one for each box",
            done=True,
        )

    def hint(self) -> str:
        """Say what is wanted of the hand at the cabinet."""
        course = self._look(self.session.look())
        turn = course.turn(self._rod)
        if self._box is not None:
            return "scan what lies in the box"
        if turn is None:
            return (
                "pgup pgdn to read on, ↑ to the rods" if not course.finished else "↓ another sweep"
            )
        if turn.count is None:
            return f"count rod {turn.rod.number}: Enter if it is {turn.expected}, else the number"
        return f"scan what hangs on rod {turn.rod.number}, or type the clip"


def _told(turn: Turn) -> tuple[object, ...]:
    return turn.count, tuple(each.roll.id for each in turn.hanging)


def _meant(text: str) -> tuple[str, str] | None:
    """Return what a line is to a sweep, as a kind and its value; None if it is not for it."""
    words = text.split()
    folded = [word.casefold() for word in words]
    code = read(text)
    if folded == [_UNDO] or (code is not None and (code.kind, code.body) == ("X", "UNDO")):
        return _UNDO, ""
    if len(folded) == 2 and folded[0] == "count" and words[1].isascii() and words[1].isdecimal():
        return ("count", words[1]) if len(words[1]) <= 3 else None
    try:
        parts = parse(text)
    except Refused:
        return None
    kinds = [part.kind for part in parts]
    things = ("number", "clip", "roll")
    if len(parts) == 1 and kinds[0] in (*things, "rod", "box"):
        kind = "roll" if kinds[0] == "number" and len(parts[0].value) > 3 else kinds[0]
        return kind, parts[0].value
    if len(parts) == 2 and kinds[0] in things and kinds[1] == "box":
        return "roll", parts[0].value
    return None
