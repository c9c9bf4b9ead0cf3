"""In which order rolls are named where several are meant."""

from filmrack.domain.attention import Standing
from filmrack.domain.roll import ARCHIVED, Roll

_OF_A_STATE = {"dry": 0, "check": 1}
_OF_A_PLACE = {"box": 3, "tank": 4, "owner": 5}


def fetched(roll: Roll, state: str | None) -> int:
    """Return how early a roll is come for: dry ones on a rod, then what hangs, the box, a tank."""
    kind = roll.place.kind
    return _OF_A_STATE.get(state or "", 2) if kind == "rod" else _OF_A_PLACE.get(kind, 6)


def as_they_are_fetched(standings: list[Standing]) -> list[Standing]:
    """Return rolls with those of one person as they are come for; people keep their places."""
    of_person: dict[int | None, list[Standing]] = {}
    for each in standings:
        of_person.setdefault(each.roll.person, []).append(each)
    ordered = {whose: iter(sorted(some, key=_come_for)) for whose, some in of_person.items()}
    return [next(ordered[each.roll.person]) for each in standings]


def _come_for(each: Standing) -> int:
    return fetched(each.roll, each.state)


def newest_terms_first(standings: list[Standing], terms: list[str]) -> list[Standing]:
    """Return what is on its way as it is, then the rest by its term: who is here now goes before
    who was, however lately an old sleeve was shelved.
    """
    ranks = {code: -nth for nth, code in enumerate(terms)}
    return sorted(
        standings, key=lambda each: -len(ranks) if each.roll.live else ranks.get(each.roll.term, 0)
    )


def sleeved_first(standings: list[Standing], terms: list[str]) -> list[Standing]:
    """Return what is sleeved before the rest, the newest term first and of each what still owes
    something: who looks for it has it in hand to go on.
    """
    ranks = {code: -nth for nth, code in enumerate(terms)}

    def order(each: Standing) -> tuple[bool, int, int]:
        sleeved = each.roll.place.kind in ARCHIVED
        return (not sleeved, ranks.get(each.roll.term, 0) if sleeved else 0, _owes(each.roll))

    return sorted(standings, key=order)


def _owes(roll: Roll) -> int:
    """Return how early a sleeved roll is gone on with: to file, to print, lent, all done."""
    if roll.place.kind not in ARCHIVED:
        return 0
    filed = 1 if not roll.sheets else 3
    return {"sleeve": 0, "out": 2}.get(roll.place.kind, filed)
