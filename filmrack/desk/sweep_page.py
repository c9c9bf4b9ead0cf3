"""What the sweep shows: the list of rods, and the one whose turn it is, large."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence

from rich.style import Style
from rich.text import Text

from filmrack.desk.course import Course, Turn
from filmrack.desk.figures import large, small
from filmrack.desk.ink import (
    WORDS,
    fitted,
    select,
    short_name,
    style,
    wrapped,
)
from filmrack.desk.session import Now
from filmrack.desk.themes import Palette
from filmrack.domain.attention import Standing
from filmrack.domain.roll import Roll
from filmrack.store.findings import Finding

_ENTRY = 38
"""Cells of one roll in a list; as many columns are made as fit."""


class Page:
    """The right part of the screen, row by row."""

    def __init__(self, now: Now, palette: Palette, width: int, *, roomy: bool) -> None:
        self.now = now
        self.width = width
        self.rows: list[Text] = []
        self._palette = palette
        self._roomy = roomy
        self._strong = style(palette.text, bold=True)
        self._plain = style(palette.text)
        self._quiet = style(palette.quiet)

    def title(self, words: str) -> None:
        """Say in bold what this is about."""
        self.rows += [Text(words, style=self._strong), Text("")]

    def figure(self, number: int, what: str, keys: Sequence[tuple[str, str]]) -> None:
        """Show a number large, beside it what it counts and which key does what."""
        figure = large(number) if self._roomy else small(number)
        beside = [Text(what, style=self._strong)]
        if self._roomy:
            beside.append(Text(""))
        widest = max((len(key) for key, _ in keys), default=0)
        for key, words in keys:
            beside.append(Text.assemble((f"{key:<{widest}}  ", self._strong), (words, self._plain)))
        span = max(len(row) for row in figure) + 3
        for nth in range(max(len(figure), len(beside))):
            digits = figure[nth] if nth < len(figure) else ""
            row = Text.assemble((f"{digits:<{span}}", style(self._palette.dry, bold=True)))
            if nth < len(beside):
                row.append_text(beside[nth])
            self.rows.append(row)
        self.rows.append(Text(""))

    def caution(self, words: str) -> None:
        """Say what to beware of."""
        for row in wrapped(words, self.width):
            row.stylize(style(self._palette.flip, bold=True))
            self.rows.append(row)
        self.rows.append(Text(""))

    def remark(self, words: str) -> None:
        """Say something in passing; nothing for no words."""
        if words:
            self.rows += [*wrapped(words, self.width), Text("")]

    def list_of(self, heading: str, entries: Iterable[Text]) -> None:
        """Show a list in as many columns as fit; nothing for an empty one."""
        listed = list(entries)
        if not listed:
            return
        columns = max(1, self.width // _ENTRY)
        high = -(-len(listed) // columns)
        self.rows.append(Text(heading, style=self._quiet))
        for nth in range(high):
            row = Text("")
            for entry in listed[nth::high]:
                entry.truncate(self.width // columns - 1)
                entry.append(" " * (self.width // columns - entry.cell_len))
                row.append_text(entry)
            self.rows.append(row)
        self.rows.append(Text(""))

    def hanging(self, each: Standing, *, own_box: int | None) -> Text:
        """Return a roll that hangs: whose, how it is, and its box where that is another's."""
        entry = self._who(each.roll)
        state = each.state or ""
        how = style(self._palette.state(state), bold=state != "wet")
        entry.append_text(fitted(WORDS.get(state, ""), 6, how))
        box = self.now.room.box_of(each.roll.period)
        if box is not None and box.number != own_box:
            entry.append(f"box {box.number}", style=style(self._palette.flip, bold=True))
        return entry

    def found(self, each: Finding) -> Text:
        """Return a roll that was found: whose, and the box it is in now."""
        entry = self._who(each.roll)
        entry.append(f"{each.roll.place}", style=self._quiet)
        return entry

    def sentence(self, roll: Roll, words: str) -> Text:
        """Return a roll with some words about it."""
        entry = self._who(roll)
        entry.append(words, style=self._plain)
        return entry

    def _who(self, roll: Roll) -> Text:
        name = short_name(self.now.owner(roll))
        return Text.assemble(
            fitted(f"{roll.clip or '–'}".rjust(4), 6, self._strong),
            fitted(name, 13, self._plain),
            " ",
        )


def rod_title(now: Now, turn: Turn) -> str:
    """Return `Rod 3, Block C`."""
    period = now.room.period(turn.rod.period)
    return f"Rod {turn.rod.number}" + (f", {period.name}" if period else "")


def draw_turn(page: Page, turn: Turn) -> None:
    """Show the rod whose turn it is."""
    page.title(rod_title(page.now, turn))
    box = page.now.room.box_of(turn.rod.period)
    own_box = box.number if box else None
    if turn.count is None:
        _draw_untouched(page, turn)
    elif turn.right:
        what = "went to the boxes" if turn.expected else "hung there: the rod was empty"
        page.figure(turn.expected, what, [("Enter", "the next rod"), ("undo", "it was not so")])
    elif turn.done:
        page.figure(turn.scanned, _of(turn), [("Enter", "the next rod"), ("undo", "the last scan")])
    else:
        keys = [("scan", "what hangs there"), ("Enter", "that is all of them")]
        page.figure(
            turn.scanned, _of(turn), [*keys, (f"count {turn.expected}", "it was right after all")]
        )
    if turn.count is None:
        page.list_of(
            "by the record", (page.hanging(each, own_box=own_box) for each in turn.hanging)
        )
        return
    heading = "not seen" if turn.done else "not seen yet"
    page.list_of(heading, (page.hanging(each, own_box=own_box) for each in turn.unseen))
    there = [each for each in turn.hanging if each not in turn.unseen]
    page.list_of("hanging still", (page.hanging(each, own_box=own_box) for each in there))
    page.list_of("found", (page.found(each) for each in reversed(turn.found)))


