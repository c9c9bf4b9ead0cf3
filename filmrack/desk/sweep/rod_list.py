"""The list of rods beside the sweep: how each stands, and whose turn it is."""

from __future__ import annotations

from typing import Literal

from rich.style import Style
from rich.text import Text

from filmrack.desk.ink import fitted, select, style, whose_rod
from filmrack.desk.now import Now
from filmrack.desk.sweep.course import SweepCourse
from filmrack.desk.sweep.place import SweepPlace
from filmrack.desk.sweep.rod_words import hangs
from filmrack.desk.sweep.turn import Turn
from filmrack.desk.themes import Palette

_NAME = 14
"""Cells of a rod's number and period."""

_Tone = Literal["plain", "quiet", "heed", "lost"]
"""How much a rod asks for attention: film to see to stands out, film that is missing most."""


def rod_list(
    now: Now, course: SweepCourse, place: SweepPlace, *, palette: Palette, width: int
) -> list[Text]:
    """Return a row for each rod and one for the end; the one where the desk is stands out."""
    rows = []
    for turn in course.turns:
        here = turn.rod.number == place.rod
        name = f"{turn.rod.number:>2} {whose_rod(turn.rod, now.room)}"
        words, tone = _stands(turn, course, place)
        row = Text.assemble(
            ("▸" if here else " ", style(palette.text, bold=True)),
            fitted(name, _NAME, style(palette.text, bold=here)),
            fitted(words, width - _NAME - 1, _ink(tone, palette)),
        )
        rows.append(select(row, palette) if here else row)
    at_end = place.rod is None
    words = "   swept" if course.finished else "   finish"
    end = Text.assemble(
        ("▸" if at_end else " ", style(palette.text, bold=True)),
        fitted(words, width - 1, style(palette.text, bold=at_end)),
    )
    return [*rows, select(end, palette) if at_end else end]


def _ink(tone: _Tone, palette: Palette) -> Style:
    match tone:
        case "plain":
            return style(palette.text)
        case "quiet":
            return style(palette.quiet)
        case "heed":
            return style(palette.flip, bold=True)
        case "lost":
            return style(palette.left, bold=True)


def _stands(turn: Turn, course: SweepCourse, place: SweepPlace) -> tuple[str, _Tone]:
    """Return how a rod stands: `6 should hang`, `3 boxed, 7 hang`, `1 of 6 missing`."""
    gone_from = course.finished or turn.closed or turn.rod.number in place.left
    if turn.count is None:
        passed_by = turn.rod.number != place.rod and turn.rod.number in course.passed_by
        return _untouched(turn, finished=course.finished, left=gone_from, passed_by=passed_by)
    unseen = max(len(turn.unseen), turn.lost)
    if turn.right or (turn.through and not unseen):
        if turn.lost:
            return f"{turn.lost} of {turn.own_in_all} missing", "lost"
        return _boxed(turn)
    if turn.explained and not course.finished:
        return "counted right", "heed"
    if turn.passed_over and gone_from:
        return _boxed(turn)
    if turn.looked_through and (turn.through or gone_from):
        return f"{unseen} of {turn.own_in_all} {'not seen' if turn.given_up else 'missing'}", "lost"
    counted, expected = turn.counted, turn.expected
    if counted is not None and not turn.count.matched + turn.seen + turn.extra:
        # No hand needs to scan where it has counted, so nothing is said of scans.
        less = counted < expected
        return f"{counted} of {expected} counted" if less else f"{counted}, not {expected}", "heed"
    of = expected - turn.gone if counted is None else counted
    return f"{turn.found_of_count} of {of} scanned", "heed"


def _untouched(turn: Turn, *, finished: bool, left: bool, passed_by: bool) -> tuple[str, _Tone]:
    """Return how a rod stands of which nothing is told."""
    hung = len(turn.hanging)
    if not hung:
        return "empty", "quiet"
    if finished:
        return f"{hung} not looked at", "heed"
    if left:
        return f"{hung} left hanging", "heed"
    return f"{hung} {'not counted' if passed_by else 'should hang'}", "plain"


def _boxed(turn: Turn) -> tuple[str, _Tone]:
    """Return what went to the boxes from a rod and what hangs on."""
    hung = len(turn.hanging)
    if not hung:
        return (f"{turn.boxed} boxed" if turn.boxed else "empty"), "quiet"
    return (f"{turn.boxed} boxed, {hangs(hung)}" if turn.boxed else f"{hung} left hanging"), "heed"
