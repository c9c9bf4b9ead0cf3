"""A roll that is on another clip pair than was told."""

from __future__ import annotations

import pytest

from filmrack.acts.archiving import sleeve
from filmrack.acts.clips import lose
from filmrack.acts.fetching import box, take
from filmrack.acts.hanging import hang, load
from filmrack.acts.reclipping import reclip
from filmrack.acts.undoing import undo
from filmrack.domain.clip import Lost
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.domain.story import told
from filmrack.store import ledger, rolls
from filmrack.store.checking import problems
from tests.conftest import MARA, OLU, School


def hung(school: School, person: int = MARA, clip: int = 61, ago: float = 20) -> Roll:
    return hang(school.file, school.hand(ago), person=person, clip=clip).roll


def loaded(school: School, person: int = MARA, clip: int = 61) -> Roll:
    return load(school.file, school.hand(20), person, [clip]).rolls[0]


def test_only_the_clip_of_a_roll_changes_and_its_story_says_so(school: School):
    before = hung(school)
    now = reclip(school.file, school.hand(), before.id, 62).roll
    assert now == before._replace(clip=62)
    assert rolls.on_clip(school.file.conn, 61) is None
    story = [told(entry) for entry in ledger.of_roll(school.file.conn, before.id)]
    assert story[-1] == "clip put right, on clip 62, not 61"
    assert not problems(school.file)


def test_a_roll_in_the_tank_a_box_or_with_its_owner_can_be_put_right(school: School):
    roll = loaded(school)
    reclip(school.file, school.hand(), roll.id, 62)
    hang(school.file, school.hand(), roll=roll.id)
    box(school.file, school.hand(), [roll.id])
    reclip(school.file, school.hand(), roll.id, 63)
    take(school.file, school.hand(), roll.id)
    assert reclip(school.file, school.hand(), roll.id, 64).roll.clip == 64


def test_a_clip_that_another_roll_has_is_refused_and_nobodys_roll_is_missing_for_it(
    school: School,
):
    mara, olu = hung(school), hung(school, OLU, 62)
    before = school.dump()
    with pytest.raises(Refused, match=f"clip 62 is noted on {olu.number}"):
        reclip(school.file, school.hand(), mara.id, 62)
    assert school.dump() == before


def test_two_rolls_exchange_their_clips_and_undo_gives_each_its_own_again(school: School):
    mara, olu = hung(school), hung(school, OLU, 62)
    reclip(school.file, school.hand(), mara.id, 62, exchange=True)
    assert [school.roll(each.id).clip for each in (mara, olu)] == [62, 61]
    undo(school.file, school.hand())
    assert [school.roll(each.id).clip for each in (mara, olu)] == [61, 62]


def test_a_roll_that_its_owner_took_gives_its_clip_away_and_stays_with_them(school: School):
    mara, olu = hung(school), hung(school, OLU, 62)
    take(school.file, school.hand(10), olu.id)
    reclip(school.file, school.hand(), mara.id, 62)
    theirs = school.roll(olu.id)
    assert (theirs.clip, theirs.place.kind) == (None, "owner")


def test_it_can_be_told_late_where_the_clip_was_free_from_then_on(school: School):
    mara = hung(school, ago=60)
    reclip(school.file, school.hand(40), mara.id, 62)
    assert school.roll(mara.id).clip == 62
    assert not problems(school.file)


@pytest.mark.parametrize("ago", [50, 70])
def test_told_late_it_never_takes_a_clip_that_another_roll_has_had_since(
    school: School, ago: float
):
    mara = hung(school, ago=90)
    olu = hung(school, OLU, 62, ago=60)
    before = school.dump()
    with pytest.raises(Refused, match=f"clip 62 (is noted on|has been given to) {olu.number}"):
        reclip(school.file, school.hand(ago), mara.id, 62)
    assert school.dump() == before


def test_undo_gives_the_clip_back_unless_another_roll_has_it_now(school: School):
    mara = hung(school)
    reclip(school.file, school.hand(10), mara.id, 62)
    undo(school.file, school.hand())
    assert school.roll(mara.id).clip == 61
    reclip(school.file, school.hand(8), mara.id, 62)
    load(school.file, school.hand(), OLU, [61])
    with pytest.raises(Refused, match="clip 61 has been given to"):
        undo(school.file, school.hand(), mara.id)


def test_a_roll_that_is_on_that_clip_already_or_on_none_any_more_is_refused(school: School):
    mara = hung(school)
    with pytest.raises(Refused, match="on clip 61 already: say which other clip"):
        reclip(school.file, school.hand(), mara.id, 61)
    box(school.file, school.hand(), [mara.id])
    sleeve(school.file, school.hand(), mara.id)
    with pytest.raises(Refused, match="is sleeved already"):
        reclip(school.file, school.hand(), mara.id, 62)


def test_what_the_right_clip_lacks_is_to_be_heeded(school: School):
    mara = hung(school)
    lose(school.file, school.hand(), 62, Lost("tag", "A"))
    assert reclip(school.file, school.hand(), mara.id, 62).warnings
