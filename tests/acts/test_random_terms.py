"""Random ends of terms: whatever is closed, reopened and taken back, the record holds."""

from __future__ import annotations

from collections.abc import Callable

import hypothesis.strategies as st
from hypothesis import HealthCheck, settings
from hypothesis.stateful import invariant, rule

from filmrack.acts import archiving, closing, hanging, lending, owning, shelving, undoing
from filmrack.acts.group import Hand
from filmrack.domain.roll import Roll
from filmrack.domain.termreport import term_report
from filmrack.store import checking, rolls, terms
from tests.acts.random_school import RandomSchool

DESKS = st.sampled_from(["desk 1", "desk 2"])
NUMBERS = st.integers(1, 4)
ACTS: dict[str, Callable[..., object]] = {
    "contact": archiving.contact,
    "lend": lambda file, hand, roll: lending.lend(file, hand, roll, to=1),
    "back": lambda file, hand, roll: lending.back(file, hand, [roll]),
    "release": lambda file, hand, roll: lending.release(file, hand, [roll]),
    "missing": lambda file, hand, roll: lending.missing(file, hand, [roll]),
    "found": lending.found,
    "file": lambda file, hand, roll: archiving.file_in_binder(file, hand, [roll], 2),
    "claim": lambda file, hand, roll: owning.claim(file, hand, roll, 2),
    "undo": undoing.undo,
}


class RandomTerms(RandomSchool):
    """Each rule is one thing that is done to the only term of the school."""

    def __init__(self) -> None:
        super().__init__()
        self.sealed: list[Roll] | None = None

    def next(self, desk: str, act: Callable[[Hand], object]) -> None:
        """Do it three minutes after what was done last."""
        self.school.wait(3)
        self.do((0, desk), act)

    def there(self) -> list[Roll]:
        return rolls.read(self.school.file.conn, "1 ORDER BY id")

    @rule(desk=DESKS, owner=st.sampled_from(["", "Olu Adeyemi", "somebody"]))
    def shelve(self, desk: str, owner: str) -> None:
        self.next(desk, lambda by: shelving.shelve(self.school.file, by, 2, owner=owner))

    @rule(desk=DESKS, person=st.integers(1, 3))
    def hang(self, desk: str, person: int) -> None:
        self.next(desk, lambda by: hanging.hang(self.school.file, by, person=person, clip=person))

    @rule(desk=DESKS, act=st.sampled_from(sorted(ACTS)), nth=NUMBERS)
    def do_something_to_a_roll(self, desk: str, act: str, nth: int) -> None:
        there = self.there()
        if there:
            roll = there[nth % len(there)].id
            self.next(desk, lambda by: ACTS[act](self.school.file, by, roll))

    @rule(desk=DESKS, why=st.sampled_from(["", "holidays"]))
    def close(self, desk: str, why: str) -> None:
        self.next(desk, lambda by: closing.close_term(self.school.file, by, "26F", why))

    @rule(desk=DESKS)
    def reopen(self, desk: str) -> None:
        self.next(desk, lambda by: closing.reopen_term(self.school.file, by, "26F"))

    @rule(desk=DESKS)
    def undo_the_last(self, desk: str) -> None:
        self.next(desk, lambda by: undoing.undo(self.school.file, by))

    @invariant()
    def the_state_is_the_ledger_folded(self) -> None:
        assert checking.problems(self.school.file) == []

    @invariant()
    def the_places_of_the_term_partition_its_rolls(self) -> None:
        report = closing.report_on(self.school.file, "26F")
        assert report == term_report(closing.rolls_of_term(self.school.file, "26F"))
        there = [roll for roll in self.there() if roll.place.kind != "void"]
        assert sum(report.places.values()) == report.rolls == len(there)

    @invariant()
    def what_is_closed_stays_as_it_is(self) -> None:
        closed = "26F" in terms.closed(self.school.file.conn)
        if not closed:
            self.sealed = None
        elif self.sealed is None:
            self.sealed = self.there()
        else:
            assert self.there() == self.sealed


RandomTerms.TestCase.settings = settings(
    max_examples=settings().max_examples if settings().max_examples > 100 else 15,
    stateful_step_count=settings().stateful_step_count,
    deadline=None,
    suppress_health_check=list(HealthCheck),
)
TestRandomTerms = RandomTerms.TestCase
