"""What a sweep has found, read back from the ledger: whoever takes it up sees the same."""

import sqlite3
from datetime import datetime
from typing import NamedTuple

from filmrack.domain.journey import trail
from filmrack.domain.roll import Entry, Place, Roll
from filmrack.store import ledger, rolls


class Finding(NamedTuple):
    """A roll that a sweep put in a box, from which rod or, with None, where else it lay."""

    roll: Roll
    """As it is now."""
    box: int
    rod: int | None
    recorded: Place | None
    """Where the record had it, if it was not found there; None also for an unknown roll."""
    unknown: bool
    """No record explained it."""

    @property
    def own(self) -> bool:
        """Tell whether it was found where the record had it."""
        return self.recorded is None and not self.unknown


class Findings(NamedTuple):
    """All that a sweep boxed, in the order it was found, and what it named as missing and still is.

    What was found tacky and hangs again is not among it.
    """

    boxed: tuple[Finding, ...]
    missing: tuple[Roll, ...]
    turned_up: tuple[Roll, ...] = ()
    """What it named as missing and somebody found since, as it is now."""
    changed: datetime | None = None
    """When something was found or missed last, after the sweep was finished, if anything was: its
    slips had that otherwise."""


def findings(conn: sqlite3.Connection, sweep: int) -> Findings:
    """Return what a sweep has found so far; what was undone is not among it.

    A roll that was missed and then found, or the other way round, is what it was told to be last.
    """
    all_told = ledger.of_sweep(conn, sweep)
    ends = [entry for entry in all_told if entry.detail.get("finished")]
    told = [entry for entry in all_told if entry.roll is not None]
    known = {roll.id: roll for roll in rolls.by_ids(conn, {entry.roll or 0 for entry in told})}
    boxed: dict[int, Finding] = {}
    missing: dict[int, Roll] = {}
    for entry in told:
        assert entry.roll is not None
        roll = known[entry.roll]
        if entry.act == "box":
            boxed[roll.id] = _finding(conn, entry, roll)
            missing.pop(roll.id, None)
        elif entry.act == "missing":
            missing[roll.id] = roll
            boxed.pop(roll.id, None)
    kept = tuple(each for each in boxed.values() if each.roll.place.kind != "rod")
    turned_up = tuple(roll for roll in missing.values() if roll.place.kind != "missing")
    later = [entry.happened for entry in told if ends and entry.id > ends[-1].id]
    later += [roll.since for roll in turned_up if ends and roll.since >= ends[-1].happened]
    lost = tuple(roll for roll in missing.values() if roll not in turned_up)
    return Findings(kept, lost, turned_up, max(later, default=None))


def _finding(conn: sqlite3.Connection, entry: Entry, roll: Roll) -> Finding:
    box, rod = entry.detail["box"], entry.detail.get("rod")
    if entry.detail.get("matched"):
        return Finding(roll, box, rod, None, unknown=False)
    before = Place("tank")
    begun = 0
    for each, state in trail(ledger.of_roll(conn, roll.id)):
        begun = begun or each.group
        if each.id == entry.id:
            break
        before = state.place
    unknown = begun == entry.group
    where_it_should = rod is None and before == Place("box", box)
    recorded = None if unknown or where_it_should else before
    return Finding(roll, box, rod, recorded, unknown)
