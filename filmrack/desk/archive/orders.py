"""Lines of the archive: what is to be done, to which roll or term, and what else is said of it.

>>> read_order("lend 26F-0142-09 Ms Novak 4 dec")
Order(verb='lend', rest='Ms Novak 4 dec', roll='26F-0142')
>>> read_order("file 0142 3")
Order(verb='file', rest='3', roll='0142')
>>> read_order("26F-0142 end loan"), read_order("contact a4 4, 11")
(Order(verb='back', rest='', roll='26F-0142'), Order(verb='contact', rest='a4 4, 11', roll=''))
>>> read_order("return 0193")
Order(verb='back', rest='', roll='0193')
>>> read_order("lend mara to Ms Novak"), read_order("mara lend olu")
(Order(verb='lend', rest='Ms Novak', roll='mara'), Order(verb='lend', rest='olu', roll='mara'))
>>> read_order("15 cut"), read_order("clip 15 lend mara")
(Order(verb='sleeve', rest='', roll='clip 15'), Order(verb='lend', rest='mara', roll='clip 15'))
>>> read_order("sleeve clip 15 36"), read_order("sleeve 15")
(Order(verb='sleeve', rest='36', roll='clip 15'), Order(verb='sleeve', rest='15', roll=''))
>>> read_order("missing 15"), read_order("missing")
(Order(verb='mark missing', rest='', roll='clip 15'), None)
>>> read_order("lend it to Ms Novak"), read_order("file it in binder 3")
(Order(verb='lend', rest='to Ms Novak', roll=''), Order(verb='file', rest='in binder 3', roll=''))
>>> read_order("term close 26f"), read_order("lena")
(Order(verb='close term', rest='26f', roll=''), None)
"""

from __future__ import annotations

import re
from typing import NamedTuple

from filmrack.desk.registry import NOT_PUT_AWAY
from filmrack.desk.verbs import without_dashes
from filmrack.domain.asking import parse
from filmrack.domain.names import QUOTES
from filmrack.domain.refusal import Refused

_VERBS = {
    "end loan": "back",
    "loan ended": "back",
    "bring back": "back",
    "return": "back",
    "back": "back",
    "hand back": "hand back",
    "hand-back": "hand back",
    "release": "hand back",
    "found": "found",
    "mark missing": "mark missing",
    "missing": "mark missing",
    "lend": "lend",
    "discard": "discard",
    "note": "note",
    "sleeve": "sleeve",
    "cut and sleeve": "sleeve",
    "cut": "sleeve",
    "contact": "contact",
    "contact sheet": "contact",
    "picks": "picks",
    "pick": "picks",
    "unpick": "unpick",
    "no pick": "unpick",
    "no picks": "unpick",
    "file": "file",
    "claim": "claim",
}
"""What is done to a roll, by what may be typed."""

_OF_A_TERM = {
    "term report": "report",
    "report": "report",
    **dict.fromkeys(NOT_PUT_AWAY, "report"),
    "figures": "figures",
    "term figures": "figures",
    "hand-back list": "hand-back list",
    "hand back list": "hand-back list",
    "term hand-back": "hand-back list",
    "term hand back": "hand-back list",
    "close term": "close term",
    "term close": "close term",
    "open term": "open term",
    "term open": "open term",
    "reopen term": "reopen term",
    "term reopen": "reopen term",
    "shelve": "shelve",
}
"""What is done with a term; behind it its code, or the binder to shelve in."""

_LONGEST = max(len(words.split()) for words in (*_VERBS, *_OF_A_TERM))

TERM_VERBS = frozenset(_OF_A_TERM.values())
_TAKES_CLIP = frozenset({"sleeve", "contact", "file"})
"""Verbs behind which a number alone may be something else, but “clip 17” is a clip."""

_NEEDS_NOTHING = frozenset({"back", "hand back", "found", "mark missing"})
"""Verbs that are whole without anything behind them."""

_SERIAL = 4
"""Figures of a serial number at least; a clip and a binder have fewer."""

_BINDER = re.compile(r"(?i)(in |into )?(the )?(binder )?(\d\d?|\d\d[a-z]-\d\d)")

_OF_PICKS = frozenset({"picks", "unpick"})
OF_SLEEVES = frozenset({"contact", "file", *_OF_PICKS})
"""What is done to sleeves alone, so that no film on its clip is meant."""

_NAMED_OPTIONS = ("to", "binder", "page", "frames", "paper", "picks", "why")


class Order(NamedTuple):
    """What a line wants done: `roll` is a number as people write it; empty for the selected one.

    What is lent may be named by whose it is instead.
    """

    verb: str
    rest: str
    roll: str = ""


def read_order(line: str) -> Order | None:
    """Return the order that a line is; None where it is none.

    Raises Refused for a code that is none of ours.
    """
    words = line.split()
    if not words:
        return None
    first, behind_it = _first_roll(words)
    verb, behind = _verb(behind_it)
    if behind[:1] in (["it"], ["It"]):
        behind = behind[1:]  # the roll that is seen, which needs no word
    if not verb:
        return None if first else _lent_behind(words)
    if verb in TERM_VERBS:
        fits = not behind or verb == "shelve" or (len(behind) == 1 and _is_code(behind[0]))
        return Order(verb, " ".join(behind)) if fits and not first else None
    second = roll_in(behind[0]) if behind and not first else ""
    rest = _without_options(behind[1:] if second else behind)
    if verb == "mark missing" and not first and _is_clip(behind):
        second, rest = f"clip {int(behind[-1])}", ""
    if verb in _TAKES_CLIP and not first and _is_clip(behind[:2]) and behind[0].lower() == "clip":
        second, rest = f"clip {int(behind[1])}", _without_options(behind[2:])
    roll = first or second
    if verb == "lend" and not roll:
        of, to = _cut_at(behind, "to")
        return Order(verb, _without_options(to if of else behind), _whose(of))
    if verb == "mark missing" and not roll and words[0].casefold() == "missing":
        return None  # alone it asks to be shown what is missing
    if verb in _NEEDS_NOTHING and rest:
        return None  # somebody may be called Back
    if verb == "back" and roll.startswith("clip "):
        return None  # and carry a roll on a clip, while no sleeve that is lent has one
    return Order(verb, rest, roll)


