"""A teacher sets a whole school up at the desk, in the smallest window, without any file."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from filmrack.domain.room import Period
from filmrack.domain.schooldays import DayOff
from filmrack.store.file import open_file
from tests.desk.at_desk import AtDesk, at_desk
from tests.desk.room.at_room import exported, form, select, sure, to_row


async def what_stands_there(desk: AtDesk) -> None:
    await to_row(desk, "this room", "name")
    await form(desk, "Upper school", "")  # a name is asked about once more
    await to_row(desk, "periods", "add a period …")
    for _ in range(3):
        assert "added" in await form(desk, "", "")
        await select(desk, "add a period …")
    await to_row(desk, "periods", "add a box …")
    for _ in range(3):
        assert "added" in await form(desk, "", "")
        await select(desk, "add a box …")
    await to_row(desk, "rods", "add a dryer …")
    assert "Dryer 2, dial 1.5 h" in await form(desk, "", "", "1750 mm", "1.5")
    await select(desk, "rod 3")
    await form(desk)
    await select(desk, "period")
    assert "Period 3" in await sure(desk, "3")
    await select(desk, "positions")
    await sure(desk, "8")
    await to_row(desk, "rods", "add a rod …")
    for _ in range(2):
        assert "dryer 2" in await form(desk, "", "", "8", "", "", "right")
        await select(desk, "add a rod …")


async def when_classes_meet(desk: AtDesk) -> None:
    await to_row(desk, "timetable", "Monday")
    typed = "1 8:00-9:00, 2 9:05-10:05, 3 10:10-11:10, lunch 11:10-12:00, 4 12:00-13:00"
    assert "(free 11:10-12:00) 4" in await sure(desk, typed)
    await select(desk, "day letters")
    assert "A B C D E F" in await form(desk, "A B C D E F", "2026-11-16")
    for letter, order in zip("BCDEF", ("2345", "3451", "4512", "5123", "1234"), strict=True):
        await select(desk, f"day {letter}")
        assert "Type “undo”" in await form(desk, " ".join(order)) or letter == "F"
    await select(desk, "add a plan …")
    await form(desk, "early")
    await select(desk, "early (one-off)")
    await sure(desk, "1 8:00-8:30, 2 8:35-9:05")
    await to_row(desk, "terms", "term 26F")
    await form(desk)
    await select(desk, "last day")
    await sure(desk, "2026-12-18")
    await to_row(desk, "terms", "add a day off …")
    assert "Wed 25 Nov 2026 to Fri 27 Nov 2026" in await form(
        desk, "Harvest 2026-11-25 to 2026-11-27"
    )
    await to_row(desk, "terms", "add a one-off day …")
    assert "early" in await form(desk, "2026-12-18", "Early release", "early", "")


async def test_six_day_letters_two_dryers_lunch_and_days_off(db: Path) -> None:
    async with at_desk(db, size=(80, 24)) as desk:
        await what_stands_there(desk)
        await when_classes_meet(desk)
    with open_file(db, write=False) as file:
        room = file.room()
    days = room.timetable.days
    assert room.name == "Upper school"
    assert room.periods == tuple(Period(number, f"Period {number}") for number in range(1, 6))
    assert [box.period for box in room.boxes] == [1, 2, 3, 4, 5]
    assert [(dryer.number, dryer.dial_hours) for dryer in room.dryers] == [(1, 1.0), (2, 1.5)]
    assert [(rod.dryer, rod.period, rod.positions) for rod in room.rods] == [
        (1, 1, 3),
        (1, 2, 3),
        (1, 3, 8),
        (2, 4, 8),
        (2, 5, 8),
    ]
    assert days.days_off == (DayOff("Harvest", date(2026, 11, 25), date(2026, 11, 27)),)
    # A on Monday the 16th: the day after the holidays, Monday the 30th, has the letter E's place.
    assert days.letter(date(2026, 11, 17)) == "B"
    assert days.letter(date(2026, 11, 30)) == "B"
    assert [slot.period for slot in room.timetable.plan_on(date(2026, 11, 18))] == [3, 4, 5, 1]
    assert [slot.period for slot in room.timetable.plan_on(date(2026, 12, 18))] == [1, 2]
    assert exported(db).count("\n") > 60


async def test_weeks_of_two_kinds_are_typed_too(db: Path) -> None:
    async with at_desk(db, size=(80, 24)) as desk:
        await to_row(desk, "timetable", "week letters")
        await form(desk, "A B", "2026-11-16")
        await select(desk, "Tuesday B")
        assert "Tuesday B: 2 08:00-08:50" in await sure(desk, "2 8:00-8:50")
    with open_file(db, write=False) as file:
        timetable = file.room().timetable
    assert [slot.period for slot in timetable.plan_on(date(2026, 11, 17))] == [1, 2]
    assert [slot.period for slot in timetable.plan_on(date(2026, 11, 24))] == [2]


async def test_pages_and_papers_of_the_rooms_own_come_and_go(db: Path) -> None:
    async with at_desk(db, size=(80, 24)) as desk:
        await to_row(desk, "papers", "add a paper …")
        await form(desk, "13x18cm", "130", "180 mm")
        await to_row(desk, "papers", "paper 13x18cm")
        await desk.say("remove")
        assert "13x18cm" not in exported(db)
        await desk.say("undo")
    assert "13x18cm" in exported(db)


async def test_what_is_no_day_is_no_day_off_and_an_order_no_answer(db: Path) -> None:
    async with at_desk(db) as desk:
        await to_row(desk, "days off", "add a day off …")
        before = exported(db)
        await desk.press("enter")
        assert "says no day: type “day off 24 dec”" in await desk.say("staff training")
        assert "is no day that is known" in await desk.say("12/24")
        await desk.press("escape")
        await to_row(desk, "periods", "add a period …")
        await desk.press("enter", "enter")
        assert "press Esc to leave what is asked" in await desk.say("close term")
        assert "is not answered. Undo once more takes back" in await desk.say("undo")
        assert desk.app.question is None
    assert exported(db) == before


async def test_what_was_typed_behind_the_day_letters_is_no_letter(db: Path) -> None:
    async with at_desk(db) as desk:
        await to_row(desk, "timetable", "day letters")
        await desk.press("enter", "ctrl+u")
        assert "“off” is none of the day letters" in await desk.say("1 2 3days off")


@pytest.mark.parametrize("typed", ["add a day off", "Add day off"])
async def test_what_a_row_adds_can_be_typed_as_it_stands_there(db: Path, typed: str) -> None:
    async with at_desk(db) as desk:
        await to_row(desk, "days off", "from a calendar …")
        await desk.say(typed)
        assert "Which day is off" in desk.shown
        await desk.say("Fair 2026-12-03")
        assert "Fair" in exported(db)
