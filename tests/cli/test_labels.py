"""`filmrack labels` as a teacher types it, and its tags as a scanner reads them."""

from __future__ import annotations

import json
from pathlib import Path

import pypdfium2
import pytest

from filmrack.acts import archiving, fetching, hanging
from filmrack.cli.app import run
from tests.cli.conftest import Shell
from tests.conftest import MARA, School
from tests.printed import symbols


@pytest.fixture
def here(shell: Shell, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return the folder in which commands run, with stocks of one's own to be put elsewhere."""
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    return shell.folder


def test_a_printed_tag_that_is_scanned_finds_its_roll(
    school: School, here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    roll = hanging.hang(school.file, school.hand(), person=MARA, clip=17).roll
    assert run(["labels", "clips", "17"]) == 0
    sides = symbols(here / "clips.pdf")
    assert len(sides) == 2
    for scanned in sides:
        capsys.readouterr()
        assert run(["find", scanned, "--json"]) == 0
        assert [found["roll"] for found in json.loads(capsys.readouterr().out)] == [roll.number]


def test_a_printed_sleeve_that_is_scanned_finds_its_roll(
    school: School, here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    roll = hanging.hang(school.file, school.hand(), person=MARA, clip=17).roll
    fetching.take(school.file, school.hand(), roll.id)
    archiving.sleeve(school.file, school.hand(), roll.id, frames=38)
    assert run(["labels", "sleeves"]) == 0
    for scanned in symbols(here / "sleeves.pdf"):
        capsys.readouterr()
        assert run(["find", scanned, "--json"]) == 0
        assert [found["roll"] for found in json.loads(capsys.readouterr().out)] == [roll.number]


def test_the_answer_in_json_says_what_was_printed(
    here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    arguments = ["--stock", "letter-30", "--dpi", "600", "--start", "29", "--out", "my tags.pdf"]
    assert run(["labels", "clips", "1-2", *arguments, "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    # 12 dots of a printer of 600 dpi are 0.508 mm.
    assert told == {
        "file": "my tags.pdf",
        "labels": 4,
        "pages": 2,
        "module_mm": 0.508,
        "dots_per_module": 12,
        "stock": "letter-30",
        "parted_clips": [],
        "next_label": 3,
    }
    assert len(symbols(here / "my tags.pdf")) == 4


def test_a_pair_of_tags_on_two_sheets_is_said(
    here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["labels", "clips", "1-2", "--stock", "letter-30", "--start", "28"]) == 0
    assert "the two tags of clip 2 are on two sheets" in capsys.readouterr().out
    assert run(["labels", "clips", "3-4", "--stock", "letter-30", "--start", "27"]) == 0
    assert "on two sheets" not in capsys.readouterr().out


def test_a_file_that_is_named_is_never_overwritten_and_the_usual_name_is_numbered(
    here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["labels", "rods"]) == 0
    assert run(["labels", "rods"]) == 0
    before = (here / "rods.pdf").read_bytes()
    assert run(["labels", "boxes", "--out", "rods.pdf"]) == 1
    assert "rods.pdf exists already" in capsys.readouterr().err
    assert sorted(path.name for path in here.iterdir()) == ["rods-2.pdf", "rods.pdf"]
    assert (here / "rods.pdf").read_bytes() == before


@pytest.mark.parametrize(
    ("arguments", "code", "why"),
    [
        (["stamps"], 2, "KIND"),
        (["clips"], 1, "which clips"),
        (["clips", "1", "--stock", "none"], 1, "no stock named"),
        (["clips", "1", "--stock", "letter-80", "--dpi", "203"], 1, "203 dpi"),
        (["clips", "1", "--start", "99"], 1, "no label 99"),
        (["rods", "9"], 1, "no rod 9"),
        (["sleeves"], 1, "no sleeve waits"),
        (["bench", "--stock", "tags-a4"], 1, "letter or a4"),
        (["rods", "--measured", "20,20,150,200"], 2, "test alone"),
        (["test", "--measured", "20,20"], 1, "four lengths"),
        (["test", "--measured", "nan,20,150,200"], 1, "no number"),
        (["test", "--measured", "20,20,158,200"], 1, "stretch"),
    ],
)
def test_what_cannot_be_printed_is_refused_in_one_sentence(
    school: School,
    here: Path,
    capsys: pytest.CaptureFixture[str],
    arguments: list[str],
    code: int,
    why: str,
) -> None:
    before = school.dump()
    assert run(["labels", *arguments]) == code
    told = capsys.readouterr().err
    assert why in told
    assert told.count("\n") == 1
    assert school.dump() == before
    assert list(here.iterdir()) == []


def test_a_stock_of_the_teachers_own_wins(
    here: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    own = tmp_path / "data" / "filmrack" / "stock"
    own.mkdir(parents=True)
    (own / "letter-30.toml").write_text(
        'about = "One large label"\n'
        '[sheet]\nwidth = "100 mm"\nheight = "100 mm"\n'
        '[label]\nwidth = "80 mm"\nheight = "80 mm"\n'
        '[grid]\nacross = 1\ndown = 1\nleft = "10 mm"\ntop = "10 mm"\n'
        'pitch_across = "80 mm"\npitch_down = "80 mm"\n'
        "[use]\ndpi = [300]\nstands_water = true\n"
    )
    assert run(["labels", "clips", "1", "--stock", "letter-30"]) == 0
    assert "laminate" not in capsys.readouterr().out
    size = pypdfium2.PdfDocument(here / "clips.pdf")[0].get_size()
    assert size == pytest.approx((100 / 25.4 * 72, 100 / 25.4 * 72), abs=0.01)


def test_without_a_printing_command_the_file_is_there_all_the_same(
    here: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("PATH", str(here))
    assert run(["labels", "bench", "--print"]) == 1
    assert "no lp command" in capsys.readouterr().err
    assert (here / "bench.pdf").exists()


def test_a_measured_printer_is_kept_with_the_file(
    here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["labels", "test", "--out", "1.pdf"]) == 0
    capsys.readouterr()
    assert run(["labels", "test", "--measured", "21,20,150,200", "--json"]) == 0
    # A millimetre too far to the right by the ruler, so everything goes a millimetre left.
    told = json.loads(capsys.readouterr().out)
    assert (told["right_mm"], told["down_mm"], told["stretch_x"]) == (-1, 0, 1)
    assert run(["labels", "test", "--out", "2.pdf"]) == 0
    assert (here / "1.pdf").read_bytes() != (here / "2.pdf").read_bytes()


def test_a_hang_sheet_can_be_printed_for_another_day(
    here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["--at", "2026-11-18T08:00", "labels", "hangsheet", "1"]) == 0
    (page,) = pypdfium2.PdfDocument(here / "hangsheet.pdf")
    assert "Wed 18 Nov 2026" in page.get_textpage().get_text_range()
