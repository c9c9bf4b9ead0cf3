"""Plain questions, as people ask each other: `who owns 61`, `is 61 dry?`, `what is in box 2`.

Each of them is a line that looks something up, and nothing is ever done by it.

>>> [asked_about(line) for line in ("who owns 61", "where's mara?", "what is in the box 2")]
['61', 'mara', 'box 2']
>>> [asked_about(line) for line in ("is 61 dry yet", "is Mara's roll dry", "can I take it?")]
['61', 'Mara', 'it']
>>> [asked_about(line) for line in ("is 22 boxed", "is Mara's roll missing?")]
['22', 'Mara']
>>> [asked_about(line) for line in ("who has what?", "what does Ms Novak have", "who has Tariq")]
['borrowed', 'Ms Novak', 'Tariq']
>>> [asked_about(line) for line in ("61 is dry", "mara", "Are Hansen", "is", "?")]
['', '', '', '', '']
"""

from __future__ import annotations

_IN_FRONT = (
    *("find", "where", "where is", "where are", "where's", "wheres"),
    *("who is", "who's", "who has", "who owns", "who hangs", "who lies"),
    *("whose", "whose is", "whose roll is", "whose film is", "whose clip is"),
    *("what has", "which rolls has"),
    *("what is", "what's", "whats", "what hangs", "what lies"),
    *("when is", "when will", "when can i take", "can i take", "can i have", "may i take"),
)
"""Words in front of what somebody asks about."""

_IN_FRONT_OF_A_NUMBER = ("is", "are", "was", "has", "what does", "what do", "which rolls does")
"""Words that ask in front of a clip or a place, or with a word for how it is: `is 61 dry`, `what
does ms novak have`. Somebody may be called Are, so that they ask about no name by themselves.
"""

_OF_HAVING = ("what does ", "what do ", "what has ", "which rolls does ", "which rolls has ")

_OF_DRYING = ("when ", "can i ", "may i ")

_LISTS = {
    **dict.fromkeys(
        (
            *("who has what", "who has which", "who has which film", "who has what film"),
            *("who has which roll", "who has which rolls", "who has what roll"),
            *("who has what rolls", "who has rolls", "who has film", "who has loans"),
            *("who borrowed what", "who has borrowed what", "who has what borrowed"),
            *("which rolls are borrowed", "which rolls are lent", "which rolls are on loan"),
            *("which rolls are out", "what is on loan", "what's on loan", "what is lent out"),
        ),
        "borrowed",
    ),
}
"""Whole questions, by what is typed for the list that they ask for."""

_BEFORE_IT = frozenset(("in", "on", "at", "of", "the", "roll", "film"))
_HOW_IT_IS = frozenset(("dry", "wet", "tacky", "damp", "ready", "done", "flipped", "hanging"))
_WHERE_IT_IS = frozenset(("boxed", "missing", "found", "filed", "sleeved", "cut", "late", "lost"))
_HAVING = frozenset(("have", "borrow", "borrowed", "lent", "on", "loan", "still"))
_BEHIND_IT = _HOW_IT_IS | _WHERE_IT_IS | _HAVING | {"be", "yet", "now", "there", "empty", "full"}
_PLACES = frozenset(("clip", "rod", "box", "roll"))
_FILM = frozenset(("roll", "rolls", "film", "films", "strip", "strips"))
_ITSELF = frozenset(("it", "this", "that"))


def asked_about(line: str) -> str:
    """Return what a plain question is about, without the words around it; empty for any other line.

    It is what would be typed to look at it: a name, a clip, a number, a box or a rod; or a word for
    the roll that is seen, as `is_itself` tells.
    """
    asks = line.strip().endswith("?")
    words = line.strip().rstrip("? ").replace("’", "'").split()
    said = [word.casefold() for word in words]
    if " ".join(said) in _LISTS:
        return _LISTS[" ".join(said)]
    for many in (4, 3, 2, 1):
        front = " ".join(said[:many])
        if front in _IN_FRONT or (front in _IN_FRONT_OF_A_NUMBER and _is_asked(said[many:])):
            return _without_what_is_around(words[many:])
    return _without_what_is_around(words) if asks else ""


def asks_who_has(line: str) -> bool:
    """Tell whether a plain question is who has a roll of somebody: `who has Tariq`."""
    return line.casefold().split()[:2] == ["who", "has"] and bool(asked_about(line))


def asks_what_they_have(line: str) -> bool:
    """Tell whether a plain question is what somebody has: `what does Ms Novak have`."""
    said = " ".join(line.casefold().split())
    return said.startswith(_OF_HAVING) and bool(asked_about(line))


def asks_whether_dry(line: str) -> bool:
    """Tell whether a plain question is about film that dries: `is mara dry`, `can I take mara's`.

    >>> [asks_whether_dry(line) for line in ("is mara dry yet?", "when will mara be dry", "mara?")]
    [True, True, False]
    """
    said = " ".join(line.casefold().rstrip("? ").split())
    of_drying = said.startswith(_OF_DRYING) or bool(_HOW_IT_IS.intersection(said.split()))
    return of_drying and bool(asked_about(line))


def is_itself(asked: str) -> bool:
    """Tell whether a question is about the roll that is seen, and names none: `can I take it`."""
    return asked.casefold() in _ITSELF


def _is_asked(said: list[str]) -> bool:
    """Tell whether words name a clip or a place, or end in how it is."""
    return bool(said) and (said[0][0].isdecimal() or said[0] in _PLACES or said[-1] in _BEHIND_IT)


def _without_what_is_around(words: list[str]) -> str:
    while len(words) > 1 and words[0].casefold() in _BEFORE_IT:
        words = words[1:]
    while len(words) > 1 and words[-1].casefold() in _BEHIND_IT:
        words = words[:-1]
    if len(words) > 1 and words[-1].casefold() in _FILM and words[-2].casefold().endswith("'s"):
        words = words[:-1]
    return " ".join(words).removesuffix("'s")
