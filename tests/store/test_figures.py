"""The figures of a term, against days counted by hand on the calendar of November 2026.

Record accuracy is records that match ÷ records counted; errors do not net out (the usual measure
of stocktaking, common practice).
"""

from __future__ import annotations

from datetime import UTC, date, datetime

from filmrack.acts import archiving, fetching, hanging, sweeping
from filmrack.acts.scans import read_scans
from filmrack.domain.schooldays import Term
from filmrack.store.figures import Figures, Week, figures
from tests.conftest import IVO, MARA, OLU, School

MONDAY_16, MONDAY_23 = date(2026, 11, 16), date(2026, 11, 23)


def of(school: School) -> Figures:
    (term,) = school.file.room().terms
    return figures(school.file, Term(term.code, date(2026, 11, 16), date(2026, 12, 18)), school.now)


def at(school: School, day: int, hour: int = 9) -> None:
    """Turn the clock to an hour of a day in November, in Chicago."""
    school.now = datetime(2026, 11, day, hour + 6, 0, tzinfo=UTC)


def test_a_term_that_has_just_begun_has_one_empty_week(school: School) -> None:
    found = of(school)
    assert found == Figures((Week(MONDAY_16, 0, 0, None),), {})
    assert found.median_days is None


def test_rolls_count_in_the_week_in_which_they_were_hung(school: School) -> None:
    for day, person in ((17, MARA), (20, OLU), (23, IVO)):
        at(school, day)
        roll = hanging.hang(school.file, school.hand(), person=person, clip=day).roll.id
        school.wait(40)
        fetching.take(school.file, school.hand(), roll)
    found = of(school)
    assert [(week.monday, week.rolls) for week in found.weeks] == [(MONDAY_16, 2), (MONDAY_23, 1)]
    assert found.rolls == 3


def test_a_week_without_film_is_still_a_week(school: School) -> None:
    at(school, 30)
    assert [week.rolls for week in of(school).weeks] == [0, 0, 0]


def test_left_behind_counts_what_hung_on_when_the_school_day_was_over(school: School) -> None:
    fetched = hanging.hang(school.file, school.hand(), person=MARA, clip=17).roll.id
    hanging.hang(school.file, school.hand(), person=OLU, clip=9)
    left = hanging.hang(school.file, school.hand(), person=IVO, clip=5).roll.id
    school.wait(30)
    fetching.take(school.file, school.hand(), fetched)
    assert of(school).weeks[0].left_behind == 0
    at(school, 18)
    fetching.take(school.file, school.hand(), left)
    assert of(school).weeks[0].left_behind == 2


def test_days_are_counted_from_the_dryer_to_the_sleeve_on_the_rooms_calendar(
    school: School,
) -> None:
    for clip, (down, sleeved) in enumerate(((17, 17), (17, 20), (18, 23), (18, 19)), 1):
        at(school, 17)
        roll = hanging.hang(school.file, school.hand(), person=clip % 3 + 1, clip=clip).roll.id
        at(school, down, 16)
        fetching.take(school.file, school.hand(), roll)
        at(school, sleeved, 17)
        archiving.sleeve(school.file, school.hand(), roll)
    found = of(school)
    assert found.days_to_sleeve == {0: 1, 1: 1, 3: 1, 5: 1}
    assert found.median_days == 1


def test_a_roll_that_is_not_sleeved_yet_takes_no_days(school: School) -> None:
    hanging.hang(school.file, school.hand(), person=MARA, clip=17)
    assert of(school).days_to_sleeve == {}


def test_the_sweeps_of_a_week_agree_as_far_as_their_records_match(school: School) -> None:
    for clip, person in ((17, MARA), (9, OLU), (5, IVO)):
        hanging.hang(school.file, school.hand(), person=person, clip=clip)
    school.wait(400)
    # Rod 1 has the one roll of the record. Of the two on rod 2 one is found: 2 of 3 match.
    scans = read_scans(school.file, ["rod 2", "clip 9"])
    sweeping.sweep(school.file, school.hand(), counts={1: 1, 2: 1}, scans=scans, finish=True)
    (week,) = of(school).weeks
    assert week.accuracy == 2 / 3


def test_a_sweep_of_another_term_is_not_counted(school: School) -> None:
    hanging.hang(school.file, school.hand(), person=MARA, clip=17)
    sweeping.sweep(school.file, school.hand(), counts={1: 1}, finish=True)
    later = Term("26F", date(2026, 11, 18), date(2026, 12, 18))
    assert [week.accuracy for week in figures(school.file, later, school.now).weeks] == [None]
