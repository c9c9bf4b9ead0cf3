"""What a name is to a sweep: with a word behind it a strip on the rod in hand, else a question."""

from __future__ import annotations

from filmrack.desk.halves import TYPED_WORDS
from filmrack.desk.said import Said
from filmrack.desk.session import Session
from filmrack.desk.sweep.lines_typed import meant
from filmrack.desk.sweep.turn import Turn
from filmrack.desk.sweep.ways import which
from filmrack.desk.verbs import looked_for
from filmrack.domain.asking import parse
from filmrack.domain.counted import listed
from filmrack.domain.names import Person, folded, is_one_of, tokens
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.domain.student_desk import refuse_roll
from filmrack.store import search

_SAID = ("DRY", "TACKY", "WET", "MISSING")
"""What can be said of somebody's strip at a rod: what a finger felt, or that it is not there."""


def name_and_word(text: str) -> tuple[str, str] | None:
    """Cut a line into a name and what is said of that strip; None for any other line.

    >>> name_and_word("Red W. is missing"), name_and_word("red still wet")
    (('Red W.', 'missing'), ('red', 'still wet'))
    >>> name_and_word("missing red"), name_and_word("still wet red w")
    (('red', 'missing'), ('red w', 'still wet'))
    >>> name_and_word("79 wet"), name_and_word("box dry"), name_and_word("red")
    (None, None, None)
    """
    if meant(text) is not None:
        return None
    said, name = looked_for(text)
    return (name, said) if TYPED_WORDS.get(said) in _SAID and _is_name(name) else None


def clip_found_wet(text: str) -> int | None:
    """Return the clip of a strip that a finger found wet or tacky; None for any other line.

    >>> [clip_found_wet(line) for line in ("1 wet", "still wet clip 1", "mara wet", "1 dry")]
    [1, 1, None, None]
    """
    said, what = looked_for(text)
    line = meant(what) if TYPED_WORDS.get(said) in ("WET", "TACKY") else None
    return int(line.value) if line is not None and line.kind in ("number", "clip") else None


def _is_name(text: str) -> bool:
    try:
        parts = parse(text)
    except Refused:
        return False
    return bool(parts) and all(part.kind == "name" for part in parts)


def by_clip(session: Session, turn: Turn, name: str, said: str) -> str:
    """Return what is said of somebody's strip on a rod as it is said of its clip: `79 wet`;
    `unknown wet` means the one that nobody knows whose it is.

    Raises Refused where not just one strip of the rod is meant.
    """
    owners, rod = session.look().people, turn.rod.number
    there = [(each.roll, owners.get(each.roll.person or 0)) for each in turn.hanging]
    theirs = [(roll, owner) for roll, owner in there if owner and _begins(owner, name)]
    called = [each for each in theirs if is_one_of(name, _names(each[1]))]
    some: list[tuple[Roll, Person | None]] = [*(called or theirs)]
    if not some and _is_unknown(name):
        some = [each for each in there if each[1] is None]
    if not some:
        raise Refused(
            f"no strip of “{name[:30]}” should hang on rod {rod}: go to the rod where it should,"
            f" or type its clip, as “17 {said}”"
        )
    if len(some) > 1:
        clips = listed([which(roll, owners) for roll, _ in some], 4)
        first = some[0][0]
        raise Refused(
            f"on rod {rod} “{name[:30]}” can be {clips}: type which,"
            f" as “{first.clip or first.number} {said}”"
        )
    ((roll, owner),) = some
    if owner is not None:
        search.refuse_guess(owner, name)
    return f"{roll.clip or roll.number} {said}"


def _is_unknown(name: str) -> bool:
    return folded(name) in ("unknown", "unknown roll", "the unknown", "the unknown roll")


def _begins(owner: Person, name: str) -> bool:
    words = tokens(" ".join(owner.single_names))
    return all(any(word.startswith(part) for word in words) for part in tokens(name))


def _names(owner: Person) -> tuple[str, ...]:
    return (*owner.whole_names, *owner.single_names)


def tell_place(session: Session, turn: Turn | None, roll: Roll) -> Said:
    """Say where a roll is that was found by name; nothing is done to it, and the sweep goes on.

    Raises Refused for one that this desk does not show.
    """
    refuse_roll(session.by, roll)
    words = f"{roll.place}, last seen {roll.seen}" if roll.place.kind == "missing" else roll.place
    on_this_rod = turn is not None and roll.place.is_rod(turn.rod.number)
    if on_this_rod and roll.clip is not None:
        words = f"{words}. Not there? Type “{roll.clip} missing”. Still wet? “{roll.clip} wet”"
    return Said(session.headline(roll), str(words), select=roll.id)
