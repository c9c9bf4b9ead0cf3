"""What the sweep shows of a box, and at the end."""

from __future__ import annotations

from collections import Counter

from rich.text import Text

from filmrack.desk.sweep.course import SweepCourse
from filmrack.desk.sweep.page import SweepPage
from filmrack.desk.sweep.rod_words import hanging_words, to_type
from filmrack.desk.sweep.turn import Turn
from filmrack.domain.clock import clock


def draw_box(page: SweepPage, box: int, course: SweepCourse, enter: str) -> None:
    """Show a box that was scanned: what is scanned next lies in it, or what the sweep put there."""
    page.title(f"Box {box}")
    if course.finished:
        there = [each for each in course.boxed if each.box == box]
        page.figure(len(there), "put in it by the sweep", [("Enter", enter)])
    else:
        there = [each for each in course.boxed if each.rod is None and each.box == box]
        page.figure(len(there), "found in it", [("scan", "what lies in it"), ("Enter", enter)])
    page.list_of("found", (page.found(each, own_box=box) for each in reversed(there)))


def draw_end(page: SweepPage, course: SweepCourse, enter: str) -> None:
    """Show what the sweep comes to, before and after it is finished."""
    now = page.now
    page.title("Swept" if course.finished else "Finish the sweep")
    if course.finished:
        keys = [("Enter", enter)] if enter else [("“slips”", "once more as a PDF")]
        keys += [("↑ ↓", "look at a rod"), ("“sweep again”", "begin another")]
    else:
        keys = [("Enter", enter), ("↑", "back to the rods")]
    page.figure(len(course.in_boxes), f"to the boxes{course.taken_since}", keys)
    page.caution(*(f"{each.told if course.finished else each.asked}." for each in course.open))
    if course.changed and enter:
        when = clock(course.changed, now.room.timetable.zone, now.at)
        page.caution(f"Found or missed at {when}: slips printed before that are out of date.")
    by_box = Counter(roll.place.number for roll in course.in_boxes if roll.place.kind == "box")
    page.remark(", ".join(f"{many} in box {box}" for box, many in sorted(by_box.items(), key=str)))
    _list_missing(page, course)
    page.list_of(
        "was missing and turned up; it is now",
        (page.sentence(roll, str(roll.place)) for roll in course.turned_up),
    )
    there = "" if course.finished else "; a rod's number goes there"
    left = [turn for turn in course.turns if turn.left_hanging and turn.count is not None]
    for heading, turns in ("not looked at", course.not_looked_at), ("left hanging", left):
        page.list_of(
            f"{heading}{there}",
            (Text(f"Rod {t.rod.number}: {_left(t)}") for t in turns),
        )
    page.list_of(
        "of these should be dry and were not scanned",
        (
            page.sentence(each.roll, str(each.roll.place))
            for turn in course.turns
            for each in turn.passed_over
        ),
    )
    page.list_of(
        "in the wrong place, boxed now; noted before",
        (
            page.sentence(each.roll, each.recorded.as_noted)
            for each in course.astray
            if each.recorded is not None
        ),
    )
    page.list_of(
        "unknown rolls, boxed now",
        (page.sentence(each.roll, str(each.roll.place)) for each in course.unknown),
    )


def _list_missing(page: SweepPage, course: SweepCourse) -> None:
    """List what is missing by a hand's word or since the end, apart from what is when it comes."""
    named = [roll for roll in course.missing if roll.place.kind == "missing"]
    given_up = [roll for roll in course.missing if roll.place.kind != "missing"]
    page.list_of(
        "not seen: missing when you finish. If you find one, scan it",
        (page.sentence(roll, str(roll.seen)) for roll in given_up),
    )
    heading = "missing, last seen. Does one turn up? Scan it"
    if course.finished and named:
        one = to_type(named)
        heading = f"missing, last seen. Does one turn up? “{one} box”; with its owner “{one} take”"
    page.list_of(heading, (page.sentence(roll, str(roll.seen)) for roll in named))


def _left(turn: Turn) -> str:
    """Return what is left at a rod, so far as it is known: the record, or a count beside it."""
    if turn.unclear and not turn.looked_through:
        # So many hang by the record alone.
        return f"{turn.counted} counted, {turn.left_hanging} should hang"
    not_through = (
        turn.scanning and not turn.explained and not turn.looked_through and not turn.not_dry
    )
    return hanging_words(turn) + (", not all scanned" if not_through else "")
