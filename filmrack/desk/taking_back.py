"""Undo at the desk: what it takes back, in words, and what it asks about first."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from contextlib import suppress
from datetime import timedelta
from typing import NamedTuple

from filmrack.acts import undoing
from filmrack.acts.undoing import Undone
from filmrack.desk.in_hand import InHand
from filmrack.desk.question import Question
from filmrack.desk.said import Said, capital
from filmrack.desk.session import Session
from filmrack.domain.clip import clips_of
from filmrack.domain.clock import clock
from filmrack.domain.counted import listed
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Entry, Roll
from filmrack.domain.story import act_in_words
from filmrack.store import ledger
from filmrack.store.borrowing import borrowers

_FRESH = timedelta(minutes=10)
"""How long ago an act may have been told that undo takes back without asking."""

_SETTINGS_TOLD = 2
"""Settings of the room that an answer names before it counts the rest."""


def undo(session: Session, roll: Roll | None) -> Said:
    """Take back the last act of this desk, or the last one on a roll, and say which it was.

    Raises Refused where there is none, and once where the last thing done here is out of its reach.
    """
    undone, once_more = take_back(session, roll)
    words = f"taken back: {_what(undone)}{once_more}"
    back = undone.rolls[0] if undone.rolls else None
    whom = _whom(session, undone.rolls or undone.were)
    return Said(whom, words, select=None if back is None else back.id, done=True)


def take_back(session: Session, roll: Roll | None) -> tuple[Undone, str]:
    """Take back as `undo` does; return what that was, and what one more undo takes back as the end
    of a sentence. Raises as `undo` does.
    """
    if roll is None:
        refuse_to_reach_past(session)
    roll_id = session.just_done if roll is None else roll.id
    undone = undoing.undo(session.file, session.hand(), roll_id)
    with suppress(Refused):
        return undone, f". {capital(_once_more(session))}"
    return undone, ""


def refuse_to_reach_past(session: Session) -> None:
    """Raise Refused for a bare undo while the last thing done here is out of its reach: once, or
    until it is through. What was done before that is not meant.
    """
    if session.being_done:
        raise Refused(f"{session.being_done}: wait for it, then undo takes that back")
    if session.beyond_undo:
        done, session.beyond_undo = session.beyond_undo, ""
        raise Refused(f"{done}: a second undo goes on to the act before it")


def next_undo(session: Session) -> str:
    """Return what one more undo at this desk takes back, or why it takes nothing back."""
    try:
        return _once_more(session)
    except Refused as why:
        return f"undo once more takes back nothing, for {why}"


def _once_more(session: Session) -> str:
    """Return what one more undo at this desk takes back. Raises Refused where that is nothing."""
    undone = undoing.would_undo(session.file, session.hand(), session.just_done)
    lent = undone.were[:1] if "lend" in dict(undone.acts) else ()
    to = "".join(f" to {each}" for each in borrowers(session.file.conn, lent).values())
    return f"undo once more takes back {what_and_whose(session, undone, to)}"


def what_and_whose(session: Session, undone: Undone, to: str = "") -> str:
    """Return what was or would be taken back, `to` whom, and of which rolls: `“loaded”, 17 → Mara
    O.`.
    """
    whom = f", {_whom(session, undone.were)}" if undone.were else ""
    return f"{_what(undone)}{to}{whom}"


class Doubted(NamedTuple):
    """An act that undo takes back only when Enter says so: what is said of it, what Enter does, and
    the roll that it was done to.
    """

    headline: str
    words: str
    does: str
    roll: int | None

    def asked(self, take_back: Callable[[], Said]) -> Question:
        """Return the question whether it is taken back."""
        return Question(
            "Enter takes it back; Esc leaves it",
            lambda _: take_back(),
            headline=self.headline,
            words=self.words,
            does=self.does,
            bare=True,
        )


def doubted(session: Session, roll: Roll | None) -> Doubted | None:
    """Return the act that undo would reach, where a teacher may not have it in mind: it was done at
    another desk, by a student, or long ago. None for any other, and where there is none.

    Raises Refused where it cannot be taken back.
    """
    conn = session.file.conn
    if session.by != "teacher":  # what a student may take back is fresh, and was done there
        return None
    if roll is None:
        group = ledger.last_standing_group(conn, session.desk)
    else:
        group = ledger.last_standing_group_of_roll(conn, roll.id)
    if group is None:
        return None
    last = ledger.of_group(conn, group)[-1]
    whose = _by_another(session, last)
    if not whose and session.now - last.entered <= _FRESH:
        return None
    would = undoing.would_undo(session.file, session.hand(), None if roll is None else roll.id)
    shown = roll or (would.were[0] if would.were else None)
    when = clock(last.happened, session.file.room().timetable.zone, session.now)
    which = "the last act at this desk" if roll is None else "its last act"
    what = f"{_what(would)} of {when}"
    return Doubted(
        _whom(session, would.were),
        f"{which} is {what}{whose}. Enter takes that back; Esc leaves it",
        f"{what} is taken back",
        None if shown is None else shown.id,
    )


def _by_another(session: Session, last: Entry) -> str:
    """Return that an act was not the teacher's at this desk, as the end of a sentence."""
    if last.desk != session.desk:
        return ", at another desk"
    return "" if last.by == session.by else ", by a student"


def undo_in_hand(in_hand: InHand, roll: Roll | None) -> Said:
    """Take back the last act of this desk, or on a roll in hand; one that may not be meant is asked
    about first.

    A roll that a teacher but typed to look at it is not meant: it is what this desk did last.
    """
    session = in_hand.session
    only_seen = in_hand.looked_up and not in_hand.scanned and session.by == "teacher"
    if roll is not None and only_seen and not _was_done_here(session, roll):
        roll = None
    if roll is None:
        refuse_to_reach_past(session)
    doubt = doubted(session, roll)
    if doubt is None:
        return in_hand.over(undo(session, roll))
    asked = Said(doubt.headline, doubt.words, select=doubt.roll)
    return in_hand.ask(roll, asked, doubt.does, lambda: in_hand.over(undo(session, roll)))


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


def _whom(session: Session, some: Sequence[Roll]) -> str:
    """Return which rolls an act was done to: one by its owner too, several by clip."""
    if len(some) == 1:
        return session.headline(some[0])
    return clips_of(some) if some else ""


def _what(undone: Undone) -> str:
    """Return what was taken back: settings as they say it themselves, else the acts in quotes."""
    acts = dict.fromkeys(act_in_words(act) for act, _ in undone.acts if act != "fan")
    return listed(undone.settings, _SETTINGS_TOLD, "change") or f"“{', '.join(acts) or 'fan'}”"
