"""In which order rolls are named where several are meant."""

from collections.abc import Callable
from typing import NamedTuple

from filmrack.domain.attention import Standing
from filmrack.domain.roll import ARCHIVED, Roll


class Listed(NamedTuple):
    """The list of sleeved rolls that is shown: `has` tells whether a roll stands in it, `term` is
    the one that somebody turned to; empty for the term in force.
    """

    has: Callable[[Roll], bool]
    term: str = ""


_OF_A_STATE = {"dry": 0, "touch": 1}
_OF_A_PLACE = {"box": 3, "tank": 4, "owner": 5}


def fetched(roll: Roll, state: str | None) -> int:
    """Return how early a roll is come for: dry ones on a rod, then what hangs, the box, a tank."""
    kind = roll.place.kind
    return _OF_A_STATE.get(state or "", 2) if kind == "rod" else _OF_A_PLACE.get(kind, 6)


def as_they_are_fetched(standings: list[Standing]) -> list[Standing]:
    """Return rolls with those of one person as they are come for; people keep their places."""
    return _of_each_person(standings, lambda each: fetched(each.roll, each.state))


def _of_each_person(standings: list[Standing], order: Callable[[Standing], int]) -> list[Standing]:
    """Return rolls with those of one person in an order of their own; people keep their places."""
    of_person: dict[int | None, list[Standing]] = {}
    for each in standings:
        of_person.setdefault(each.roll.person, []).append(each)
    ordered = {whose: iter(sorted(some, key=order)) for whose, some in of_person.items()}
    return [next(ordered[each.roll.person]) for each in standings]


def newest_terms_first(standings: list[Standing], terms: list[str]) -> list[Standing]:
    """Return what is on its way as it is, then the rest by its term: who is here now goes before
    who was, however lately an old sleeve was shelved.
    """
    ranks = {code: -nth for nth, code in enumerate(terms)}
    return sorted(
        standings, key=lambda each: -len(ranks) if each.roll.live else ranks.get(each.roll.term, 0)
    )


def sleeved_first(standings: list[Standing], terms: list[str], listed: Listed) -> list[Standing]:
    """Return what is sleeved before the rest, the term first that somebody turned to, then the
    newest, and of each what is `listed`, then what still owes something: who looks for it has it in
    hand to go on. What is as far along of one person comes as on the list, the oldest first.
    """
    ranks = {code: -nth for nth, code in enumerate(terms)}

    def order(each: Standing) -> tuple[bool, int, bool, int]:
        roll = each.roll
        not_here = roll.term != listed.term
        return not_here, ranks.get(roll.term, 0), not listed.has(roll), _owes(roll)

    kept = [each for each in standings if each.roll.place.kind in ARCHIVED]
    left = [each for each in standings if each.roll.place.kind not in ARCHIVED]
    return [*sorted(_of_each_person(kept, lambda each: each.roll.id), key=order), *left]


def _owes(roll: Roll) -> int:
    """Return how early a sleeved roll is gone on with: to file, to print, lent, all done."""
    filed = 1 if not roll.sheets else 3
    return {"sleeve": 0, "out": 2}.get(roll.place.kind, filed)
