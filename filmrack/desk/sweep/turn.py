"""One rod of the sweep: what was told of it, what hangs there still, and what follows from that."""

from __future__ import annotations

from dataclasses import dataclass

from filmrack.domain.attention import Standing
from filmrack.domain.outlook import not_dry_words
from filmrack.domain.roll import Roll
from filmrack.domain.room import Rod
from filmrack.domain.sweep import RodCount
from filmrack.store.findings import Finding


@dataclass(frozen=True, slots=True)
class Turn:
    """One rod whose turn comes in the sweep, as the file has it now."""

    rod: Rod
    count: RodCount | None
    """What was counted or scanned there; None while nothing is told of it."""
    hanging: tuple[Standing, ...]
    found: tuple[Finding, ...]
    """What went to a box from there."""
    unseen: tuple[Standing, ...]
    """What hangs there by the record and that no hand has had since its turn came."""
    staying: tuple[Standing, ...]
    """What was not dry by the clock when its turn came, and hangs on unseen."""
    passed_over: tuple[Standing, ...]
    """What of the unseen hangs beside wet film, and on with it if no hand says that it is gone."""
    lost: int
    """How many that should hang there are missing, or will be when the sweep is finished now."""
    off: int = 0
    """How many that hang there by the record its count has not: see `RodCount.off`."""

    # What was told of it.

    @property
    def told(self) -> tuple[object, ...]:
        """Return what is told of it and hangs there, to see whether another desk changed it."""
        return self.count, tuple(each.roll.id for each in self.hanging)

    @property
    def counted(self) -> int | None:
        """Return how many rolls a hand counted there; None where nobody counted."""
        return None if self.count is None else self.count.counted

    @property
    def expected(self) -> int:
        """Return how many rolls should hang there, or should have when its turn came."""
        return len(self.hanging) if self.count is None else self.count.expected

    @property
    def right(self) -> bool:
        """Tell whether the count was right, so that nothing is looked for."""
        return self.count is not None and self.count.right

    @property
    def counted_wrong(self) -> bool:
        """Tell whether it was counted and the count did not agree, so that a new count fits."""
        return self.count is not None and self.count.wrong

    @property
    def scanning(self) -> bool:
        """Tell whether its rolls are being scanned one by one."""
        return self.count is not None and not self.right

    @property
    def only_strays(self) -> bool:
        """Tell whether nothing was counted there, and of what was scanned nothing is its own: what
        should hang there is asked of it as of a rod of which nothing is told.
        """
        own = self.scanned + self.seen
        return self.scanning and self.counted is None and not own and bool(self.hanging)

    @property
    def looked_through(self) -> bool:
        """Tell whether a hand went through it: what is dry and not seen is missing then."""
        return self.count is not None and self.count.looked_through

    @property
    def answered(self) -> bool:
        """Tell whether its count was told and no strip of it was scanned: it is asked of no more
        unless somebody goes there.
        """
        return self.counted is not None and not (self.found or self.seen)

    # What was found there.

    @property
    def boxed(self) -> int:
        """Return how many rolls went to a box from there."""
        return len(self.found)

    @property
    def scanned(self) -> int:
        """Return how many of the rod's own rolls were found there."""
        return sum(each.own for each in self.found)

    @property
    def seen(self) -> int:
        """Return how many of the rod's own were scanned and hang on, since they are not dry."""
        return 0 if self.count is None else self.count.seen

    @property
    def extra(self) -> int:
        """Return how many strayed there, in a box now or hanging there still."""
        return 0 if self.count is None else self.count.extra

    @property
    def found_of_count(self) -> int:
        """Return how many of those that were counted were found: of what strayed there as many as
        the count has more than should hang.
        """
        more = 0 if self.counted is None else max(0, self.counted - self.expected)
        return self.scanned + self.seen + min(self.extra, more)

    @property
    def strays(self) -> tuple[Roll, ...]:
        """Return what was found there that the record has elsewhere or nowhere."""
        return tuple(each.roll for each in self.found if not each.own)

    # What hangs there still.

    @property
    def dry(self) -> tuple[Standing, ...]:
        """Return what of those that hang there is dry by the clock."""
        return tuple(each for each in self.hanging if each.state == "dry")

    @property
    def not_dry(self) -> int:
        """Return how many of those that hang there are not dry by the clock."""
        return len(self.hanging) - len(self.dry)

    @property
    def not_dry_words(self) -> str:
        """Return how many of those that hang there are wet or to touch: `5 wet, 3 to touch`."""
        return not_dry_words(each.state for each in self.hanging)

    def has_clip(self, clip: int) -> bool:
        """Tell whether a clip hangs there by the record."""
        return any(each.roll.clip == clip for each in self.hanging)

    def has(self, roll: Roll | None) -> bool:
        """Tell whether a roll should hang there, hung there in this sweep, or is missing there."""
        if roll is None:
            return False
        lost = roll.place.kind == "missing" and roll.seen.is_rod(self.rod.number)
        here = (each.roll.id for each in self.hanging)
        own = (each.roll.id for each in self.found if each.own)
        return lost or roll.id in (*here, *own)

    # What is not accounted for.

    @property
    def given_up(self) -> tuple[Standing, ...]:
        """Return what is missing when the sweep is finished now, for no hand has seen it."""
        if not self.looked_through:
            return ()
        kept = {each.roll.id for each in self.passed_over}
        return tuple(each for each in self.unseen if each.roll.id not in kept)

    @property
    def left_hanging(self) -> int:
        """Return how many hang there and stay there when the sweep is finished now."""
        return len(self.hanging) - len(self.given_up)

    @property
    def gone(self) -> int:
        """Return how many that should hang there are missing by a hand's word."""
        return max(0, self.lost - len(self.given_up))

    @property
    def own_in_all(self) -> int:
        """Return how many of its own there are: in a box now, hanging still, or missing."""
        return self.scanned + len(self.hanging) + self.gone

    @property
    def short(self) -> int:
        """Return how many fewer were counted than should be there."""
        return 0 if self.right else max(0, self.off)

    @property
    def unclear(self) -> bool:
        """Tell whether, by the last count, not just those that hang there still are there."""
        return self.off != 0

    @property
    def explained(self) -> bool:
        """Tell whether what was scanned or said since explains a count that did not agree: just
        what hangs there by the record is there, and nobody has said so yet.
        """
        return self.counted_wrong and not (self.off or self.closed) and bool(self.hanging)

    def others_counted(self, missing: int) -> tuple[Standing, ...]:
        """Return what hangs there for certain once a roll is missing: all else, if it is as many as
        were counted; nothing where that is not clear.
        """
        others = tuple(each for each in self.hanging if each.roll.id != missing)
        clear = self.short == 1 and not self.strays and len(others) < len(self.hanging)
        return others if clear else ()

    @property
    def asks_what_hangs(self) -> bool:
        """Tell whether a count did not agree and is not explained: what hangs there is scanned to
        see it, and what is not dry hangs on.
        """
        return self.counted_wrong and (self.off < 0 or not (self.explained or self.through))

    @property
    def asks_for_more(self) -> bool:
        """Tell whether more was counted than is known: what is not listed is asked for."""
        return self.counted_wrong and self.off < 0

    # Whether a hand is through with it.

    @property
    def through(self) -> bool:
        """Tell whether there is nothing more to do at it."""
        if self.count is None:
            return False
        unseen = len(self.unseen)
        kept = len(self.hanging) - unseen
        return self.count.through(found=self.scanned, kept=kept, unseen=unseen)

    @property
    def closed(self) -> bool:
        """Tell whether nobody needs to go there again: it is through, or a hand left it."""
        return self.through or (self.count is not None and self.count.left)

    @property
    def cleared(self) -> bool:
        """Tell whether it is through and nothing hangs there that somebody could still scan."""
        hangs_on = self.staying or (self.right and self.hanging)
        return self.through and not self.unseen and not hangs_on

    @property
    def beside_wet(self) -> bool:
        """Tell whether a hand went through it for what is dry, and left what is wet."""
        return bool(self.staying or self.passed_over)
