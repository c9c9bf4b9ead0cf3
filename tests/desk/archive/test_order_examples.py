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
