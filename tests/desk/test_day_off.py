"""Days without school, said in one line at any screen of the teacher's."""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta
from pathlib import Path

import pytest

from filmrack.acts.locking import set_passphrase
from filmrack.domain.clock import whole_day
from filmrack.domain.schooldays import DayOff
from filmrack.store.file import open_file
from tests.conftest import open_school
from tests.desk.at_desk import at_desk

CHRISTMAS_EVE = DayOff("No school", date(2026, 12, 24), date(2026, 12, 24))
BREAK = DayOff("Winter break", date(2026, 12, 21), date(2027, 1, 1))


def days_off(path: Path) -> list[DayOff]:
    with open_file(path, write=False) as file:
        return list(file.room().timetable.days.days_off)


@pytest.mark.parametrize(
    "screen", ["dryer", "board", "boxes", "sweep", "archive", "labels", "room"]
)
async def test_a_day_off_is_one_line_at_every_screen_and_undo_takes_it_back(
    db: Path, screen: str
) -> None:
    async with at_desk(db, size=(80, 24)) as desk:
        desk.app.face.go(screen)
        await desk.wait()
        answer = await desk.say("day off 24 dec")
        assert answer == "Day off: Thu 24 Dec 2026. No school. Wrong? Type “undo”"
        assert desk.open == screen
        assert days_off(db) == [CHRISTMAS_EVE]
        assert "the day off Thu 24 Dec 2026 (No school) is gone again" in await desk.say("undo")
    assert days_off(db) == []


@pytest.mark.parametrize(
    ("line", "off"),
    [
        ("add a day off 24 dec", CHRISTMAS_EVE),
        ("Day off: Thu 24 Dec", CHRISTMAS_EVE),
        ("24 dec off", CHRISTMAS_EVE),
        ("no school on dec 24", CHRISTMAS_EVE),
        ("24 dec is a day off", CHRISTMAS_EVE),
        ("closed 2026-12-24", CHRISTMAS_EVE),
        ("days off 21 dec to 1 jan Winter break", BREAK),
        ("day off Winter break, 21 dec - 1 jan", BREAK),
        ("day off from 21 dec till 1 jan for winter break", BREAK),
        ("winter break dec 21 - jan 1 off", BREAK),
        ("holidays 2026-12-21 to 2027-01-01: Winter break", BREAK),
        ("day off 24-26 dec", CHRISTMAS_EVE._replace(last=date(2026, 12, 26))),
        ("day off friday staff training", DayOff("Staff training", *[date(2026, 11, 20)] * 2)),
        # What lies behind in the term is this year's: it is told of late.
        ("day off 16 nov", DayOff("No school", *[date(2026, 11, 16)] * 2)),
    ],
)
async def test_a_day_off_is_said_as_people_say_it(db: Path, line: str, off: DayOff) -> None:
    async with at_desk(db) as desk:
        await desk.type(line)
        assert desk.app.face.over == ""  # nobody is looked for meanwhile
        await desk.press("enter")
        assert "Day off:" in desk.answer, desk.answer
    assert days_off(db) == [off]


@pytest.mark.parametrize(
    ("line", "why"),
    [
        ("day off 24 dec 26 dec", "more days than one"),
        ("day off next friday", "can be two days"),
        ("day off 12/24", "is no day that is known"),
        ("day off staff training", "says no day"),
        ("day off 2 jan 2027 to 24 dec 2026", "ends before it begins"),
        ("day off 24 dec to 21 dec", "ends before it begins"),
        ("day off 24-21 dec", "ends before it begins"),
        ("day off 20 nov to 17 nov", "ends before it begins"),
    ],
)
async def test_a_day_that_could_be_another_is_refused_in_words(
    db: Path, line: str, why: str
) -> None:
    async with at_desk(db) as desk:
        assert why in await desk.say(line)
    assert days_off(db) == []


async def test_a_day_off_is_added_once_and_one_outside_the_terms_says_so(db: Path) -> None:
    async with at_desk(db) as desk:
        await desk.say("day off 24 dec")
        assert "is off already: nothing was changed" in await desk.say("24 dec off")
        assert "outside every term, so it changes nothing yet" in await desk.say(
            "day off 2030-07-04"
        )
    assert len(days_off(db)) == 2


@pytest.mark.parametrize("line", ["day off", "add a day off", "add day off"])
async def test_without_a_day_the_line_asks_for_it(db: Path, line: str) -> None:
    async with at_desk(db) as desk:
        assert "Which day is off" in await desk.say(line)
        await desk.say("24 dec")
    assert days_off(db) == [CHRISTMAS_EVE]


async def test_in_room_it_takes_five_keys_and_no_second_enter(db: Path) -> None:
    async with at_desk(db, size=(80, 24)) as desk:
        await desk.say("days off")
        assert desk.open == "room"
        await desk.press("enter")
        assert "Which day is off" in desk.answer
        await desk.say("24 dec")
        assert "Day off: Thu 24 Dec 2026" in desk.answer
    assert days_off(db) == [CHRISTMAS_EVE]


async def test_a_student_desk_sets_no_day_off(db: Path) -> None:
    school = open_school(db)
    set_passphrase(school.file, "three good words", None, school.now)
    school.file.close()
    async with at_desk(db) as desk:
        for line in ("day off 24 dec", "day off"):
            assert "days off are the teacher's to set" in await desk.say(line)
    assert days_off(db) == []


async def test_a_day_within_others_that_are_off_is_said_to_be_off_already(db: Path) -> None:
    async with at_desk(db, size=(80, 24)) as desk:
        await desk.say("day off 21 dec to 1 jan Winter break")
        said = await desk.say("day off 24 dec")
        assert "is off already, within Winter break" in said
        assert "nothing was changed" in said
        assert days_off(db) == [BREAK]
        said = await desk.say("day off 21 dec to 3 jan")
        assert "beside it stays Winter break" in said
    assert len(days_off(db)) == 2


async def test_a_day_before_the_term_that_is_only_weeks_past_is_not_next_years(db: Path) -> None:
    with open_file(db, write=False) as file:
        starts = file.room().terms[0].starts
    past = starts - timedelta(days=5)
    early_in_term = datetime.combine(starts + timedelta(days=2), time(15), UTC)
    said = f"{past.day} {past:%b}".lower()
    async with at_desk(db, early_in_term) as desk:
        assert f"is past, for it was {whole_day(past)}" in await desk.say(f"day off {said}")
        assert days_off(db) == []
        answer = await desk.say(f"day off {said} {past.year + 1}")
        assert f"Day off: {whole_day(past.replace(year=past.year + 1))}" in answer


@pytest.mark.parametrize("ending", ["escape", "no", "enter"])
async def test_many_weeks_off_are_asked_about_with_their_school_days(db: Path, ending: str) -> None:
    with open_file(db, write=False) as file:
        days = file.room().timetable.days
    first, last = date(2026, 11, 20), date(2026, 12, 18)
    free = days.between(first - timedelta(days=1), last)
    assert free > 15
    async with at_desk(db, size=(80, 24)) as desk:
        answer = await desk.say("day off 20 nov to 18 dec")
        assert answer.startswith(f"{free} school days off?")
        assert "Nothing is changed yet" in answer
        assert days_off(db) == []
        if ending == "no":
            await desk.say("no")
        else:
            await desk.press(ending)
        assert ("nothing was changed" in desk.answer) == (ending != "enter")
    assert len(days_off(db)) == (ending == "enter")
