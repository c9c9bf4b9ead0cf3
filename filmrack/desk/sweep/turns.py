"""What the sweep shows of a rod, of a box, and at the end."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from rich.text import Text

from filmrack.desk.now import Now
from filmrack.desk.said import capital
from filmrack.desk.sweep.course import SweepCourse, Turn
from filmrack.desk.sweep.numbers import count_words, without
from filmrack.desk.sweep.page import SweepPage
from filmrack.desk.sweep.ways import box_ahead, hangs, ways
from filmrack.domain.attention import Standing
from filmrack.domain.clip import clips_of
from filmrack.domain.clock import clock
from filmrack.domain.outlook import damp


def _rod_title(now: Now, turn: Turn) -> str:
    """Return `Rod 3, Block C`."""
    period = now.room.period(turn.rod.period)
    return f"Rod {turn.rod.number}" + (f", {period.name}" if period else "")


def draw_turn(page: SweepPage, turn: Turn, course: SweepCourse, enter: str) -> None:
    """Show one rod; `enter` is what Enter does."""
    page.title(_rod_title(page.now, turn))
    key = ("Enter", enter)
    if course.finished:
        what = "went to the boxes from here" if turn.count else "boxed: nobody looked at this rod"
        page.figure(turn.boxed, what, [key])
    elif turn.count is None:
        _draw_untouched(page, turn, enter)
    elif turn.right:
        what = "went to the boxes" if turn.expected else "hung there: the rod was empty"
        what += f", {_hanging(turn, ' on')}" if turn.hanging else ""
        page.figure(turn.boxed, what, [key, ("“undo”", "it was not so")])
    elif turn.cleared:
        page.figure(turn.scanned, _of(turn), [key, ("“undo”", "the last was wrong")])
    else:
        what = "what is dry" if turn.beside_wet else "what hangs there"
        keys = [("scan", "more" if turn.done else what), key, *_all_there(page, turn)]
        page.figure(turn.scanned, _of(turn), keys)
    _list(page, turn, course)


def _all_there(page: SweepPage, turn: Turn) -> list[tuple[str, str]]:
    """Return which count puts all that hangs there still into the boxes, and that it does.

    Where the last count says that not just these hang there, how that one is taken back.
    """
    still = len(turn.hanging)
    told = None if turn.count is None else turn.count.counted
    if not still:
        return []
    if told is not None and told - turn.boxed != still:
        return [*_missing_key(turn), *([] if turn.boxed else [("“undo”", f"it was not {told}")])]
    if not turn.dry:
        return [("“box all”", f"box {'it' if still == 1 else f'these {still}'} all the same")]
    room = page.now.room
    pairs = [(each.roll, box_ahead(room, turn.rod, each.roll)) for each in turn.hanging]
    to = ways(pairs, page.now.people, own=None)
    where = "into their boxes" if to.others or to.nowhere else f"into box {to.box}"
    whole = "boxes the one still here" if still == 1 else f"boxes all {still} still here"
    whole += without(turn)
    counts = [(f"“count {still}”", count_words(turn) if turn.not_dry else f"{whole}, {where}")]
    clip = turn.hanging[0].roll.clip
    if clip is None or not without(turn):
        return counts
    # A strip that strayed here often has one of this rod's own in its place.
    return [(f"“{clip} missing”", "if that one is not here"), *counts]


def _missing_key(turn: Turn) -> list[tuple[str, str]]:
    """Return which word says that one is missing, where fewer were counted than should hang."""
    if turn.done or not turn.short:
        return []
    others = len(turn.dry) - 1 if turn.short == 1 else 0
    does = ": boxes the others" + (" that are dry" if turn.not_dry else "") if others > 1 else ""
    return [("“NN missing”", f"clip NN is not there{does}")]


def _list(page: SweepPage, turn: Turn, course: SweepCourse) -> None:
    box = page.now.room.box_of(turn.rod.period)
    own = box.number if box else None
    unseen = turn.unseen if turn.count is not None and not turn.right else ()
    still = [each for each in turn.hanging if each not in unseen]

    def there(some: Iterable[Standing]) -> list[Text]:
        room = page.now.room
        return [page.hanging(s, box_ahead(room, turn.rod, s.roll), own_box=own) for s in some]

    heading = "not seen" if turn.done else "not seen yet"
    if turn.given_up:
        now = "" if turn.closed else "Enter now, and "
        heading += f": {now}{'it is' if len(unseen) == 1 else 'they are'} missing when you finish"
    if course.finished:
        heading = "not seen and not scanned, so they hang as before"
    if turn.passed_over:
        clip = turn.passed_over[0].roll.clip or 6
        heading = f"should be dry, not scanned: left hanging. Is one gone? Type “{clip} missing”"
    page.list_of(heading, there(unseen))
    page.list_of("should hang here" if turn.count is None else "left hanging", there(still))
    if course.finished or not turn.unseen:
        gone = [r for r in course.missing if r.seen.is_rod(turn.rod.number)]
        page.list_of("missing, last seen here", (page.sentence(r, str(r.seen)) for r in gone))
    page.list_of("found here", (page.found(each, own_box=own) for each in reversed(turn.found)))


def _draw_untouched(page: SweepPage, turn: Turn, enter: str) -> None:
    room, rod = page.now.room, turn.rod
    own = room.box_of(rod.period)
    pairs = [(each.roll, box_ahead(room, rod, each.roll)) for each in turn.hanging]
    to = ways(pairs, page.now.people, own=own.number if own else None)
    if not turn.expected:
        keys = [("Enter", enter), ("number", "type how many hang here"), ("↓", "pass it by")]
    else:
        # One box is named at the key, several in a sentence of their own below.
        where = "" if to.others or to.nowhere else f": {to.most}"
        where = f": {count_words(turn)}" if turn.not_dry else where
        keys = [("Enter", enter + ("" if page.asked else where))]
        keys += [("number", f"not {turn.expected}? Type how many")]
        keys += [("“NN wet”", "you find it wet: it hangs on")] if turn.dry else []
        keys += [("“box all”", "box what is damp too")] if turn.not_dry else []
        keys += [("↓", "pass it by")]
    page.figure(turn.expected, "should hang", keys)
    if turn.expected:
        clips = capital(clips_of(each.roll for each in turn.hanging))
        page.ask(
            f"{clips}. Do you see another number? Scan that clip first, or type “clip” and its"
            " number."
        )
    if to.others:
        most = f"{to.many} to box {to.box}"
        page.caution(f"More than one box: {most}, but {', '.join(to.elsewhere)}.")
    if to.nowhere:
        page.caution(f"{capital(to.staying)}.")
    if turn.not_dry:
        page.caution(f"By the clock: {turn.damp}. Damp film hangs on unless you scan it.")


def _hanging(turn: Turn, on: str = "") -> str:
    """Return what hangs on at a rod: `8 hang (5 wet, 2 to touch, 1 dry)`; `on` follows the verb."""
    gone = {each.roll.id for each in turn.given_up}
    states = [each.state for each in turn.hanging if each.roll.id not in gone]
    dry = states.count("dry")
    how = [each for each in (damp(states), f"{dry} dry" if dry else "") if each]
    return f"{hangs(len(states))}{on}" + (f" ({', '.join(how)})" if damp(states) else "")


def _left(turn: Turn) -> str:
    """Return what is left at a rod, so far as it is known: the record, or a count beside it."""
    told = None if turn.count is None or turn.looked_through else turn.count.counted
    if turn.count is not None and told is not None and told != turn.expected:
        return f"{turn.left_hanging} listed, {told} counted"  # so many hang by the record alone
    not_through = turn.scanning and not turn.looked_through and not turn.not_dry
    return _hanging(turn) + (", not all scanned" if not_through else "")


def _of(turn: Turn) -> str:
    assert turn.count is not None
    counted = turn.count.counted
    told = "" if counted is None else f"{counted} counted, "
    gone = f", {turn.gone} of them missing" if turn.gone else ""
    more = f". {turn.strays} more from elsewhere" if turn.strays else ""
    return f"scanned. {told}{turn.expected} should hang{gone}{more}"


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
    page.figure(len(course.in_boxes), "to the boxes", keys)
    for each in course.open:
        page.caution(f"{each.told if course.finished else each.asked}.")
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
        "in the wrong place, boxed now; noted before at",
        (page.sentence(each.roll, str(each.recorded)) for each in course.astray),
    )
    page.list_of(
        "unknown rolls", (page.sentence(each.roll, str(each.roll.place)) for each in course.unknown)
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
    if course.finished:
        clip = next((roll.clip for roll in named if roll.clip), 6)
        heading = (
            f"missing, last seen. Does one turn up? “{clip} box”; with its owner “{clip} take”"
        )
    page.list_of(heading, (page.sentence(roll, str(roll.seen)) for roll in named))
