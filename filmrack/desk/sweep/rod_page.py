"""What the sweep shows of the rod whose turn it is: before it is counted, and from then on."""

from __future__ import annotations

from collections.abc import Iterable

from rich.text import Text

from filmrack.desk.now import Now
from filmrack.desk.said import capital
from filmrack.desk.sweep.course import SweepCourse
from filmrack.desk.sweep.page import SweepPage
from filmrack.desk.sweep.rod_words import count_does, hanging_words, to_type, without_strays
from filmrack.desk.sweep.turn import Turn
from filmrack.desk.sweep.ways import Ways, box_ahead, ways
from filmrack.domain.attention import Standing
from filmrack.domain.clip import clips_of

Key = tuple[str, str]
"""What to press or type, and what that does."""


def draw_turn(page: SweepPage, turn: Turn, course: SweepCourse, enter: str) -> None:
    """Show one rod; `enter` is what Enter does."""
    page.title(_rod_title(page.now, turn))
    if course.finished:
        what = "went to the boxes from here" if turn.count else "boxed: nobody looked at this rod"
        page.figure(turn.boxed, what, [("Enter", enter)])
    elif turn.count is None:
        _draw_untouched(page, turn, enter)
    elif turn.right:
        was_empty = not (turn.expected or turn.hanging)
        what = "hung there: the rod was empty" if was_empty else "went to the boxes"
        what += f", {hanging_words(turn, ' on')}" if turn.hanging else ""
        page.figure(turn.boxed, what, [("Enter", enter), ("“undo”", "it was not so")])
    elif turn.cleared:
        keys = [("Enter", enter), ("“undo”", "the last was wrong")]
        page.figure(*_figure(turn), keys)
    elif turn.explained:
        page.figure(*_figure(turn), _explained_keys(page, turn, enter))
    elif turn.only_strays:
        keys = [("scan", "what else is not listed"), *_explained_keys(page, turn, enter)]
        page.figure(*_figure(turn), [*keys, *_stray_key(turn), ("↓", "pass it by")])
    else:
        what = "what is dry" if turn.beside_wet else "what hangs there"
        what = "only what is not listed" if turn.asks_for_more and turn.hanging else what
        keys = [("scan", "more" if turn.through else what), ("Enter", enter)]
        page.figure(*_figure(turn), [*keys, *_for_the_rest(page, turn)])
    _list(page, turn, course)


def _rod_title(now: Now, turn: Turn) -> str:
    """Return `Rod 3, Block C`."""
    period = now.room.period(turn.rod.period)
    return f"Rod {turn.rod.number}" + (f", {period.name}" if period else "")


def _draw_untouched(page: SweepPage, turn: Turn, enter: str) -> None:
    own = page.now.room.box_of(turn.rod.period)
    to = _ways(page.now, turn, own=own.number if own else None)
    page.figure(turn.expected, "should hang", _untouched_keys(page, turn, to, enter))
    if turn.expected and page.roomy:
        # A right number of strips can hide one that is missing and one that strayed there.
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
    if turn.not_dry and page.roomy:
        page.caution(f"Not dry: {turn.not_dry_words}. That hangs on unless you box it.")


def _untouched_keys(page: SweepPage, turn: Turn, to: Ways, enter: str) -> list[Key]:
    """Return what can be said of a rod of which nothing is told."""
    if not turn.expected:
        return [("Enter", enter), ("number", "type how many hang here"), ("↓", "pass it by")]
    # One box is named at the key, several in a sentence of their own below.
    does = "" if to.others or to.nowhere else to.most
    does = count_does(turn) if turn.not_dry else does
    keys = [("Enter", enter if page.is_asked or not does else f"{enter}: {does}")]
    keys += [("number", f"not {turn.expected}? Type how many")]
    if not page.roomy:
        return keys
    keys += [("“NN wet”", "you find it wet: it hangs on")] if turn.dry else []
    keys += [("“box all”", "box what is not dry too")] if turn.not_dry else []
    return [*keys, ("↓", "pass it by")]


def _explained_keys(page: SweepPage, turn: Turn, enter: str) -> list[Key]:
    """Return what can be said where a count agrees with what was found and missed since, or only
    strays were found.
    """
    to = _ways(page.now, turn, own=None)
    where = "into their boxes" if to.others or to.nowhere else f"into box {to.box}"
    many = len(turn.hanging)
    without = without_strays(turn) if turn.only_strays else ""
    does = f"box {'it' if many == 1 else 'all'}{without}, {where}"
    does = count_does(turn) if turn.not_dry else does
    return [("Enter", enter if page.is_asked else f"{enter}: {does}"), ("“undo”", "it was not so")]


