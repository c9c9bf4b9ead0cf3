"""What else is on its way of the same person, and whom else the same letters fit: who finds one
roll is told that there is more.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from filmrack.desk.ink import state_word
from filmrack.desk.now import Now
from filmrack.desk.session import Session
from filmrack.domain.names import Person
from filmrack.domain.roll import ARCHIVED, Roll
from filmrack.store import rolls

if TYPE_CHECKING:
    from filmrack.desk.hit_search import Hit
    from filmrack.desk.said import Said
    from filmrack.store.standings import Seen

_IN_AN_ANSWER = 2
_ON_A_CARD = 4
_NAMES = 3

_TO_DO = {"flip": "to flip", "touch": "to touch"}


def others_on_card(session: Session, now: Now, roll: Roll) -> str:
    """Return the other rolls of a roll's owner, as the card says them; empty where there are none:
    `Also clip 62 wet on rod 5`.
    """
    _, some = _on_their_way(session, now, roll)
    if not some:
        return ""
    from filmrack.domain.counted import listed  # of most people one roll is on its way

    return f"Also {listed(some, _ON_A_CARD)}"


def with_others(said: Said, session: Session, now: Now, hit: Hit) -> Said:
    """Return what is said of a roll that was looked for, with the others of its owner."""
    from filmrack.domain.counted import listed
    from filmrack.store import archive

    roll = None if hit.standing is None else hit.standing.roll
    if roll is None or said.select != roll.id or said.done:
        return said
    if roll.place.kind in ARCHIVED and roll.person is not None:
        nth, many = archive.nth_of_owner(session.file.conn, roll)
        if many == 1:
            return said
        counted = f"{said.headline}, {nth} of {many} in {roll.term}"
        words = f"{said.words}. Another: ↑ ↓ on Archive, or its number"
        return said._replace(headline=counted, words=words)
    nth, some = _on_their_way(session, now, roll)
    if not some:
        return said
    headline = f"{said.headline}, {nth} of {len(some) + 1}. Also {listed(some, _IN_AN_ANSWER)}"
    how = "The other: type its clip" if len(some) == 1 else "Another: type its clip"
    return said._replace(headline=headline, words=f"{said.words}. {how}")


def _on_their_way(session: Session, now: Now, roll: Roll) -> tuple[int, list[str]]:
    """Return which of its owner's rolls it is, from one on, and what the others are."""
    if roll.person is None or not roll.live:
        return 1, []
    hanging = {each.roll.id: each for each in now.hanging}
    some = [each for each in rolls.on_their_way(session.file.conn, roll.person) if each.live]
    if len(some) < 2:
        return 1, []
    from filmrack.desk.hit_order import fetched

    states = {each.id: hanging[each.id].state for each in some if each.id in hanging}
    some.sort(key=lambda each: fetched(each, states.get(each.id)))
    nth = next((nth for nth, each in enumerate(some, 1) if each.id == roll.id), 1)
    words = {each.id: state_word(hanging[each.id]) for each in some if each.id in hanging}
    return nth, [_called(each, words.get(each.id, "")) for each in some if each.id != roll.id]


def _called(roll: Roll, state: str) -> str:
    named = f"clip {roll.clip}" if roll.clip else roll.number
    where = f"rod {roll.place.number}" if roll.place.kind == "rod" else str(roll.place)
    if roll.place.kind in ("rod", "box"):
        where = f"{_TO_DO.get(state, state)} on {where}" if state else f"in {where}"
    return f"{named} {where}"


def others_fit(line: str, chosen: Hit, hits: Iterable[Hit], seen: Seen) -> str:
    """Return whom else letters fit than the one who was meant first; empty for nobody: of those
    whose rolls are on their way too, if that roll is.
    """
    from filmrack.domain.counted import listed

    names: dict[int, str] = {}
    for hit in hits:
        owner = _owner(hit, seen)
        if owner is not None and _like(hit, chosen):
            names.setdefault(owner.number, owner.short)
    mine = _owner(chosen, seen)
    if mine is None or names.pop(mine.number, None) is None or not names:
        return ""
    return f"“{line}” also fits {listed([*names.values()], _NAMES)}: type more letters"


def _owner(hit: Hit, seen: Seen) -> Person | None:
    return hit.person if hit.standing is None else seen.owner(hit.standing.roll)


def _like(hit: Hit, chosen: Hit) -> bool:
    """Tell whether a hit could have been meant as well as the chosen one."""
    if hit.near != chosen.near:
        return False
    if hit.standing is None or chosen.standing is None:
        return (hit.standing is None) == (chosen.standing is None)
    return hit.standing.roll.live or not chosen.standing.roll.live
