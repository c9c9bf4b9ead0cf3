"""A roll: one film of one student, where it is and what has been done with it."""

from collections.abc import Mapping
from datetime import date, datetime
from typing import NamedTuple, TypedDict

from filmrack.domain.codes import check_digits
from filmrack.domain.dryer import WayUp
from filmrack.domain.names import Person

HANGABLE = frozenset({"tank", "box", "owner", "missing"})
BEFORE_SLEEVING = frozenset({"tank", "rod", "box", "owner", "missing"})
ARCHIVED = frozenset({"sleeve", "binder", "out"})
GONE = frozenset({"handed_back", "discarded", "void"})
PLACES = BEFORE_SLEEVING | ARCHIVED | GONE


class Place(NamedTuple):
    """Where a roll is: one of PLACES, with the rod's, box's or binder's number and a position."""

    kind: str
    number: int | None = None
    position: int | None = None

    @property
    def rod(self) -> int | None:
        """Return the number of the rod that it is on, or None."""
        return self.number if self.kind == "rod" else None

    def is_rod(self, number: int | None) -> bool:
        """Tell whether it is on the rod of this number."""
        return self.kind == "rod" and self.number == number

    @property
    def as_noted(self) -> str:
        """Return the place behind the word “noted”: `at rod 3, position 4`, `in the tank`."""
        return f"{_NOTED.get(self.kind, 'as ')}{self}"

    def __str__(self) -> str:
        """Return the place in words: `rod 3, position 4`."""
        if self.kind == "rod":
            return f"rod {self.number}, position {self.position}"
        if self.kind in ("box", "binder"):
            return f"{self.kind} {self.number}"
        return _IN_WORDS[self.kind]


_IN_WORDS = {
    "tank": "in the tank",
    "owner": "with its owner",
    "sleeve": "in its sleeve",
    "out": "borrowed",
    "missing": "missing",
    "handed_back": "handed back",
    "discarded": "discarded",
    "void": "taken back, as if it had never been",
}
_NOTED = {
    "rod": "at ",
    "box": "in ",
    "binder": "in ",
    **dict.fromkeys(("tank", "owner", "sleeve"), ""),
}


class Stay(NamedTuple):
    """A stretch on a rod one way up; `until` is None while it lasts."""

    rod: int
    hung: datetime
    until: datetime | None
    flipped: bool

    @property
    def way_up(self) -> WayUp:
        """Return it as the dryer counts minutes: on whichever rod."""
        return WayUp(self.hung, self.until, self.flipped)


class TouchCheck(NamedTuple):
    """What a finger found: dry or tacky, and which act told it (touch, box, take, hang)."""

    at: datetime
    dry: bool
    source: str = "touch"


class ContactSheet(NamedTuple):
    """The print made from all strips of a roll at once, and the frames chosen on it."""

    at: datetime
    paper: str
    picks: tuple[int, ...] = ()


class Loan(NamedTuple):
    """Who has borrowed a sleeve: a person's number or a note's, and the date it is due."""

    at: datetime
    until: str
    person: int | None = None
    note: int | None = None

    @property
    def due(self) -> date:
        """Return the day until which it is lent."""
        return date.fromisoformat(self.until)


class Roll(NamedTuple):
    """The state of one roll: the fold of its ledger entries."""

    id: int
    term: str
    serial: int
    film: str
    place: Place
    since: datetime
    """When it came to its place."""
    first_at: datetime
    seen: Place
    seen_at: datetime
    """The last place where a hand had it, and when: what a missing roll is looked for by."""
    person: int | None = None
    period: int | None = None
    frames: int | None = None
    clip: int | None = None
    clue: int | None = None
    """The number of the note that holds its clue."""
    sent: bool = False
    """Hung on another period's rod because Filmrack said so."""
    hung_at: datetime | None = None
    stays: tuple[Stay, ...] = ()
    checks: tuple[TouchCheck, ...] = ()
    pages: tuple[tuple[int, ...], ...] = ()
    """Frames in each strip, for each sleeve page."""
    page_name: str | None = None
    sleeved_at: datetime | None = None
    sheets: tuple[ContactSheet, ...] = ()
    filed_at: datetime | None = None
    binder: int | None = None
    """The binder it belongs in, also while it is out."""
    loan: Loan | None = None
    assumed: frozenset[str] = frozenset()
    """Acts that were filled in because a later one implied them."""

    @property
    def picks(self) -> tuple[int, ...]:
        """Return the frames chosen on its contact sheets."""
        return tuple(sorted({pick for sheet in self.sheets for pick in sheet.picks}))

    @property
    def number(self) -> str:
        """Return the number as people read it: `26F-0142-09`."""
        return roll_number(self.term, self.serial)

    @property
    def flipped(self) -> bool:
        """Tell whether it hangs, or last hung, the second way up."""
        return bool(self.stays) and self.stays[-1].flipped

    @property
    def last_in_tank(self) -> bool:
        """Tell whether a hand had it last in the tank: found on a rod it was hung and not told, so
        it is wet until its minutes or a finger say otherwise.
        """
        return self.seen.kind == "tank"

    @property
    def live(self) -> bool:
        """Tell whether it may hold a clip or a position."""
        return self.place.kind in BEFORE_SLEEVING and self.sleeved_at is None


def owner_of(roll: Roll, people: Mapping[int, Person]) -> Person | None:
    """Return whose a roll is among these people, or None for an unknown one."""
    return None if roll.person is None else people.get(roll.person)


class Detail(TypedDict, total=False):
    """What a ledger entry carries besides its act: ids and numbers, never a name."""

    assumed: bool
    term: str
    serial: int
    person: int | None
    period: int | None
    film: str
    frames: int | None
    clip: int | None
    clip_before: int | None
    clue: int
    rod: int
    position: int
    sent: bool
    tacky: bool
    dry: bool
    by_count: bool
    box: int
    binder: int
    page_name: str
    pages: list[list[int]]
    paper: str
    picks: list[int]
    until: str
    note: int
    room_before: int
    """The note that keeps the room file of before, to take a change of the room back."""
    room_after: str
    """A fingerprint of what it was changed to."""
    listed: int
    """The note that keeps people or clip pairs as a change of them found and left them."""
    other: int
    gave_up: str
    sweep: int
    expected: int
    counted: int | None
    matched: bool
    agreed: bool
    """A count behind scans was all that the record had on the rod then, or was not."""
    empty: bool
    """A later count of 0: nothing hangs on the rod any more, whatever was hung or seen there since
    its turn came."""
    open: list[list[int]]
    """Rods whose count nobody explained when the sweep was finished, each with by how many."""
    left: bool
    """A hand went through the rod and left the rest, whatever was counted."""
    finished: bool
    dryer: int
    hours: float


class Entry(NamedTuple):
    """One line of the ledger."""

    id: int
    group: int
    happened: datetime
    entered: datetime
    act: str
    roll: int | None
    detail: Detail
    by: str = "teacher"
    desk: str = ""

    @property
    def assumed(self) -> bool:
        """Tell whether nobody said so, but a later act implied it."""
        return self.detail.get("assumed", False)


def roll_number(term: str, serial: int) -> str:
    """Return a roll's number as people read it, check digits included: `26F-0142-09`."""
    return f"{term}-{serial:04d}-{check_digits(f'R{term}{serial:04d}')}"