def _draw_untouched(page: Page, turn: Turn) -> None:
    if turn.expected:
        right = f"{turn.expected} is right: {_boxes_in_words(page.now, turn)}"
        ways = [("Enter", right), ("a number", "you count another"), ("↓", "leave this rod")]
        if turn.not_dry:
            ways = [("Enter", "leave this rod"), (str(turn.expected), "box it all the same")]
        page.figure(turn.expected, "should hang", ways)
    else:
        page.figure(
            0,
            "should hang",
            [("Enter", "it is empty"), ("a number", "so many do"), ("↓", "leave it")],
        )
    if turn.not_dry:
        few = "1 is" if turn.not_dry == 1 else f"{turn.not_dry} are"
        page.caution(
            f"{few} not dry by the record, so Enter leaves this rod. To take down what is dry,"
            " scan it; to box all of it, type the count."
        )


def _of(turn: Turn) -> str:
    assert turn.count is not None
    counted = turn.count.counted
    if counted is None:
        return f"scanned, {turn.expected} should hang"
    return f"scanned of {counted}, {turn.expected} should hang"


def _boxes_in_words(now: Now, turn: Turn) -> str:
    boxes = {now.room.box_of(each.roll.period) for each in turn.hanging}
    numbers = sorted(box.number for box in boxes if box is not None)
    if len(numbers) == 1 and None not in boxes:
        return f"to box {numbers[0]}"
    return "to the boxes " + ", ".join(map(str, numbers)) if numbers else "to the boxes"


def draw_box(page: Page, box: int, found: Sequence[Finding], back: str) -> None:
    """Show a box that was scanned: what is scanned next lies in it."""
    page.title(f"Box {box}")
    there = [each for each in found if each.rod is None and each.box == box]
    keys = [("scan", "what lies in it"), ("Enter", f"back to {back}")]
    page.figure(len(there), "found in it", keys)
    page.list_of("found", (page.found(each) for each in reversed(there)))


def draw_end(page: Page, course: Course) -> None:
    """Show what the sweep comes to, before and after it is finished."""
    now = page.now
    page.title("Swept" if course.finished else "Finish the sweep")
    if course.finished:
        keys = [("Enter", "print the slips for the boxes"), ("↓", "another sweep")]
    else:
        keys = [("Enter", "finish"), ("↑", "back to the rods")]
    page.figure(len(course.boxed), "to the boxes", keys)
    by_box = Counter(
        each.roll.place.number for each in course.boxed if each.roll.place.kind == "box"
    )
    page.remark(", ".join(f"{many} in box {box}" for box, many in sorted(by_box.items(), key=str)))
    page.list_of(
        "missing, last seen" if course.finished else "not seen: missing when you finish",
        (page.sentence(roll, str(roll.seen)) for roll in course.missing),
    )
    page.list_of(
        "not looked at, they hang as before; a rod's number goes there",
        (Text(f"  {rod_title(now, turn)}: {len(turn.hanging)}") for turn in course.passed_by),
    )
    page.list_of(
        "in the wrong place, by the record at",
        (page.sentence(each.roll, str(each.recorded)) for each in course.astray),
    )
    page.list_of(
        "unknown rolls", (page.sentence(each.roll, str(each.roll.place)) for each in course.unknown)
    )


def rod_list(
    now: Now,
    course: Course,
    *,
    current: int | None,
    left: frozenset[int],
    palette: Palette,
    width: int,
) -> list[Text]:
    """Return a row for each rod and one for the end; `current` is None at the end."""
    rows = []
    for turn in course.turns:
        here = turn.rod.number == current
        period = now.room.period(turn.rod.period)
        name = period.name if period else f"no {now.room.period_word}"
        words, how = _words(turn, palette, left=turn.rod.number in left or course.finished)
        head = Text.assemble(
            ("▸" if here else " ", style(palette.text, bold=True)),
            fitted(f"{turn.rod.number:>2} {name}", 14, style(palette.text, bold=here)),
        )
        head.append_text(fitted(words, width - 15, how))
        rows.append(head)
    end = Text("▸" if current is None else " ", style=style(palette.text, bold=True))
    words = "   swept" if course.finished else "   finish"
    end.append_text(fitted(words, width - 1, style(palette.text, bold=current is None)))
    rows.append(end)
    chosen = next((n for n, t in enumerate(course.turns) if t.rod.number == current), -1)
    rows[chosen] = select(rows[chosen], palette)
    return rows


def _words(turn: Turn, palette: Palette, *, left: bool) -> tuple[str, Style]:
    plain, quiet = style(palette.text), style(palette.quiet)
    hung = len(turn.hanging)
    if turn.count is None:
        if left and hung:
            return f"{hung} left hanging", style(palette.flip, bold=True)
        return (f"{hung} should hang", plain) if hung else ("empty", quiet)
    if turn.right:
        since = f", {hung} since" if hung else ""
        return (f"{turn.expected} boxed{since}" if turn.expected else f"empty{since}"), quiet
    unseen = max(len(turn.unseen), turn.lost)
    if turn.done and not unseen:
        return f"{turn.scanned} boxed", quiet
    if turn.count.looked_through and (turn.done or left):
        return f"{turn.scanned} found, {unseen} not", style(palette.left, bold=True)
    counted = turn.expected if turn.count.counted is None else turn.count.counted
    return f"{turn.scanned} of {counted} scanned", style(palette.flip, bold=True)
