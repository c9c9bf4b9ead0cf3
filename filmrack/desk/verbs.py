"""Lines that begin with what to do, as the commands do: `flip 17`, `load mara 17`, `find mara`.

>>> verb_first("flip 17")
VerbFirst(verb='flip', rest='17')
>>> verb_first("load mara --clip 17")
VerbFirst(verb='load', rest='mara clip 17')
>>> verb_first("who has 26F-0142?"), verb_first("where is mara")
(VerbFirst(verb='find', rest='26F-0142'), VerbFirst(verb='find', rest='mara'))
>>> verb_first("hang nguyen"), verb_first("box 3")
(VerbFirst(verb='', rest='hang nguyen'), VerbFirst(verb='', rest='box 3'))
"""

from __future__ import annotations

import re
from typing import NamedTuple

from filmrack.desk.plain_questions import asked_about
from filmrack.domain.asking import parse

ANSWER_TO_VERB_ALONE = {
    "load": "load what? Type whose roll it is and its clip, as “load juniper {free}”",
    "hang": "hang what? Scan its clip, or type “hang 17”",
    "find": "find what? Type three letters of a name, or scan a clip",
    "touch": "touch what? Type the clip and what you felt, as “17 dry” or “17 tacky”",
    "move": "move what? Type the clip and its rod, as “17 rod 3”, or another clip, as “17 clip"
    " {free}”",
    "reclip": "reclip what? Type the wrong clip and the right one, as “17 clip {free}”",
}
"""What to type instead of a verb alone; `{free}` stands for a clip that is free in the room."""

ANSWER_TO_WORDS_ALONE = {
    **ANSWER_TO_VERB_ALONE,
    "wrong rod": "which roll hangs on another rod? Type its clip and that rod, as “17 rod 3”",
    "wrong name": "whose is which roll? Type its clip and the name, as “17 claim juniper”",
    "wrong clip": "which clip is wrong? Type it and the right one, as “17 clip {free}”",
    "missing": "which roll is missing? Type its clip, as “17 missing”",
}
"""What to type instead of words that are no whole sentence."""

WANTED = {
    **ANSWER_TO_VERB_ALONE,
    "claim": "whose is it? Type its clip and a name, as “17 claim juniper”",
    "show": "show what? Type one clip or one roll's number alone, as “17”",
}
"""What to type instead of a verb and what does not go with it."""

DONE_TO = ("flip", "dry", "tacky", "take", "box", "undo", "hang")
"""Verbs that may stand behind what they are done to as well."""

STEP_OF = {
    "sleeve": "sleeve",
    "cut": "sleeve",
    "cut and sleeve": "sleeve",
    "contact": "contact",
    "contact sheet": "contact",
    "file": "file",
    "found": "found",
    "end loan": "back",
    "bring back": "back",
    "return": "back",
}
"""Words for the next step of a roll from its box on, with the step that each is."""

NOT_DRY = ("wet", "still wet", "damp", "still damp", "not dry")
"""What a finger feels that is no code: it is kept as tacky is."""

_WITH_A_NAME = frozenset(
    {
        "load",
        "hang",
        "find",
        "touch",
        "move",
        *DONE_TO,
        "still tacky",
        *NOT_DRY,
        "missing",
        *STEP_OF,
    }
)
"""Verbs that may stand before a name or behind it."""

_SAID_BY_THE_REST = ("touch", "move", "reclip", "claim", "file", "show")
_THINGS = frozenset({"number", "clip", "roll", "rod"})
_CLIPS = frozenset({"number", "clip"})
_OPTION = re.compile(r"--(?=[a-z])")


class VerbFirst(NamedTuple):
    """A line cut into the verb that it begins with, empty when there is none, and the rest."""

    verb: str
    rest: str


def verb_first(line: str) -> VerbFirst:
    """Cut a line; a verb counts only before what it can be done to, for people have all names.

    Raises Refused for a code that is none of ours.
    """
    sought = asked_about(line)
    if sought:
        return VerbFirst("find", sought)
    first, _, behind = line.strip().partition(" ")
    verb, rest = first.casefold(), without_dashes(behind).strip()
    if not rest or (verb == "box" and rest.isdecimal() and len(rest) < 4):
        return VerbFirst("", line)
    if verb in ("load", *DONE_TO, *_SAID_BY_THE_REST):
        kinds = [part.kind for part in parse(rest)]
        named = _CLIPS.intersection(kinds) if verb in ("load", "hang") else ()
        if named or _THINGS.intersection(kinds[:1]):
            return VerbFirst(verb, rest)
    return VerbFirst("", line)


def without_dashes(text: str) -> str:
    """Return words without the dashes that an option has on the command line: `clip 17`."""
    return _OPTION.sub("", text)


def looked_for(line: str) -> VerbFirst:
    """Cut a line that names nothing to do anything to: `hang mara`, `mara hang` look for Mara, and
    so does `mara is dry`.
    """
    sought = asked_about(line)
    if sought:
        return VerbFirst("find", sought)
    words = line.split()
    for many in range(min(3, len(words) - 1), 0, -1):
        for verb, rest in ((words[:many], words[many:]), (words[-many:], words[:-many])):
            said = " ".join(verb).casefold()
            if said in _WITH_A_NAME:
                joined = rest[1:] and rest[-1].casefold() == "is"
                return VerbFirst(said, " ".join(rest[:-1] if joined else rest))
    return VerbFirst("", line)
