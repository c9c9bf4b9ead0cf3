"""What an empty desk says."""

from __future__ import annotations

from pathlib import Path

import pytest

from filmrack.acts import hanging
from filmrack.acts.founding import make_darkroom_file
from filmrack.acts.locking import set_passphrase
from filmrack.domain.default_room import default_room
from tests.conftest import MARA, TUESDAY_9_00, open_school
from tests.desk.at_desk import at_desk


async def test_a_new_room_says_roster_then_tags_then_loading(tmp_path: Path) -> None:
    path = tmp_path / "new.db"
    make_darkroom_file(
        path, default_room("America/Chicago", TUESDAY_9_00.date()), TUESDAY_9_00
    ).close()
    async with at_desk(path) as desk:
        shown = " ".join(desk.shown.split())
        first, then, last = (
            shown.find(word) for word in ("type “roster”", "clips 1-60", "17 juniper")
        )
        assert 0 < first < then < last


@pytest.mark.parametrize("columns", [80, 100, 120])
async def test_what_an_empty_dryer_says_stands_whole_beside_the_card(
    db: Path, columns: int
) -> None:
    async with at_desk(db, size=(columns, 34)) as desk:
        said = [row.split("  ")[1].strip() for row in desk.rows()[2:8] if row.strip()]
        assert "scan or type its owner, then its clip." in " ".join(said)


async def test_a_room_with_people_is_told_nothing_of_rosters(db: Path) -> None:
    async with at_desk(db) as desk:
        assert "roster" not in desk.shown
        assert "Nothing selected." in desk.shown


async def test_a_student_desk_is_told_of_no_command(tmp_path: Path) -> None:
    path = tmp_path / "new.db"
    with make_darkroom_file(
        path, default_room("America/Chicago", TUESDAY_9_00.date()), TUESDAY_9_00
    ) as file:
        set_passphrase(file, "three dry clips", None, TUESDAY_9_00)
    async with at_desk(path) as desk:
        assert "roster" not in desk.shown


async def test_a_dry_roll_on_a_student_desk_says_take(db: Path) -> None:
    school = open_school(db)
    hanging.hang(school.file, school.hand(ago=20), person=MARA, clip=17)
    set_passphrase(school.file, "three dry clips", None, school.now)
    school.file.close()
    async with at_desk(db) as desk:
        await desk.say("17 dry")
        assert "take  typed, when you go" in desk.shown
        assert "to its box" not in desk.shown
