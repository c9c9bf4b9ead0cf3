"""Prints beside the line: saved, stopped, handed over; symbols are read back by zxing-cpp."""

from __future__ import annotations

from pathlib import Path
from threading import Event

import pytest

from filmrack.desk.answer import Answer
from filmrack.desk.labels import hand_over
from filmrack.desk.labels.press import Press
from filmrack.store import labelling
from filmrack.store.clock import stand_at
from tests.conftest import MARA, OLU, School
from tests.desk.labels.printed import labels, printed, sleeve, view_of
from tests.printed import symbols


class Held(Press):
    """A press that waits at each label until it is let go."""

    def __init__(self) -> None:
        super().__init__()
        self.held = Event()

    def _progress(self, done: int, total: int) -> bool:
        going_on = super()._progress(done, total)
        let_go = self.held.wait(10)
        return going_on and let_go and super()._progress(done, total)


async def test_sleeves_that_wait_are_printed_by_enter_and_wait_no_more(
    school: School, home: Path
) -> None:
    sleeve(school, MARA, 17)
    sleeve(school, OLU, 5)
    async with labels(school.file.path) as desk:
        assert "4 labels on 1 sheet, from label 1 on" in desk.page  # two sleeves a roll
        await desk.enter()
        await printed(desk)
        assert str(home / "sleeves.pdf") in desk.answer.replace("\n", "")
        assert "not on paper yet" in desk.answer, "nothing went to a printer"
        assert "no sleeve waits" in desk.page.casefold()
    assert len(symbols(home / "sleeves.pdf")) == 4
    assert labelling.queued_sleeves(school.file.conn) == []


async def test_the_footer_says_print_again_of_what_was_printed_and_nothing_where_nothing_waits(
    school: School, home: Path
) -> None:
    sleeve(school, MARA, 17)
    async with labels(school.file.path) as desk:
        view = view_of(desk)
        assert view.enter_does() == "save sleeves as a PDF"
        await desk.enter()
        await printed(desk)
        assert view.enter_does() == "", "no sleeve waits any more"
        await desk.enter("sleeves")
        assert "Enter" not in desk.answer
        assert "no sleeve waits" in desk.answer
        await desk.enter("bench")
        assert view.enter_does() == "save bench as a PDF"
        await desk.enter()
        await printed(desk)
        assert view.enter_does() == "", "a second Enter prints nothing"
        await desk.enter()
        await printed(desk)
        assert "saved already" in desk.answer
        assert [path.name for path in home.glob("bench*.pdf")] == ["bench.pdf"]
        await desk.enter("bench")
        assert view.enter_does() == "save bench again as a PDF"


async def test_the_next_print_goes_on_where_the_sheet_stopped(school: School, home: Path) -> None:
    async with labels(school.file.path) as desk:
        await desk.enter("clips 1-2")
        await desk.enter()
        await printed(desk)
        await desk.enter("clips 3-4")
        assert "4 labels on 1 sheet, from label 5 on" in desk.page
        await desk.enter("from 20")
        assert "4 labels on 2 sheets, from label 20 on" in desk.page
        assert not (home / "clips-2.pdf").exists()
        await desk.enter()
        await printed(desk)
    assert (home / "clips.pdf").exists()
    assert (home / "clips-2.pdf").exists()


async def test_what_was_just_saved_is_not_shown_as_if_it_were_still_to_come(
    school: School, home: Path
) -> None:
    sleeve(school, MARA, 17)
    async with labels(school.file.path) as desk:
        for asked in ("sleeves", "sleeves 26F-0001", "rods"):
            await desk.enter(asked)
            await desk.enter()
            await printed(desk)
            kind = asked.partition(" ")[0]
            assert f"Saved {kind}: " in desk.page, asked
            assert "from label" not in desk.page, asked
            await desk.enter("again")
            await printed(desk)
            assert f"Saved {kind}: " in desk.page, asked
        assert len(symbols(home / "sleeves.pdf")) == len(symbols(home / "sleeves-2.pdf")) == 2
        await desk.enter("labels rods")
        assert "on 1 sheet, from label" in desk.page


async def test_a_print_is_stopped_by_escape_and_holds_no_line_up(
    school: School, home: Path
) -> None:
    async with labels(school.file.path) as desk:
        held = view_of(desk).prints.press = Held()
        await desk.enter("clips 1-60")
        await desk.enter(till_done=False)
        while not held.total:
            await desk.pilot.pause()
        view_of(desk)._tick()
        assert "0 of 120" in desk.page
        await desk.press("o", "l", "u")
        assert desk.line.text == "olu"
        await desk.press("escape", "escape")
        held.held.set()
        await printed(desk)
        assert "stopped" in desk.answer
        assert not view_of(desk).prints.press.running
    assert list(home.iterdir()) == []


async def test_the_latest_print_is_handed_to_the_printer_and_to_the_viewer(
    school: School, home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    handed: list[tuple[str, Path]] = []
    papers: list[tuple[float, float]] = []

    def send(path: Path, paper_mm: tuple[float, float]) -> None:
        handed.append(("printer", path))
        papers.append(paper_mm)

    monkeypatch.setattr(hand_over, "send", send)
    monkeypatch.setattr(hand_over, "view", lambda path: handed.append(("viewer", path)))
    async with labels(school.file.path) as desk:
        await desk.enter("boxes")
        await desk.enter("print")
        await printed(desk)
        assert "sent to the printer, and saved as" in desk.answer
        await desk.enter("view")
        await printed(desk)
        assert desk.answer == f"To the viewer. {home / 'boxes.pdf'}"
    assert handed == [("printer", home / "boxes.pdf"), ("viewer", home / "boxes.pdf")]
    assert papers == [pytest.approx((215.9, 279.4))]
    assert [path.name for path in home.iterdir()] == ["boxes.pdf"]


async def test_a_printer_that_is_not_there_leaves_the_file(
    school: School, home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("PATH", str(home))
    async with labels(school.file.path) as desk:
        await desk.enter("boxes")
        await desk.enter("print")
        await printed(desk)
        assert "boxes.pdf" in desk.answer
        assert "no lp command" in desk.answer
    assert (home / "boxes.pdf").exists()


async def test_what_cannot_be_printed_says_why_and_makes_no_file(
    school: School, home: Path
) -> None:
    async with labels(school.file.path) as desk:
        for line in ("clips 0-5", "rods 9", "sleeves", "sweepslip"):
            await desk.enter(line)
            await desk.enter()
            await printed(desk)
            assert desk.app.query_one(Answer).refused, line
        await desk.enter("boxes")
        await desk.enter("from 400")
        await desk.enter()
        await printed(desk)
        assert "no label 400" in desk.answer
    assert not list(home.iterdir())


async def test_a_test_page_is_printed_and_its_lengths_are_told(school: School, home: Path) -> None:
    async with labels(school.file.path) as desk:
        await desk.enter("test")
        await desk.enter()
        await printed(desk)
        await desk.enter("measured 20.4,19.8,150.3")
        assert desk.app.query_one(Answer).refused
        await desk.enter("measured 20.4,19.8,150.3,200.2")
        assert "moved" in desk.answer
    assert (home / "test.pdf").exists()


async def test_the_demo_prints_beside_its_file_and_leaves_nothing_at_home(
    school: School, home: Path
) -> None:
    with school.file.writing() as conn:
        stand_at(conn, school.now)
    async with labels(school.file.path) as desk:
        await desk.enter("rods")
        await desk.enter()
        await printed(desk)
    assert [path.name for path in school.file.path.parent.glob("*.pdf")] == ["rods.pdf"]
    assert list(home.iterdir()) == []
