"""Pages: what stands on each, how it goes on over the next, and what is refused."""

import io
from pathlib import Path

import pypdfium2
import pytest

from filmrack.domain import codes
from filmrack.domain.refusal import Refused
from filmrack.printing import (
    CAUTIONS,
    GUIDES,
    BenchCard,
    BinderIndex,
    Calibration,
    ContactLog,
    DayPeriod,
    Guide,
    HangRow,
    HangSheet,
    IndexRow,
    Page,
    PeopleSheet,
    PersonRow,
    RulerPage,
    SlipRoll,
    SubstitutePage,
    SweepSlip,
    measured,
    print_pages,
)

PAPER = ["letter", "a4"]


def pages_of(*pages: Page, paper: str = "letter") -> list[str]:
    out = io.BytesIO()
    printed = print_pages(pages, paper, out)
    texts = [page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(out.getvalue())]
    assert len(texts) == printed.pages
    return [" ".join(text.split()) for text in texts]


@pytest.mark.parametrize("paper", PAPER)
@pytest.mark.parametrize("whom", GUIDES)
def test_each_guide_is_one_page_with_nothing_cut_off_and_every_caution(
    whom: str, paper: str
) -> None:
    guide = GUIDES[whom]
    (text,) = pages_of(Guide(guide, "Room 114"), paper=paper)
    assert "…" not in text
    for step in guide.steps:
        assert step.heading in text
        assert all(typed in text for typed in step.typed)
    for caution in CAUTIONS:
        assert caution in text


def test_the_guide_to_the_binders_says_how_frames_are_picked_and_picked_no_longer() -> None:
    (text,) = pages_of(Guide(GUIDES["binders"], "Room 114"))
    assert "picks 4 11" in text
    assert "“unpick 4” takes one back" in text


def people(count: int) -> tuple[PersonRow, ...]:
    return tuple(PersonRow(number, f"Ida{number}", "K") for number in range(1, count + 1))


@pytest.mark.parametrize("paper", PAPER)
def test_the_bench_card_has_every_action_and_every_caution_on_one_page(paper: str) -> None:
    (text,) = pages_of(BenchCard("Room 114"), paper=paper)
    for word in codes.ACTIONS:
        assert codes.action_code(word) in text
    for caution in CAUTIONS:
        assert caution in text
    assert "15 minutes" in text  # ANSI/ISEA Z358.1: an eyewash runs for 15 minutes
    assert "local codes" in text


@pytest.mark.parametrize("paper", PAPER)
def test_a_class_of_thirty_six_hangs_on_one_page(paper: str) -> None:
    (text,) = pages_of(PeopleSheet("Period 3", people(36)), paper=paper)
    assert "Ida36 K." in text
    assert codes.person_code(36) in text


def test_a_larger_class_goes_on_over_the_next_page() -> None:
    first, second = pages_of(PeopleSheet("Period 3", people(40)))
    assert "continued" in second
    assert codes.person_code(1) in first
    assert codes.person_code(40) in second


def test_each_period_has_a_page_of_its_own() -> None:
    texts = pages_of(PeopleSheet("Period 1", people(3)), PeopleSheet("Period 2", people(2)))
    assert [text.partition(" Scan")[0] for text in texts] == ["Period 1", "Period 2"]


def test_a_long_given_name_keeps_the_initial_that_tells_two_people_apart() -> None:
    long = PersonRow(1, "Bartholomew-Maximilian Ferdinand", "K")
    (text,) = pages_of(PeopleSheet("Period 1", (long,)))
    assert "… K." in text


def test_a_person_without_a_family_name_has_no_stray_dot() -> None:
    (text,) = pages_of(PeopleSheet("Period 1", (PersonRow(1, "Noor"),)))
    assert "Noor P" in text


@pytest.mark.parametrize("paper", PAPER)
def test_a_hang_sheet_fills_its_page_with_known_rolls_blank_rows_and_cautions(paper: str) -> None:
    (text,) = pages_of(HangSheet("Period 3", "14 Oct", "rod 3", (HangRow("17", "MK", "10:12"),)))
    for heading in ("clip", "initials", "loaded", "hung", "flipped", "taken"):
        assert heading in text
    assert "17 MK 10:12" in text
    assert "local codes" in text


def test_a_hang_sheet_of_many_rolls_loses_none() -> None:
    rows = tuple(HangRow(str(clip), f"Q{clip}") for clip in range(100, 145))
    texts = pages_of(HangSheet("Period 3", "14 Oct", "", rows))
    assert len(texts) == 2
    assert all(f"{clip} Q{clip}" in " ".join(texts) for clip in range(100, 145))
    assert "hung" in texts[1]
    assert "local codes" in texts[1]


@pytest.mark.parametrize("paper", PAPER)
def test_the_substitutes_day_is_one_page(paper: str) -> None:
    periods = tuple(DayPeriod(f"Period {n}", f"{n}:00", str(n), str(n)) for n in range(1, 9))
    page = SubstitutePage("Room 114", "14 Oct", "1 h", periods, note="The key is in the office.")
    (text,) = pages_of(page, paper=paper)
    assert "Turn the dial to 1 h" in text
    assert "The key is in the office." in text
    assert "Period 8 8:00 8 8" in text
    assert "local codes" in text


