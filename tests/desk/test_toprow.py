"""The top row says on every screen and at every width what somebody who comes in has to know."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.desk.bench import at_the_desk
from tests.desk.full_room import NOW


@pytest.mark.parametrize("size", [(80, 24), (120, 34), (200, 50)])
async def test_until_when_to_start_and_how_many_hang_stand_there_uncut(
    full: Path, size: tuple[int, int]
) -> None:
    async with at_the_desk(full, size=size, now=NOW) as here:
        first, second = here.rows()[:2]
        for words in ("Dryer", "Tue 17 Nov", "Period 7 ends 14:26", "hang by 14:14"):
            assert words in first
        for words in ("Fan", "assumed", "24 wet", "60 ready", "0 left behind", "in the tank"):
            assert words in second
        assert "…" not in first + second
