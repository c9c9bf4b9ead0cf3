"""A box, a binder, the tanks or what rolls still owe, typed by itself to see which they are."""

from __future__ import annotations

import re

from filmrack.desk.archive.which_rolls import names_rolls_anywhere
from filmrack.desk.due_words import clip_and_owner
from filmrack.desk.plain_questions import asked_about
from filmrack.desk.registry import screen_entry
from filmrack.desk.role import Role
from filmrack.desk.said import Said
from filmrack.desk.sentences import Sentences
from filmrack.desk.session import Session
from filmrack.desk.wish import Wish
from filmrack.domain.asking import code_in
from filmrack.domain.clip import clips_of
from filmrack.domain.counted import counted, listed
from filmrack.domain.names import tokens
from filmrack.domain.refusal import Refused
from filmrack.domain.room import Room
from filmrack.store import people, rolls

_LOADED = 12
"""So many rolls in tanks are named."""

_BINDER = re.compile(r"(?i)binder 0*[1-9]\d?")


def place_typed(text: str, sentences: Sentences, role: Role) -> Wish | Said | None:
    """Return that the screen of a typed box or binder, or of rolls as the archive counts them, is
    opened there; None for any other line, and for what somebody is called. A desk without the
    screen Boxes says what lies in a box instead.

    A code that is scanned, and a place behind a clip that was, say where a roll went instead. A
    roll that was but typed to look at it goes into no box by that: its clip in the same line does.
    """
    if not text or _is_code(text):
        return None
    session, line = sentences.session, " ".join((asked_about(text) or text).split())
    room, first = session.file.room(), sentences.in_hand.first
    if line.casefold() in ("tank", "tanks") and not _somebody_is_called(session, line):
        return _told_of_tanks(session)
    box = box_typed(line, room)
    if box is not None:
        looks = first is None or (first.roll is not None and sentences.in_hand.looked_up)
        if looks and not role.shows(screen_entry("boxes")):
            return _told_of_box(session, box)
        return Wish("say", "boxes", f"box {box}") if looks else None
    if first is not None:
        return None
    has_term = room.term_at(session.now) is not None
    if not has_term or not role.shows(screen_entry("archive")):
        return None
    of_rolls = names_rolls_anywhere(line) and not _somebody_is_called(session, line)
    return Wish("say", "archive", line) if of_rolls or _BINDER.fullmatch(line) else None


def box_typed(line: str, room: Room) -> int | None:
    """Return the box of the room that a line names, by its number or its period; else None:
    `box 2`, `boxes 2`, `box of period 2`, `period 2`; `box b` where the periods are lettered.
    """
    words = [word for word in line.casefold().split() if word not in ("the", "of")]
    named = words[:1] in (["box"], ["boxes"])
    words = words[1:] if named else words
    match words:
        case [number] if named and number.isascii() and number.isdecimal() and len(number) < 4:
            box = room.box(int(number))
        case [letter] if named and len(letter) == 1 and letter.isalpha():
            period = room.period_named(f"{room.period_word} {letter}")
            box = None if period is None else room.box_of(period.number)
        case [word, _] if word in ("period", room.period_word.casefold()):
            period = room.period_named(" ".join(words))
            box = None if period is None else room.box_of(period.number)
        case _:
            box = None
    return None if box is None else box.number


def _somebody_is_called(session: Session, line: str) -> bool:
    return bool(people.with_words(session.file.conn, tokens(line), limit=1))


def _told_of_tanks(session: Session) -> Said:
    """Say whose rolls are loaded and do not hang yet, by their clips."""
    there = rolls.in_tank(session.file.conn)
    words = (
        listed([clip_and_owner(session, roll) for roll in there], _LOADED) or "nothing is loaded"
    )
    return Said("In the tank", words)


def _told_of_box(session: Session, number: int) -> Said:
    """Say which clips lie in a box, as its tags do to whoever looks into it: no names."""
    there = rolls.in_box(session.file.conn, number)
    words = "nothing lies in it"
    if there:
        words = f"{counted(len(there), 'roll')} in it: {clips_of(there)}. Yours? Type its clip"
    return Said(f"box {number}", f"{words}. The teacher notes what goes into it")


def _is_code(text: str) -> bool:
    try:
        return code_in(text) is not None
    except Refused:
        return True
