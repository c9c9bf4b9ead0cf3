"""What an undo takes back in a sweep, in words."""

from __future__ import annotations

from filmrack.acts.undoing import Undone
from filmrack.desk.said import Said, capital
from filmrack.desk.session import Session
from filmrack.desk.sweep.course import SweepCourse
from filmrack.desk.sweep.remarks import owners_of
from filmrack.desk.sweep.ways import which
from filmrack.desk.taking_back import take_back, what_and_whose
from filmrack.domain.clip import clips_of
from filmrack.domain.story import act_in_words
from filmrack.store import sweeps


def undo(session: Session, course: SweepCourse) -> Said:
    """Take back the last act of this desk; `course` is how the sweep stood before that.

    Raises Refused as undo does on every screen.
    """
    undone, once_more = take_back(session, None)
    told = [] if undone.settings else [*_of_rods(session, course), _of_rolls(session, undone)]
    what = ". ".join(capital(each) for each in told if each) or what_and_whose(session, undone)
    return Said("taken back", f"{what}{once_more}", done=True)


def _of_rods(session: Session, course: SweepCourse) -> list[str]:
    """Return what was told of whole rods and is not any more: `the count of 6 on rod 1`."""
    counts = sweeps.counts(session.file.conn, course.number or 0)
    found = []
    for turn in course.turns:
        was, now, rod = turn.count, counts.get(turn.rod.number), turn.rod.number
        if was is None:
            continue
        if was.left and now is not None and not now.left:
            found.append(f"rod {rod} is not through")
        elif was.counted is not None and (now is None or now.counted != was.counted):
            found.append(f"the count of {was.counted} on rod {rod}")
    return found


def _of_rolls(session: Session, undone: Undone) -> str:
    """Return which rolls are as before, what was done to them, and where they are now:
    `clip 4 (Mara O.), to the box: rod 1, position 4 again`.
    """
    some = undone.rolls
    if not some:
        return ""
    acts = dict.fromkeys(act_in_words(act) for act, roll in undone.acts if roll is not None)
    if len(some) == 1:
        who, where = which(some[0], owners_of(session, some)), f"{some[0].place} again"
    else:
        rods = {roll.place.rod for roll in some}
        (rod, *others) = rods
        where = "as before" if others or rod is None else f"rod {rod} again"
        who = clips_of(some)
    return f"{who}, {' and '.join(acts)}: {where}"
