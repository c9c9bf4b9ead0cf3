"""Printing from the darkroom file; symbols are read back from a raster by zxing-cpp."""

from __future__ import annotations

from pathlib import Path

import pypdfium2
import pytest
from stdnum.iso7064 import mod_97_10

from filmrack.acts import archiving, fetching, hanging, labelling, lending, sweeping
from filmrack.acts.labelling import PrintSetup, order, print_order, tell_measured
from filmrack.acts.locking import set_passphrase
from filmrack.acts.scans import read_scans
from filmrack.domain.default_room import default_room
from filmrack.domain.refusal import Refused
from filmrack.printing import CAUTIONS, Progress
from filmrack.store import labelling as kept
from filmrack.store.room import bump_stamp
from filmrack.store.room_writing import write_room
from tests.conftest import IVO, MARA, OLU, TUESDAY_9_00, School
from tests.printed import symbols

PERSONAL = ("mara", "okafor", "olu", "adeyemi", "ivo", "lindqvist", "s-10", "mo", "oa", "il")


@pytest.fixture
def sleeved(school: School) -> School:
    """Return the school after a morning: three rolls sleeved, one of them on two pages."""
    for person, clip, frames in ((MARA, 17, 35), (OLU, 5, 38), (IVO, 9, 24)):
        roll = hanging.hang(school.file, school.hand(), person=person, clip=clip).roll.id
        fetching.take(school.file, school.hand(), roll)
        archiving.sleeve(school.file, school.hand(), roll, frames=frames)
    return school


def pdf_of(
    school: School,
    out: Path,
    kind: str,
    *asked: str,
    stock_name: str = "",
    start: int | None = None,
    progress: Progress | None = None,
) -> Path:
    ordered = order(school.file, kind, asked, school.now)
    print_order(school.file, ordered, out, PrintSetup(stock_name, start=start), progress)
    return out


def text_of(pdf: Path) -> str:
    pages = pypdfium2.PdfDocument(pdf)
    texts = (page.get_textpage().get_text_range() for page in pages)
    return " ".join(" ".join(texts).split())


def clips(school: School) -> list[int]:
    return [row[0] for row in school.file.conn.execute("SELECT number FROM clips ORDER BY 1")]


def write_initials(school: School, *, shown: bool) -> None:
    with school.file.writing() as conn:
        write_room(conn, school.file.room()._replace(initials_on_sleeves=shown))
        bump_stamp(conn)


def test_clips_are_known_once_their_tags_are_printed(school: School, tmp_path: Path) -> None:
    pdf = pdf_of(school, tmp_path / "clips.pdf", "clips", "1-3,17")
    assert clips(school) == [1, 2, 3, 17]
    assert len(symbols(pdf)) == 8


@pytest.mark.parametrize("asked", ["", "0", "1-1000", "9-3", "17C", "R26F000199", "http://a.b"])
def test_tags_are_refused_for_what_is_no_clip(school: School, asked: str) -> None:
    with pytest.raises(Refused):
        order(school.file, "clips", [asked], school.now)


def test_a_sleeves_label_leaves_the_queue_when_it_is_printed(
    sleeved: School, tmp_path: Path
) -> None:
    pdf = pdf_of(sleeved, tmp_path / "sleeves.pdf", "sleeves")
    # 38 frames are cut 6 × 5 + 5 + 3: eight strips, seven pockets a page, so a second page.
    assert [code[0] for code in sorted(symbols(pdf))] == ["R", "R", "S", "S"]
    with pytest.raises(Refused, match="no sleeve waits"):
        order(sleeved.file, "sleeves", [], sleeved.now)


def test_labels_of_named_rolls_are_printed_again_and_need_not_wait(
    sleeved: School, tmp_path: Path
) -> None:
    number = sleeved.roll(2).number
    pdf = pdf_of(sleeved, tmp_path / "again.pdf", "sleeves", number)
    assert "page 2 of 2" in text_of(pdf)
    assert len(kept.queued_sleeves(sleeved.file.conn)) == 2


