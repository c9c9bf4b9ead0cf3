"""What a count of a rod does, and the words that go with one: what is dry, what is missing."""

from __future__ import annotations

from collections.abc import Sequence

from filmrack.acts import lending, scans, sweeping
from filmrack.desk.said import WRONG, Said
from filmrack.desk.session import Session
from filmrack.desk.sweep.course import SweepCourse, Turn
from filmrack.desk.sweep.numbers import most
from filmrack.desk.sweep.remarks import headline_of, of_closed_terms, owners_of, sentences
from filmrack.desk.sweep.ways import box_ahead, hangs, ways
from filmrack.domain.attention import Standing
from filmrack.domain.clip import clips_of
from filmrack.domain.outlook import damp
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.domain.student_desk import refuse_roll
from filmrack.store import rolls


def count(session: Session, turn: Turn, counted: int, *, damp_too: bool = False) -> Said:
    """Tell the count of a rod: when it is what hangs there still, all that is dry goes to the
    boxes, and with `damp_too` the rest too.

    A rod that is being scanned may be counted whole too: what hangs there still hangs on then.
    Raises Refused for more than can hang there: a clip's number was typed, most likely.
    """
    number, hanging = turn.rod.number, len(turn.hanging)
    if counted > most(turn.rod):
        raise Refused(
            f"{counted} rolls cannot hang on rod {number}, which has {turn.rod.positions}"
            f" positions: if you mean the clip, type clip {counted}"
        )
    swept = sweeping.sweep(
        session.file, session.hand(), counts={number: counted}, damp_too=damp_too
    )
    if counted != hanging and turn.scanning and counted == turn.expected:
        stay = "hangs" if hanging == 1 else "hang"
        words = f"{turn.boxed} boxed, {hanging} {stay} on: “box all” boxes"
        words = f"{words} {'it' if hanging == 1 else 'them'} too" if hanging else "all is boxed"
        return Said(f"rod {number}: {counted} is right", f"{words}. {WRONG}", done=True)
    if counted != hanging and counted == hanging + turn.scanned:
        them = "it" if hanging == 1 else "them"
        words = (
            f"{turn.scanned} boxed. Scan what hangs there still, or “count {hanging}” boxes {them}"
        )
        return Said(f"rod {number}: {counted} counted", f"{words}. {WRONG}", done=True)
    if counted != hanging:
        listed = hanging + turn.scanned
        whole = f"{counted} counted, {listed} listed"
        words = f"{_to_find(turn, listed - counted)}. {WRONG}"
        if not counted:
            gone, them = ("this one is", "it") if hanging == 1 else (f"these {hanging} are", "them")
            words = f"{gone} missing when you finish, unless you find and scan {them}. {WRONG}"
        return Said(f"rod {number}: {whole}", words, done=True)
    if not hanging:
        return Said(f"rod {number}: empty", f"as it should be. {WRONG}", done=True)
    own = session.file.room().box_of(turn.rod.period)
    kept = rolls.by_ids(session.file.conn, swept.no_box)
    where, remarks = _told(session, swept, kept, own=own.number if own else None)
    if not swept.hangs_on:
        remarks += ["boxed damp and all, though it sticks there"] if turn.not_dry else []
        return Said(f"rod {number}: {where}", sentences(remarks), done=True)
    on = f"{hangs(len(swept.hangs_on))} on ({turn.damp})"
    hung = f"rod {number}: {hangs(counted)}, as listed"
    return Said(hung, sentences([f"{where}, {on}", *remarks]), done=True)


def _to_find(turn: Turn, short: int) -> str:
    """Return what to do where a count is wrong, by so many too few."""
    if short <= 0 or turn.strays:
        return "scan what hangs there, clip by clip"
    fewer, is_not = ("One", "is") if short == 1 else (str(short), "are")
    words = f"{fewer} fewer than listed. Which {is_not} not there? Type its clip and missing, as"
    words += " “NN missing”, or scan those that hang"
    return f"{words}. One only hangs on? “NN wet”" if turn.dry else words


def leave(session: Session, rod: int) -> None:
    """Keep that a hand is through with a rod, whatever hangs there still."""
    sweeping.sweep(session.file, session.hand(), left=rod)


def box_dry(session: Session, turn: Turn) -> Said:
    """Box all that is dry on a rod as if each was scanned, and leave what is wet.

    Raises Refused where nothing wet hangs beside, or nothing dry, and where a count says that not
    all of it is there.
    """
    number = turn.rod.number
    if not turn.hanging:
        raise Refused(f"nothing hangs on rod {number} any more: type “undo” if that is wrong")
    if not turn.not_dry and not turn.right:
        raise Refused(f"all of rod {number} is dry: press Enter, or type how many you count")
    if not turn.dry:
        raise Refused(
            f"nothing on rod {number} is sure to be dry ({turn.damp}): scan what you take down"
        )
    _refuse_unclear(turn)
    where, remarks = _box_one_by_one(session, turn, turn.dry)
    remarks += [f"{hangs(turn.not_dry)} on ({turn.damp})"] if turn.not_dry else []
    return Said(f"rod {number}: {where}", sentences(remarks), done=True)


