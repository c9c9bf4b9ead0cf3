"""A hang sheet typed in afterwards at the desk."""

from __future__ import annotations

from pathlib import Path

import pytest

from filmrack.desk.catching_up import row_typed
from filmrack.domain.hangsheet import SheetRow
from tests.conftest import open_school
from tests.desk.at_desk import AtDesk, at_desk


@pytest.mark.parametrize(
    ("line", "row"),
    [
        ("8:12 17 mar flip 8:20 take 8:31", ("8:12", "17", "mar", "8:20", "8:31")),
        ("8:12 17 mar 8:20 8:31", ("8:12", "17", "mar", "8:20", "8:31")),
        ("0812 17 Mara Okafor", ("0812", "17", "Mara Okafor", "", "")),
        ("8:12 clip 17", ("8:12", "17", "", "", "")),
        ("17 flip 8:20", ("", "17", "", "8:20", "")),
        ("17 mar take 8:31", ("", "17", "mar", "", "8:31")),
        ("8:12, 17, mar, , 8:31", ("8:12", "17", "mar", "", "8:31")),
        ("8:12\t17\tMO", ("8:12", "17", "MO", "", "")),
        ("1:40pm 17 mar", ("1:40pm", "17", "mar", "", "")),
        ("", ("", "", "", "", "")),
        ("1:00 2:00 3:00 4:00 5:00", ("1:00", "", "", "2:00", "5:00")),
    ],
)
def test_a_row_is_read_as_it_is_typed(line: str, row: tuple[str, str, str, str, str]) -> None:
    assert row_typed(line) == SheetRow(1, *row)


async def begin(desk: AtDesk, day: str = "today", fan: str = "no") -> None:
    await desk.say("catch up")
    await desk.say(day)
    await desk.say(fan)


def story(db: Path) -> list[tuple[str, str]]:
    school = open_school(db)
    rows = school.file.conn.execute("SELECT act, happened FROM ledger ORDER BY id").fetchall()
    school.file.close()
    return [(row["act"], row["happened"][11:16]) for row in rows if row["act"] != "undo"]


async def test_rows_are_entered_one_a_line_at_their_own_times(db: Path) -> None:
    async with at_desk(db) as desk:
        await begin(desk)
        assert "17 → Mara O." in await desk.say("8:12 17 mar flip 8:18 take 8:31")
        assert "30 → Olu A." in await desk.say("8:15, 30, olu")
        await desk.press("escape")
        assert desk.app.question is None
        assert desk.rolls[30].startswith("rod 2")
    # 8:12 in Chicago is 14:12 UTC in November
    assert story(db) == [
        ("load", "14:12"),
        ("hang", "14:12"),
        ("flip", "14:18"),
        ("take", "14:31"),
        ("load", "14:15"),
        ("hang", "14:15"),
    ]


@pytest.mark.parametrize(
    ("row", "why"),
    [
        ("8:12 17 nobody", "nobody here is called"),
        ("8:12 mar", "which clip is not clear"),
        ("9:30 17 mar", "still to come"),
        ("17 mar", "nothing happened by this row"),
        ("8:31 17 mar flip 8:20", "backwards"),
        ("[/x] 🎞", "clip"),
    ],
)
async def test_a_row_that_cannot_be_meant_is_refused_and_asked_again(
    db: Path, row: str, why: str
) -> None:
    async with at_desk(db) as desk:
        await begin(desk)
        assert why in await desk.say(row)
        assert desk.app.question is not None
        assert "Mara O." in await desk.say("8:12 17 mar")
    assert len(story(db)) == 2


@pytest.mark.parametrize("day", ["tuesday", "2026-13-40", "17.11."])
async def test_a_day_that_is_none_is_refused(db: Path, day: str) -> None:
    async with at_desk(db) as desk:
        await desk.say("catch up")
        assert "is no day" in await desk.say(day)


async def test_the_last_row_is_taken_back_by_undo(db: Path) -> None:
    async with at_desk(db) as desk:
        await begin(desk, "yesterday", "yes")
        await desk.say("8:12 17 mar")
        await desk.press("escape")
        await desk.press("escape")
        assert "taken back" in await desk.say("undo")
        assert desk.rolls == {}
