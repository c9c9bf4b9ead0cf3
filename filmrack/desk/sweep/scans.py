"""What one scan does in a sweep: the roll goes to its box, and the answer says what was noted."""

from __future__ import annotations

from filmrack.acts import scans, sweeping
from filmrack.desk.said import Said, dial
from filmrack.desk.session import Session
from filmrack.desk.sweep.course import SweepCourse
from filmrack.desk.sweep.lines_typed import meant
from filmrack.desk.sweep.remarks import of_closed_terms, sentences
from filmrack.desk.sweep.turn import Turn
from filmrack.domain.attention import Standing
from filmrack.domain.outlook import how_not_dry
from filmrack.domain.roll import Roll
from filmrack.domain.student_desk import refuse_roll
from filmrack.store import rolls


def scan(
    session: Session, course: SweepCourse, text: str, *, rod: int | None, box: int | None
) -> Said:
    """Box one roll that was scanned, at a rod or, without one, in a box.

    Raises Refused for what is no roll and no clip, for a roll that has no box, and on a helper's
    desk for one in the archive.
    """
    line, words = meant(text), text
    if line is not None and line.box is not None:  # `61 box 4`: for a roll without a box of its own
        words, box = line.value, line.box
    scanned = scans.scanned(session.file, words, box=box)
    before = None if scanned.roll is None else rolls.by_id(session.file.conn, scanned.roll)
    if before is not None:
        refuse_roll(session.by, before)
    hanging = next(
        (s for turn in course.turns for s in turn.hanging if s.roll.id == scanned.roll), None
    )
    on_rod = None if rod is None else found_on(course, rod, before)
    at = scans.Scan(scanned.roll, scanned.clip, on_rod, box)
    swept = sweeping.sweep(session.file, session.hand(), scans=[at])
    if swept.no_term:
        words = "no record explains it, and no term is open to number it in: put it aside, open the"
        return Said(f"clip {scanned.clip}", f"{words} next term, and scan it again")
    if not swept.boxed:
        assert before is not None
        return Said(session.headline(before), f"was found before, and is in {before.place}")
    roll = rolls.by_id(session.file.conn, swept.boxed[0])
    remarks = []
    if swept.unknown:
        remarks.append("no record explains it")
    elif swept.wrong_place and before is not None and not before.place.is_rod(on_rod):
        remarks.append(astray(before, roll, rod=on_rod, box=box))
    if hanging is not None and hanging.state != "dry":
        back = f" and type “{roll.clip} tacky”" if roll.clip else ""
        remarks.append(
            f"{how_not_dry(hanging.state)}: touch both ends. If tacky, hang it again{back}"
        )
    remarks += of_closed_terms(session, swept)
    return Said(f"{session.headline(roll)}, {roll.place}", sentences(remarks), done=True)


def astray(before: Roll, now: Roll, *, rod: int | None, box: int | None) -> str:
    """Return where a roll was noted that was found elsewhere, and where it is now."""
    found = f"found on rod {rod}" if rod is not None else f"found in box {box}" if box else "found"
    goes = "is noted there now" if now.place.kind == "rod" else f"goes to {now.place}"
    return f"{found}, though noted {before.place.as_noted}: it {goes}"


def one_not_dry(session: Session, text: str) -> Standing | None:
    """Return the roll that was scanned or typed if it hangs and is not dry by the clock; None for
    any other, and where its box is named too.
    """
    line = meant(text)
    if line is not None and line.box is not None:
        return None
    roll = scans.scanned(session.file, text).roll
    hanging = (each for each in session.look().hanging if each.roll.id == roll)
    return next((each for each in hanging if each.state != "dry"), None)


def see(session: Session, turn: Turn, not_dry: Standing) -> Said:
    """Keep that film that is not dry hangs on a rod, and leave it there."""
    roll, rod = not_dry.roll, turn.rod.number
    at = scans.Scan(roll.id, roll.clip, rod)
    sweeping.sweep(session.file, session.hand(), hangs_on=[at])
    remarks = [f"{how_not_dry(not_dry.state)}: it hangs on"]
    if not roll.place.is_rod(rod):
        remarks.append(
            f"found on rod {rod}, though noted {roll.place.as_noted}: it is noted here now"
        )
    return Said(f"{session.headline(roll)}: seen", sentences(remarks), done=True)


def see_as_told(session: Session, rod: int, roll: Roll) -> Said:
    """Keep that a roll hangs on a rod, since a hand says so, dry or not. Raises RodFull."""
    at = scans.Scan(roll.id, roll.clip, rod)
    swept = sweeping.sweep(session.file, session.hand(), hangs_on=[at])
    now = rolls.by_id(session.file.conn, roll.id)
    told = "it hangs on"
    if not roll.place.is_rod(rod):
        told = f"{astray(roll, now, rod=rod, box=None)}{dial(swept.dial_hours)}"
    return Said(f"{session.headline(now)}: seen", sentences([told]), done=True)


def see_unknown(session: Session, rod: int, clip: int, *, wet: bool) -> Said:
    """Keep an unknown roll on a clip that no record explains, which hangs on a rod, and leave it
    there; `wet` if a finger found it so.
    """
    swept = sweeping.sweep(
        session.file, session.hand(), hangs_on=[scans.Scan(None, clip, rod, wet=wet)]
    )
    roll = rolls.by_id(session.file.conn, swept.unknown[0])
    hangs_on = "Wet, so it hangs on" if wet else "It hangs on"
    remarks = [f"{roll.place}: no record explains it. {hangs_on}"]
    return Said(session.headline(roll), sentences(remarks), done=True)


def found_on(course: SweepCourse, rod: int, roll: Roll | None) -> int:
    """Return the rod on which a scan was made: the one whose turn it is.

    As long as nothing is told of that one, what is still looked for on a rod that was scanned
    belongs there: the hand was not through with it.
    """
    turn = course.turn(rod)
    if turn is not None and turn.count is None and roll is not None and roll.place.kind == "rod":
        recorded = course.turn(roll.place.number)
        if recorded is not None and recorded.scanning:
            return recorded.rod.number
    return rod
