"""Undo at the desk: what it takes back, in words, and what it asks about first."""

from __future__ import annotations

from datetime import timedelta

from filmrack.acts import undoing
from filmrack.desk.in_hand import InHand
from filmrack.desk.said import Said, headline
from filmrack.desk.session import Session
from filmrack.domain.clock import clock
from filmrack.domain.counted import listed
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.domain.story import act_in_words
from filmrack.store import ledger
from filmrack.store.borrowing import borrowers

_FRESH = timedelta(minutes=10)
"""How old an act on a roll may be that undo takes back without asking."""

_SETTINGS_TOLD = 2
"""Settings of the room that an answer names before it counts the rest."""


def undo(session: Session, roll: Roll | None) -> Said:
    """Take back the last act of this desk, or the last one on a roll, and say which it was.

    Raises Refused where there is none, and once where the last thing done here is out of its reach.
    """
    if roll is None and session.being_done:  # what was done before it is not meant
        raise Refused(f"{session.being_done}: wait for it, then undo takes that back")
    if roll is None and session.beyond_undo:
        done, session.beyond_undo = session.beyond_undo, ""
        raise Refused(f"{done}: a second undo goes on to the act before it")
    number = session.just_done if roll is None else roll.id
    undone = undoing.undo(session.file, session.hand(), number)
    words = f"taken back: {_what(undone)}. Type “undo” again for the one before"
    back = undone.rolls[0] if undone.rolls else None
    shown = back or (undone.were[0] if undone.were else None)
    whom = "" if shown is None else headline(shown, session.owner(shown))
    return Said(whom, words, select=None if back is None else back.id, done=True)


def next_undo(session: Session) -> str:
    """Return what one more undo at this desk takes back, or why it takes nothing back."""
    try:
        undone = undoing.would_undo(session.file, session.hand(), session.just_done)
    except Refused as why:
        return f"undo once more takes back nothing, for {why}"
    shown = undone.were[0] if undone.were else None
    whom = "" if shown is None else f", {headline(shown, session.owner(shown))}"
    lent = undone.were[:1] if "lend" in dict(undone.acts) else ()
    to = "".join(f" to {each}" for each in borrowers(session.file.conn, lent).values())
    return f"undo once more takes back {_what(undone)}{to}{whom}"


def undo_in_hand(in_hand: InHand, roll: Roll | None) -> Said:
    """Take back the last act of this desk, or on a roll in hand; there one of long ago is asked
    about first.

    A roll that a teacher but typed to look at it is not meant: it is what this desk did last.
    """
    session, is_teacher = in_hand.session, in_hand.session.by == "teacher"
    only_seen = in_hand.looked_up and not in_hand.scanned
    if roll is not None and only_seen and is_teacher and not _was_done_here(session, roll):
        return in_hand.over(undo(session, None))
    told = [] if roll is None else ledger.of_roll(session.file.conn, roll.id)
    # What a student may take back is fresh anyway.
    if roll is None or not told or not is_teacher or session.now - told[-1].happened <= _FRESH:
        return in_hand.over(undo(session, roll))
    when = clock(told[-1].happened, session.file.room().timetable.zone, session.now)
    did = act_in_words(told[-1].act)
    words = f"its last act is “{did}” of {when}. Enter takes that back; Esc leaves it"
    asked = Said(headline(roll, session.owner(roll)), words, select=roll.id)
    asks = f"“{did}” of {when} is taken back"
    return in_hand.ask(roll, asked, asks, lambda: in_hand.over(undo(session, roll)))


def _was_done_here(session: Session, seen: Roll) -> bool:
    """Tell whether what this desk did last is also the last act on a roll.

    Raises Refused where this desk has done nothing that could be taken back.
    """
    conn = session.file.conn
    mine = ledger.last_standing_group(conn, session.desk)
    if mine is None:
        named = seen.number if seen.clip is None else seen.clip
        raise Refused(
            "nothing was done at this desk that could be taken back: for the last act of the roll"
            f" you look at type “{named} undo”"
        )
    return mine == ledger.last_standing_group_of_roll(conn, seen.id)


def _what(undone: undoing.Undone) -> str:
    """Return what was taken back: settings as they say it themselves, else the acts in quotes."""
    acts = dict.fromkeys(act_in_words(act) for act, _ in undone.acts if act != "fan")
    return listed(undone.settings, _SETTINGS_TOLD, "change") or f"“{', '.join(acts) or 'fan'}”"
