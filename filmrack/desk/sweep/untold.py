"""Film that is found on a rod and that the record has in the tank: it was hung and not told."""

from __future__ import annotations

from filmrack.acts import scans, sweeping
from filmrack.desk.said import Said, dial
from filmrack.desk.session import Session
from filmrack.desk.sweep.lines_typed import meant
from filmrack.desk.sweep.remarks import sentences
from filmrack.domain.roll import Roll
from filmrack.store import rolls


def hung_untold(session: Session, text: str) -> Roll | None:
    """Return the roll that was scanned or typed if it was hung and not told, wherever it hangs:
    a hand had it last in the tank. None for any other, and where its box is named too.
    """
    line = meant(text)
    if line is not None and line.box is not None:
        return None
    number = scans.scanned(session.file, text).roll
    roll = None if number is None else rolls.by_id(session.file.conn, number)
    return roll if roll is not None and roll.last_in_tank else None


def hang_untold(session: Session, rod: int, roll: Roll, *, wet: bool = False) -> Said:
    """Keep that film hangs on a rod that was hung and not told, as it would be hung now; `wet` if
    a finger found it so. Raises RodFull.
    """
    at = scans.Scan(roll.id, roll.clip, rod, wet=wet)
    swept = sweeping.sweep(session.file, session.hand(), hangs_on=[at])
    now = rolls.by_id(session.file.conn, roll.id)
    how = "wet" if wet else "so it may be wet"
    remarks = [f"noted {roll.place.as_noted}, {how}: it hangs on from now{dial(swept.dial_hours)}"]
    if not wet:
        remarks.append(_if_dry(session, now))
    return Said(f"{session.headline(now)}, {now.place}", sentences(remarks), done=True)


def _if_dry(session: Session, roll: Roll) -> str:
    """Return what to type of film that is wet by the record, if it is dry."""
    box = session.file.room().box_for(roll.period, roll.place.rod)
    named = roll.clip or roll.number
    into = "" if box is None else f", or “{named} box {box.number}” boxes it"
    return f"dry? “{named} dry”{into}"
