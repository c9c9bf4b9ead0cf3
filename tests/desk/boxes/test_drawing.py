"""The boxes as they are drawn: how many lie in them, and in words why one looks at them."""

from __future__ import annotations

import re
from datetime import timedelta
from pathlib import Path

import pytest

from filmrack.acts import fetching
from filmrack.acts.group import Hand
from filmrack.domain.roll import Roll
from filmrack.store import rolls
from filmrack.store.file import open_file
from tests.conftest import School
from tests.desk.at_desk import AtDesk, at_desk
from tests.desk.boxes.at_boxes import LATER, go, marked
from tests.desk.full_room import AWKWARD, NOW


def under(here: AtDesk, box: int) -> str:
    """Return what stands below one of eight boxes side by side, from the count on downwards."""
    rows = here.rows()
    floor = next(nth for nth, row in enumerate(rows) if "└" in row)
    left = [match.start() for match in re.finditer("└", rows[floor])][box - 1]
    right = rows[floor].index("┘", left) + 1
    below = iter(row[left:right].strip() for row in rows[floor + 1 :])
    return " ".join(iter(lambda: next(below), ""))


async def test_what_lies_too_long_or_in_the_wrong_box_is_marked_in_words(
    db: Path, school: School, boxed: list[Roll]
):
    fetching.box(school.file, school.hand(), [boxed[0].id], box_number=2)
    async with at_desk(db, now=LATER + timedelta(days=14)) as here:
        await go(here)
        assert "here too long" in here.screen
        assert "belongs in box 1" in here.screen


@pytest.mark.parametrize("size", [(80, 24), (120, 34), (200, 50)])
async def test_eighty_rolls_in_seven_boxes_stay_whole_with_any_name(
    eighty: Path, size: tuple[int, int]
):
    async with at_desk(eighty, size=size, now=NOW) as here:
        await go(here)
        shown = here.screen
        await here.press("right")
        for _ in range(8):
            await here.press("left")
        shown += here.screen
        assert "12 rolls to cut and sleeve" in shown
        assert AWKWARD[0].split()[0] in shown
        await here.press("end")
        assert marked(here)
        assert all(len(row) <= size[0] for row in here.rows())


@pytest.mark.parametrize("colours", ["daylight", "terminal"])
async def test_the_boxes_are_told_apart_in_every_theme(db: Path, boxed: list[Roll], colours: str):
    async with at_desk(db, now=LATER, colours=colours) as here:
        await go(here)
        assert "▸" in here.screen


@pytest.mark.parametrize("size", [(80, 24), (120, 34)])
async def test_why_a_box_wants_a_look_is_said_in_words_at_every_width(
    db: Path, school: School, boxed: list[Roll], size: tuple[int, int]
):
    fetching.box(school.file, school.hand(), [boxed[0].id], box_number=2)
    async with at_desk(db, size=size, now=LATER) as here:
        await go(here)
        assert "1 wrong box" in here.screen
        assert "Box 2, Period 2   3 rolls to cut and sleeve: 1 in the wrong box" in here.screen
        assert "! " not in here.screen
        assert len(here.app.view.hint()) <= size[0] - 8


async def test_seven_narrow_boxes_have_room_for_the_words(eighty: Path):
    with open_file(eighty, write=True) as file:
        some = [roll.id for roll in rolls.read(file.conn, "place = 'box' AND box = 7 LIMIT 3")]
        fetching.box(file, Hand(NOW, NOW, "desk 1"), some, box_number=1)
    async with at_desk(eighty, size=(80, 24), now=NOW) as here:
        await go(here)
        assert under(here, 1) == "15 3 wrong box"
        assert under(here, 2) == "12"


@pytest.mark.parametrize("size", [(80, 24), (126, 34), (130, 34)])
async def test_why_two_boxes_side_by_side_want_a_look_does_not_read_as_one(
    eighty: Path, size: tuple[int, int]
):
    with open_file(eighty, write=True) as file:
        for number in range(1, 8):
            lying = rolls.read(file.conn, "place = 'box' AND box = ?", (number,))
            for roll in lying[2:]:
                fetching.take(file, Hand(NOW, NOW, "desk 1"), roll.id)
    async with at_desk(eighty, size=size, now=NOW + timedelta(days=30)) as here:
        await go(here)
        assert [under(here, box) for box in range(1, 8)] == ["2 2 too long"] * 7
        words = [row for row in here.rows() if row.count("too") > 6 or row.count("long") > 6]
        assert words
        assert all(re.match(r" *((2 too|2 too long|long) {2,}){7}", row) for row in words)


async def test_rolls_that_want_attention_for_different_reasons_want_a_look(
    db: Path, school: School, boxed: list[Roll]
):
    fetching.box(school.file, school.hand(), [boxed[0].id], box_number=2)
    async with at_desk(db, now=LATER + timedelta(days=14)) as here:
        await go(here)
        assert under(here, 2) == "3 3 want a look"
        assert "1 in the wrong box" in here.screen
        assert "2 in it too long" in here.screen


@pytest.mark.parametrize("size", [(80, 24), (120, 34), (200, 50)])
async def test_a_box_with_more_rolls_than_dots_have_room_says_how_many_more(
    eighty: Path, size: tuple[int, int]
):
    async with at_desk(eighty, size=size, now=NOW) as here:
        await go(here)
        rows = [row[: row.rindex("│") + 1] for row in here.rows() if row.count("│") > 12]
        first = [row.split("│")[1] for row in rows]
        dots = "".join(first).count("●")
        more = re.search(r"\+(\d+)", "".join(first))
        assert dots + (int(more[1]) if more else 0) == 12
        assert (more is None) is (size == (200, 50))
