"""The top row says on every screen and at every width what somebody who comes in has to know."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from filmrack.acts import sweeping
from filmrack.acts.group import Hand
from filmrack.store.file import open_file
from tests.desk.at_desk import at_desk
from tests.desk.full_room import NOW


@pytest.mark.parametrize("size", [(80, 24), (120, 34), (200, 50)])
async def test_until_when_to_start_and_how_many_hang_stand_there_uncut(
    full: Path, size: tuple[int, int]
) -> None:
    async with at_desk(full, size=size, now=NOW) as here:
        first, second = here.rows()[:2]
        for words in ("Dryer", "Tue 17 Nov", "Period 7 ends 14:26", "hang by 14:14"):
            assert words in first
        not_dry = ("24 not dry",) if size == (80, 24) else ("12 wet", "12 to touch")
        if_so = "perhaps" if size == (80, 24) else "if the dial was turned"
        for words in ("Fan", if_so, *not_dry, "60 ready", "0 left behind", "in the tank"):
            assert words in second
        assert "…" not in first + second


@pytest.mark.parametrize("size", [(80, 24), (120, 34), (200, 50)])
async def test_a_sweep_that_is_half_done_is_told_on_every_screen_but_its_own(
    full: Path, tmp_path: Path, size: tuple[int, int]
) -> None:
    half = Path(shutil.copy(full, tmp_path))
    with open_file(half, write=True) as file:
        sweeping.sweep(file, Hand(NOW, NOW, "desk 2"), counts={1: 12, 2: 12})
    async with at_desk(half, size=size, now=NOW) as here:
        for screen in ("board", "dryer", "boxes", "archive", "labels", "room"):
            here.app.face.go(screen)
            await here.wait(seconds=1)
            assert "sweep on, 2 of 7 rods through: type “sweep”" in here.rows()[0]
        await here.say("sweep")
        assert here.open == "sweep"
        here.app.face.go("sweep")
        await here.wait(seconds=1)
        assert "sweep on" not in here.rows()[0]
        with open_file(half, write=True) as file:
            sweeping.sweep(file, Hand(NOW, NOW, "desk 2"), finish=True)
        here.app.session.changed()
        here.app.face.go("dryer")
        await here.wait(seconds=1)
        assert "sweep on" not in here.rows()[0]


async def test_too_late_to_dry_before_the_bell_the_row_says_when_film_hung_now_dries(
    full: Path,
) -> None:
    async with at_desk(full, size=(120, 34), now=NOW.replace(minute=20)) as here:
        assert "film hung now is not dry when class ends" in here.rows()[0]


@pytest.mark.parametrize("size", [(80, 24), (120, 34)])
async def test_a_dial_that_somebody_says_was_turned_has_no_if(
    full: Path, tmp_path: Path, size: tuple[int, int]
) -> None:
    told = Path(shutil.copy(full, tmp_path))
    async with at_desk(told, size=size, now=NOW) as here:
        await here.say("fan")
        await here.wait(seconds=1)
        assert "Fan" in here.rows()[1]
        assert "turned" not in here.rows()[1]
        assert "perhaps" not in here.rows()[1]