def box_all(session: Session, turn: Turn) -> Said:
    """Box all that hangs on a rod, damp or dry, by a hand's word.

    Raises Refused where a count says that not all of it is there.
    """
    if turn.count is None:
        return count(session, turn, len(turn.hanging), damp_too=True)
    _refuse_unclear(turn)
    where, remarks = _box_one_by_one(session, turn, turn.hanging)
    remarks += ["boxed damp and all, though it sticks there"] if turn.not_dry else []
    return Said(f"rod {turn.rod.number}: {where}", sentences(remarks), done=True)


def _refuse_unclear(turn: Turn) -> None:
    told = turn.count.counted if turn.count else None
    if told is not None and told - turn.boxed != len(turn.hanging):
        raise Refused(
            f"you counted {told} on rod {turn.rod.number}, and {turn.boxed + len(turn.hanging)}"
            " should hang, so it is not clear which are there: scan them one by one,"
            " or type which is missing"
        )


def _box_one_by_one(
    session: Session, turn: Turn, some: Sequence[Standing], *, missing: Sequence[int] = ()
) -> tuple[str, list[str]]:
    """Box some of what hangs on a rod as if each was scanned, and keep what is missing beside them.

    Return what `_told` does.
    """
    room = session.file.room()
    boxes = {each.roll: box_ahead(room, turn.rod, each.roll) for each in some}
    at = [scans.Scan(r.id, r.clip, turn.rod.number, None) for r, box in boxes.items() if box]
    swept = sweeping.sweep(session.file, session.hand(), scans=at, missing=missing)
    return _told(session, swept, [roll for roll, box in boxes.items() if box is None], own=None)


def _told(
    session: Session, swept: sweeping.Swept, kept: Sequence[Roll], *, own: int | None
) -> tuple[str, list[str]]:
    """Return where most rolls went, as `3 to box 2`, and what else there is to say: who went to
    another box, and what was `kept` for want of one. `own` is the rod's own box, if another is to
    be told apart from it.
    """
    boxed = rolls.by_ids(session.file.conn, swept.boxed)
    pairs: list[tuple[Roll, int | None]] = [(roll, roll.place.number) for roll in boxed]
    pairs += [(roll, None) for roll in kept]
    to = ways(pairs, owners_of(session, (*boxed, *kept)), own=own)
    remarks = [clips_of(boxed)] if boxed else []
    remarks += [f"but {', '.join(to.elsewhere)}"] if to.others else []
    remarks += [to.staying] if to.nowhere else []
    where = f"{to.many} {to.most}" if boxed else "none boxed"
    return where, remarks + of_closed_terms(session, swept)


def which_is_missing(session: Session, turn: Turn | None, words: str) -> Roll:
    """Return the roll that is said to be missing; without words, the one that is looked for.

    Raises Refused for what is no roll, and where it is not one alone that is looked for.
    """
    if words:
        scanned = scans.scanned(session.file, words)
        if scanned.roll is None:
            raise Refused(f"clip {scanned.clip} is on no roll, so nothing is missing with it")
        roll = rolls.by_id(session.file.conn, scanned.roll)
        refuse_roll(session.by, roll)
        return roll
    looked_for = turn.unseen if turn is not None and turn.scanning else ()
    if len(looked_for) != 1:
        raise Refused(
            "which roll is missing is not said: type its clip, as in “6 missing”, or count what"
            " hangs and scan it, and the rest is missing when you finish"
        )
    return looked_for[0].roll


def miss(session: Session, course: SweepCourse, turn: Turn | None, roll: Roll) -> Said:
    """Keep that a roll is missing: by the sweep, if that had it in hand or passed it.

    Where its rod was counted one short, the others are those that were counted: what of them is
    dry is boxed, what is damp hangs on.
    Raises Refused for one that is missing already.
    """
    others = () if turn is None or course.finished else turn.without(roll.id)
    remarks: list[str] = []
    if turn is not None and others:
        dry = [each for each in others if each.state == "dry"]
        where, remarks = _box_one_by_one(session, turn, dry, missing=[roll.id])
        remarks = [where, *remarks]
        damp_words = damp(each.state for each in others)
        if damp_words:
            remarks.append(f"{hangs(len(others) - len(dry))} on ({damp_words})")
    elif not course.finished:
        sweeping.sweep(session.file, session.hand(), missing=[roll.id])
    elif course.number is not None and roll.place.kind in ("rod", "box"):
        sweeping.miss_after(session.file, session.hand(), course.number, roll.id)
    else:
        lending.missing(session.file, session.hand(), [roll.id])
    now = rolls.by_id(session.file.conn, roll.id)
    words = f"missing, last seen {now.seen}"
    return Said(headline_of(session, roll), sentences([words, *remarks]), done=True)
