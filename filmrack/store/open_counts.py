"""Counts of a sweep that nobody explained: the record names no roll, and says that it cannot."""

import sqlite3
from collections.abc import Iterable, Sequence

from filmrack.domain.attention import Standing
from filmrack.domain.roll import Roll
from filmrack.domain.sweep import OpenCount
from filmrack.store import ledger, sweeps
from filmrack.store.unseen import hung_by


def open_counts(
    conn: sqlite3.Connection, sweep: int, hanging: Sequence[Standing], given_up: Iterable[Roll]
) -> tuple[OpenCount, ...]:
    """Return the counts of a sweep that goes on which what was found and missed does not explain.

    `hanging` is all that hangs, `given_up` what of it is missing when the sweep is finished. What
    was hung on a rod behind its turn was not counted.
    """
    turns = sweeps.turns(conn, sweep)
    lost = {roll.id for roll in given_up}
    found = []
    for rod, count in sweeps.counts(conn, sweep).items():
        if count.counted is None or count.right:
            continue
        there = [each.roll for each in hanging if each.roll.place.is_rod(rod)]
        off = count.off(sum(roll.id not in lost for roll in hung_by(there, turns[rod])))
        if off:
            found.append(OpenCount(rod, count.expected, count.counted, off, count.extra))
    return tuple(found)


def left_open(conn: sqlite3.Connection, sweep: int) -> tuple[OpenCount, ...]:
    """Return the counts that were open when a sweep was finished, and that nobody explained since
    by saying what is missing; nothing for one that goes on.
    """
    told = ledger.of_sweep(conn, sweep)
    end = next((entry for entry in reversed(told) if entry.detail.get("finished")), None)
    if end is None or not end.detail.get("open"):
        return ()
    counts = sweeps.counts(conn, sweep)
    since = [entry for entry in told if entry.id > end.id and entry.act == "missing"]
    found = []
    for rod, off in end.detail["open"]:
        named = sum(entry.detail.get("rod") == rod for entry in since) if off > 0 else 0
        count = counts.get(rod)
        if count is not None and count.counted is not None and (off < 0 or named < off):
            found.append(OpenCount(rod, count.expected, count.counted, off - named, count.extra))
    return tuple(found)
