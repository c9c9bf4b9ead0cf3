"""The room: its periods, dryers, rods and boxes, its timetable and its rules."""

from collections.abc import Iterable
from datetime import datetime
from typing import NamedTuple

from filmrack.domain.names import folded
from filmrack.domain.refusal import Refused
from filmrack.domain.roomrules import Materials, Rules
from filmrack.domain.schooldays import Term
from filmrack.domain.timetable import Timetable

LONGEST_PERIOD_WORD = 20

HIGHEST_NUMBER = 99
"""Of a period, dryer, rod or box, and of a position: codes have two digits for it."""

LAST_WEEK = 5
"""School days before the end of a term in which sleeves are handed back (common practice)."""


class Period(NamedTuple):
    """A class period; `name` is what the room calls it: `Block C`."""

    number: int
    name: str


class Dryer(NamedTuple):
    """A drying cabinet; `dial_hours` is what its fan timer is turned to."""

    number: int
    name: str
    clear_height_mm: int = 1900
    dial_hours: float = 1.0


class Rod(NamedTuple):
    """A bar at the top of a dryer, given to a period or to none; positions count from 1."""

    number: int
    dryer: int
    positions: int
    period: int | None
    spacing_mm: int = 50
    counted_from: str = "left"


class Box(NamedTuple):
    """The box of one period that holds its dry, uncut rolls."""

    number: int
    period: int


class Binder(NamedTuple):
    """A binder of a term's sleeves, given to a period or to none."""

    term: str
    number: int
    period: int | None = None


