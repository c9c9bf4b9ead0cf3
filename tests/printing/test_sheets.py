"""Sheets: where a print begins and ends, what it refuses, and that it repeats itself exactly."""

import io
import subprocess
import sys
from pathlib import Path

import pypdfium2
import pytest

from filmrack.domain.refusal import Refused
from filmrack.printing import (
    BoxLabel,
    Calibration,
    clip_pairs,
    print_labels,
    stock,
)

ROOT = Path(__file__).parents[2]


def text_of(pdf: bytes) -> str:
    document = pypdfium2.PdfDocument(pdf)
    return "\n".join(page.get_textpage().get_text_range() for page in document)


def test_a_print_says_what_it_took_and_where_the_next_one_starts() -> None:
    printed = print_labels(clip_pairs(range(1, 17)), stock("letter-30"), io.BytesIO(), start=5)
    assert (printed.labels, printed.pages, printed.next_start) == (32, 2, 7)
    assert (printed.dots_per_module, round(printed.module_mm, 3)) == (6, 0.508)


def test_a_sheet_used_up_is_followed_by_a_new_one() -> None:
    printed = print_labels(clip_pairs(range(1, 16)), stock("letter-30"), io.BytesIO())
    assert (printed.pages, printed.next_start) == (1, 1)


@pytest.mark.parametrize(
    ("name", "start", "parted"),
    # 30 and 21 labels a sheet: pairs begin at odd labels, so an even start parts the fifteenth, and
    # a sheet of 21 parts the eleventh. On a roll each label is torn off by itself.
    [
        ("letter-30", 1, ()),
        ("letter-30", 2, (15, 30)),
        ("letter-30", 30, (1, 16, 31)),
        ("a4-21", 1, (11, 32)),
        ("roll-2x1", 1, ()),
    ],
)
def test_a_pair_of_tags_on_two_sheets_is_said(
    name: str, start: int, parted: tuple[int, ...]
) -> None:
    tags = clip_pairs(range(1, 36))
    assert print_labels(tags, stock(name), io.BytesIO(), start=start).parted == parted


@pytest.mark.parametrize("start", [0, -3, 31])
def test_a_start_that_the_sheet_does_not_have_is_refused(start: int) -> None:
    out = io.BytesIO()
    with pytest.raises(Refused, match="one of its 30"):
        print_labels(clip_pairs([1]), stock("letter-30"), out, start=start)
    assert out.getvalue() == b""


def test_the_same_labels_are_the_same_bytes() -> None:
    def once() -> bytes:
        out = io.BytesIO()
        print_labels([*clip_pairs([1, 2]), BoxLabel(3, "Đặng")], stock("a4-24"), out)
        return out.getvalue()

    assert once() == once()


def test_fonts_are_embedded_as_subsets_and_nothing_is_a_picture() -> None:
    out = io.BytesIO()
    print_labels([BoxLabel(3, "Đặng Щерба Ώρα")], stock("a4-24"), out)
    assert out.getvalue().count(b"+FiraSans-") >= 2
    assert b"/Subtype /Image" not in out.getvalue()
    assert "Đặng Щерба Ώρα" in text_of(out.getvalue())
    assert len(out.getvalue()) < 60_000


def test_a_long_name_is_shortened_visibly() -> None:
    out = io.BytesIO()
    print_labels(
        [BoxLabel(3, "Advanced photography and alternative processes")], stock("a4-65"), out
    )
    text = text_of(out.getvalue())
    assert "Advanced" in text
    assert "…" in text
    assert "processes" not in text


def test_a_character_that_cannot_be_written_is_named_and_nothing_is_written(tmp_path: Path) -> None:
    out = tmp_path / "labels.pdf"
    with pytest.raises(Refused, match="写"):
        print_labels([BoxLabel(1), BoxLabel(2, "写真")], stock("a4-24"), out)
    assert not out.exists()


def test_a_print_can_be_stopped_and_then_writes_nothing(tmp_path: Path) -> None:
    out = tmp_path / "labels.pdf"
    seen: list[int] = []

    def progress(done: int, total: int) -> bool:
        assert total == 20
        seen.append(done)
        return done < 7

    with pytest.raises(Refused, match="after 7 of 20"):
        print_labels(clip_pairs(range(1, 11)), stock("a4-24"), out, progress=progress)
    assert seen == list(range(8))
    assert not out.exists()


def test_a_file_that_cannot_be_written_is_refused(tmp_path: Path) -> None:
    with pytest.raises(Refused, match="another file"):
        print_labels(clip_pairs([1]), stock("a4-24"), tmp_path / "no" / "labels.pdf")


def test_nothing_to_print_is_refused() -> None:
    with pytest.raises(Refused, match="nothing to print"):
        print_labels([], stock("a4-24"), io.BytesIO())


@pytest.mark.parametrize(
    ("calibration", "says"),
    [
        (Calibration(right_mm=16), "15 mm"),
        (Calibration(down_mm=-40), "15 mm"),
        (Calibration(stretch_x=0.96), "actual size"),
    ],
)
def test_a_calibration_that_no_printer_needs_is_refused(
    calibration: Calibration, says: str
) -> None:
    with pytest.raises(Refused, match=says):
        print_labels(clip_pairs([1]), stock("a4-24"), io.BytesIO(), calibration=calibration)


def test_a_lookup_that_prints_nothing_does_not_wait_for_the_pdf_library() -> None:
    script = "import sys, filmrack.printing; print({'reportlab', 'qrcode'} & set(sys.modules))"
    done = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True, cwd=ROOT
    )
    assert done.stdout.strip() == "set()"
