"""The end of a sweep: what it comes to, and what is looked up behind it."""

from __future__ import annotations

from filmrack.acts import scans, sweeping
from filmrack.desk.notices import missing_words
from filmrack.desk.said import Said
from filmrack.desk.session import Session
from filmrack.desk.sweep.course import SweepCourse
from filmrack.desk.sweep.remarks import owners_of, sentences
from filmrack.desk.sweep.ways import which
from filmrack.domain.counted import listed
from filmrack.domain.refusal import Refused
from filmrack.domain.student_desk import refuse_roll
from filmrack.store import rolls
from filmrack.store.findings import findings


def finish(session: Session, course: SweepCourse) -> Said:
    """Finish the sweep: what was looked for in vain is missing. Raises Refused if none goes on."""
    if course.number is None:
        raise Refused("nothing was counted or scanned yet: go to a rod and count it")
    swept = sweeping.sweep(session.file, session.hand(), finish=True)
    missing = findings(session.file.conn, swept.sweep).missing
    owners = owners_of(session, missing)
    names = listed([which(roll, owners) for roll in missing], 3)
    passed = listed([f"rod {t.rod.number} ({len(t.hanging)})" for t in course.not_looked_at], 6)
    remarks = [f"missing: {names}"] if missing else []
    remarks += [each.told for each in swept.open]
    if not remarks:
        more = "more " if missing_words(session) else ""  # of the term, from before this sweep
        remarks = [f"nothing {more}is missing" + (" where you looked" if passed else "")]
    remarks += [f"not looked at: {passed}"] if passed else []
    headline = f"swept: {len(course.in_boxes)} to the boxes{course.taken_since}"
    return Said(headline, sentences(remarks), done=True)


def look_up(session: Session, text: str) -> Said:
    """Say whose a clip or roll is and where, after the sweep; Enter does nothing to it here.

    Raises Refused for what is no clip and no roll.
    """
    scanned = scans.scanned(session.file, text)
    if scanned.roll is None:
        return Said(f"clip {scanned.clip}", "it is on no roll")
    roll = rolls.by_id(session.file.conn, scanned.roll)
    refuse_roll(session.by, roll)
    seen = f", last seen {roll.seen}" if roll.place.kind == "missing" else ""
    return Said(session.headline(roll), f"{roll.place}{seen}")
