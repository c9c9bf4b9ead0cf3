from __future__ import annotations

import pytest

from filmrack.acts.hanging import hang
from filmrack.acts.owning import claim, note, swap
from filmrack.acts.undoing import undo
from filmrack.domain.refusal import Refused
from filmrack.store import ledger
from tests.conftest import MARA, OLU, School


def test_an_unknown_roll_is_claimed_and_follows_its_owners_period(school: School):
    roll = hang(school.file, school.hand(), clip=17, rod=2).roll
    claimed = claim(school.file, school.hand(), roll.id, MARA)
    assert (claimed.person, claimed.period) == (MARA, 1)


def test_two_rolls_that_were_mixed_up_exchange_their_owners_and_nothing_else(school: School):
    one = hang(school.file, school.hand(), person=MARA, clip=1).roll
    two = hang(school.file, school.hand(), person=OLU, clip=2).roll
    first, second = swap(school.file, school.hand(), one.id, two.id)
    assert [(roll.person, roll.period) for roll in (first, second)] == [(OLU, 2), (MARA, 1)]
    assert [roll.place for roll in (first, second)] == [one.place, two.place]
    undo(school.file, school.hand())
    assert school.roll(one.id).person == MARA


def test_a_roll_is_not_swapped_with_itself(school: School):
    roll = hang(school.file, school.hand(), person=MARA, clip=1).roll
    with pytest.raises(Refused, match="with itself"):
        swap(school.file, school.hand(), roll.id, roll.id)


def test_a_note_is_kept_apart_from_the_ledger(school: School):
    roll = hang(school.file, school.hand(), person=MARA, clip=1).roll
    note(school.file, school.hand(), roll.id, "  scratched near [the] tail ")
    (entry,) = [each for each in ledger.of_roll(school.file.conn, roll.id) if each.act == "note"]
    assert set(entry.detail) == {"note"}
    kept = school.file.conn.execute("SELECT text FROM notes").fetchone()[0]
    assert kept == "scratched near [the] tail"


@pytest.mark.parametrize(
    ("text", "why"), [("", "empty"), (" \t", "empty"), ("a\x1b[2J", "U\\+001B")]
)
def test_a_note_that_says_nothing_or_steers_a_screen_is_refused(
    school: School, text: str, why: str
):
    roll = hang(school.file, school.hand(), person=MARA, clip=1).roll
    before = school.dump()
    with pytest.raises(Refused, match=why):
        note(school.file, school.hand(), roll.id, text)
    assert school.dump() == before