def test_a_roll_that_is_not_cut_has_no_label(school: School) -> None:
    hanging.hang(school.file, school.hand(), person=MARA, clip=17)
    with pytest.raises(Refused, match="not sleeved yet"):
        order(school.file, "sleeves", ["17"], school.now)


def test_the_queue_stays_when_the_file_cannot_be_written(sleeved: School, tmp_path: Path) -> None:
    before = sleeved.dump()
    with pytest.raises(Refused, match="cannot be written"):
        pdf_of(sleeved, tmp_path / "none" / "sleeves.pdf", "sleeves")
    assert sleeved.dump() == before


def test_the_queue_stays_when_the_print_is_stopped(sleeved: School, tmp_path: Path) -> None:
    before = sleeved.dump()
    with pytest.raises(Refused, match="stopped"):
        pdf_of(sleeved, tmp_path / "s.pdf", "sleeves", progress=lambda done, _: done < 2)
    assert sleeved.dump() == before
    assert not (tmp_path / "s.pdf").exists()


def test_no_file_stays_when_the_record_cannot_be_kept(sleeved: School, tmp_path: Path) -> None:
    # A deferred key that fails at COMMIT, after the file was written.
    sleeved.file.conn.execute("PRAGMA foreign_keys = ON")
    ordered = order(sleeved.file, "sleeves", [], sleeved.now)
    sleeved.file.conn.executescript(
        "CREATE TEMP TRIGGER spoil AFTER DELETE ON label_queue BEGIN"
        " INSERT INTO ledger (act_group, happened, entered, act, roll, detail, by, desk)"
        " VALUES (1, '', '', 'note', 999, '{}', '', ''); END"
    )
    with pytest.raises(Exception, match="FOREIGN KEY"):
        print_order(sleeved.file, ordered, tmp_path / "s.pdf")
    assert not (tmp_path / "s.pdf").exists()
    assert len(kept.queued_sleeves(sleeved.file.conn)) == 4


@pytest.mark.parametrize("what", ["a file", "a link to nowhere"])
def test_nothing_is_printed_over_something(school: School, tmp_path: Path, what: str) -> None:
    out = tmp_path / "clips.pdf"
    if what == "a file":
        out.write_text("the labels of last term")
    else:
        out.symlink_to(tmp_path / "nowhere")
    with pytest.raises(Refused, match="exists already"):
        pdf_of(school, out, "clips", "1")
    assert clips(school) == []
    assert not out.is_file() or out.read_text() == "the labels of last term"


def test_a_sheet_goes_on_where_the_last_one_of_its_stock_stopped(
    school: School, tmp_path: Path
) -> None:
    ordered = order(school.file, "clips", ["1-4"], school.now)
    first = print_order(school.file, ordered, tmp_path / "1.pdf", PrintSetup("letter-30"))
    assert first.next_start == 9
    second = print_order(school.file, ordered, tmp_path / "2.pdf", PrintSetup("letter-30"))
    assert second.next_start == 17
    other = print_order(school.file, ordered, tmp_path / "3.pdf", PrintSetup("letter-20"))
    assert other.next_start == 9
    named = print_order(school.file, ordered, tmp_path / "4.pdf", PrintSetup("letter-30", start=30))
    assert (named.pages, named.next_start) == (2, 8)


def test_a_stock_of_ones_own_that_shrank_begins_anew(school: School, tmp_path: Path) -> None:
    with school.file.writing() as conn:
        kept.remember_next_label(conn, "letter-10", 25)
    assert labelling.usual_start(school.file, "letter-10") == 1


def test_a_whole_page_has_no_label_to_start_at(school: School, tmp_path: Path) -> None:
    with pytest.raises(Refused, match="no labels to start at"):
        pdf_of(school, tmp_path / "p.pdf", "people", start=3)
    with pytest.raises(Refused, match="no paper"):
        pdf_of(school, tmp_path / "p.pdf", "people", stock_name="letter-30")


