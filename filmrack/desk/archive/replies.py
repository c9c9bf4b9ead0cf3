"""How the archive answers: whom it means, and how an act is taken back."""

from __future__ import annotations

from filmrack.desk.said import WRONG, Said
from filmrack.desk.session import Session
from filmrack.domain.names import called
from filmrack.domain.roll import Roll
from filmrack.store import rolls
from filmrack.store.standings import written_on


def archive_headline(session: Session, roll: Roll) -> str:
    """Return a roll and whose it is, as a teacher reads it: `26F-0142-09 → Mara Okafor`."""
    said = written_on(session.file.conn, [roll]).get(roll.id)
    return f"{roll.number} → {called(session.owner(roll), said)}"


def done(session: Session, roll: Roll, words: str) -> Said:
    """Return the answer to an act on a roll; one that is on its clip still is called by that."""
    on_clip = roll.clip is not None and roll.live
    whom = session.headline(roll) if on_clip else archive_headline(session, roll)
    return Said(whom, f"{words}. {WRONG}", select=roll.id, done=True)


def selected_instead(session: Session, acted: int, was: int | None, selected: int | None) -> str:
    """Return which roll is selected now that an act was done to another one; empty where no other
    than before is.
    """
    if selected is None or selected in (acted, was):
        return ""
    now = rolls.by_id(session.file.conn, selected)
    return f"Another roll is selected now: {archive_headline(session, now)}"