def _lent_behind(words: list[str]) -> Order | None:
    """Return the order of `mara lend olu`, `mara lend to olu`, or None."""
    of, to = _cut_at(words, "lend")
    if not of:
        return None
    return Order("lend", _without_options(to[to[:1] in (["to"], ["To"]) :]), _whose(of))


def _cut_at(words: list[str], word: str) -> tuple[list[str], list[str]]:
    """Return what stands before a word and behind it; nothing before it where it comes first, or
    not at all, or behind quotes: what stands in those is kept as it is.
    """
    said = [each.casefold() for each in words]
    at = said.index(word) if word in said else 0
    if any(each[0] in QUOTES for each in words[:at]):
        at = 0
    return words[:at], words[at + 1 :]


def _whose(words: list[str]) -> str:
    """Return how the roll that is lent is named, without words that only say that it is one."""
    left = [word for word in words if word.casefold() not in ("the", "roll", "film", "of")]
    named = " ".join(re.sub(r"['’]s?$", "", word) for word in left)
    return f"clip {int(left[-1])}" if _is_clip(left) else named


def order_if_readable(line: str) -> Order | None:
    """Return the order that a line is, as `read_order` does; None also for a code that is none of
    ours, for who only asks whether it is an order.
    """
    try:
        return read_order(line)
    except Refused:
        return None


def begins_with_a_verb(line: str) -> bool:
    """Tell whether a line begins with something to be done that nobody is called like.

    >>> [begins_with_a_verb(line) for line in ("file all", "lend a hand", "Back, Ida", "Ida Note")]
    [True, True, False, False]
    """
    verb, _ = _verb(line.split())
    return bool(verb) and verb not in _NEEDS_NOTHING


def for_the_archive(order: Order) -> bool:
    """Tell whether an order is the archive's on whatever screen it is typed: it names its roll."""
    return bool(order.roll or order.verb in TERM_VERBS)


def _verb(words: list[str]) -> tuple[str, list[str]]:
    for length in range(_LONGEST, 0, -1):
        typed = " ".join(words[:length]).casefold().rstrip("?")
        verb = _OF_A_TERM.get(typed) or _VERBS.get(typed)
        if verb is not None and len(words) >= length:
            return verb, words[length:]
    return "", words


def _first_roll(words: list[str]) -> tuple[str, list[str]]:
    """Return the roll that a line begins with, by its number or its clip, and what is behind."""
    many = 2 if words[0].casefold() == "clip" else 1
    if len(words) <= many:
        return "", words
    number = words[many - 1]
    if number.isascii() and number.isdecimal() and len(number) < _SERIAL:
        return f"clip {int(number)}", words[many:]
    roll = roll_in(words[0])
    return (roll, words[1:]) if roll else ("", words)


def _is_clip(words: list[str]) -> bool:
    """Tell whether words are a clip alone: `17`, `clip 17`."""
    before = [word.casefold() for word in words[:-1]]
    number = words[-1] if words and before in ([], ["clip"]) else ""
    return number.isascii() and number.isdecimal() and len(number) < _SERIAL


def by_whose_it_is(order: Order) -> bool:
    """Tell whether an order names its roll by whose it is: `lend mara to Ms Novak`."""
    return order.roll != "" and not of_a_clip(order) and roll_in(order.roll) != order.roll


def of_a_clip(order: Order) -> bool:
    """Tell whether an order names its roll by the clip: it is on its way, and seen elsewhere."""
    return order.roll.startswith("clip ")


def begins_with_a_clip(order: Order) -> bool:
    """Tell whether a number stands right behind the verb, which may be a clip's or something of
    the verb's own: frames, a binder. All behind picks and several behind “contact” are frames,
    for clips have no sheets.
    """
    words = order.rest.split()
    is_number = bool(words) and words[0].isdecimal() and len(words[0]) < _SERIAL
    picks = order.verb in _OF_PICKS or (order.verb == "contact" and len(words) > 1)
    return is_number and not picks and not names_a_binder(order)


def names_a_binder(order: Order) -> bool:
    """Tell whether an order files the roll on the card, and says in which binder: `file 3`."""
    return order.verb == "file" and not order.roll and _BINDER.fullmatch(order.rest) is not None


def roll_in(word: str) -> str:
    """Return a roll's number, `26F-0142` or the serial number alone, from four figures on."""
    parts = parse(word)
    if len(parts) != 1:
        return ""
    kind, value = parts[0]
    return value if kind == "roll" or (kind == "number" and len(value) >= _SERIAL) else ""


def _is_code(word: str) -> bool:
    return re.fullmatch(r"\d\d[a-z]", word.casefold()) is not None


def _without_options(words: list[str]) -> str:
    """`--binder 3` as on the command line is `3` here."""
    return without_dashes(" ".join(word for word in words if not _is_option(word)))


def _is_option(word: str) -> bool:
    return word.startswith("--") and word[2:].casefold() in _NAMED_OPTIONS
