"""How the archive answers: whom it means, and how an act is taken back."""

from __future__ import annotations

from filmrack.desk.said import WRONG, Said, headline
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
    whom = headline(roll, session.owner(roll)) if on_clip else archive_headline(session, roll)
    return Said(whom, f"{words}. {WRONG}", select=roll.id, done=True)


def marked_instead(session: Session, acted: int, marked: int | None) -> str:
    """Return who is marked now that a roll has left the list; empty where that is its owner."""
    if marked is None or marked == acted:
        return ""
    was, now = rolls.by_id(session.file.conn, acted), rolls.by_id(session.file.conn, marked)
    if was.person == now.person:
        return ""
    return f"Marked is now another's: {archive_headline(session, now)}"