def test_nothing_personal_is_in_any_code_of_a_term(sleeved: School, tmp_path: Path) -> None:
    write_initials(sleeved, shown=True)
    archiving.file_in_binder(sleeved.file, sleeved.hand(), [1, 2, 3], 1)
    hanging.hang(sleeved.file, sleeved.hand(), person=MARA, clip=17)
    sweeping.sweep(sleeved.file, sleeved.hand(), counts={1: 1}, not_dry_too=True, finish=True)
    asked = {"clips": ["1-20"], "contactlog": ["26F-0001", "26F-0002", "26F-0003"]}
    found: list[str] = []
    for kind in labelling.KINDS:
        pdf = pdf_of(sleeved, tmp_path / f"{kind}.pdf", kind, *asked.get(kind, ()))
        if kind != "test":
            codes = symbols(pdf)
            assert codes or kind in ("hangsheet", "substitute", "hand-back") or "guide" in kind
            found += codes
    # 40 tags, 4 sleeves, 3 rods, 2 boxes, 1 binder; 3 people, 8 actions, 1 slip, 1 index, 4 logs
    assert len(found) == 40 + 4 + 3 + 2 + 1 + 3 + 8 + 1 + 1 + 4
    for code in found:
        assert mod_97_10.is_valid(code)  # ISO/IEC 7064, by python-stdnum
        # A person's code is a number of the file; letters of any code are its kind, the term's
        # and the side's, or an action's word.
        assert not [word for word in PERSONAL if word in code.casefold() and code[0] != "X"]


def test_initials_stand_on_sleeves_only_where_the_room_says_so(
    sleeved: School, tmp_path: Path
) -> None:
    assert "MO" not in text_of(pdf_of(sleeved, tmp_path / "1.pdf", "sleeves", "26F-0001"))
    write_initials(sleeved, shown=True)
    assert "MO" in text_of(pdf_of(sleeved, tmp_path / "2.pdf", "sleeves", "26F-0001"))


def test_a_hang_sheet_lists_what_the_class_has_in_tanks_and_on_rods(
    school: School, tmp_path: Path
) -> None:
    hanging.load(school.file, school.hand(), OLU, [5])
    hanging.hang(school.file, school.hand(), person=MARA, clip=17)
    text = text_of(pdf_of(school, tmp_path / "h.pdf", "hangsheet", "2"))
    assert "Hang sheet: Period 2" in text
    assert "Tue 17 Nov 2026" in text
    assert "5 OA 09:00" in text
    assert "MO" not in text
    assert CAUTIONS[-1] in text


def test_people_sheets_give_a_given_name_and_an_initial_and_no_more(
    school: School, tmp_path: Path
) -> None:
    text = text_of(pdf_of(school, tmp_path / "p.pdf", "people"))
    assert "Mara O." in text
    assert "Okafor" not in text
    with pytest.raises(Refused, match="is no period"):
        order(school.file, "people", ["9"], school.now)


def test_the_substitutes_page_is_for_the_day_and_refused_without_classes(
    school: School, tmp_path: Path
) -> None:
    text = text_of(pdf_of(school, tmp_path / "s.pdf", "substitute"))
    assert "Period 1 08:00 to 08:50 1 1" in text
    assert "anyone no class today 3" in text
    school.wait(4 * 24 * 60)
    with pytest.raises(Refused, match="Sat 21 Nov 2026"):
        order(school.file, "substitute", [], school.now)


def test_the_substitutes_page_says_how_the_day_ends_for_whoever_has_no_passphrase(
    school: School, tmp_path: Path
) -> None:
    open_text = text_of(pdf_of(school, tmp_path / "open.pdf", "substitute"))
    set_passphrase(school.file, "under the red lamp", None, school.now)
    locked_text = text_of(pdf_of(school, tmp_path / "locked.pdf", "substitute"))
    assert "type “sweep”" in open_text
    assert "leave all film where it hangs" in locked_text


