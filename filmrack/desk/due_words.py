"""What wants a hand in the dryer, and who left film behind there, typed on any screen: one answer.

>>> asks_what_is_due("What is due?"), asks_who_left_film("who left what?"), asks_what_is_due("dua")
(True, True, False)
"""

from __future__ import annotations

from itertools import groupby

from filmrack.desk.ink import state_word
from filmrack.desk.plain_questions import asked_about
from filmrack.desk.said import Said, capital
from filmrack.desk.session import Session
from filmrack.desk.wish import Wish
from filmrack.domain.clip import clips_of
from filmrack.domain.counted import listed
from filmrack.domain.roll import Roll
from filmrack.store import rolls

_URGENCY = ("flip", "touch", "late", "dry")
"""The words of the states that want a hand, the most urgent one first."""
_LEFT_BEHIND = frozenset(
    (
        *("left behind", "late", "what was left behind", "what is left behind", "was left behind"),
        *("who left", "who left what", "who left film", "who left film behind"),
        *("who left what behind", "who is late", "what is late"),
    )
)
_NAMED = 12
"""So many rolls are named with their owners."""


def asks_what_is_due(line: str) -> bool:
    """Tell whether a line asks for all that wants a hand."""
    return _plain(asked_about(line) or line) == "due"


def asks_who_left_film(line: str) -> bool:
    """Tell whether a line asks for the film that was left behind."""
    return bool({_plain(line), _plain(asked_about(line))} & _LEFT_BEHIND)


def told_what_is_due(session: Session) -> Said:
    """Say which clips want what in the dryer, and show the first of them."""
    hanging = session.look().hanging
    of = {word: [each.roll for each in hanging if state_word(each) == word] for word in _URGENCY}
    words = ". ".join(f"{capital(word)}: {clips_of(some)}" for word, some in of.items() if some)
    first = next((some[0].id for some in of.values() if some), None)
    return Said("Due", words or "nothing in the dryer wants a hand", select=first, go=True)


def told_who_left_film(session: Session, *, sees_boxes: bool) -> Said | Wish:
    """Name what hangs left behind; where nothing does, what went to the boxes today, which a desk
    that shows no boxes leaves to the teacher.
    """
    late = [each.roll for each in session.look().hanging if state_word(each) == "late"]
    if late:
        return Said("Left behind", listed([clip_and_owner(session, roll) for roll in late], _NAMED))
    nothing = "nothing hangs that was"
    if not sees_boxes:
        return Said("Left behind", f"{nothing}; the teacher sees what lies in the boxes")
    local = session.file.room().timetable.local_date
    boxed = [
        roll
        for roll in rolls.in_places(session.file.conn, "box")
        if local(roll.since) == local(session.now)
    ]
    if not boxed:
        return Wish("go", "boxes")
    boxed.sort(key=lambda roll: (roll.place.number or 0, roll.since))
    boxes = [
        f"{place}: {listed([clip_and_owner(session, roll) for roll in some], _NAMED)}"
        for place, some in groupby(boxed, key=lambda roll: roll.place)
    ]
    return Said("Left behind", f"{nothing}. Boxed today, {'; '.join(boxes)}. “boxes” shows all")


def clip_and_owner(session: Session, roll: Roll) -> str:
    """Return a roll as it is read in a list: `17 Mara O.`."""
    owner = session.owner(roll)
    return f"{roll.clip or roll.number} {owner.short if owner else 'unknown roll'}"


def _plain(line: str) -> str:
    return " ".join(line.casefold().strip("? ").split())
