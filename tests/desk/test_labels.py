"""Printing from the desk; symbols are read back from a raster by zxing-cpp."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from threading import Event

import pypdfium2
import pytest
import zxingcpp

from filmrack.acts import archiving, fetching, hanging
from filmrack.acts.labelling import KINDS
from filmrack.desk.answer import Answer
from filmrack.desk.app import Desk
from filmrack.desk.labels import press
from filmrack.desk.labels.choice import ABOUT, Choice, Sheets, chosen_by
from filmrack.desk.labels.drawing import kinds_width
from filmrack.desk.labels.press import Press
from filmrack.desk.labels.sheet import label_rows
from filmrack.desk.labels.view import LabelsView
from filmrack.desk.themes import DIM
from filmrack.printing import ClipTag
from filmrack.store import labelling
from filmrack.store.clock import stand_at
from tests.conftest import MARA, OLU, School
from tests.desk.at_desk import AtDesk, opened_on

labels = partial(opened_on, "labels")


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return the documents of whoever is at the desk."""
    documents = tmp_path / "home" / "Documents"
    documents.mkdir(parents=True)
    monkeypatch.setenv("HOME", str(documents.parent))
    for name in ("XDG_DOCUMENTS_DIR", "XDG_CONFIG_HOME", "XDG_DATA_HOME"):
        monkeypatch.delenv(name, raising=False)
    return documents


def view_of(desk: AtDesk) -> LabelsView:
    return desk.app.query_one(LabelsView)


async def printed(desk: AtDesk) -> None:
    """Wait until the thread is done and the desk has heard of it."""
    await desk.app.workers.wait_for_complete()
    await desk.pilot.pause()
    await desk.pilot.pause()


def symbols(pdf: Path) -> list[str]:
    return [
        code.text
        for page in pypdfium2.PdfDocument(pdf)
        for code in zxingcpp.read_barcodes(page.render(scale=300 / 72, grayscale=True).to_numpy())
    ]


def sleeve(school: School, person: int, clip: int) -> None:
    roll = hanging.hang(school.file, school.hand(), person=person, clip=clip).roll.id
    fetching.take(school.file, school.hand(), roll)
    archiving.sleeve(school.file, school.hand(), roll)


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


@pytest.mark.parametrize("line", ["print label", "label"])
async def test_the_label_of_the_roll_in_hand_is_asked_for_without_its_number(
    school: School, home: Path, line: str
) -> None:
    sleeve(school, MARA, 17)
    sleeve(school, OLU, 5)
    async with opened_on("archive", school.file.path) as desk:
        await desk.enter("26F-0002")
        await desk.enter(line)
        assert view_of(desk).display
        assert view_of(desk).choice.asked.startswith("26F-0002")
        assert "Enter saves that as a PDF" in desk.answer


async def test_a_label_of_no_sleeve_is_refused_in_a_sentence(school: School) -> None:
    hanging.hang(school.file, school.hand(), person=MARA, clip=17)
    async with opened_on("dryer", school.file.path) as desk:
        await desk.enter("print label")
        assert "has no sleeve yet" in desk.answer


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


async def test_clips_are_asked_for_by_number(school: School, home: Path) -> None:
    async with labels(school.file.path) as desk:
        await desk.press("up")
        assert view_of(desk).choice.kind == "clips"
        await desk.enter()
        assert "which clips" in desk.line.hint
        await desk.enter("1-2")
        await printed(desk)
    assert len(symbols(home / "clips.pdf")) == 4


async def test_what_is_to_be_printed_is_said_on_any_screen(school: School, home: Path) -> None:
    for screen in ("board", "dryer", "archive", "room", "labels"):
        async with opened_on(screen, school.file.path) as desk:
            for typed, choice in (
                ("labels clips 1-60", Choice("clips", "1-60")),
                ("labels sleeves", Choice()),
                ("Labels bench", Choice("bench")),
                ("print boxes", Choice("boxes")),
            ):
                await desk.enter(typed)
                assert view_of(desk).display, (screen, typed)
                assert view_of(desk).choice == choice, (screen, typed)
    assert not list(home.glob("*.pdf"))


