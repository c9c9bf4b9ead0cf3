"""The places of a term always partition its rolls, whatever has become of them."""

from __future__ import annotations

from datetime import timedelta

import hypothesis.strategies as st
from hypothesis import given

from filmrack.domain.journey import OutOfPlace, fold
from filmrack.domain.roll import Detail, Entry, Roll
from filmrack.domain.termreport import (
    ACCOUNTED_FOR,
    KINDS_OF_PLACE,
    term_report,
    to_hand_back,
)
from tests.conftest import TUESDAY_9_00

DETAILS: dict[str, Detail] = {
    "hang": Detail(rod=1, position=1),
    "flip": Detail(),
    "touch": Detail(dry=True),
    "box": Detail(box=1),
    "take": Detail(),
    "sleeve": Detail(page_name="7x5", pages=[[5, 5]]),
    "contact": Detail(paper="8x10in", picks=[4]),
    "file": Detail(binder=3),
    "lend": Detail(until="2026-12-04", person=2),
    "back": Detail(),
    "missing": Detail(),
    "found": Detail(),
    "release": Detail(),
    "discard": Detail(),
}


def roll_after(number: int, person: int | None, period: int | None, acts: list[str]) -> Roll:
    """Return a roll after those of some acts that were possible."""
    detail = Detail(
        term="26F", serial=number, film="135-36", clip=None, person=person, period=period
    )
    story = [Entry(1, 1, TUESDAY_9_00, TUESDAY_9_00, "load", number, detail)]
    for nth, act in enumerate(acts, 2):
        at = TUESDAY_9_00 + timedelta(minutes=nth)
        further = [*story, Entry(nth, nth, at, at, act, number, DETAILS[act])]
        try:
            fold(further)
        except OutOfPlace:
            continue
        story = further
    state = fold(story)
    assert state is not None
    return state


WHO = st.none() | st.integers(1, 3)
ROLLS = st.lists(
    st.tuples(WHO, WHO, st.lists(st.sampled_from(sorted(DETAILS)), max_size=12)), max_size=12
).map(lambda drawn: [roll_after(nth, *each) for nth, each in enumerate(drawn, 1)])


@given(ROLLS)
def test_every_roll_of_a_term_is_counted_at_exactly_one_place(rolls: list[Roll]) -> None:
    report = term_report(rolls)
    assert tuple(report.places) == KINDS_OF_PLACE
    assert sum(report.places.values()) == report.rolls == len(rolls)
    for kind, number in report.places.items():
        assert number == sum(roll.place.kind == kind for roll in rolls)


@given(ROLLS)
def test_what_is_unaccounted_for_and_what_is_not_add_up_to_the_term(rolls: list[Roll]) -> None:
    report = term_report(rolls)
    accounted = sum(report.places[kind] for kind in ACCOUNTED_FOR)
    assert accounted + len(report.open_rolls) == report.rolls
    assert len({roll.id for roll in report.open_rolls}) == len(report.open_rolls)
    for period, person, some in report.unaccounted:
        assert some
        assert {(roll.period, roll.person) for roll in some} == {(period, person)}


@given(ROLLS)
def test_nothing_is_owed_for_what_is_gone(rolls: list[Roll]) -> None:
    report = term_report(rolls)
    gone = {roll.id for roll in rolls if roll.place.kind in ("handed_back", "discarded")}
    for owed in (report.no_contact, report.not_filed, report.out, report.missing, report.unclaimed):
        assert not gone & {roll.id for roll in owed}
    assert not gone & {roll.id for _, _, some in to_hand_back(rolls) for roll in some}


def test_a_term_without_rolls_has_nothing_anywhere() -> None:
    report = term_report([])
    assert (report.rolls, report.open_rolls, set(report.places.values())) == (0, [], {0})
