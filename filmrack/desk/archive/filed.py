"""A roll is filed in a binder: one act, and one answer to it on every screen."""

from __future__ import annotations

from filmrack.acts import archiving
from filmrack.desk.ahead import labels_wait, without_sheet
from filmrack.desk.archive.filing_doubts import whose_else
from filmrack.desk.archive.replies import archive_headline, done
from filmrack.desk.said import Said
from filmrack.desk.session import Session
from filmrack.domain.roll import Place, Roll


def file_in(session: Session, roll: Roll, number: int) -> Said:
    """File a roll in a binder of its term, unless it stands there; a loan of it ends by that.

    Raises Refused for a roll that is not sleeved yet, and for a closed term.
    """
    called = session.binder(roll.term, number)
    if roll.place == Place("binder", number):
        return Said(archive_headline(session, roll), f"in {called} already", select=roll.id)
    archiving.file_in_binder(session.file, session.hand(), [roll.id], number)
    back = "loan ended, " if roll.place.kind == "out" else ""
    words = f"{back}filed in {called}{without_sheet(roll)}{labels_wait(session, roll)}"
    whose = whose_else(session, roll, number)
    return done(session, roll, words + (f". It is {whose}'s binder" if whose else ""))