def _for_the_rest(page: SweepPage, turn: Turn) -> list[Key]:
    """Return what boxes all that hangs there still in one go.

    Where the last count says that not just these hang there, that is a word for which is missing,
    and how the count is taken back.
    """
    still = len(turn.hanging)
    if turn.unclear:
        back = [] if turn.boxed else [("“undo”", f"it was not {turn.counted}")]
        return [*_missing_key(page, turn), *back]
    if not still:
        return []
    if not turn.dry:
        return [("“box all”", f"box {'it' if still == 1 else f'these {still}'} all the same")]
    return _count_keys(page.now, turn)


def _count_keys(now: Now, turn: Turn) -> list[Key]:
    """Return which count says that just those hang there still, and what it does."""
    still, to = len(turn.hanging), _ways(now, turn, own=None)
    where = "into their boxes" if to.others or to.nowhere else f"into box {to.box}"
    boxes = "boxes the one still here" if still == 1 else f"boxes all {still} still here"
    does = count_does(turn) if turn.not_dry else f"{boxes}{without_strays(turn)}, {where}"
    return [*_stray_key(turn), (f"“count {still}”", does)]


def _stray_key(turn: Turn) -> list[Key]:
    """Return how one is missing that has a stray in its place, as often is so."""
    clip = turn.hanging[0].roll.clip
    if clip is None or not turn.strays:
        return []
    return [(f"“{clip} missing”", "if that one is not here")]


def _missing_key(page: SweepPage, turn: Turn) -> list[Key]:
    """Return which word says that one is missing, where fewer were counted than should hang; on a
    low screen only where it does more, for the heading of the list says the other.
    """
    if turn.through or not turn.short:
        return []
    others = len(turn.dry) - 1 if turn.short == 1 else 0
    boxes = "boxes the others" + (" that are dry" if turn.not_dry else "") if others > 1 else ""
    if not page.roomy:
        return [("“NN missing”", boxes)] if boxes else []
    return [("“NN missing”", "clip NN is not there" + (f": {boxes}" if boxes else ""))]


def _figure(turn: Turn) -> tuple[int, str]:
    """Return the number that a rod comes to so far, and what it is of: 5, `counted, 6 should hang`;
    from the first scan on 2, `scanned. 5 counted, 6 should hang`.
    """
    of = f"{turn.expected} should hang" + (f", {turn.gone} of them missing" if turn.gone else "")
    if turn.counted is not None and (turn.explained or (turn.answered and not turn.off)):
        of += f", {turn.extra} more from elsewhere" if turn.extra else ""
        boxed = f". {turn.boxed} boxed so far" if turn.boxed else ""
        return turn.counted, f"counted, {of}: that is right{boxed}"
    if turn.counted is not None and turn.answered:
        return turn.counted, f"counted, {of}"
    told = "" if turn.counted is None else f"{turn.counted} counted, "
    more = f". {turn.extra} more from elsewhere" if turn.extra else ""
    return turn.scanned + turn.seen, f"scanned. {told}{of}{more}"


def _ways(now: Now, turn: Turn, *, own: int | None) -> Ways:
    pairs = [(each.roll, box_ahead(now.room, turn.rod, each.roll)) for each in turn.hanging]
    return ways(pairs, now.people, own=own)


def _list(page: SweepPage, turn: Turn, course: SweepCourse) -> None:
    """List the strips of the rod: not seen, hanging, missing, found."""
    room = page.now.room
    box = room.box_of(turn.rod.period)
    own = box.number if box else None

    def there(some: Iterable[Standing]) -> list[Text]:
        return [page.hanging(s, box_ahead(room, turn.rod, s.roll), own_box=own) for s in some]

    unseen = turn.unseen if turn.count is not None and not turn.right else ()
    still = [each for each in turn.hanging if each not in unseen]
    page.list_of(_unseen_heading(page, turn, course, len(unseen)), there(unseen))
    page.list_of(_hanging_heading(page, turn), there(still))
    if course.finished or not turn.unseen:
        gone = [r for r in course.missing if r.seen.is_rod(turn.rod.number)]
        page.list_of("missing, last seen here", (page.sentence(r, str(r.seen)) for r in gone))
    page.list_of("found here", (page.found(each, own_box=own) for each in reversed(turn.found)))


def _hanging_heading(page: SweepPage, turn: Turn) -> str:
    if turn.count is not None:
        return "left hanging"
    return "should hang here" + ("" if page.roomy or not turn.dry else "; is one wet? “NN wet”")


def _unseen_heading(page: SweepPage, turn: Turn, course: SweepCourse, unseen: int) -> str:
    if turn.passed_over:
        gone = to_type([each.roll for each in turn.passed_over])
        return f"should be dry, not scanned: left hanging. Is one gone? Type “{gone} missing”"
    if course.finished:
        return "not seen and not scanned, so they hang as before"
    heading = "not seen" if turn.through else "not seen yet"
    if turn.given_up and not page.is_asked:
        now = "" if turn.closed else "Enter now, and "
        heading += f": {now}{'it is' if unseen == 1 else 'they are'} missing when you finish"
    elif turn.short and not (turn.through or page.roomy or _missing_key(page, turn)):
        heading += "; one not there? “NN missing”"
    return heading