def test_a_binders_index_lists_each_page_that_stands_in_it(sleeved: School, tmp_path: Path) -> None:
    with pytest.raises(Refused, match="no binder yet"):
        order(sleeved.file, "index", [], sleeved.now)
    archiving.file_in_binder(sleeved.file, sleeved.hand(), [1, 2], 3)
    lending.lend(sleeved.file, sleeved.hand(), 1, "2026-11-20", to=OLU)
    text = text_of(pdf_of(sleeved, tmp_path / "i.pdf", "index"))
    assert "borrowed, due 20 Nov 2026" in text
    assert "Binder 26F-03" in text
    assert "3 sleeves" in text
    assert sleeved.roll(1).number in text
    with pytest.raises(Refused, match="no binder 25F-01"):
        order(sleeved.file, "binders", ["25F-01"], sleeved.now)


def test_a_contact_log_counts_the_frames_on_over_its_pages(sleeved: School, tmp_path: Path) -> None:
    archiving.contact(sleeved.file, sleeved.hand(), 2, picks=[4, 38])
    first, second = pypdfium2.PdfDocument(
        pdf_of(sleeved, tmp_path / "c.pdf", "contactlog", "26F-0002")
    )
    assert "pick" in first.get_textpage().get_text_range()
    last = second.get_textpage().get_text_range().split()
    assert [frame in last for frame in ("35", "36", "38", "39")] == [False, True, True, False]


def test_a_sweep_slip_says_what_lies_in_the_box_and_what_is_missing(
    school: School, tmp_path: Path
) -> None:
    for clip in (17, 18):
        hanging.hang(school.file, school.hand(), person=MARA, clip=clip)
    scans = read_scans(school.file, ["17"])
    sweeping.sweep(school.file, school.hand(), counts={1: 1}, scans=scans, finish=True)
    text = text_of(pdf_of(school, tmp_path / "s.pdf", "sweepslip"))
    assert "Box 1: Period 1" in text
    boxed, _, missing = text.partition("Missing")
    assert school.roll(1).number in boxed
    assert school.roll(2).number in missing
    assert "last seen rod 1" in missing


def test_a_room_prints_on_the_paper_of_its_country() -> None:
    # ISO 216 A4 in Europe, 8.5 × 11 in in the United States: common practice.
    day = TUESDAY_9_00.date()
    assert labelling.usual_stock(default_room("Europe/Berlin", day), "clips") == "tags-a4"
    assert labelling.usual_stock(default_room("America/Chicago", day), "clips") == "tags-letter"
    assert labelling.usual_stock(default_room("America/Chicago", day), "sleeves") == "letter-30"
    assert labelling.usual_stock(default_room("Europe/Berlin", day), "people") == "a4"


@pytest.mark.parametrize(
    ("across", "down", "right", "lower"),
    [(1.0, 1.0, 0.0, 0.0), (1.004, 0.997, 0.8, -1.2), (0.985, 1.015, -4.0, 4.0)],
)
def test_a_measured_printer_prints_at_size_and_telling_it_twice_changes_nothing(
    school: School, tmp_path: Path, across: float, down: float, right: float, lower: float
) -> None:
    # The printer is modelled from outside: it puts x at across × x + right, y likewise.
    def lengths() -> tuple[float, float, float, float]:
        used = labelling.calibration(school.file)
        left = across * (20 * used.stretch_x + used.right_mm) + right
        top = down * (20 * used.stretch_y + used.down_mm) + lower
        return left, top, across * used.stretch_x * 150, down * used.stretch_y * 200

    exact = pytest.approx((20, 20, 150, 200), abs=1e-6)
    pdf_of(school, tmp_path / "1.pdf", "test")
    plain = lengths()
    for _ in range(2):
        tell_measured(school.file, plain)
        assert lengths() == exact
    # Printed again to check it, and measured again.
    pdf_of(school, tmp_path / "2.pdf", "test")
    tell_measured(school.file, lengths())
    assert lengths() == exact


def test_each_printer_has_its_own_measures(school: School) -> None:
    tell_measured(school.file, (20.4, 19.8, 150.3, 200.2), "upstairs")
    assert labelling.calibration(school.file).right_mm == 0
    assert labelling.calibration(school.file, "upstairs").right_mm != 0
    before = school.dump()
    with pytest.raises(Refused):
        tell_measured(school.file, (20, 20, 0, 200), "upstairs")
    assert school.dump() == before
