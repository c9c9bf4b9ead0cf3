"""What an undo takes back in a sweep, in words."""

from __future__ import annotations

from filmrack.acts import undoing
from filmrack.desk.said import Said
from filmrack.desk.session import Session
from filmrack.desk.sweep.course import SweepCourse
from filmrack.domain.counted import counted, listed
from filmrack.store import sweeps


def undo(session: Session, course: SweepCourse) -> Said:
    """Take back the last act of this desk; `course` is how the sweep stood before that."""
    undone = undoing.undo(session.file, session.hand())
    many = len(undone.rolls)
    what = f"{counted(many, 'roll')} as before" if many else "the last count"
    counts = sweeps.counts(session.file.conn, course.number or 0)
    for turn in course.turns:
        now = counts.get(turn.rod.number)
        if turn.count is not None and turn.count.left and now is not None and not now.left:
            what = f"rod {turn.rod.number} is not through"
    what = listed(undone.settings, 2) or what
    return Said("taken back", f"{what}. Again goes one further back", done=True)
