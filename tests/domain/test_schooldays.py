from __future__ import annotations

from datetime import date, time, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from filmrack.domain.dayplan import Slot
from filmrack.domain.refusal import Refused
from filmrack.domain.schooldays import (
    SCHOOL_WEEK,
    WEEKDAYS,
    DayOff,
    OneOff,
    Rotation,
    SchoolDays,
    Term,
)

MONDAY = date(2026, 9, 7)  # a Monday: ISO 8601 week 37 of 2026 begins on it
SHORT = (Slot(1, time(8), time(8, 30)),)


def after(days: int) -> date:
    return MONDAY + timedelta(days=days)


def letters(days: SchoolDays, *, first: date = MONDAY, number: int = 7) -> str:
    shown = (days.letter(first + timedelta(days=ahead)) for ahead in range(number))
    return "".join(letter or "-" for letter in shown)


def test_a_school_week_runs_from_monday_to_friday():
    assert [SchoolDays().is_school_day(after(n)) for n in range(7)] == [True] * 5 + [False] * 2


def test_a_school_may_teach_from_sunday_to_thursday():
    days = SchoolDays(weekdays=("sun", "mon", "tue", "wed", "thu"))
    assert [after(n).strftime("%a") for n in range(7) if not days.is_school_day(after(n))] == [
        "Fri",
        "Sat",
    ]


def test_outside_every_term_is_no_school_once_terms_are_given():
    days = SchoolDays(terms=(Term("26F", MONDAY, after(4)), Term("27S", after(14), after(18))))
    assert days.is_school_day(after(4))
    assert not days.is_school_day(after(7))
    assert days.is_school_day(after(14))
    assert not days.is_school_day(after(21))


def test_letters_skip_weekends_and_days_off():
    days = SchoolDays(
        days_off=(DayOff("Founders' day", after(2), after(2)),),
        rotation=Rotation(("A", "B", "C"), MONDAY),
    )
    assert letters(days, number=9) == "AB-CA--BC"


def test_letters_run_backwards_before_the_first_day():
    days = SchoolDays(rotation=Rotation(("A", "B", "C"), MONDAY))
    assert letters(days, first=after(-7)) == "BCABC--"


def test_a_rotation_that_starts_on_a_sunday_gives_its_first_letter_to_monday():
    assert letters(SchoolDays(rotation=Rotation(("A", "B"), after(-1))), number=2) == "AB"


def test_a_snow_day_uses_its_letter_up_or_leaves_it_to_the_next_day():
    rotation = Rotation(("A", "B", "C"), MONDAY)
    lost = SchoolDays(one_offs=(OneOff(after(1), "snow", ()),), rotation=rotation)
    kept = SchoolDays(one_offs=(OneOff(after(1), "snow", (), True),), rotation=rotation)
    assert letters(lost, number=4) == "A-CA"
    assert letters(kept, number=4) == "A-BC"
    assert not lost.is_school_day(after(1))


def test_an_early_release_is_a_school_day_with_its_letter():
    days = SchoolDays(
        one_offs=(OneOff(after(1), "early release", SHORT),),
        rotation=Rotation(("A", "B", "C"), MONDAY),
    )
    assert letters(days, number=3) == "ABC"


def test_a_test_day_between_two_letters_shows_none_and_a_borrowed_letter_shows_itself():
    rotation = Rotation(("A", "B", "C"), MONDAY)
    tests = SchoolDays(one_offs=(OneOff(after(1), "tests", SHORT, True),), rotation=rotation)
    borrowed = SchoolDays(one_offs=(OneOff(after(1), "swap", "C", True),), rotation=rotation)
    assert letters(tests, number=3) == "A-B"
    assert letters(borrowed, number=3) == "ACB"


def test_a_named_saturday_is_a_school_day_even_in_the_holidays():
    saturday = after(5)
    days = SchoolDays(
        terms=(Term("26F", after(-60), after(-30)),),
        days_off=(DayOff("break", after(-3), after(10)),),
        one_offs=(OneOff(saturday, "open day", SHORT),),
    )
    assert days.is_school_day(saturday)
    assert days.between(after(-3), after(10)) == 1


def test_friday_to_monday_is_one_school_day():
    assert SchoolDays().between(after(4), after(7)) == 1
    assert SchoolDays().between(after(4), after(6)) == 0
    assert SchoolDays().between(after(7), after(4)) == -1


def test_a_loan_of_five_school_days_over_a_day_off_comes_back_a_day_later():
    days = SchoolDays(days_off=(DayOff("Founders' day", after(2), after(2)),))
    assert SchoolDays().school_day_after(MONDAY, 5) == after(7)
    assert days.school_day_after(MONDAY, 5) == after(8)


def test_a_school_that_never_teaches_again_has_no_next_day():
    ended = SchoolDays(terms=(Term("26F", MONDAY, after(4)),))
    assert ended.school_day_after(after(4)) is None


