"""The kinds, the sheet and its first label, as the screen Labels draws them."""

from __future__ import annotations

from pathlib import Path

import pytest

from filmrack.acts.labelling import KINDS
from filmrack.desk.labels.sheet import label_rows
from filmrack.desk.labels.view import LabelsView
from filmrack.desk.themes import DIM
from filmrack.printing import ClipTag
from tests.conftest import MARA, School
from tests.desk.at_desk import AtDesk, opened_on
from tests.desk.labels.printed import labels, printed, sleeve, view_of


def unbroken(desk: AtDesk) -> str:
    """Return what stands at the right of the kinds without its spaces and breaks."""
    return "".join("".join(row[46:].split()) for row in desk.page.splitlines())


async def test_a_list_of_kinds_that_is_cut_off_says_how_many_more_there_are(
    school: School,
) -> None:
    async with opened_on("labels", school.file.path, (80, 24)) as desk:
        await desk.enter("bench")  # its answer stands above the line and takes rows of the list
        assert "↓" in desk.page
        assert "more" in desk.page
        assert "  test" not in desk.page
        await desk.press("end")
        rows = desk.page
        assert "▸ test" in rows
        assert "↓" not in rows
        for nth, kind in enumerate(KINDS):
            await desk.press("home", *["down"] * nth)
            assert f"▸ {kind}" in desk.page


async def test_a_click_on_the_sheet_says_where_to_begin(school: School, home: Path) -> None:
    async with labels(school.file.path) as desk:
        await desk.enter("rods")
        await desk.enter("letter-30")
        rows = desk.page.splitlines()
        row, column = next(
            (nth, line.index("█"))
            for nth, line in enumerate(rows)
            if "█" in line and "these" not in line
        )
        await desk.pilot.click(LabelsView, offset=(column + 2 + 6, row + 1 + 1))
        assert view_of(desk).choice.start == 5
        assert not list(home.iterdir())


async def test_where_the_file_goes_is_said_before_anything_is_printed(
    school: School, home: Path
) -> None:
    (home / "boxes.pdf").write_bytes(b"kept")
    async with labels(school.file.path) as desk:
        for line, name in (("boxes", "boxes-2"), ("clips", "clips"), ("bench", "bench")):
            await desk.enter(line)
            assert f"to{home / name}.pdf" in unbroken(desk), line
        await desk.enter()
        await printed(desk)
        await desk.enter("bench")
        assert f"to{home / 'bench-2.pdf'}" in unbroken(desk)
    assert {path.name for path in home.iterdir()} == {"boxes.pdf", "bench.pdf"}
    assert (home / "boxes.pdf").read_bytes() == b"kept"


async def test_a_printer_that_the_stock_does_not_serve_is_said_before_anything_is_printed(
    school: School, home: Path
) -> None:
    async with labels(school.file.path) as desk:
        for line in ("boxes", "letter-80", "203 dpi"):
            await desk.enter(line)
        assert "letter-80 does not serve a printer of 203 dpi" in desk.page
        await desk.enter("300 dpi")
        assert "does not serve" not in desk.page


async def test_the_chosen_kind_is_on_a_small_screen_also_over_an_answer(
    school: School, home: Path
) -> None:
    async with labels(school.file.path, (80, 24)) as desk:
        await desk.enter("test")
        await desk.enter()
        await printed(desk)
        assert "test: 1 page" in desk.answer
        for kind in reversed(KINDS):
            assert f"▸ {kind}" in desk.page
            await desk.press("up")
        row = next(n for n, line in enumerate(desk.page.splitlines()) if "rods" in line)
        await desk.pilot.click(LabelsView, offset=(4, row))
        assert view_of(desk).choice.kind == "rods"


@pytest.mark.parametrize(
    ("width", "height", "said"),
    [
        (58, 15, "▀▄▀"),
        (58, 14, "and its code, not drawn here"),
        (40, 20, "and its code, not drawn here"),
        (40, 4, "and 3 lines more"),
    ],
)
def test_what_of_a_label_is_not_drawn_is_said_in_its_frame(
    width: int, height: int, said: str
) -> None:
    tag = ClipTag(17, "A")
    rows = [row.plain for row in label_rows(tag, DIM, width, height, None)]
    assert len(rows) <= height
    assert (rows[0][0], rows[-1][0]) == ("╭", "╰")
    assert any(said in row for row in rows)


async def test_a_sheet_of_which_a_part_is_drawn_says_which_rows_those_are(
    school: School, home: Path
) -> None:
    async with labels(school.file.path, (80, 24)) as desk:
        for line in ("rods", "letter-80", "from 41"):
            await desk.enter(line)
        assert "rows 10 to " in desk.page
        assert " of 20" in desk.page
    async with labels(school.file.path, (80, 40)) as desk:
        for line in ("rods", "letter-80", "from 41"):
            await desk.enter(line)
        assert "rows 10 to" not in desk.page


@pytest.mark.parametrize("size", [(80, 24), (120, 34), (200, 50)])
async def test_every_kind_is_shown_at_every_size(
    school: School, home: Path, size: tuple[int, int]
) -> None:
    sleeve(school, MARA, 17)
    async with labels(school.file.path, size) as desk:
        view = view_of(desk)
        for _ in range(16):
            await desk.press("up")
        for _ in range(16):
            for row in range(view.size.height):
                assert view.render_line(row).cell_length == view.size.width
            await desk.press("down")
            await desk.press("right")
