"""The sweep: what should hang by the record, against what a hand counted or scanned."""

from collections.abc import Callable, Iterable, Sequence, Set
from typing import NamedTuple


class RodCount(NamedTuple):
    """One rod of a sweep, in rolls.

    `expected` should have hung there when its turn came, `counted` is what a hand counted (None:
    scanned at once), `matched` were found as the record had them, `extra` were found there though
    the record had them elsewhere or nowhere; `left` tells that a hand said that this is all.
    `agreed` tells whether a count behind scans was all that the record had there then. `seen` of
    its own were scanned and hang on, since they are not dry.
    """

    rod: int
    expected: int
    counted: int | None
    matched: int
    extra: int
    left: bool = False
    agreed: bool | None = None
    seen: int = 0

    @property
    def wrong(self) -> bool:
        """Tell whether the count was wrong, so that the rolls themselves must be scanned."""
        return self.counted is not None and not self.right

    @property
    def looked_through(self) -> bool:
        """Tell whether the rolls themselves were looked at: what was not found is missing then.

        One that strayed there from elsewhere does not tell that the rod's own were looked for,
        unless as many were counted.
        """
        own = self.matched + self.seen
        if self.counted is None:
            return own > 0
        return self.wrong and (own > 0 or self.matched + self.extra >= self.counted)

    @property
    def right(self) -> bool:
        """Tell whether the count was right, so that nothing is looked for."""
        if self.counted is None:
            return False
        return self.counted == self.expected if self.agreed is None else self.agreed

    def off(self, hanging: int) -> int:
        """Return how many of the rod's own its count lacks: counted = expected - missing + strays.

        `hanging` are its own that hang there still and are not said to be missing. Below zero it is
        how many more were counted than are known; 0 tells that the count is right, whatever was
        scanned, so that nothing is missing. 0 too where nobody counted.
        """
        if self.counted is None:
            return 0
        return self.matched + hanging + self.extra - self.counted

    def through(self, *, found: int, kept: int, unseen: int) -> bool:
        """Tell whether there is nothing more to do at the rod.

        `found` are its own rolls that went to a box, `kept` hang there still and are accounted
        for, `unseen` are looked for. Strays from other rods do not count, but where more were
        counted than are known the strays are what is waited for.
        """
        if not self.right and (self.counted or 0) > found + kept + unseen + self.extra:
            return self.left
        if self.right or not unseen or self.counted == 0:
            return True
        if self.left and self.looked_through:
            return True
        return self.counted is not None and found + kept >= self.counted


class OpenCount(NamedTuple):
    """A count that nobody has explained, in rolls: which of its rolls it is about is not known.

    `off` is how many are not accounted for; below zero, how many more were counted than are known.
    `extra` of those counted strayed there.
    """

    rod: int
    expected: int
    counted: int
    off: int
    extra: int = 0

    @property
    def told(self) -> str:
        """Return what is known: `Rod 7: 5 of 6 counted, nobody said which is not there`."""
        if self.off > 0:
            return (
                f"Rod {self.rod}: {self.counted} of {self.expected} counted{self._strayed}, nobody"
                f" said {self._which}"
            )
        return f"{self._against_record}, nobody said {self._which}"

    @property
    def asked(self) -> str:
        """Return the question that is open as long as somebody stands at the rod."""
        return f"{self._against_record}: {self._which}? “rod {self.rod}” goes back"

    @property
    def _against_record(self) -> str:
        return f"Rod {self.rod}: {self.counted} counted{self._strayed}, {self.expected} should hang"

    @property
    def _strayed(self) -> str:
        return f", {self.extra} from elsewhere" if self.extra else ""

    @property
    def _which(self) -> str:
        many = abs(self.off)
        some_known = self.expected + self.extra - self.counted != self.off
        which = "which other" if some_known else "which"
        which += f" {many} are" if many > 1 else " is"
        if self.off > 0:
            return f"{which} not there"
        return f"{which} too many" if many > 1 else f"{which} one too many"


class NotSeen(NamedTuple):
    """The rolls of one rod that no hand had since its turn came, by number."""

    missing: list[int]
    wet: list[int]
    """What was not dry then: a hand leaves it hanging."""
    passed_over: list[int]
    """What was dry, but that a hand may have left hanging: it is not missing."""


def not_seen(
    count: RodCount,
    there: Sequence[int],
    *,
    hung: int,
    seen: Set[int],
    felt: Set[int],
    is_dry: Callable[[int], bool],
) -> NotSeen:
    """Judge the rolls of a rod that was looked through, of which `hung` hung there at its turn.

    Those `felt` were found tacky just before: a hand had them too, where the count has room for
    that. What was not dry hangs on, and what is dry beside it too as long as nobody counted. A
    count of all that should hang and what strayed there, or of more, says that nothing is missing.
    If a hand counted fewer, which of them is gone is not known, so that each is missing that was
    not seen.
    """
    off = count.off(hung)
    if off <= len(there) - len(seen | felt):
        seen = seen | felt
    left = [roll for roll in there if roll not in seen]
    dry = [roll for roll in left if is_dry(roll)]
    if off > len(dry):  # something wet is gone as well
        return NotSeen(left, [], [])
    wet = [roll for roll in left if roll not in dry]
    all_there = off <= 0 if count.counted is not None else len(dry) < len(there)
    return NotSeen([], wet, dry) if all_there else NotSeen(dry, wet, [])


def accuracy(rods: Iterable[RodCount]) -> float | None:
    """Return the share of checked records that were right, or None when none was checked.

    Inventory record accuracy, the usual measure of stocktaking: records that match ÷ records
    counted. Errors do not net out: one extra and one missing are two errors.
    """
    swept = list(rods)
    records = sum(rod.expected + rod.extra for rod in swept)
    return sum(rod.matched + rod.seen for rod in swept) / records if records else None
