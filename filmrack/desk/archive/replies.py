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


def marker_moved(session: Session, acted: int, was: int | None, marked: int | None) -> str:
    """Return on which roll the marker is now that an act has moved it to another than its own;
    empty where it has not.
    """
    if marked is None or marked in (acted, was):
        return ""
    now = rolls.by_id(session.file.conn, marked)
    return f"The marker is on another roll now: {archive_headline(session, now)}"