def test_a_sweep_slip_tells_what_is_in_the_box_and_what_is_missing() -> None:
    slip = SweepSlip(
        3, "Period 3", "14 Oct, 15:20", (SlipRoll("26F-0142-09", "17", "MK"),), (SlipRoll("lost"),)
    )
    (text,) = pages_of(slip)
    assert "1 roll" in text
    assert text.index("In this box") < text.index("26F-0142-09") < text.index("Missing")
    assert "Missing" not in pages_of(SweepSlip(3, "Period 3", "14 Oct", ()))[0]
    told = "Rod 3: 5 of 6 counted, nobody said which is not there"
    assert told in pages_of(slip._replace(unexplained=(told,)))[0]


def test_a_binder_index_repeats_its_headings_on_every_page() -> None:
    rows = tuple(IndexRow(codes.spoken(_roll(n)), "135-36") for n in range(1, 90))
    texts = pages_of(BinderIndex("26F", 1, "Photography 1", rows))
    assert len(texts) > 1
    assert all("sleeve film initials date note" in text for text in texts)
    assert all(row.sleeve in " ".join(texts) for row in rows)


def _roll(serial: int) -> codes.Code:
    code = codes.read(codes.roll_code("26F", serial))
    assert code is not None
    return code


def test_a_contact_log_shows_every_frame_and_the_picks() -> None:
    strips = (tuple(range(1, 7)), tuple(range(7, 12)))
    log = ContactLog(_roll(142).text, "135-36", "26F", "14 Oct", strips, frozenset({4, 11}))
    (text,) = pages_of(log)
    assert "26F-0142-09" in text
    assert text.count("pick") == 2
    # Ten strips of four, as on a page for many strips: still one page.
    strips = tuple(tuple(range(n, n + 4)) for n in range(1, 40, 4))
    assert len(pages_of(ContactLog(_roll(1).text, "135-36", "26F", "", strips))) == 1


@pytest.mark.parametrize(
    ("page", "says"),
    [
        (PeopleSheet("Period 7", ()), "Period 7"),
        (PeopleSheet("Period 7", (PersonRow(1, "写真"),)), "写"),
        (PeopleSheet("Period 7", (PersonRow(10_000, "Ida"),)), "9999"),
        (ContactLog("R26F014209", "135-36", "26F", "", ()), "no strips"),
        (ContactLog("nonsense", "135-36", "26F", "", ((1,),)), "nonsense"),
        (BinderIndex("26O", 1, "", ()), "26O"),
        (SweepSlip(100, "Period 1", "", ()), "box 100"),
    ],
)
def test_a_page_that_cannot_be_meant_is_refused_and_not_written(
    tmp_path: Path, page: Page, says: str
) -> None:
    with pytest.raises(Refused, match=says):
        print_pages([BenchCard(), page], "a4", tmp_path / "pages.pdf")
    assert not list(tmp_path.iterdir())


def test_paper_printer_and_order_are_checked() -> None:
    for pages, paper, dpi in (
        ([], "a4", 300),
        ([BenchCard()], "a3", 300),
        ([BenchCard()], "a4", 9),
    ):
        with pytest.raises(Refused):
            print_pages(pages, paper, io.BytesIO(), dpi=dpi)


def test_a_print_of_pages_can_be_stopped() -> None:
    with pytest.raises(Refused, match="after 1 of 2"):
        print_pages(
            [BenchCard()] * 2, "a4", io.BytesIO(), progress=lambda done, total: done < total - 1
        )


def test_the_same_pages_are_the_same_bytes() -> None:
    one, two = io.BytesIO(), io.BytesIO()
    for out in (one, two):
        print_pages([BenchCard(), PeopleSheet("Period 1", people(4))], "a4", out)
    assert one.getvalue() == two.getvalue()


def test_a_printer_that_does_nothing_needs_nothing_done() -> None:
    assert measured(20, 20, 150, 200) == Calibration()


def test_a_printer_is_countered_by_what_was_measured() -> None:
    # It shrinks to 98 % and shifts by 2 mm right and 1 mm up: x becomes 0.98 x + 2.
    found = measured(0.98 * 20 + 2, 0.98 * 20 - 1, 0.98 * 150, 0.98 * 200)
    for x in (0.0, 20.0, 170.0):
        assert 0.98 * (found.stretch_x * x + found.right_mm) + 2 == pytest.approx(x)
        assert 0.98 * (found.stretch_y * x + found.down_mm) - 1 == pytest.approx(x)


@pytest.mark.parametrize(
    "lengths", [(20, 20, 0, 200), (20, 20, 150, -1), (20, 20, 144, 200), (40, 20, 150, 200)]
)
def test_lengths_that_no_printer_makes_are_refused(lengths: tuple[float, ...]) -> None:
    with pytest.raises(Refused):
        measured(*lengths)


@pytest.mark.parametrize("dpi", [203, 300, 600, 1200])
def test_the_test_page_is_one_page_with_symbols_down_to_the_smallest_module(dpi: int) -> None:
    out = io.BytesIO()
    printed = print_pages([RulerPage("Office")], "a4", out, dpi=dpi)
    assert printed.pages == 1
    assert 3 <= printed.labels <= 5


def test_the_test_page_says_how_its_lengths_are_told() -> None:
    out = io.BytesIO()
    print_pages([RulerPage()], "letter", out)
    said = " ".join(pypdfium2.PdfDocument(out)[0].get_textpage().get_text_range().split())
    assert "on the screen Labels, as “measured 20.4,19.8,150.3,200.2”" in said
