"""What is changed at the desk is the same as if it had been written in the room file."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from filmrack.acts.group import Hand
from filmrack.acts.refitting import refit
from filmrack.domain.roomfile import examine
from filmrack.store.file import open_file
from tests.conftest import TUESDAY_9_00
from tests.desk.at_desk import at_desk
from tests.desk.room.at_room import exported, select, sure, to_row

MINE = "# ours: the tall one, mended in spring\n"


def applied(path: Path, text: str) -> None:
    reading = examine(text.encode())
    assert reading.room is not None, reading.problems
    with open_file(path, write=True) as file:
        refit(file, Hand(TUESDAY_9_00, TUESDAY_9_00), reading.room, text)


ZONE = 'zone = "America/Chicago"'

VALUES = [
    ("this room", "name", "Upstairs", 'name = "Darkroom"', 'name = "Upstairs"'),
    (
        "this room",
        "time zone",
        "Europe/Berlin",
        ZONE,
        ZONE.replace("America/Chicago", "Europe/Berlin"),
    ),
    ("this room", "initials", "yes", "initials_on_sleeves = false", "initials_on_sleeves = true"),
    ("rules", "developing", "40 min", "process_minutes = 35 ", "process_minutes = 40 "),
    ("rules", "time to fetch", "2,5", "drying_lag_minutes = 3 ", "drying_lag_minutes = 2.5 "),
    ("rules", "left behind at", "next class", '= "day_end"', '= "next_class"'),
    ("rules", "helpers sweep", "y", "helpers_sweep = false", "helpers_sweep = true"),
    ("rules", "names are kept", "3 years", "keep_names_years = 2", "keep_names_years = 3"),
    ("film and paper", "film", "135-24", 'film = "135-36"', 'film = "135-24"'),
    ("film and paper", "other pages", "8x5, 6x6", "more_pages = []", 'more_pages = ["8x5", "6x6"]'),
    ("timetable", "school on", "mon tue wed thu fri sat", '"fri"]', '"fri", "sat"]'),
    (
        "timetable",
        "Wednesday",
        "2 9:00-9:50, lunch 11:00-12:00, 1 12:10-13:00",
        'wed = ["1 08:00-08:50", "2 08:56-09:46"]',
        'wed = ["2 09:00-09:50", "1 12:10-13:00"]',
    ),
    ("timetable", "Friday", "2 1", 'fri = ["1 08:00', 'fri = ["2 08:00'),
]


@pytest.mark.parametrize(("section", "row", "typed", "old", "new"), VALUES)
async def test_a_value_typed_at_the_desk_is_the_same_as_in_the_room_file(
    db: Path, tmp_path: Path, section: str, row: str, typed: str, old: str, new: str
) -> None:
    applied(db, MINE + exported(db))
    by_file = Path(shutil.copy(db, tmp_path / "by_file.db"))
    text = exported(by_file)
    assert old in text
    text = text.replace(old, new, 1)
    if row == "Friday":
        text = text.replace('fri = ["2 08:00-08:50", "2 08:56', 'fri = ["2 08:00-08:50", "1 08:56')
    applied(by_file, text)
    async with at_desk(db, size=(80, 24)) as desk:
        await to_row(desk, section, row)
        await desk.press("enter")
        await desk.press("ctrl+u")
        answer = await desk.say(typed)
        if row == "name":
            assert answer == "Name: Darkroom → Upstairs?. Nothing is changed yet"
            await desk.press("enter")
            answer = desk.answer
        assert "Type “undo”" in answer, answer
    assert exported(db) == exported(by_file)
    assert exported(db).startswith(MINE)


ENTRIES = [
    ("rods", "rod 1", "positions", "12", "positions = 3", "positions = 12"),
    ("rods", "rod 3", "period", "2", "dryer = 1, positions = 2, ", None),
    ("rods", "rod 2", "counted from", "right", None, None),
    ("dryers", "dryer 1", "dial", "1.5 h", "dial_hours = 1}", "dial_hours = 1.5}"),
    ("dryers", "dryer 1", "clear height", "2000 mm", "= 1900", "= 2000"),
    ("periods", "box 1", "period", "2", None, None),
    ("terms", "term 26F", "last day", "2026-12-18", "ends = 2026-12-31", "ends = 2026-12-18"),
]


@pytest.mark.parametrize(("section", "entry", "row", "typed", "old", "new"), ENTRIES)
async def test_a_value_of_an_entry_is_typed_straight_into_its_row(
    db: Path, section: str, entry: str, row: str, typed: str, old: str | None, new: str | None
) -> None:
    before = MINE + exported(db)
    applied(db, before)
    async with at_desk(db, size=(80, 24)) as desk:
        await to_row(desk, section, entry)
        await desk.press("enter")
        await select(desk, row)
        answer = await desk.say(typed)
        if entry != "box 1":
            assert answer.endswith("Nothing is changed yet")
            assert exported(db) == before
            await desk.press("enter")
            answer = desk.answer
    if entry == "box 1":
        assert "give one that no other has" in answer  # the period has a box already
        assert exported(db) == before
    else:
        assert "Type “undo”" in answer, answer
        assert exported(db) != before
    if old is not None and new is not None:
        assert exported(db) == before.replace(old, new, 1)
    assert exported(db).startswith(MINE)


async def test_comments_beside_what_stays_are_kept(db: Path) -> None:
    lines = [
        f"{line} # by the window" if "number = 1, dryer" in line else line
        for line in exported(db).splitlines()
    ]
    applied(db, "\n".join(lines) + "\n")
    async with at_desk(db, size=(80, 24)) as desk:
        await to_row(desk, "rods", "rod 3")
        assert "Rod 3. removed" in await desk.say("remove")
        await to_row(desk, "rods", "rod 1")
        await desk.press("enter")
        await select(desk, "positions")
        await sure(desk, "12")
    after = exported(db)
    (mine,) = [line for line in after.splitlines() if "number = 1, dryer" in line]
    assert "positions = 12" in mine
    assert mine.endswith("# by the window")
    assert "number = 3, dryer" not in after


async def test_an_entry_added_at_the_desk_is_the_same_as_one_written_in_the_file(
    db: Path, tmp_path: Path
) -> None:
    by_file = Path(shutil.copy(db, tmp_path / "by_file.db"))
    fair = 'days_off = [{ name = "Fair", first = 2026-11-30 }]'
    applied(by_file, exported(by_file).replace("days_off = []", fair))
    async with at_desk(db, size=(80, 24)) as desk:
        await to_row(desk, "terms", "add a day off …")
        await desk.press("enter")
        await desk.say("Fair 2026-11-30")  # its last day is its first, as in the file
    with open_file(db, write=False) as one, open_file(by_file, write=False) as other:
        assert one.room() == other.room()