async def test_a_word_that_names_labels_and_a_screen_says_which_it_was(
    school: School, home: Path
) -> None:
    for word, screen in (("boxes", "Boxes"), ("binders", "Archive"), ("rods", "Dryer")):
        async with labels(school.file.path) as desk:
            await desk.enter(word)
            assert view_of(desk).choice.kind == word
            assert f"To print: {word}" in desk.answer
            assert f"“{word}” once more opens the screen {screen}" in desk.answer
            await desk.enter(word)
            assert isinstance(desk.app, Desk)
            assert desk.app.face.entry.title == screen


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


async def test_stock_changes_with_the_arrows_and_by_its_name(school: School, home: Path) -> None:
    async with labels(school.file.path) as desk:
        await desk.enter("rods")
        await desk.enter("a4-65")
        assert "on a4-65" in desk.page
        await desk.press("right")
        assert "on letter-10" in desk.page
        await desk.enter("test")
        assert "on letter paper" in desk.page
        await desk.press("right")
        assert "on a4 paper" in desk.page


class Held(Press):
    """A press that waits at each label until it is let go."""

    def __init__(self) -> None:
        super().__init__()
        self.held = Event()

    def _progress(self, done: int, total: int) -> bool:
        going_on = super()._progress(done, total)
        let_go = self.held.wait(10)
        return going_on and let_go and super()._progress(done, total)


async def test_a_print_is_stopped_by_escape_and_holds_no_line_up(
    school: School, home: Path
) -> None:
    async with labels(school.file.path) as desk:
        held = view_of(desk).press = Held()
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
        assert not view_of(desk).press.running
    assert list(home.iterdir()) == []


async def test_the_latest_print_is_handed_to_the_printer_and_to_the_viewer(
    school: School, home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    handed: list[tuple[str, Path]] = []
    papers: list[tuple[float, float]] = []

    def send(path: Path, paper_mm: tuple[float, float]) -> None:
        handed.append(("printer", path))
        papers.append(paper_mm)

    monkeypatch.setattr(press, "send", send)
    monkeypatch.setattr(press, "view", lambda path: handed.append(("viewer", path)))
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


def unbroken(desk: AtDesk) -> str:
    """Return what stands at the right of the kinds without its spaces and breaks."""
    return "".join("".join(row[46:].split()) for row in desk.page.splitlines())


async def test_a_printer_that_the_stock_does_not_serve_is_said_before_anything_is_printed(
    school: School, home: Path
) -> None:
    async with labels(school.file.path) as desk:
        for line in ("boxes", "letter-80", "203 dpi"):
            await desk.enter(line)
        assert "letter-80 does not serve a printer of 203 dpi" in desk.page
        await desk.enter("300 dpi")
        assert "does not serve" not in desk.page


async def test_hints_are_whole_at_80_columns(school: School, home: Path) -> None:
    async with labels(school.file.path, (80, 24)) as desk:
        line = desk.line
        for kind in KINDS:
            view_of(desk).choice = Choice(kind)
            hint = view_of(desk).hint()
            line.hint = hint
            assert line.render_line(0).text.rstrip().endswith(hint), kind
        view_of(desk).press.running = True
        line.hint = view_of(desk).hint()
        assert line.render_line(0).text.rstrip().endswith(line.hint)


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


def test_each_kind_is_told_in_the_words_that_a_list_has_room_for() -> None:
    assert set(ABOUT) == set(KINDS)
    assert {
        kind: about for kind, about in ABOUT.items() if len(about) > kinds_width(100) - 16
    } == {}


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


@pytest.mark.parametrize(
    ("typed", "choice"),
    [
        ("clips 1-60", Choice("clips", "1-60")),
        ("1-3, 17", Choice(asked="1-3, 17")),
        ("1 – 60", Choice(asked="1 – 60")),
        ("all", Choice()),
        ("from 5", Choice(start=5)),
        ("letter-30", Choice(stock="letter-30")),
        ("stock a4-21", Choice(stock="a4-21")),
        ("600 dpi", Choice(dpi=600)),
        ("17", None),
        ("mar", None),
        ("26F-0142-09", None),
        ("letters", None),
    ],
)
def test_a_typed_line_chooses_or_is_left_to_the_desk(typed: str, choice: Choice | None) -> None:
    assert chosen_by(Choice(), typed, None) == choice


def test_labels_before_the_first_are_used_and_those_behind_the_last_are_free() -> None:
    sheets = Sheets(3, 10, 8, 2)
    places = [sheets.place(number) for number in (7, 8, 9, 10)]
    assert places == ["used", "now", "now", "free"]
    assert Sheets(3, 10, 8, 24).sheets == 2


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
