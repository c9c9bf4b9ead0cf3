"""What only one roll can have at a time: a clip pair, and a position on a rod."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import datetime
from typing import NamedTuple

from filmrack.domain.journey import trail
from filmrack.domain.roll import Entry, Roll


class Holding(NamedTuple):
    """A roll has a clip ("clip", 17) or a position ("position", (3, 4)) for a while."""

    roll: int
    kind: str
    what: int | tuple[int | None, int | None]
    since: datetime
    entry: Entry
    """The act by which it came to have it."""
    until: datetime | None = None

    def overlaps(self, other: Holding) -> bool:
        """Tell whether two rolls have the same thing at the same moment."""
        if (self.kind, self.what) != (other.kind, other.what) or self.roll == other.roll:
            return False
        starts = max(self.since, other.since)
        ends = [end for end in (self.until, other.until) if end is not None]
        return not ends or starts < min(ends)


def held(roll: Roll) -> dict[str, int | tuple[int | None, int | None]]:
    """Return what a roll holds now, by kind."""
    things: dict[str, int | tuple[int | None, int | None]] = {}
    if roll.clip is not None:
        things["clip"] = roll.clip
    if roll.place.kind == "rod":
        things["position"] = (roll.place.number, roll.place.position)
    return things


def holdings(entries: Iterable[Entry]) -> Iterator[Holding]:
    """Yield all that one roll has held, from its ledger entries.

    Raises OutOfPlace as `trail` does.
    """
    open_now: dict[str, Holding] = {}
    for entry, roll in trail(entries):
        now = held(roll)
        for kind, holding in list(open_now.items()):
            if now.get(kind) != holding.what:
                yield open_now.pop(kind)._replace(until=entry.happened)
        for kind, what in now.items():
            if kind not in open_now:
                open_now[kind] = Holding(roll.id, kind, what, entry.happened, entry)
    yield from open_now.values()
