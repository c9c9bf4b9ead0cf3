"""Commands as they are typed at a terminal, and what they are at the desk.

>>> without_program("filmrack hang 17"), without_program("mara")
('hang 17', 'mara')
>>> labels_line("labels clips 1-60"), labels_line("label 0295"), labels_line("mara")
('clips 1-60', 'sleeves 0295', '')
>>> labels_line("sleeves 0289")
'sleeves 0289'
"""

from __future__ import annotations

import re

from filmrack.desk.plain_questions import asked_about
from filmrack.desk.question import Question
from filmrack.desk.said import Said
from filmrack.desk.session import Session
from filmrack.domain.asking import parse
from filmrack.domain.counted import listed
from filmrack.domain.names import tokens
from filmrack.domain.refusal import Refused
from filmrack.store import people, search
from filmrack.store.borrowing import guest_before

PROGRAM = "filmrack"
_LABELS = ("label", "labels", "print")
_SEVERAL_WORDS = 3
"""From so many words on a line is hardly a name, and fewer letters of it help nobody."""

_LETTERS = 3
"""So many letters of a first word at least say whom it may be."""

_PEOPLE = 3

_SLEEVED = re.compile(r"(?i)(\d\d[a-z]-)?\d{4,}(-\d\d)?")

_MINE = re.compile(r"(show )?(my|mine)( own)?( (roll|film|strip|negative|clip)s?)?")
"""How people ask for what is theirs; the desk knows nobody before a name or a clip."""

_THERE = "type it there"
_HERE = {
    "new": _THERE,
    "demo": _THERE,
    "room": "type it there, or “room” here and change what you see",
    "roster": "here type “roster” and the path of its file",
    "fan": "here type “fan” when you turned the dial, “fan off” when it was found off",
    "due": "here type “due” alone",
    "sweep": "here type “sweep”, then count or scan rod by rod",
    "end": "here type the roll first, as “0142 end loan”",
    "hand-back": "here type the roll first, as “0142 hand back”",
    "swap": "here type “61 clip 62” for a wrong clip, “0142 claim mara” for a wrong owner",
    "clip": "here type what it is, as “clip 17 tag A lost”, or “clips”",
    "person": "here type “people” and choose one",
    "term": "here type “term report”, “close term” or “reopen term”",
    "labels": "here type “labels”, then one after the other what, which stock, “from 5”, “600 dpi”",
    "check": _THERE,
    "backup": "type it there, or “backup” alone here",
    "restore": _THERE,
    "export": _THERE,
    "import": _THERE,
}
"""What to do instead, for each command that is another thing at the desk."""


def without_program(line: str) -> str:
    """Return a line without the program's name before a command."""
    first, _, rest = line.strip().partition(" ")
    return rest.strip() if first.casefold() == PROGRAM and rest.strip() else line


def labels_line(line: str) -> str:
    """Return what a command that prints labels says on the screen Labels; empty for no such one.

    A roll's number alone asks for the labels of its sleeves. Options are typed one by one there.
    """
    words = line.split()
    if len(words) > 1 and words[0].casefold() == "sleeves" and _all_sleeved(words[1:]):
        return f"sleeves {' '.join(words[1:])}"  # nothing but labels is done to sleeves so called
    at = next((end for end in (0, -1) if len(words) > 1 and words[end].casefold() in _LABELS), None)
    if at is None or "--" in line or words[0].casefold() == "find":
        return ""
    del words[at]
    said = " ".join(words)
    if _all_sleeved(words):
        return f"sleeves {said}"
    from filmrack.acts.labelling import KINDS  # with all that prints

    return said if words[0].casefold() in KINDS else ""


def _all_sleeved(words: list[str]) -> bool:
    return all(_SLEEVED.fullmatch(word) for word in words)


def instead(session: Session, line: str) -> Said | Question:
    """Ask whether the file of `roster students.csv` is read rightly.

    Raises Refused as the screen Room does, and for every other line that nothing is called by.
    """
    first, _, path = line.strip().partition(" ")
    if first.casefold() != "roster" or not path.strip():
        raise Refused(why_not_here(line) or _not_understood(session, line))
    from filmrack.desk.room.changing import Changing
    from filmrack.desk.room.roster import ask_roster

    return ask_roster(Changing(session)).answer(path.strip())


def _not_understood(session: Session, line: str) -> str:
    """Return that a line is none, and what to type: of a name fewer letters, of more words less. Of
    a guest whose loans have ended, of a name with a term that has no roll of theirs, and of two
    words whom the first one fits, it says that.
    """
    name, conn = asked_about(line) or line, session.file.conn
    guest = guest_before(conn, name) if session.by == "teacher" else ""
    if guest:
        return f"{guest} has nothing on loan now: “borrowed” shows what is lent, and to whom"
    if session.by == "teacher" and (none := _none_of_that_term(session, name)):
        return none
    nothing = f"nothing is called “{name[:40]}”"
    if len(name.split()) < _SEVERAL_WORDS:
        first, *more = tokens(name)[:_SEVERAL_WORDS] or [""]
        fits = people.with_words(conn, [first]) if more and len(first) >= _LETTERS else []
        if fits:
            whom = listed([person.short for person in fits], _PEOPLE)
            return f"{nothing}, but “{first}” fits {whom}: type that alone, or scan it"
        return f"{nothing}: try fewer letters, or scan it"
    return f"{nothing}: type a clip, as “17”, three letters of a name, or “help”"


def _none_of_that_term(session: Session, name: str) -> str:
    """Return that who is meant has no roll of a term that is typed with the name; empty where no
    term or nobody's name is.
    """
    try:
        parts = parse(name)
    except Refused:
        return ""
    terms = [part.value for part in parts if part.kind == "term"]
    words = " ".join(part.value for part in parts if part.kind == "name")
    if len(terms) != 1 or not words:
        return ""
    some = people.with_words(session.file.conn, tokens(words)) or search.nearly(
        session.file.conn, words
    )
    if not some:
        return ""
    have = "has" if len(some) == 1 else "have"
    whom = listed([person.full for person in some], _PEOPLE)
    return f"{whom} {have} no roll of term {terms[0]}: type “{words}” alone for all that there is"


def why_not_here(line: str) -> str:
    """Return that a line is a command of the terminal, and what to do; empty for another line."""
    words = line.casefold().split()
    if _MINE.fullmatch(asked_about(line).casefold() or " ".join(words)):
        return (
            "this desk knows nobody before a name: type yours, three letters do, or scan your clip"
        )
    if words == [PROGRAM]:
        return "this is the desk of filmrack already: type a name, a clip, or “help”"
    if words[:1] == ["plan"]:
        return (
            "“plan” alone says not which: how a roll is cut stands on its card, so type its number;"
            " the classes of a day are in “timetable”"
        )
    here = _HERE.get(words[0]) if words else None
    return f"“filmrack {words[0]}” is a command of the terminal: {here}" if here else ""
