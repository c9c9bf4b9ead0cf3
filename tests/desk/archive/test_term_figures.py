"""The picture of a term's figures: every bar with its number, in every size and all colours."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.style import Style

from filmrack.acts import archiving, fetching, hanging
from filmrack.desk.archive.bars import bar, bars
from filmrack.desk.archive.term_figures import term_figures
from filmrack.desk.themes import DIM, PALETTES, TERMINAL, Palette
from filmrack.domain.schooldays import Term
from filmrack.store.figures import Figures, Week
from tests.conftest import IVO, MARA, OLU, School
from tests.desk.at_desk import opened_on

TERM = Term("26F", date(2026, 8, 24), date(2026, 12, 18))
SIZES = [(76, 20), (116, 29), (196, 45)]


def weeks(*rolls: int) -> tuple[Week, ...]:
    return tuple(
        Week(TERM.starts + timedelta(days=7 * nth), many, many // 3, 0.97 if many else None)
        for nth, many in enumerate(rolls)
    )


def plain(figures: Figures, size: tuple[int, int], palette: Palette = DIM) -> list[str]:
    return [line.plain for line in term_figures(figures, TERM, *size, palette)]


@pytest.mark.parametrize("size", SIZES)
def test_every_week_has_its_number_its_monday_and_what_was_left_behind(
    size: tuple[int, int],
) -> None:
    rows = plain(Figures(weeks(12, 0, 87, 30), {0: 3, 2: 9, 5: 1}), size)
    text = "\n".join(rows)
    for number in ("12", "87", "30", "24", "31", "7", "14", "Aug", "Sep", "29", "97"):
        assert number in text
    for label in ("rolls a week", "left behind", "sweep agreed, %", "days from dryer", "Monday"):
        assert label in text
    assert "129 rolls hung, 10 left behind in the week of 14 Sep, 33 before" in rows[0]
    assert ("half sleeved within 2 days" in rows[0]) == (size[0] > 100)
    assert len(rows) <= size[1]
    assert all(len(row) <= size[0] for row in rows)


@pytest.mark.parametrize("size", SIZES)
def test_a_long_term_shows_its_latest_weeks_and_a_long_wait_shares_a_bar(
    size: tuple[int, int],
) -> None:
    rows = plain(Figures(weeks(*range(100, 130)), {1: 400, 3: 20, 40: 7, 90: 5}), size)
    text = "\n".join(rows)
    assert "129" in text
    assert "more" in text
    assert "12" in text
    assert len(rows) <= size[1]
    assert all(len(row) <= size[0] for row in rows)


@pytest.mark.parametrize("palette", PALETTES.values(), ids=lambda palette: palette.name)
def test_nothing_is_told_by_colour_alone(palette: Palette) -> None:
    figures = Figures(weeks(12, 40), {1: 3})
    assert plain(figures, (76, 20), palette) == plain(figures, (76, 20), TERMINAL)


def test_a_term_without_film_says_what_begins_the_picture() -> None:
    assert "first roll" in "\n".join(plain(Figures(weeks(0), {}), (76, 20)))
    assert "No roll of this term is sleeved yet." in plain(Figures(weeks(3), {}), (76, 20))


@given(st.lists(st.none() | st.integers(0, 5000), min_size=1, max_size=30), st.integers(3, 9))
def test_a_greater_number_never_has_a_lower_bar(values: list[int | None], rows: int) -> None:
    drawn = bars(values, rows, 4, Style(), words=[""] * len(values))
    assert len(drawn) == rows
    assert {len(line.plain) for line in drawn} == {4 * len(values)}

    def height(nth: int) -> int:
        cells = [line.plain[4 * nth] for line in drawn]
        return sum(" ▁▂▃▄▅▆▇█".index(cell) for cell in cells)

    for one, a in enumerate(values):
        assert (height(one) > 0) is bool(a)
        for other, b in enumerate(values):
            assert (a or 0) <= (b or 0) or height(one) >= height(other)


@given(st.integers(1, 5000), st.integers(1, 60))
def test_a_lying_bar_is_seen_and_never_longer_than_its_place(value: int, cells: int) -> None:
    assert 1 <= len(bar(value, 5000, cells)) <= cells
    assert len(bar(5000, 5000, cells)) == cells
    assert bar(0, 5000, cells) == ""


@pytest.mark.parametrize("size", [(120, 34), (80, 24)])
async def test_the_figures_lie_over_the_archive_until_escape(
    school: School, size: tuple[int, int]
) -> None:
    for person, clip in ((MARA, 17), (OLU, 5), (IVO, 9)):
        roll = hanging.hang(school.file, school.hand(), person=person, clip=clip).roll.id
        fetching.take(school.file, school.hand(), roll)
    archiving.sleeve(school.file, school.hand(), roll)
    async with opened_on("dryer", school.file.path, size) as desk:
        await desk.enter("figures")
        rows = desk.page
        assert "Term 26F: 3 rolls hung, none left behind, half sleeved within 0 days" in rows
        assert "█" in rows
        await desk.press("escape")
        assert "rolls a week" not in desk.page
        assert "Ivo Lindqvist" in desk.page
