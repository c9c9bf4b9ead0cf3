"""Orders as refusals show them: lines that can be typed as they stand."""

from __future__ import annotations

import pytest

from filmrack.desk.archive.order_examples import example
from filmrack.desk.archive.orders import Order, read_order

VERBS = (
    *("back", "hand back", "found", "mark missing", "lend", "discard"),
    *("note", "sleeve", "contact", "picks", "unpick", "file", "claim"),
)


@pytest.mark.parametrize("verb", VERBS)
@pytest.mark.parametrize("term", ["26F", ""])
def test_what_a_refusal_shows_is_understood_as_that_order_with_its_roll(
    verb: str, term: str
) -> None:
    order = read_order(example(Order(verb, ""), term).strip("“”"))
    assert order is not None
    assert order.verb == verb
    assert order.roll == ("clip 17" if verb == "sleeve" else f"{term}-0142".strip("-"))


def test_what_is_no_binder_does_not_stand_in_the_example_of_filing() -> None:
    assert example(Order("file", "all"), "26F") == "“26F-0142 file 3”"
    assert example(Order("file", "in binder 7"), "26F") == "“26F-0142 file in binder 7”"


@pytest.mark.parametrize(
    ("verb", "typed", "shown"),
    [
        ("lend", "noor 2 weeks", "26F-0142 lend noor 2 weeks"),
        ("lend", "strips 2 and 3 to whetu for 2", "26F-0142 lend juniper"),
        ("lend", "sleeve 2 whetu", "26F-0142 lend juniper"),
        ("picks", "the best ones", "26F-0142 picks 12 14"),
        ("sleeve", "6x6 35", "17 sleeve 6x6 35"),
        ("sleeve", "6x6 all", "17 sleeve"),
        ("discard", "fogged from end to end", "26F-0142 discard blank film"),
    ],
)
def test_what_was_typed_stands_in_the_example_where_it_is_short_and_can_be_meant(
    verb: str, typed: str, shown: str
) -> None:
    assert example(Order(verb, typed), "26F") == f"“{shown}”"
