from __future__ import annotations

from datetime import UTC, datetime

import pytest

from filmrack.domain.binder import binder_number
from filmrack.domain.codes import binder_code
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Place, Roll

NOON = datetime(2026, 11, 17, 18, 0, tzinfo=UTC)
ROLL = Roll(
    id=1,
    term="26F",
    serial=1,
    film="135-36",
    place=Place("sleeve"),
    since=NOON,
    first_at=NOON,
    seen=Place("sleeve"),
    seen_at=NOON,
)


@pytest.mark.parametrize(
    "text",
    [
        "3",
        " Binder 3",
        "in binder 3",
        "into the binder 3",
        "in 3",
        "26f-03",
        "binder 26F-3",
        binder_code("26F", 3),
        "a26f 03 91",
    ],
)
def test_a_binder_is_typed_or_scanned(text: str):
    assert binder_number(text, [ROLL]) == 3


@pytest.mark.parametrize(
    "text", ["", "0", "100", "26F-", "three", "26F", "-3x", "٣", "8 binder 7", "8 7"]
)
def test_what_is_no_binder_is_refused(text: str):
    with pytest.raises(Refused, match="from 1 to 99, or scan it"):
        binder_number(text, [ROLL])


@pytest.mark.parametrize("text", ["25S-03", binder_code("25S", 3)])
def test_a_binder_of_another_term_is_refused_with_the_rolls_own(text: str):
    with pytest.raises(Refused, match="binder 25S-03 is of another term than 26F-0001-"):
        binder_number(text, [ROLL])
    assert binder_number(text) == 3
