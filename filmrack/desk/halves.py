"""Cutting a line into what it names: people, clips, rolls, rods, boxes, binders and actions."""

from __future__ import annotations

import re
from typing import NamedTuple

from filmrack.desk.free_clips import with_free_clip
from filmrack.desk.rod_place import position_in, refuse_half_a_place
from filmrack.desk.sentence_parts import (
    refuse_half_understood,
    says_right_clip,
    verb_between,
    without_joins,
)
from filmrack.desk.session import Session
from filmrack.desk.verbs import (
    ANSWER_TO_WORDS_ALONE,
    DONE_TO,
    NOT_DRY,
    STEP_OF,
    VerbFirst,
    verb_first,
)
from filmrack.domain.asking import Part, code_in, parse
from filmrack.domain.clip import clip_number, refuse_other_clips
from filmrack.domain.codes import ACTIONS, read
from filmrack.domain.names import Person, folded, tokens
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.domain.student_desk import refuse_roll
from filmrack.store import people, rolls, search

ACTION_WORDS = {word.casefold(): word for word in ACTIONS} | {"fan off": "FANOFF", "off": "FANOFF"}

TYPED_WORDS = {
    **ACTION_WORDS,
    "hang": "HANG",
    "load": "LOAD",
    "still tacky": "TACKY",
    **dict.fromkeys(NOT_DRY, "WET"),
    "missing": "MISSING",
}
"""What is typed for an action. No code says HANG, LOAD, WET or MISSING: a loaded clip that is
scanned hangs, a person's code with a clip loads, and what is wet is kept as tacky is.
"""

_IT = re.compile(r"(?i)(?:it|this)(?: is|[’']?s)? (?P<how>.+)|(?:i )?(?P<verb>.+) (?:it|this)")

_ACTION_OF = {verb: TYPED_WORDS[verb] for verb in (*DONE_TO, "load")}
"""The action that a verb in front says."""

_FELT = {felt: TYPED_WORDS[felt] for felt in ("still tacky", *NOT_DRY)}
"""What a finger says in more words, or in words that no code has."""

_OF_THE_DRYER = ("FAN", "FANOFF")
_TO_A_ROD = ("hang", "hung", "move", "moved", "on", "to")
_NOBODY = Part("name", "unknown")
_BEGINNINGS = ("number", "clip", "rod", "box", "roll", "person", "binder")


def without_it(line: str) -> str:
    """Return what is said of a roll without a word for that roll, which is nobody's name.

    >>> without_it("its tacky"), without_it("it is dry"), without_it("it"), without_it("itsuki dry")
    ('tacky', 'dry', 'it', 'itsuki dry')
    >>> without_it("I take it"), without_it("cut it"), without_it("find it")
    ('take', 'cut', 'find it')
    """
    whole = _IT.fullmatch(line.strip())
    said = "" if whole is None else whole["how"] or whole["verb"]
    return said if said.casefold() in {*TYPED_WORDS, *STEP_OF} else line


class Half(NamedTuple):
    """One half of a sentence: one of the fields down to `right_clip`, or `unknown` alone; those
    from `unknown` on say more of a clip or a roll.
    """

    person: Person | None = None
    clip: int | None = None
    """A clip that is on no roll."""
    roll: Roll | None = None
    rod: int | None = None
    """A rod, and be it with a `position`."""
    box: int | None = None
    binder: str | None = None
    """A binder as `26F-03`, or a number alone."""
    right_clip: int | None = None
    """The clip that the roll before is on really."""
    unknown: bool = False
    """Whether it was said that nobody knows whose it is; beside a clip, that of its roll."""
    renews: bool = False
    """Whether a name behind a roll says whose new roll its clip carries, instead of that one."""

    by_number: bool = False
    """Whether a roll was named by its own number, and not by the clip that it is on by the record.
    """
    hangs: bool = False
    """Whether it was said of a free clip that it hangs: a bare number is its rod then."""
    position: int | None = None
    """Where on the rod, as it was said."""

    @property
    def clip_meant(self) -> str:
        """Return the clip that is meant, or the roll's number; empty for what is no clip."""
        if self.clip is not None:
            return str(self.clip)
        return "" if self.roll is None else str(self.roll.clip or self.roll.number)


def halves_of(session: Session, line: str) -> list[Half | str]:
    """Cut a line into halves and actions; an empty list means that it is a name to look for.

    Raises Refused for a code that is none of ours, or a name that is nobody's or several people's
    behind a clip.
    """
    whole = read(line)
    if whole is not None and whole.kind == "X":
        return [whole.body]
    word = folded(line)
    action = ACTION_WORDS.get(word) or _FELT.get(word)
    if whole is None and (action is not None or word in ANSWER_TO_WORDS_ALONE):
        # Somebody may be called Fan: then the line looks for them, and offers the word as well.
        if people.with_words(session.file.conn, tokens(line), limit=1):
            return []
        if action is None:
            raise Refused(with_free_clip(session, ANSWER_TO_WORDS_ALONE[word]))
        return [action]
    if code_in(line) is not None:
        return [_half(session, parse(line)[0])]
    order = verb_first(line)
    return _looked_at(session, order.rest) if order.verb == "find" else _typed(session, order)


def _looked_at(session: Session, asked: str) -> list[Half | str]:
    """Return the one thing that a question is about; an empty list means that it is a name.

    Raises Refused where its words are a sentence, for nothing is done by asking.
    """
    halves = halves_of(session, asked)
    if len(halves) > 1 or any(isinstance(half, str) for half in halves):
        raise Refused(
            f"“{asked[:30]}” is not done by asking for it: type that alone if it is so, or one"
            " name, one clip or one place to look at it"
        )
    return halves


