"""The journey of a roll: its state is the fold of its ledger entries by (happened, id).

Each act is possible from some places only; a physical act from a place the record did not
expect is accepted wherever a hand could have done it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from filmrack.domain.refusal import Hopeless
from filmrack.domain.roll import (
    ARCHIVED,
    BEFORE_SLEEVING,
    GONE,
    HANGABLE,
    PLACES,
    Entry,
    Place,
    Roll,
)
from filmrack.domain.steps import STEPS
from filmrack.domain.story import act_in_words

ON_A_ROD = frozenset({"rod"})
SLEEVED_ON = ARCHIVED | {"missing"}
ANYWHERE = PLACES - {"discarded", "void"}

POSSIBLE_FROM: dict[str, frozenset[str]] = {
    "hang": HANGABLE,
    "flip": ON_A_ROD,
    "touch": ON_A_ROD,
    "move": ON_A_ROD,
    "seen": ON_A_ROD,
    "box": BEFORE_SLEEVING,
    "take": BEFORE_SLEEVING,
    "sleeve": BEFORE_SLEEVING - {"tank"},
    "contact": SLEEVED_ON,
    "picks": SLEEVED_ON,
    "unpick": SLEEVED_ON,
    "file": SLEEVED_ON,
    "lend": ARCHIVED - {"out"},
    "back": frozenset({"out"}),
    "missing": ANYWHERE,
    "unclip": frozenset({"owner"}),
    "reclip": BEFORE_SLEEVING,
    "found": frozenset({"missing", "handed_back"}),
    "release": ANYWHERE - {"handed_back"},
    "discard": ANYWHERE,
    "claim": PLACES,
    "swap": PLACES,
    "note": PLACES,
}

FIRST_ACTS = ("load", "shelve")
_UNCUT = ("hang", "flip", "touch", "move", "seen", "box", "take", "sleeve", "reclip")
"""What is done to film that is not cut yet."""


class OutOfPlace(Hopeless):
    """An act that is not possible from where the roll was; `entry` is that act."""

    def __init__(self, entry: Entry, message: str) -> None:
        super().__init__(message)
        self.entry = entry


def trail(entries: Iterable[Entry]) -> Iterator[tuple[Entry, Roll]]:
    """Yield each entry, in the order of (happened, id), with the state of the roll after it.

    Raises OutOfPlace at the first entry that is not possible.
    """
    roll: Roll | None = None
    for entry in sorted(entries, key=lambda entry: (entry.happened, entry.id)):
        roll = _begin(entry) if roll is None else _go_on(roll, entry)
        yield entry, roll


def fold(entries: Iterable[Entry]) -> Roll | None:
    """Return the state after all entries, or None when there are none: the roll is void.

    Raises OutOfPlace at the first entry that is not possible.
    """
    state = None
    for _, after in trail(entries):
        state = after
    return state


def _begin(entry: Entry) -> Roll:
    detail = entry.detail
    if entry.act not in FIRST_ACTS or entry.roll is None:
        raise OutOfPlace(
            entry,
            f"a roll cannot begin with “{act_in_words(entry.act)}”: load it first, or give a later"
            " time",
        )
    place = Place("binder", detail["binder"]) if entry.act == "shelve" else Place("tank")
    shelved = entry.happened if entry.act == "shelve" else None
    return Roll(
        id=entry.roll,
        term=detail["term"],
        serial=detail["serial"],
        film=detail["film"],
        frames=detail.get("frames"),
        place=place,
        since=entry.happened,
        first_at=entry.happened,
        seen=place,
        seen_at=entry.happened,
        person=detail.get("person"),
        period=detail.get("period"),
        clip=detail.get("clip"),
        clue=detail.get("clue"),
        sleeved_at=shelved,
        filed_at=shelved,
        binder=detail.get("binder"),
        pages=tuple(tuple(page) for page in detail.get("pages", ())),
        assumed=frozenset({entry.act}) if entry.assumed else frozenset(),
    )


def _go_on(roll: Roll, entry: Entry) -> Roll:
    if why := why_not(roll, entry.act):
        raise OutOfPlace(entry, why)
    if entry.act == "missing" and roll.place.kind == "missing" and "gave_up" not in entry.detail:
        raise OutOfPlace(entry, _in_words(roll, entry.act))
    after = STEPS[entry.act](roll, entry)
    if entry.assumed:
        return after._replace(assumed=after.assumed | {entry.act})
    return after


def why_unsleeved(roll: Roll) -> str:
    """Return why a roll that is not sleeved can be neither printed nor filed; empty if it is."""
    if roll.sleeved_at is not None:
        return ""
    return f"{roll.number} is not sleeved yet ({_where(roll.place)}): cut and sleeve it first"


def why_not(roll: Roll, act: str) -> str:
    """Return why an act is not possible from where a roll is, and what to do; empty if it is."""
    possible = roll.place.kind in POSSIBLE_FROM.get(act, frozenset())
    if roll.place.kind in GONE and not possible:
        return _in_words(roll, act)
    if act in ("contact", "picks", "unpick", "file") and (unsleeved := why_unsleeved(roll)):
        return unsleeved
    if act in ("picks", "unpick") and not roll.sheets:
        return (
            f"{roll.number} has no contact sheet yet to pick frames on: say first with “contact”"
            " that one was made"
        )
    whole_film_only = act in _UNCUT and roll.sleeved_at is not None
    return "" if possible and not whole_film_only else _in_words(roll, act)


def _in_words(roll: Roll, act: str) -> str:
    """Return why an act is not possible, for one that is not."""
    kind, where = roll.place.kind, _where(roll.place)
    if kind == "handed_back":
        return (
            f"{roll.number} is handed back: if it is here again say so first, with"
            f" “found {roll.number}”"
        )
    if kind in GONE:
        return f"{roll.number} is {where}: undo that first if it is not so"
    if act == "take" and kind in ("sleeve", "binder"):
        return (
            f"{roll.number} is sleeved already ({where}): to hand it out type"
            f" “lend {roll.number}” and who borrows it, or hand it back for good"
        )
    if act == "take" and kind == "out":
        return f"{roll.number} is borrowed already: end that loan first, when it is here again"
    if roll.sleeved_at is not None and act in _UNCUT:
        return f"{roll.number} is sleeved already ({where}): undo that first if it is not so"
    if act in ("flip", "touch", "move", "seen"):
        return f"{roll.number} does not hang ({where}): hang it first"
    return {
        "hang": f"{roll.number} hangs already {where}: say where it hangs now to move it",
        "sleeve": f"{roll.number} is still {where}: hang it and let it dry first",
        "back": f"{roll.number} is not borrowed ({where}), so no loan ends: look at its card",
        "lend": f"{roll.number} cannot be lent ({where}): only a sleeve at hand can",
        "missing": f"{roll.number} is missing already: when it turns up say “found {roll.number}”",
        "unclip": f"{roll.number} is {where}: only a roll with its owner stays without a clip",
        "found": f"{roll.number} is not missing ({where}): look for it there",
    }.get(
        act,
        f"{roll.number} is {where}, and “{act_in_words(act)}” is not possible from there: look at"
        " its card",
    )


def _where(place: Place) -> str:
    before = {"rod": "on ", "box": "in ", "binder": "in "}.get(place.kind, "")
    return f"{before}{place}"
