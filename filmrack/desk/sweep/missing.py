"""A roll that is missing by a person's word: which one, and what is known of the others then."""

from __future__ import annotations

from filmrack.acts import lending, scans, sweeping
from filmrack.desk.said import Said
from filmrack.desk.session import Session
from filmrack.desk.sweep.boxing import box_one_by_one
from filmrack.desk.sweep.course import SweepCourse
from filmrack.desk.sweep.remarks import sentences
from filmrack.desk.sweep.rod_words import hangs
from filmrack.desk.sweep.turn import Turn
from filmrack.domain.outlook import not_dry_words
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.domain.student_desk import refuse_roll
from filmrack.store import rolls


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
    """Keep that a roll is missing: in the sweep that goes on or begins with it; in a finished one
    that is shown, if the roll is on a rod or in a box; else apart from any sweep.

    Where its rod was counted one short, the others there are the ones that were counted: what of
    them is dry is boxed, what is not dry hangs on.
    Raises Refused for one that is missing already.
    """
    others = () if turn is None or course.finished else turn.others_counted(roll.id)
    remarks: list[str] = []
    if turn is not None and others:
        dry = [each for each in others if each.state == "dry"]
        where, remarks = box_one_by_one(session, turn, dry, missing=[roll.id])
        remarks = [where, *remarks]
        on = not_dry_words(each.state for each in others)
        if on:
            remarks.append(f"{hangs(len(others) - len(dry))} on ({on})")
    elif not course.finished:
        sweeping.sweep(session.file, session.hand(), missing=[roll.id])
    elif course.number is not None and roll.place.kind in ("rod", "box"):
        sweeping.miss_after(session.file, session.hand(), course.number, roll.id)
    else:
        lending.missing(session.file, session.hand(), [roll.id])
    now = rolls.by_id(session.file.conn, roll.id)
    words = f"missing, last seen {now.seen}"
    told = sentences([words, *remarks])
    return Said(session.headline(roll), told, select=roll.id, done=True)
