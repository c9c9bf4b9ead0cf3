from __future__ import annotations

from datetime import timedelta

import pytest

from filmrack.acts.archiving import file_in_binder, sleeve
from filmrack.acts.drying import flip
from filmrack.acts.fetching import box, take
from filmrack.acts.hanging import hang, load
from filmrack.store.standings import in_need, look_for
from tests.conftest import IVO, OLU, School


@pytest.fixture
def day(school: School) -> School:
    """Olu's roll: hung at 09:00, flipped at 09:10, boxed at 09:20, sleeved 10:20, filed 10:21."""
    roll = hang(school.file, school.hand(), person=OLU, clip=17).roll
    for minutes, act in (
        (10, lambda: flip(school.file, school.hand(), [roll.id])),
        (10, lambda: box(school.file, school.hand(), [roll.id])),
        (60, lambda: sleeve(school.file, school.hand(), roll.id)),
        (1, lambda: file_in_binder(school.file, school.hand(), [roll.id], 3)),
    ):
        school.wait(minutes)
        act()
    return school


def where(school: School, line: str, ago: int | None = None) -> list[str]:
    then = None if ago is None else school.now - timedelta(minutes=ago)
    return [
        str(each.roll.place) for each in look_for(school.file, line, school.now, then).standings
    ]


@pytest.mark.parametrize(
    ("ago", "place"),
    [
        (82, None),
        (81, "rod 2, position 1"),
        (70, "rod 2, position 1"),
        (61, "box 2"),
        (1, "in its sleeve"),
        (0, "binder 3"),
    ],
)
@pytest.mark.parametrize("line", ["olu", "0001", "26F-0001", "person 2"])
def test_a_roll_is_found_where_it_was_then(day: School, line: str, ago: int, place: str | None):
    assert where(day, line, ago) == ([] if place is None else [place])


def test_places_and_clips_are_those_of_then(day: School):
    load(day.file, day.hand(), IVO, [17])
    assert where(day, "clip 17") == ["in the tank"]
    assert where(day, "clip 17", 81) == ["rod 2, position 1"]
    assert where(day, "17", 81) == ["rod 2, position 1"]
    assert where(day, "rod 2", 81) == ["rod 2, position 1"]
    assert where(day, "box 2", 30) == ["box 2"]
    assert where(day, "box 2") == []
    assert where(day, "binder 3", 1) == []
    assert where(day, "binder 3", 0) == where(day, "binder 3") == ["binder 3"]


def test_what_was_told_later_of_that_time_is_known_then(school: School):
    roll = hang(school.file, school.hand(), person=OLU, clip=17).roll
    school.wait(30)
    take(school.file, school.hand(10), roll.id)
    assert where(school, "olu", 5) == ["with its owner"]
    assert where(school, "olu", 15) == ["rod 2, position 1"]


def test_the_most_urgent_comes_first(school: School):
    old = hang(school.file, school.hand(), person=OLU, clip=17).roll
    school.wait(13 * 60)
    fresh = hang(school.file, school.hand(), person=OLU, clip=18).roll
    school.wait(6)
    seen = in_need(school.file, school.now)
    assert [(each.roll.id, each.why[0][0]) for each in seen.standings] == [
        (fresh.id, "flip due"),
        (old.id, "left behind"),
    ]
    before = in_need(school.file, school.now, school.now - timedelta(minutes=60))
    assert [each.roll.id for each in before.standings] == [old.id]