def _typed(session: Session, order: VerbFirst) -> list[Half | str]:
    """`17 mar`, `17 rod 3`, `17 dry`, `rod 3 flip`: a sentence begins with a number or a place,
    or with a verb: `load mar 17`, `hang 17`, `flip rod 3`.
    """
    refuse_half_a_place(session, order.rest)
    rest, position = position_in(order.rest)
    verb, words = order.verb, rest.split()
    if not verb:
        verb, words = verb_between(session, words)
    words, action = _without_action(_plain(words))
    parts, joins = without_joins(parse(" ".join(words)))
    unknown = _says_unknown(session, parts)
    if unknown:
        parts = _clip_then_rod([part for part in parts if part != _NOBODY])
    if not verb and _names_then_clip(session, parts):
        parts = [parts[-1], *parts[:-1]]
    if verb in ("load", "hang"):
        parts.sort(key=lambda part: part.kind != "name")
    elif not parts or parts[0].kind not in _BEGINNINGS:
        return []
    if action is None and says_right_clip(verb, parts, joins):
        return [_half(session, parts[0]), Half(right_clip=clip_number(parts[1].value))]
    refuse_half_understood(session, verb, parts, joins, action)
    action = _still_to_say(action or _ACTION_OF.get(verb), parts)
    if not verb and len(parts) == 1 and parts[0].kind == "box":
        return _box_or_clip(session, int(parts[0].value), action)
    halves: list[Half | str] = [Half(unknown=True)] if unknown else []
    halves += [
        half if half.rod is None else half._replace(position=position)
        for half in _named(session, parts)
    ]
    return [*halves, action] if action else halves


def _says_unknown(session: Session, parts: list[Part]) -> bool:
    """Tell whether a line says that nobody knows whose a roll is; somebody may be called so."""
    if len(parts) < 2 or _NOBODY not in parts:
        return False
    return not people.with_words(session.file.conn, [_NOBODY.value], limit=1)


def _still_to_say(action: str | None, parts: list[Part]) -> str | None:
    """Return an action, unless its line says the same without the word: `hang 17 rod 3`."""
    says_so = {"HANG": "rod", "LOAD": "name"}.get(action or "")
    return None if any(part.kind == says_so for part in parts) else action


def _named(session: Session, parts: list[Part]) -> list[Half]:
    """Return what is named in a line; all names in it are one person's, where the first stands."""
    names = [part for part in parts if part.kind == "name"]
    halves: list[Half] = []
    for part in parts:
        if part.kind != "name":
            halves.append(_half(session, part))
        elif part is names[0]:
            halves.append(Half(person=_who(session, " ".join(name.value for name in names))))
    return halves


def _clip_then_rod(parts: list[Part]) -> list[Part]:
    """Behind the clip of an unknown roll a bare number is its rod."""
    match parts:
        case [clip, Part("number", rod)] if clip.kind in ("number", "clip"):
            return [clip, Part("rod", rod)]
        case _:
            return parts


def _plain(words: list[str]) -> list[str]:
    """Return words without what only leads to the rod: `17 hang on rod 3` is `17 rod 3`."""
    at = next((nth for nth, word in enumerate(words) if word.casefold() == "rod"), 0)
    before = at
    while before > 1 and words[before - 1].casefold() in _TO_A_ROD:
        before -= 1
    return [*words[:before], *words[at:]]


def _names_then_clip(session: Session, parts: list[Part]) -> bool:
    """Tell whether a line is somebody's name and a clip behind it: `mara 17` is `17 mara`."""
    names, last = [part.value for part in parts[:-1]], parts[-1:]
    if not names or not all(part.kind == "name" for part in parts[:-1]):
        return False
    is_clip = any(part.kind == "clip" or part.may_be_a_clip for part in last)
    return is_clip and bool(people.with_words(session.file.conn, names, limit=1))


def _box_or_clip(session: Session, number: int, action: str | None) -> list[Half | str]:
    """`box 17` where no box has that number boxes what is on that clip."""
    on_clip = rolls.on_clip(session.file.conn, number)
    if on_clip is None or action or session.file.room().box(number) is not None:
        return [Half(box=number), *([action] if action else [])]
    return [Half(roll=on_clip), "BOX"]


def _without_action(words: list[str]) -> tuple[list[str], str | None]:
    for length in (2, 1):
        tail = " ".join(words[-length:]).casefold()
        action = TYPED_WORDS.get(tail)
        if len(words) > length and action is not None and action not in _OF_THE_DRYER:
            return words[:-length], action
    return words, None


def _who(session: Session, text: str) -> Person:
    """Return who is called so. Raises Refused for nobody, and for a word that is no name but the
    teacher's, as `found`.
    """
    try:
        return search.who(session.file.conn, text, short=session.by != "teacher")
    except Refused:
        from filmrack.desk.teachers_words import refuse_the_teachers  # few lines come to this

        refuse_the_teachers(text, session.by)
        raise


def _roll(session: Session, text: str) -> Half:
    found = search.which(session.file.conn, text)
    refuse_roll(session.by, found)
    return Half(roll=found, by_number=True)


def _half(session: Session, part: Part) -> Half:
    conn = session.file.conn
    match part.kind:
        case "rod":
            return Half(rod=int(part.value))
        case "box":
            return Half(box=int(part.value))
        case "person":
            return Half(person=_who(session, part.value))
        case "number" if not part.may_be_a_clip:
            return _roll(session, part.value)
        case "clip" | "number":
            number = int(part.value)
            refuse_other_clips(number)
            on_clip = rolls.on_clip(conn, number)
            return Half(clip=number) if on_clip is None else Half(roll=on_clip)
        case "binder" if session.by != "teacher":
            raise Refused("binders are the archive's, which is the teacher's: ask the teacher")
        case "binder":
            return Half(binder=part.value)
        case _:
            return _roll(session, part.value)
