"""What a line is to a sweep: counts, clips and places are its own, names are not."""

from __future__ import annotations

import re
from typing import NamedTuple

from filmrack.domain.asking import parse
from filmrack.domain.codes import read
from filmrack.domain.refusal import Refused

AGAIN = "sweep again"
"""The words that begin another sweep, on any screen."""

_WORDS = {
    **dict.fromkeys(("finish", "finish sweep", "finish the sweep", "end", "end sweep"), "finish"),
    **dict.fromkeys(("next", "next rod", "skip"), "next"),
    "done": "done",
    **dict.fromkeys(("stop", "pause"), "stop"),
    **dict.fromkeys(("box dry", "box the dry", "box the dry ones", "box all dry"), "box dry"),
    **dict.fromkeys(("all dry", "all the dry", "all that is dry", "all but wet"), "box dry"),
    **dict.fromkeys(("all but the wet", "all but the wet ones"), "box dry"),
    **dict.fromkeys(("box all", "box them all", "box all the same", "box it all"), "box all"),
    **dict.fromkeys(("slips", "slip", "sweepslip"), "slips"),
    AGAIN: AGAIN,
    "undo": "undo",
}
"""The kinds of lines that are the sweep's as they are. Somebody may be called so, but at the open
cabinet nobody looks for them."""
_THINGS = ("number", "clip", "roll")
_HANGS = ("hang", "hangs", "hung", "put", "move", "moved", "is", "on", "to", "at")
"""What is said of a roll and its rod."""
_SO_MANY = re.compile(r"(?ia)(\d{1,3}) (?:(?:rolls?|strips?) )?(?:hangs?|hanging)(?: here| there)?")
_NUMBER = re.compile(r"(?a)\d+")
_CLIPS = re.compile(r"(?ia)(?:clips? )?\d{1,3}(?:(?: ?, ?| and | )\d{1,3})+")


class Meant(NamedTuple):
    """A line for the sweep, as a kind and its value.

    Kinds are undo, sweep again, slips, finish, next, done, stop, box dry, box all, missing (value:
    the roll's own words, or nothing), count, rod, box, number (a count's or a clip's), clip, clips
    (value: their numbers) and roll. `box` is one that was named behind a roll, `rod` one that was
    named before a count.
    """

    kind: str
    value: str = ""
    box: int | None = None
    rod: int | None = None


def meant(text: str) -> Meant | None:
    """Return what a line is to a sweep; None if it is not for it."""
    words = text.split()
    folded = [word.casefold() for word in words]
    code = read(text)
    if code is not None and (code.kind, code.body) == ("X", "UNDO"):
        return Meant("undo")
    kind = _WORDS.get(" ".join(folded))
    if kind is not None:
        return Meant(kind)
    if "missing" in (*folded[:1], *folded[-1:]):
        which = words[:-1] if folded[-1] == "missing" else words[1:]
        return Meant("missing", " ".join(which)) if _is_roll(which) else None
    if len(folded) == 2 and folded[0] == "count" and words[1].isascii() and words[1].isdecimal():
        return Meant("count", words[1]) if len(words[1]) <= 3 else None
    if _CLIPS.fullmatch(text.strip()):
        return Meant("clips", " ".join(dict.fromkeys(_NUMBER.findall(text))))
    try:
        parts = parse(text)
    except Refused:
        return None
    kinds = [part.kind for part in parts]
    if len(parts) == 1 and kinds[0] in (*_THINGS, "rod", "box"):
        kind = "roll" if kinds[0] == "number" and not parts[0].may_be_a_clip else kinds[0]
        return Meant(kind, parts[0].value)
    between = [part.value for part in parts[1:-1]]
    if kinds[:1] == ["rod"] and parts[-1].may_be_a_clip and between in ([], ["count"]):
        return Meant("count", parts[-1].value, rod=int(parts[0].value))
    if len(parts) == 2 and kinds[0] in _THINGS and kinds[1] == "box":
        roll = f"clip {parts[0].value}" if kinds[0] == "clip" else parts[0].value
        return Meant("roll", roll, int(parts[1].value))
    return None


def so_many_hang(text: str) -> int | None:
    """Return how many hang on a rod by a line that says so in words; None for any other line.

    >>> so_many_hang("9 hang"), so_many_hang("9 strips hang here"), so_many_hang("hang 9")
    (9, 9, None)
    """
    said = _SO_MANY.fullmatch(" ".join(text.split()))
    return int(said[1]) if said else None


def hangs_on_rod(text: str) -> tuple[str, int] | None:
    """Return a clip or roll and the rod on which a line says that it hangs; None for others.

    >>> hangs_on_rod("77 on rod 3"), hangs_on_rod("hang clip 77 rod 3"), hangs_on_rod("77 box 3")
    (('77', 3), ('clip 77', 3), None)
    """
    try:
        parts = parse(text)
    except Refused:
        return None
    told = [part for part in parts if part.value.casefold() not in _HANGS]
    if [part.kind in _THINGS for part in told] != [True, False] or told[1].kind != "rod":
        return None
    thing = told[0]
    roll = f"clip {thing.value}" if thing.kind == "clip" else thing.value
    return roll, int(told[1].value)


def is_print(text: str) -> bool:
    """Tell whether a line asks for a print: once a sweep is finished, its slips are meant."""
    return text.casefold().split() in (["print"], ["print", "slips"], ["print", "the", "slips"])


def _is_roll(words: list[str]) -> bool:
    """Tell whether words name one roll or clip; no words name the one that is looked for."""
    try:
        parts = parse(" ".join(words)) if words else []
    except Refused:
        return False
    return not words or [part.kind in _THINGS for part in parts] == [True]
