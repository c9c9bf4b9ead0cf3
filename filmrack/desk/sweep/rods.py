"""The list of rods beside the sweep: how each stands, and whose turn it is."""

from __future__ import annotations

from rich.style import Style
from rich.text import Text

from filmrack.desk.ink import fitted, select, style, whose_rod
from filmrack.desk.now import Now
from filmrack.desk.sweep.course import SweepCourse, Turn
from filmrack.desk.themes import Palette


def rod_list(
    now: Now,
    course: SweepCourse,
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
        gone_from = turn.rod.number in left or turn.closed or course.finished
        passed = not here and turn.rod.number in course.passed_by
        if course.finished and turn.count is None and turn.hanging:
            words, how = f"{len(turn.hanging)} not looked at", style(palette.flip, bold=True)
        else:
            words, how = _words(turn, palette, left=gone_from, passed=passed)
        name = f"{turn.rod.number:>2} {whose_rod(turn.rod, now.room)}"
        head = Text.assemble(
            ("▸" if here else " ", style(palette.text, bold=True)),
            fitted(name, 14, style(palette.text, bold=here)),
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


def _words(turn: Turn, palette: Palette, *, left: bool, passed: bool) -> tuple[str, Style]:
    plain, quiet = style(palette.text), style(palette.quiet)
    hung = len(turn.hanging)
    if turn.count is None:
        if left and hung:
            return f"{hung} left hanging", style(palette.flip, bold=True)
        if passed and hung:
            return f"{hung} not counted", plain
        return (f"{hung} should hang", plain) if hung else ("empty", quiet)
    unseen = max(len(turn.unseen), turn.lost)
    if turn.right or (turn.done and not unseen):
        more = f", {hung} hang{'s' if hung == 1 else ''}" if hung else ""
        if turn.lost:
            return f"{turn.lost} of {turn.listed} missing", style(palette.left, bold=True)
        if more:
            how = style(palette.flip, bold=True)
            return (f"{turn.boxed} boxed{more}" if turn.boxed else f"{hung} left hanging"), how
        return (f"{turn.boxed} boxed" if turn.boxed else "empty"), quiet
    if turn.passed_over and left:
        stay = f"{hung} hang{'s' if hung == 1 else ''}"
        return f"{turn.boxed} boxed, {stay}", style(palette.flip, bold=True)
    if turn.looked_through and (turn.done or left):
        return f"{unseen} of {turn.listed} {'not seen' if turn.given_up else 'missing'}", style(
            palette.left, bold=True
        )
    told = turn.count.counted
    if (
        told is not None and not turn.count.matched + turn.count.extra
    ):  # no hand needs to scan where it has counted
        short = told < turn.expected
        words = f"{told} of {turn.expected} counted" if short else f"{told}, not {turn.expected}"
        return words, style(palette.flip, bold=True)
    counted = turn.expected - turn.gone if told is None else told
    return f"{turn.scanned} of {counted} scanned", style(palette.flip, bold=True)