class Room(NamedTuple):
    """All that is fixed about a darkroom between two changes of its set-up."""

    name: str
    zone: str
    timetable: Timetable
    periods: tuple[Period, ...]
    dryers: tuple[Dryer, ...]
    rods: tuple[Rod, ...]
    boxes: tuple[Box, ...]
    period_word: str = "period"
    rules: Rules = Rules()
    materials: Materials = Materials()
    binders: tuple[Binder, ...] = ()
    initials_on_sleeves: bool = False
    """Whether the labels of sleeves show the owner's initials."""
    former_periods: tuple[Period, ...] = ()
    """Periods that the room has no more, but rolls of earlier terms have."""

    @property
    def terms(self) -> tuple[Term, ...]:
        """Return the terms, oldest first."""
        return self.timetable.days.terms

    def rod(self, number: int) -> Rod | None:
        """Return the rod of a number, or None."""
        return next((rod for rod in self.rods if rod.number == number), None)

    def rod_meant(self, number: int) -> Rod:
        """Return the rod of a number. Raises Refused, naming those that there are."""
        found = self.rod(number)
        if found is None:
            numbers = ", ".join(str(known.number) for known in self.rods)
            raise Refused(f"there is no rod {number}: this room has the rods {numbers}")
        return found

    def period_of_rod(self, number: int | None) -> int | None:
        """Return the period that a rod is given to; None for none, and where no such rod is."""
        found = None if number is None else self.rod(number)
        return None if found is None else found.period

    def rods_of(self, period: int | None) -> tuple[Rod, ...]:
        """Return the rods given to a period."""
        return tuple(rod for rod in self.rods if rod.period == period)

    def rods_swept(self, period: int | None) -> tuple[Rod, ...]:
        """Return the rods that a sweep goes over: those of a period that has any, or all."""
        return self.rods if period is None else self.rods_of(period) or self.rods

    def box(self, number: int) -> Box | None:
        """Return the box of a number, or None."""
        return next((box for box in self.boxes if box.number == number), None)

    def box_meant(self, number: int) -> Box:
        """Return the box of a number. Raises Refused, naming those that there are."""
        found = self.box(number)
        if found is None:
            numbers = ", ".join(str(known.number) for known in self.boxes)
            raise Refused(f"there is no box {number}: this room has the boxes {numbers}")
        return found

    def box_of(self, period: int | None) -> Box | None:
        """Return the box of a period, or None."""
        return next((box for box in self.boxes if box.period == period), None)

    def period_for_box(self, own: int | None, rod: int | None) -> int | None:
        """Return the period whose box film goes to: its own, or without one that of its rod."""
        return self.period_of_rod(rod) if own is None else own

    def box_for(self, own: int | None, rod: int | None) -> Box | None:
        """Return the box for film of a period on a rod, of which either may be None."""
        return self.box_of(self.period_for_box(own, rod))

    def period(self, number: int | None) -> Period | None:
        """Return the period of a number, also a former one, or None."""
        known = (*self.periods, *self.former_periods)
        return next((period for period in known if period.number == number), None)

    def in_its_words(self, text: str) -> str:
        """Return a text of ours, such as a heading, with this room's word for a period."""
        word = self.period_word
        return text.replace("period", word).replace("Period", word[:1].upper() + word[1:])

    def period_named(self, text: str) -> Period | None:
        """Return the period that somebody wrote, as `period_named` does."""
        return period_named(text, self.periods, self.period_word)

    def short_period(self, period: Period) -> str:
        """Return the shortest name by which `period_named` finds a period."""
        return short_period(period, self.periods, self.period_word)

    def period_meant(self, text: str) -> Period:
        """Return the period that somebody wrote. Raises Refused, naming those that there are."""
        found = self.period_named(text)
        if found is None:
            names = ", ".join(f"{known.number} ({known.name})" for known in self.periods)
            raise Refused(f"“{text[:40]}” is no {self.period_word} here: name one of {names}")
        return found

    def dryer_of(self, rod: int) -> Dryer:
        """Return the dryer in which a rod is."""
        found = self.rod(rod)
        number = self.dryers[0].number if found is None else found.dryer
        return next(dryer for dryer in self.dryers if dryer.number == number)

    def dryer_meant(self, number: int | None) -> Dryer:
        """Return the dryer of a number, or the only one. Raises Refused, naming those there are."""
        found = [each for each in self.dryers if number in (None, each.number)]
        if len(found) != 1:
            names = ", ".join(f"{each.number} ({each.name})" for each in self.dryers)
            what = "which dryer is not clear" if number is None else f"there is no dryer {number}"
            raise Refused(f"{what}: name one of {names}")
        return found[0]

    def term_at(self, moment: datetime) -> Term | None:
        """Return the term in force at a moment: the latest that had begun."""
        timetable = self.timetable
        return timetable.days.term_in_force(timetable.local_date(moment))

    def term_meant(self, code: str | None, moment: datetime) -> Term:
        """Return the term of a code as typed, or the one in force at a moment where none is.

        Raises Refused for what is no code, for a term that this room has not, and before the first.
        """
        if code is None:
            running = self.term_at(moment)
            if running is None:
                day = self.timetable.local_date(moment)
                raise Refused(
                    f"no term has begun by {day}: open one on the screen Room, or with “term open”"
                )
            return running
        return self.term_of(code)

    def term_of(self, code: str) -> Term:
        """Return the term of a code as typed. Raises Refused, naming those that there are."""
        from filmrack.domain.termcode import term_code

        wanted = term_code(code)
        found = next((term for term in self.terms if term.code == wanted), None)
        if found is None:
            known = ", ".join(term.code for term in self.terms) or "none yet"
            raise Refused(
                f"there is no term {wanted} (this room has {known}): open it on the screen Room, or"
                f" with “term open {wanted}”"
            )
        return found

    def in_last_week(self, code: str, now: datetime) -> bool:
        """Tell whether it is one of the last five school days of a term, when sleeves go back."""
        term = next((term for term in self.terms if term.code == code), None)
        if term is None:
            return False
        days, today = self.timetable.days, self.timetable.local_date(now)
        return term.starts <= today <= term.ends and days.between(today, term.ends) < LAST_WEEK


def period_named(text: str, periods: Iterable[Period], word: str = "period") -> Period | None:
    """Return the period that somebody wrote: `Block C`, `c` where the word is block, or `3`.

    A name goes before a number, so that a room may call its third period 4. None where it is
    none of these.
    """
    known = list(periods)
    whole = folded(text)
    written = _without_word(text, word)
    for period in known:
        if period.name.casefold() == whole:
            return period
    for period in known:
        if _without_word(period.name, word) == written:
            return period
    if not (written.isascii() and written.isdigit() and len(written) <= 2):
        return None
    return next((period for period in known if period.number == int(written)), None)


def short_period(period: Period, periods: Iterable[Period], word: str = "period") -> str:
    """Return the shortest name by which `period_named` finds it: `C` of `Block C`."""
    first, _, rest = period.name.partition(" ")
    if rest and first.casefold() in ("period", word.casefold()):
        found = period_named(rest, periods, word)
        if found is not None and found.number == period.number:
            return rest
    return period.name


def _without_word(text: str, word: str) -> str:
    words = text.casefold().split()
    if len(words) > 1 and words[0] in ("period", word.casefold()):
        words = words[1:]
    return " ".join(words)
