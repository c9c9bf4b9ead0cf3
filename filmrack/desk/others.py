"""What else is on its way of the same person, and whom else the same letters fit: who finds one
roll is told that there is more.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import TYPE_CHECKING, NamedTuple

from filmrack.desk.ink import state_word
from filmrack.desk.now import Now
from filmrack.desk.session import Session
from filmrack.domain.attention import Standing
from filmrack.domain.names import Person
from filmrack.domain.roll import Place, Roll
from filmrack.store import rolls

if TYPE_CHECKING:
    from filmrack.desk.hit_search import Hit
    from filmrack.desk.said import Said
    from filmrack.store.standings import Seen

_IN_AN_ANSWER = 2
_ON_A_CARD = 4
_NAMES = 3
_NUMBERS = 6

_TO_DO = {"flip": "to flip", "touch": "to touch"}


class Called(NamedTuple):
    """What some rolls of somebody are called, `2 filed in binder 3`, and how many they are."""

    words: str
    rolls: int = 1


def others_on_card(session: Session, now: Now, roll: Roll) -> Sequence[Called]:
    """Return the other rolls of the owner of one on its way, of which its card tells."""
    return _others(session, now, roll).called if roll.live else ()


def also(others: Sequence[Called], width: int | None = None) -> str:
    """Return other rolls as a card says them, `Also clip 62 wet on rod 5, 2 filed in binder 3`, as
    many as have room in so many cells and how many more there are; empty where there are none.
    """
    if not others:
        return ""
    for most in range(_ON_A_CARD, 0, -1):
        words = f"Also {_listed(others, most)}"
        if width is None or len(words) <= width:
            return words
    return f"Also {sum(each.rolls for each in others)} more"


def _listed(called: Sequence[Called], most: int) -> str:
    """Return the first ones, and how many rolls more there are: `clip 62 in box 1 and 3 more`."""
    left = sum(each.rolls for each in called[most:])
    return ", ".join(each.words for each in called[:most]) + (f" and {left} more" if left else "")


def with_others(said: Said, session: Session, now: Now, hit: Hit) -> Said:
    """Return what is said of a roll that was looked for, with the others of its owner."""
    roll = None if hit.standing is None else hit.standing.roll
    if roll is None or said.select != roll.id or said.done or hit.guest:
        return said  # who looked for a guest wants none of the owner's
    others = _others(session, now, roll)
    if not others.called:
        return said
    nth = f"{others.nth} of {others.many}"
    if not roll.live and roll.person is not None:
        from filmrack.store import archive

        nth = "{} of {} in ".format(*archive.nth_of_owner(session.file.conn, roll)) + roll.term
        how = "Another: ↑ ↓ on Archive, or its number"
    elif others.on_their_way:
        how = "The other: type its clip" if len(others.called) == 1 else "Another: type its clip"
    else:
        they = "The other is" if others.many == 2 else "The others are"
        how = f"{they} with the teacher" if others.put_away else ""
    headline = f"{said.headline}, {nth}. Also {_listed(others.called, _IN_AN_ANSWER)}"
    return said._replace(headline=headline).and_also(how)


class _Others(NamedTuple):
    """The other rolls of somebody: what they are called, how many of these are on their way, and
    whether all of them are in sleeves and binders; and which one the roll itself is, of how many.
    """

    called: list[Called]
    on_their_way: int
    put_away: bool
    nth: int
    many: int


def _others(session: Session, now: Now, roll: Roll) -> _Others:
    """Return what else its owner has: on its way, and of the term of the roll what was sleeved, for
    a student desk shows no more than is on its way.
    """
    if roll.person is None:
        return _Others([], 0, False, 1, 1)
    conn = session.file.conn
    some = [each for each in rolls.on_their_way(conn, roll.person) if each.live]
    kept = rolls.sleeved_or_gone(conn, roll.person, roll.term) if session.by == "teacher" else {}
    many = len(some) + sum(kept.values())
    if many < 2:
        return _Others([], 0, False, 1, 1)
    from filmrack.desk.hit_order import fetched

    hanging = {each.roll.id: each for each in now.hanging}
    states = {each.id: hanging[each.id].state for each in some if each.id in hanging}
    some.sort(key=lambda each: fetched(each, states.get(each.id)))
    nth = next((nth for nth, each in enumerate(some, 1) if each.id == roll.id), 1)
    words = {each.id: _state(hanging[each.id]) for each in some if each.id in hanging}
    others = [each for each in some if each.id != roll.id]
    called = [Called(_called(each, words.get(each.id, ""))) for each in others]
    called += _kept_words({place: n - (place == _kept_at(roll)) for place, n in kept.items()})
    put_away = not others and all(place.kind in ("sleeve", "binder") for place in kept)
    return _Others(called, len(others), put_away, nth, many)


def _state(standing: Standing) -> str:
    """Return how a hanging roll is, as a sentence says it."""
    return "left behind" if standing.left_behind else state_word(standing)


def _kept_at(roll: Roll) -> Place | None:
    return None if roll.live else Place(roll.place.kind, roll.place.number)


def _kept_words(kept: Mapping[Place, int]) -> list[Called]:
    said = {"binder": "filed in {}", "sleeve": "sleeved, not filed"}
    return [
        Called(f"{many} {said.get(place.kind, '{}').format(place)}", many)
        for place, many in kept.items()
        if many
    ]


def _called(roll: Roll, state: str) -> str:
    named = f"clip {roll.clip}" if roll.clip else roll.number
    where = f"rod {roll.place.number}" if roll.place.kind == "rod" else str(roll.place)
    if roll.place.kind in ("rod", "box"):
        where = f"{_TO_DO.get(state, state)} on {where}" if state else f"in {where}"
    return f"{named} {where}"


def others_fit(line: str, chosen: Hit, hits: Iterable[Hit], seen: Seen) -> str:
    """Return whom else letters fit than the one who was meant first; empty for nobody: of those
    whose rolls are on their way too, if that roll is. Of a guest it is what else they have out.
    """
    from filmrack.domain.counted import listed

    if chosen.guest:
        out = [_number(hit) for hit in hits if hit.guest == chosen.guest and hit != chosen]
        return f"{chosen.guest} also has {listed(out, _NUMBERS)}" if out else ""
    names: dict[int, str] = {}
    for hit in hits:
        owner = _owner(hit, seen)
        if owner is not None and not hit.guest and _like(hit, chosen):
            names.setdefault(owner.number, owner.short)
    mine = _owner(chosen, seen)
    if mine is None or names.pop(mine.number, None) is None or not names:
        return ""
    return f"“{line}” also fits {listed([*names.values()], _NAMES)}: type more letters"


def _owner(hit: Hit, seen: Seen) -> Person | None:
    return hit.person if hit.standing is None else seen.owner(hit.standing.roll)


def _number(hit: Hit) -> str:
    return "" if hit.standing is None else hit.standing.roll.number


def _like(hit: Hit, chosen: Hit) -> bool:
    """Tell whether a hit could have been meant as well as the chosen one."""
    if hit.near != chosen.near:
        return False
    if hit.standing is None or chosen.standing is None:
        return (hit.standing is None) == (chosen.standing is None)
    return hit.standing.roll.live or not chosen.standing.roll.live