def test_the_term_in_force_is_the_one_that_started_last():
    fall, spring = Term("26F", MONDAY, after(90)), Term("27S", after(120), after(240))
    days = SchoolDays(terms=(spring, fall))
    assert days.term_in_force(after(-1)) is None
    assert days.term_in_force(MONDAY) is fall
    assert days.term_in_force(after(100)) is fall
    assert days.term_in_force(after(120)) is spring


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: Term("26F", MONDAY, after(-1)),
        lambda: DayOff("break", MONDAY, after(-1)),
        lambda: Rotation((), MONDAY),
        lambda: Rotation(("A", "A"), MONDAY),
        lambda: SchoolDays(weekdays=("monday",)),
        lambda: SchoolDays(one_offs=(OneOff(MONDAY, "a", ()), OneOff(MONDAY, "b", ()))),
    ],
)
def test_what_cannot_be_meant_is_refused_in_one_sentence_with_a_way_out(wrong):
    with pytest.raises(Refused, match=r"^[^.:]+ because [^.:]+: [^.:]*[^.:\s]$"):
        wrong()


near = st.integers(-40, 120).map(after)
stretches = st.tuples(near, st.integers(0, 15))


@st.composite
def schools(draw: st.DrawFn) -> SchoolDays:
    return SchoolDays(
        weekdays=tuple(draw(st.sets(st.sampled_from(WEEKDAYS), min_size=1))),
        terms=tuple(
            Term(f"2{n}F", first, first + timedelta(days=5 * length))
            for n, (first, length) in enumerate(draw(st.lists(stretches, max_size=3)))
        ),
        days_off=tuple(
            DayOff("off", first, first + timedelta(days=length))
            for first, length in draw(st.lists(stretches, max_size=4))
        ),
        one_offs=tuple(
            OneOff(day, "one-off", draw(st.sampled_from([(), SHORT])), draw(st.booleans()))
            for day in draw(st.sets(near, max_size=4))
        ),
        rotation=Rotation(tuple("ABCDEFG"[: draw(st.integers(1, 7))]), draw(near)),
    )


def plainly(days: SchoolDays, day: date) -> tuple[bool, bool]:
    """Say of one date, rule by rule, whether it is a school day and whether it uses a letter."""
    for one_off in days.one_offs:
        if one_off.day == day:
            return one_off.plan != (), not one_off.keeps_letter
    taught = (
        WEEKDAYS[day.weekday()] in days.weekdays
        and not any(off.first <= day <= off.last for off in days.days_off)
        and (not days.terms or any(term.starts <= day <= term.ends for term in days.terms))
    )
    return taught, taught


@settings(max_examples=60, deadline=None)
@given(schools())
def test_days_and_letters_agree_with_walking_the_calendar_one_day_at_a_time(days):
    assert days.rotation is not None
    names, anchor = days.rotation.letters, days.rotation.first_day
    calendar = [after(n) for n in range(-60, 160)]
    shown: dict[date, str | None] = {}
    turn = 0
    for day in (day for day in calendar if day >= anchor):
        school, lettered = plainly(days, day)
        shown[day] = names[turn % len(names)] if school and lettered else None
        turn += lettered
    turn = 0
    for day in (day for day in reversed(calendar) if day < anchor):
        school, lettered = plainly(days, day)
        turn -= lettered
        shown[day] = names[turn % len(names)] if school and lettered else None
    assert [days.is_school_day(day) for day in calendar] == [plainly(days, d)[0] for d in calendar]
    assert {day: days.letter(day) for day in calendar} == shown


@settings(max_examples=40, deadline=None)
@given(schools(), near, near)
def test_school_days_between_two_dates_are_those_that_a_finger_counts(days, one, other):
    earlier, later = sorted((one, other))
    fingers = sum(
        plainly(days, earlier + timedelta(days=n))[0] for n in range(1, (later - earlier).days + 1)
    )
    assert days.between(earlier, later) == fingers


def test_a_date_centuries_away_has_its_letter_at_once():
    days = SchoolDays(rotation=Rotation(("A", "B", "C", "D", "E"), MONDAY))
    # Five letters over five weekdays: every Monday keeps the first one.
    assert days.letter(MONDAY + timedelta(weeks=52 * 300)) == "A"
    assert SCHOOL_WEEK == ("mon", "tue", "wed", "thu", "fri")


TWO_WEEKS = SchoolDays(
    terms=(Term("26F", date(2026, 9, 1), date(2026, 12, 18)),),
    days_off=(DayOff("Autumn", date(2026, 10, 26), date(2026, 10, 30)),),
    one_offs=(OneOff(date(2026, 9, 21), "Snow", ()),),
    weeks=Rotation(("A", "B"), date(2026, 9, 9)),
)


def test_weeks_of_two_kinds_take_turns_and_holidays_have_none():
    # Common practice: the turn is of weeks with school, so the week after a holiday week is the
    # other one than the week before it.
    mondays = [date(2026, 9, 7) + timedelta(weeks=ahead) for ahead in range(9)]
    fridays = [TWO_WEEKS.week(monday + timedelta(days=4)) for monday in mondays]
    assert fridays == ["A", "B", "A", "B", "A", "B", "A", None, "B"]
    assert TWO_WEEKS.week(date(2026, 9, 3)) == "B"  # the week before the first one of that letter
    assert TWO_WEEKS.week(date(2026, 9, 21)) is None  # the snow day itself
    assert TWO_WEEKS.week(date(2026, 9, 22)) == "A"


def test_days_and_weeks_do_not_both_have_letters():
    letters = Rotation(("A", "B"), date(2026, 9, 9))
    with pytest.raises(Refused, match="keep one of the two"):
        SchoolDays(rotation=letters, weeks=letters)
