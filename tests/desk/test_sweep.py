"""The end of the day at the open cabinet, counted in keys and scans."""

from __future__ import annotations

import re
import shutil
from collections import Counter
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from datetime import datetime, timedelta
from pathlib import Path

import pypdfium2
import pytest

from filmrack.acts import archiving, closing, fetching, hanging, refitting, scans, sweeping
from filmrack.acts.founding import make_darkroom_file
from filmrack.acts.group import Hand
from filmrack.acts.locking import set_passphrase
from filmrack.demo.copying import copy_demo
from filmrack.desk.line import Line
from filmrack.desk.sweep.lines import meant
from filmrack.domain.codes import action_code, box_code, clip_code, person_code, rod_code
from filmrack.domain.default_room import default_room
from filmrack.domain.names import Person
from filmrack.store import people, rolls, sweeps
from filmrack.store.file import open_file
from tests.conftest import IVO, MARA, OLU, TUESDAY_9_00, School, longer_rods
from tests.desk.at_desk import AtDesk, at_desk

FORTY = (6, 6, 6, 6, 6, 5, 5)
"""Rolls on each of seven rods."""
AWKWARD = ("[/x] [bold]", "😀👩‍👩‍👧 Emoji", "أحمد", "W" * 60)
EVENING = TUESDAY_9_00 + timedelta(hours=8)


@pytest.fixture(scope="session")
def _forty(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A file with forty rolls on seven rods since nine; clips 1 to 40 from the first rod on."""
    path = tmp_path_factory.mktemp("forty") / "built.db"
    room = default_room("America/Chicago", TUESDAY_9_00.date(), periods=7, positions=8)
    with make_darkroom_file(path, room, TUESDAY_9_00) as file:
        file.conn.execute("PRAGMA synchronous = OFF")  # no power cut is tested with this
        clips = iter(range(1, 41))
        for period, many in enumerate(FORTY, 1):
            for _ in range(many):
                clip = next(clips)
                given = AWKWARD[clip - 1] if clip <= len(AWKWARD) else f"Student{clip}"
                with file.writing() as conn:
                    people.add(conn, Person(clip, given, "Hale"))
                    people.enrol(conn, clip, "26F", period)
                hand = Hand(TUESDAY_9_00, TUESDAY_9_00, "desk 1")
                hanging.hang(file, hand, person=clip, clip=clip, rod=period)
    return path


@pytest.fixture
def forty(_forty: Path, tmp_path: Path) -> Path:
    return Path(shutil.copy(_forty, tmp_path / "darkroom.db"))


def places(here: AtDesk) -> Counter[str]:
    """Return how many rolls are where, without their position on a rod."""
    found = rolls.read(here.app.session.file.conn, "place <> 'void'")
    return Counter(str(roll.place).partition(",")[0] for roll in found)


async def begin(here: AtDesk) -> None:
    here.app.face.go("sweep")
    await here.pilot.pause()
    here.keys = here.scans = 0


@asynccontextmanager
async def sweep_begun(
    path: Path, now: datetime = EVENING, size: tuple[int, int] = (120, 34), colours: str = "dim"
) -> AsyncIterator[AtDesk]:
    """Sit down at a desk, in the evening mostly, and open the sweep; no key is counted yet."""
    async with at_desk(path, now=now, size=size, colours=colours) as here:
        await begin(here)
        yield here


async def test_forty_rolls_on_seven_rods_with_right_counts_are_seven_keys_and_finish(forty: Path):
    async with sweep_begun(forty) as here:
        assert "Rod 1, Period 1" in here.screen
        assert "should hang" in here.screen
        for _ in range(7):
            await here.press("enter")
        assert here.keys == 7
        assert "Finish the sweep" in here.screen
        await here.press("enter")
        assert places(here) == {f"box {n}": many for n, many in enumerate(FORTY, 1)}
        assert "swept: 40 to the boxes" in here.screen
        assert "Nothing is missing" in here.screen
        assert sweeps.going_on(here.app.session.file.conn) is None


async def test_a_rod_whose_count_is_wrong_takes_its_count_and_one_scan_a_roll(forty: Path):
    async with sweep_begun(forty) as here:
        await here.type("5")
        await here.press("enter")
        assert "rod 1: 5 counted, 6 listed" in here.screen
        assert places(here)["box 1"] == 0
        for clip in (1, 2, 3, 4, 5):
            await here.scan(clip_code(clip, "A"))
        assert "Rod 1 is through, 1 not seen" in here.screen
        assert "Rod 1, Period 1" in here.screen
        await here.press("enter")
        assert (here.keys, here.scans) == (3, 5)
        assert "Rod 2, Period 2" in here.screen
        await here.press("end", "enter")
        assert "Missing: clip 6 (Student6 H.)" in here.screen
        assert places(here)["missing"] == 1
        assert "1 of 6 missing" in here.screen
        assert places(here)["rod 2"] == 6


async def test_what_was_neither_counted_nor_scanned_stays_where_it_is(forty: Path):
    async with sweep_begun(forty) as here:
        await here.press("down", "enter", "end")
        assert "1 Period 1   6 not counted" in here.screen
        assert "not looked at; a rod's number goes there" in here.screen
        assert "Rod 1: 6" in here.screen
        await here.press("enter")
        told = "Nothing is missing where you looked. Not looked at: rod 1 (6), rod 3 (6),"
        assert told in here.answer
        assert "1 Period 1   6 not looked at" in here.screen
        assert "left hanging" not in here.screen
        assert places(here)["rod 1"] == 6
        assert places(here)["box 2"] == 6
        assert places(here)["missing"] == 0


async def test_a_rod_can_be_skipped_and_come_back_to(forty: Path):
    async with sweep_begun(forty) as here:
        await here.press("down", "enter")
        assert "Rod 3, Period 3" in here.screen
        await here.press("up", "up", "enter")
        assert places(here)["rod 1"] == 0
        assert "Rod 3, Period 3" in here.screen


async def test_a_sweep_is_taken_up_after_a_restart_where_it_was_left(forty: Path):
    async with sweep_begun(forty) as here:
        await here.press("enter", "enter")
    async with sweep_begun(forty, now=EVENING + timedelta(minutes=5)) as here:
        assert "Rod 3, Period 3" in here.screen
        for _ in range(6):
            await here.press("enter")
        assert places(here)["box 7"] == 5
        assert "swept: 40 to the boxes" in here.screen


async def test_what_another_desk_swept_is_seen_and_not_told_twice(forty: Path):
    async with sweep_begun(forty) as here:
        here.app.polling.pause()  # the other desk is quicker than the half second
        with open_file(forty, write=True) as file:
            sweeping.sweep(file, Hand(EVENING, EVENING, "desk 2"), counts={1: 6})
        await here.press("enter")
        assert "look once more" in here.screen
        await here.press("enter")
        assert "Rod 2, Period 2" in here.screen
        counts = sweeps.counts(here.app.session.file.conn, 1)
        assert (counts[1].expected, counts[1].counted) == (6, 6)
        assert 2 not in counts


async def test_undo_brings_a_boxed_rod_back_and_goes_to_it(forty: Path):
    async with sweep_begun(forty) as here:
        await here.press("enter")
        await here.type("undo")
        await here.press("enter")
        assert places(here)["rod 1"] == 6
        assert "Rod 1, Period 1" in here.screen
        await here.press("enter")
        await here.scan(action_code("UNDO"))
        assert places(here)["rod 1"] == 6


async def test_a_finished_sweep_that_is_undone_goes_on(forty: Path):
    async with sweep_begun(forty) as here:
        await here.type("0")
        await here.press("enter")
        assert "rod 1: 0 counted, 6 listed. these 6 are missing when you finish" in here.answer
        await here.press("end", "enter")
        assert places(here)["missing"] == 6
        await here.type("undo")
        await here.press("enter")
        assert places(here)["missing"] == 0
        assert "Finish the sweep" in here.screen


async def test_a_roll_on_the_wrong_rod_is_named_and_goes_to_its_own_box(forty: Path):
    async with sweep_begun(forty) as here:
        await here.type("count 7")
        await here.press("enter")
        await here.scan(clip_code(40, "B"))
        assert here.on(40).place.number == 7
        assert (
            "Found on rod 1, though noted at rod 7, position 5: it is in box 7 now" in here.answer
        )
        for clip in range(1, 7):
            await here.scan(clip_code(clip, "A"))
        await here.press("end")
        assert "in the wrong place, boxed now; noted before at" in here.screen
        assert "not seen" not in here.screen


async def test_a_clip_that_no_record_explains_is_an_unknown_roll_whichever_tag_is_read(
    forty: Path,
):
    async with sweep_begun(forty) as here:
        await here.type("count 7")
        await here.press("enter")
        await here.scan(clip_code(99, "A"))
        assert "99 → unknown roll, box 1" in here.screen
        await here.scan(clip_code(99, "B"))
        assert "Was found before, and is in box 1" in here.screen
        await here.press("end")
        assert "unknown rolls" in here.screen


async def test_a_rods_code_goes_to_that_rod_and_a_boxs_code_into_that_box(forty: Path):
    async with sweep_begun(forty) as here:
        await here.scan(rod_code(4))
        assert "Rod 4, Period 4" in here.screen
        await here.scan(box_code(2))
        assert "Box 2" in here.screen
        await here.scan(clip_code(1, "A"))
        assert str(here.on(1).place) == "box 2"
        await here.press("enter")
        assert "Rod 4, Period 4" in here.screen
        assert sweeps.counts(here.app.session.file.conn, 1) == {}


async def test_a_clips_number_is_not_taken_for_a_count(forty: Path):
    async with sweep_begun(forty) as here:
        await here.type("count 38")
        await here.press("enter")
        assert "38 rolls cannot hang on rod 1" in here.screen
        assert sweeps.going_on(here.app.session.file.conn) is None
        await here.type("38")  # no rod holds so many
        await here.press("enter")
        assert str(here.on(38).place) == "box 7"
        await here.type("clip 6")
        await here.press("enter")
        assert str(here.on(6).place) == "box 1"
        await here.type("4")  # a rod that is being scanned is asked for clips
        await here.press("enter")
        assert str(here.on(4).place) == "box 1"
        await here.type("count 4")
        await here.press("enter", "enter")  # 38 strayed there, so its clips are named first
        assert places(here)["box 1"] == 6


async def test_the_last_scans_of_a_rod_that_was_counted_short_still_belong_to_it(forty: Path):
    async with sweep_begun(forty) as here:
        await here.type("5")
        await here.press("enter")
        for clip in range(1, 7):
            await here.scan(clip_code(clip, "A"))
        assert "though noted" not in here.screen
        await here.press("end")
        assert "not seen" not in here.screen


async def test_a_roll_that_is_found_tacky_stays_and_is_not_missing(forty: Path):
    async with sweep_begun(forty) as here:
        await here.scan(clip_code(1, "A"))
        for clip in (2, 3, 4, 5):
            await here.scan(clip_code(clip, "A"))
        await here.wait(seconds=60)
        await here.type("6 tacky")
        await here.press("enter")
        await here.press("end", "enter")
        assert str(here.on(6).place) == "rod 1, position 6"
        assert places(here)["missing"] == 0


async def test_a_scan_at_the_end_goes_back_to_its_rod(forty: Path):
    async with sweep_begun(forty) as here:
        await here.press("end")
        await here.scan(clip_code(7, "A"))
        assert "Rod 2, Period 2" in here.screen
        assert "not seen yet" in here.screen


async def test_a_number_typed_at_the_end_goes_to_that_rod_and_boxes_no_clip(forty: Path):
    async with sweep_begun(forty) as here:
        await here.press("enter", "end")
        before = places(here)
        await here.type("2")
        await here.press("enter")
        assert "Rod 2, Period 2" in here.screen
        assert places(here) == before


async def test_nothing_is_counted_after_a_finished_sweep(forty: Path):
    async with sweep_begun(forty) as here:
        await here.press("enter", "end", "enter")
        before = places(here)
        await here.type("count 3")
        await here.press("enter")
        assert "nothing is counted" in here.screen
        assert places(here) == before
        assert sweeps.going_on(here.app.session.file.conn) is None


@pytest.fixture
def documents(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return the documents of whoever is at the desk."""
    folder = tmp_path / "home" / "Documents"
    folder.mkdir(parents=True)
    monkeypatch.setenv("HOME", str(folder.parent))
    for name in ("XDG_DOCUMENTS_DIR", "XDG_CONFIG_HOME"):
        monkeypatch.delenv(name, raising=False)
    return folder


async def test_a_count_that_nobody_explains_is_named_at_the_end_and_on_the_slip(
    forty: Path, documents: Path
):
    async with sweep_begun(forty) as here:
        await here.say("5")
        for _ in range(3):
            await here.press("down", "enter")
        await here.say("finish")
        asked = "Rod 1: 5 counted, 6 should hang: which is not there? “rod 1” goes back."
        assert asked in here.screen
        assert "Rod 1: 6 listed, 5 counted" in here.screen
        await here.say("rod 1")
        assert "Rod 1, Period 1" in here.screen
        await here.press("end", "enter")
        told = "Rod 1: 5 of 6 counted, nobody said which is not there"
        assert here.answer.startswith(f"swept: 17 to the boxes. {told}. Not looked at: rod 3 (6)")
        assert "Nothing is missing" not in here.answer
        assert re.search("Rod 1: 5 of 6 counted, nobody said which is not there\\.", here.page)
        assert "5 of 6 counted" in here.page
        assert places(here)["rod 1"] == 6
        await here.press("enter")
        (slips,) = documents.glob("sweep-slips-*.pdf")
        pages = [page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(slips)]
        assert [told in page for page in pages] == [True, False, False, False]
        await here.say("6 missing")
        assert "nobody said" not in here.page
        assert "slips printed before that are out of date" in " ".join(here.page.split())


async def test_what_of_a_wrong_count_is_named_leaves_the_others_open(forty: Path):
    async with sweep_begun(forty) as here:
        await here.say("4")
        await here.say("6 missing")
        await here.say("finish")
        assert "4 counted, 6 should hang: which other is not there?" in here.screen
        assert "missing, last seen. Does one turn up? Scan it" in here.screen
        assert "not seen: missing when you finish" not in here.screen
        await here.press("enter")
        told = "Missing: clip 6 (Student6 H.). Rod 1: 4 of 6 counted, nobody said which other is"
        assert told in here.answer


async def test_the_slips_name_what_is_missing_and_lie_where_all_prints_go(
    forty: Path, documents: Path
):
    async with sweep_begun(forty) as here:
        await here.type("5")
        await here.press("enter")
        for clip in (1, 2, 3, 4, 5):
            await here.scan(clip_code(clip, "A"))
        await here.press("end", "enter", "enter")
        (slips,) = documents.glob("sweep-slips-*.pdf")
        assert "1 slip saved as a PDF" in here.screen
        words = pypdfium2.PdfDocument(slips)[0].get_textpage().get_text_range()
        assert rolls.by_id(here.app.session.file.conn, 6).number in words
        await here.press("enter")
        assert len(list(documents.glob("sweep-slips-*.pdf"))) == 1
        assert "saved already: type “slips” for another PDF" in here.screen
        await here.type("slips")
        await here.press("enter")
        assert len(list(documents.glob("sweep-slips-*.pdf"))) == 2


async def test_a_roll_that_was_found_tacky_at_its_rod_hangs_on_and_is_not_missing(forty: Path):
    async with sweep_begun(forty, now=TUESDAY_9_00 + timedelta(minutes=4)) as here:
        await here.type("6 tacky")
        await here.press("enter")
        for clip in (1, 2, 3, 4, 5):
            await here.scan(clip_code(clip, "A"))
        assert "Rod 2, Period 2" in here.screen
        await here.press("end", "enter")
        assert "Nothing is missing" in here.screen
        assert here.on(6).place.kind == "rod"


async def test_an_enter_behind_the_last_scan_of_a_rod_counts_nothing_on_the_next(forty: Path):
    async with sweep_begun(forty) as here:
        for clip in (1, 2, 3, 4, 5, 6):
            await here.scan(clip_code(clip, "A"))
        assert "Rod 2, Period 2" in here.screen
        await here.press("enter")
        assert "The rod before is through" in here.screen
        assert places(here)["rod 2"] == 6
        await here.press("enter")
        assert places(here)["box 2"] == 6


async def test_a_strip_put_back_wet_in_the_sweep_is_in_no_box_and_on_no_slip(forty: Path):
    async with sweep_begun(forty, now=TUESDAY_9_00 + timedelta(minutes=4)) as here:
        await here.type("6")
        await here.press("enter")
        await here.press("up")
        await here.type("undo")
        await here.press("enter")
        await here.type("5")
        await here.press("enter")
        await here.scan(clip_code(1, "A"))
        await here.type("1 tacky")
        await here.press("enter")
        assert "0 of 5 scanned" in here.screen
        for clip in (2, 3, 4, 5):
            await here.scan(clip_code(clip, "A"))
        assert "Rod 1 is through, 1 not seen, 1 hangs on" in here.screen
        await here.press("end", "enter")
        assert "4 in box 1" in here.screen
        assert "Missing: clip 6" in here.screen
        assert here.on(1).place.kind == "rod"


async def test_one_strip_more_behind_the_last_hung_on_the_rod_before(forty: Path):
    async with sweep_begun(forty) as here:
        for clip in (1, 2, 3, 4, 5, 6, 20):
            await here.scan(clip_code(clip, "A"))
        assert "Found on rod 1, though noted at rod 4" in here.answer
        counts = sweeps.counts(here.app.session.file.conn, 1)
        assert (counts[1].extra, 2 in counts) == (1, False)


async def test_a_number_at_a_boxed_rod_invents_no_roll(forty: Path):
    async with sweep_begun(forty) as here:
        await here.press("enter", "up")
        await here.type("5")
        await here.press("enter")
        assert "rod 1 is boxed by its count" in here.screen.casefold()
        assert places(here)["box 1"] == 6


async def test_a_finished_sweep_that_is_taken_back_says_that_it_goes_on(forty: Path):
    async with sweep_begun(forty) as here:
        await here.press("enter", "end", "enter")
        await here.type("undo")
        await here.press("enter")
        assert "The sweep goes on again" in here.screen


@pytest.mark.parametrize("told", [None, 5])
async def test_a_rod_says_how_many_of_those_that_should_hang_are_missing(
    forty: Path, told: int | None
):
    async with sweep_begun(forty) as here:
        for clip in (1, 2):
            await here.scan(clip_code(clip, "A"))
        await here.say("6 missing")
        assert "2 of 5 scanned" in here.screen
        if told is not None:
            await here.say(f"count {told}")
            assert "rod 1: 5 counted. 2 boxed" in here.answer
            assert "or “count 3” boxes them" in here.answer
        assert "6 should hang, 1 of them missing" in " ".join(here.shown.split())
        await here.say("count 3")
        assert places(here)["box 1"] == 5


async def test_on_a_low_screen_the_last_row_says_what_a_page_down_shows(forty: Path):
    async with sweep_begun(forty, size=(80, 24)) as here:
        for _ in range(2):
            await here.say("0")
            await here.press("enter")
        await here.press("end")
        assert "page down: 5 not looked at" in here.screen
        await here.press("pagedown")
        assert "not looked at; a rod's number goes there" in here.screen


@pytest.mark.parametrize(
    ("answer", "place", "counted"),
    [
        ("", "box 2", None),
        ("clip 9", "box 2", None),
        ("count", "rod 2", 9),
        ("count 9", "rod 2", 9),
    ],
)
async def test_a_number_that_may_be_a_clip_of_the_rod_is_asked_about(
    forty: Path, answer: str, place: str, counted: int | None
):
    async with sweep_begun(forty) as here:
        await here.press("down")
        await here.say("9")
        assert "9: clip 9, or 9 counted?" in here.answer
        assert "enter clip 9" in here.screen
        assert sweeps.going_on(here.app.session.file.conn) is None
        await here.say(answer)
        assert str(here.on(9).place).startswith(place)
        assert sweeps.counts(here.app.session.file.conn, 1)[2].counted == counted


async def test_what_is_left_and_what_should_hang_can_be_a_clip_or_a_count(forty: Path):
    async with sweep_begun(forty) as here:
        await here.scan(clip_code(1, "A"))
        for number in (5, 6):
            await here.say(str(number))
            assert f"{number}: clip {number}, or {number} counted?" in here.answer
            assert f"Enter: clip {number}. For {number} counted" in here.answer
            await here.press("escape")
        assert places(here)["box 1"] == 1
        await here.say("5")
        await here.say("count")
        assert places(here)["box 1"] == 6


@pytest.mark.parametrize(
    ("number", "enter", "noted"), [("7", "count 7", "rod 2"), ("13", "clip 13", "rod 3")]
)
async def test_more_than_should_hang_can_be_a_clip_that_strayed_there(
    forty: Path, number: str, enter: str, noted: str
):
    async with sweep_begun(forty) as here:
        await here.say(number)
        assert f"{number}: clip {number}, or {number} counted?" in here.answer
        assert f"enter {enter}" in here.screen
        assert not re.search("Enter .*: to box", here.screen)
        assert "Type how many" not in here.screen
        await here.say("clip")
        assert f"Found on rod 1, though noted at {noted}" in here.answer
        assert places(here)["rod 1"] == 6


async def test_a_number_that_hangs_elsewhere_is_a_count_unless_a_hand_says_clip(forty: Path):
    async with sweep_begun(forty) as here:
        await here.scan(rod_code(2))
        await here.scan(clip_code(7, "A"))
        await here.say("5")
        assert "enter box them" in here.screen
        assert "Clips 8 9 10 11 12. Enter boxes them" in here.answer
        assert "For clip 5 type “clip 5”" in here.answer
        await here.say("five")
        assert "is no answer here: Enter to box them" in here.answer
        await here.say("clip")
        assert str(here.on(5).place) == "box 1"
        assert places(here)["rod 2"] == 5


async def test_a_sweep_that_is_taken_up_again_goes_on_at_the_rod_that_is_half_scanned(forty: Path):
    async with sweep_begun(forty) as here:
        await here.press("down", "down")
        await here.scan(clip_code(13, "A"))
    async with sweep_begun(forty) as here:
        assert "Rod 3, Period 3" in here.screen


async def test_a_rod_that_was_left_after_its_scans_is_through_after_a_restart_and_at_any_desk(
    forty: Path,
):
    async with sweep_begun(forty) as here:
        await here.press("down", "enter")
        await here.scan(clip_code(13, "A"))
        await here.press("enter")
        assert "Rod 4, Period 4" in here.screen
        await here.press("up")
        assert re.search("Enter +next rod", here.screen)
    async with sweep_begun(forty) as here:
        assert "Rod 4, Period 4" in here.screen
        assert "3 Period 3   5 of 6 not seen" in here.screen
        here.app.face.go("dryer")
        await here.wait(seconds=1)
        assert "sweep on, 2 of 7 rods through" in here.screen


async def test_a_rod_that_was_passed_by_comes_behind_those_where_nobody_was_after_a_restart(
    forty: Path,
):
    async with sweep_begun(forty) as here:
        await here.press("down", *["enter"] * 5)
        assert "Rod 7, Period 7" in here.screen
    async with sweep_begun(forty) as here:
        assert "Rod 7, Period 7" in here.screen
        await here.press("enter")
        assert "1 Period 1   6 not counted" in here.screen
    async with sweep_begun(forty) as here:
        assert "Rod 1, Period 1" in here.screen


async def test_undo_opens_a_rod_again_that_was_left_after_its_scans(forty: Path):
    async with sweep_begun(forty) as here:
        await here.scan(clip_code(1, "A"))
        await here.press("enter")
        assert "Rod 2, Period 2" in here.screen
        assert "taken back. rod 1 is not through" in await here.say("undo")
        assert "Rod 1, Period 1" in here.screen
        assert "1 of 6 scanned" in here.screen
        await here.say("undo")
        assert places(here)["rod 1"] == 6


async def test_a_sweep_without_anything_told_cannot_be_finished(forty: Path):
    async with sweep_begun(forty) as here:
        await here.press("end", "enter")
        assert "Nothing was counted or scanned yet" in here.screen
        assert sweeps.going_on(here.app.session.file.conn) is None


async def test_where_all_is_wet_it_can_be_said_that_nothing_hangs(forty: Path):
    async with sweep_begun(forty, now=TUESDAY_9_00 + timedelta(minutes=1)) as here:
        assert re.search("number +not 6[?] Type how many", here.screen)
        await here.say("0")
        assert "these 6 are missing when you finish" in here.answer
        await here.press("end", "enter")
        assert places(here)["missing"] == 6


@pytest.mark.parametrize("count", ["", "6", "count 6"])
async def test_where_all_is_wet_the_right_count_boxes_nothing_and_the_rod_is_through(
    forty: Path, count: str
):
    async with sweep_begun(forty, now=TUESDAY_9_00 + timedelta(minutes=1)) as here:
        assert re.search("Enter +these 6 hang here: none is dry, 6 hang on", here.screen)
        assert "enter these 6 hang here" in here.screen
        await here.enter(count)
        assert "rod 1: 6 hang, as listed. None boxed, 6 hang on (6 wet). Wrong?" in here.answer
        assert places(here)["rod 1"] == 6
        assert "Rod 2, Period 2" in here.screen
        assert "1 Period 1   6 left hanging" in here.screen
        here.app.face.go("dryer")
        await here.wait(seconds=1)
        assert "sweep on, 1 of 7 rods through" in here.screen
        here.app.face.go("sweep")
        await here.press("end")
        assert "Rod 1: 6 hang (6 wet)" in here.screen
        await here.press("enter")
        assert "Nothing is missing where you looked" in here.answer
        assert places(here)["rod 1"] == 6


@pytest.mark.parametrize("count", ["", "10"])
async def test_the_right_count_of_a_mixed_rod_boxes_what_is_dry_and_the_rest_hangs_on(
    damp: Path, school: School, count: str
):
    async with damp_rod(damp, school) as here:
        await here.enter(count)
        told = "rod 2: 10 hang, as listed. 3 to box 2, 7 hang on (7 wet). Clips 1 2 3. Wrong?"
        assert told in here.answer
        assert places(here) == {"box 2": 3, "rod 2": 7}
        assert "2 Period 2   3 boxed, 7 hang" in here.screen
        await here.press("up")
        assert "went to the boxes, 7 hang on (7 wet)" in here.screen
        assert "rod 2 is counted, 3 boxed and 7 hang on" in await here.say("count 7")
        await here.scan(clip_code(4, "A"))
        assert places(here) == {"box 2": 4, "rod 2": 6}
        await here.say("5")
        assert places(here) == {"box 2": 5, "rod 2": 5}
        await here.say("undo")
        await here.say("undo")
        await here.say("undo")
        assert places(here) == {"rod 2": 10}


async def test_damp_film_is_boxed_by_box_all_which_asks_once_and_by_nothing_else(
    damp: Path, school: School
):
    async with damp_rod(damp, school) as here:
        assert re.search("“box all” +box what is damp too", here.screen)
        assert "damp film sticks in its box: esc leaves them hanging" in await here.say("box all")
        await here.say("5")
        assert "is no answer here" in here.screen
        await here.press("escape")
        assert places(here) == {"rod 2": 10}
        await here.say("box all")
        await here.press("enter")
        assert "rod 2: 10 to box 2" in here.answer
        assert "Boxed damp and all, though it sticks there" in here.answer
        assert places(here) == {"box 2": 10}


async def test_a_rod_with_dry_strips_says_how_one_is_kept_hanging_that_a_finger_finds_wet(
    damp: Path, school: School
):
    async with damp_rod(damp, school) as here:
        assert re.search("“NN wet” +you find it wet: it hangs on", here.screen)
        await here.say("3 wet")
        assert "box the 2 dry, 8 hang on" in here.screen
        await here.enter()
        assert places(here) == {"box 2": 2, "rod 2": 8}


async def test_film_that_wants_a_touch_is_not_called_wet(forty: Path):
    async with sweep_begun(forty, now=TUESDAY_9_00 + timedelta(minutes=25)) as here:
        assert "By the clock: 6 to touch. Damp film hangs on unless you scan it." in " ".join(
            here.shown.split()
        )
        await here.say("box all")
        assert "rod 1: 6 hang here, 6 to touch" in here.answer
        await here.press("escape")
        await here.scan(clip_code(1, "A"))
        assert "Probably dry: touch both ends. If tacky, hang it again" in here.answer
        await here.press("end")
        assert "Rod 1: 5 hang (5 to touch)" in here.screen
        assert "not dry" not in here.screen


async def test_what_wants_a_touch_is_wet_neither_in_the_top_row_nor_at_its_rod(
    damp: Path, school: School
):
    async with at_desk(damp, now=school.now) as here:
        assert "7 wet   3 ready" in here.rows()[1]
    async with at_desk(damp, now=school.now + timedelta(minutes=25)) as here:
        await begin(here)
        await here.scan(rod_code(2))
        assert "0 wet   7 to touch   3 ready" in here.rows()[1]
        assert "By the clock: 7 to touch." in here.screen


async def test_a_strip_found_tacky_at_its_rod_is_wet_there_and_in_the_top_row_from_then_on(
    tmp_path: Path,
):
    copy_demo(tmp_path / "demo.db", EVENING)  # its fan has run for hours, and it has taught enough
    async with sweep_begun(tmp_path / "demo.db") as here:
        await here.say("rod 6")
        before = here.app.session.look()
        clip = next(s.roll.clip for s in before.by_rod[6].values() if s.state == "dry")
        assert "still wet" in await here.say(f"{clip} wet")
        for seconds in (0, 1, 1, 28):
            await here.wait(seconds=seconds)
            now = here.app.session.look()
            assert (now.wet, now.to_touch) == (before.wet + 1, before.to_touch)
            assert f"{now.wet} wet   {now.to_touch} to touch" in here.rows()[1]
            assert re.search(rf" {clip} +\S.* (wet|flip) ", here.page)


async def test_after_the_end_a_number_is_looked_up_and_nothing_is_counted(forty: Path):
    async with sweep_begun(forty) as here:
        for _ in range(8):
            await here.press("enter")
        await here.type("17")
        await here.press("enter")
        assert "17 → Student17 H." in here.screen
        assert sweeps.going_on(here.app.session.file.conn) is None


async def test_a_double_click_in_the_list_boxes_nothing(forty: Path):
    async with sweep_begun(forty) as here:
        await here.pilot.click("#sweep", offset=(6, 4), times=2)
        await here.pilot.pause()
        assert places(here)["rod 2"] == 6
        assert sweeps.going_on(here.app.session.file.conn) is None


async def finished(here: AtDesk) -> None:
    """Rod 1 is counted and boxed, the others are not looked at, and the sweep is finished."""
    await begin(here)
    await here.press("enter", "end", "enter")
    assert "Swept" in here.screen


def sweeps_told(here: AtDesk) -> int:
    conn = here.app.session.file.conn
    return len(sweeps.finished(conn, 9)) + (sweeps.going_on(conn) is not None)


@pytest.mark.parametrize("words", ["rod 2", rod_code(3), box_code(2)])
async def test_a_finished_sweep_is_only_looked_at_by_rods_and_boxes(forty: Path, words: str):
    async with at_desk(forty, now=EVENING) as here:
        await finished(here)
        before = places(here)
        await here.type(words)
        await here.press("enter")
        assert "Enter  back to the result" in here.screen
        assert "enter back to the result" in here.screen
        await here.press("enter")
        assert "Swept" in here.screen
        assert (places(here), sweeps_told(here)) == (before, 1)


async def test_the_arrows_look_through_a_finished_sweep_and_begin_no_other(forty: Path):
    async with at_desk(forty, now=EVENING) as here:
        await finished(here)
        before = places(here)
        await here.press("up", "up", "home")
        assert "Rod 1, Period 1" in here.screen
        assert "went to the boxes from here" in here.screen
        await here.press("escape")
        assert "Rod 2: 6" in here.screen
        await here.press("down", "down", "end")
        assert "Swept" in here.screen
        assert (places(here), sweeps_told(here)) == (before, 1)


async def test_another_sweep_begins_when_somebody_says_so(forty: Path):
    async with at_desk(forty, now=EVENING) as here:
        await finished(here)
        assert "another sweep: type “sweep again”" in here.screen
        await here.type("sweep again")
        await here.press("enter")
        assert "rod 1 should be empty" in here.screen
        await here.wait(seconds=60)
        await here.press("down", "enter")
        assert places(here)["box 2"] == 6
        assert sweeps_told(here) == 2


async def test_a_sweep_that_goes_on_is_not_begun_again(forty: Path):
    async with sweep_begun(forty) as here:
        await here.press("enter")
        await here.type("sweep again")
        await here.press("enter")
        assert "goes on still" in here.screen
        assert "Rod 2, Period 2" in here.screen


async def test_the_result_stands_there_after_a_restart_and_gives_way_the_next_day(forty: Path):
    async with at_desk(forty, now=EVENING) as here:
        await finished(here)
    async with sweep_begun(forty, now=EVENING + timedelta(minutes=5)) as here:
        assert "Swept" in here.screen
        assert "6 in box 1" in here.screen
        await here.wait(seconds=14 * 3600)
        assert "rod 1 should be empty" in here.screen
        assert "Swept" not in here.screen


async def test_a_clip_after_the_end_says_whose_it_is_and_promises_no_other_enter(
    forty: Path, documents: Path
):
    async with at_desk(forty, now=EVENING) as here:
        await finished(here)
        await here.type("clip 4")
        await here.press("enter")
        assert "4 → W" in here.screen
        assert "Box 1." in here.screen
        told = [row for row in here.rows() if "nter" in row]
        assert told
        assert all("save the slips as a PDF" in row for row in told)
        await here.press("enter")
        assert list(documents.glob("*.pdf"))
        assert "sleeve" not in here.acts


async def test_a_sentence_that_waits_for_enter_is_shown_where_enter_does_it(forty: Path):
    async with sweep_begun(forty) as here:
        await here.type("17 student17")
        await here.press("enter")
        assert here.app.view.screen_id == "dryer"
        assert "enter it is in its box" in here.screen


async def test_a_clip_behind_a_person_is_theirs_and_no_find(forty: Path):
    async with sweep_begun(forty) as here:
        await here.scan(person_code(9))
        assert "Scan or type its clip" in here.screen
        await here.scan(clip_code(77, "A"))
        assert str(here.on(77).place) == "in the tank"
        assert here.on(77).person == 9


async def test_screen_and_footer_say_the_same_of_enter_at_every_step(forty: Path, documents: Path):
    async with sweep_begun(forty) as here:

        async def agrees(*keys: str) -> None:
            await here.press(*keys)
            does = here.app.view.enter_does()
            assert does
            assert f"enter {does}" in here.screen
            assert re.search(rf"Enter +{re.escape(does)}", here.screen)

        await agrees()
        await agrees("enter")
        await here.type("4")
        await agrees("enter")
        await here.scan(clip_code(7, "A"))
        await agrees()
        await here.scan(box_code(2))
        await agrees()
        await agrees("enter")
        await agrees("home")
        await agrees("end")
        await agrees("enter")
        await agrees("up")


async def test_a_sweep_that_another_desk_finishes_prints_nothing_by_accident(
    forty: Path, documents: Path
):
    async with sweep_begun(forty) as here:
        await here.press("enter", "end")
        here.app.polling.pause()  # the other desk is quicker than the half second
        with open_file(forty, write=True) as file:
            sweeping.sweep(file, Hand(EVENING, EVENING, "desk 2"), finish=True)
        await here.press("enter")
        assert "look once more" in here.screen
        assert list(documents.iterdir()) == []


async def test_missing_marks_the_one_roll_that_is_looked_for(forty: Path):
    async with sweep_begun(forty) as here:
        for clip in (1, 2, 3, 4, 5):
            await here.scan(clip_code(clip, "A"))
        await here.type("missing")
        assert not here.app.face.over
        await here.press("enter")
        assert "6 → Student6 H." in here.screen
        assert "Missing, last seen rod 1" in here.screen
        assert places(here)["missing"] == 1
        assert "Rod 2, Period 2" in here.screen
        assert "1 of 6 missing" in here.screen


async def test_missing_with_a_clip_marks_that_roll_and_the_count_without_it_is_right(forty: Path):
    async with sweep_begun(forty) as here:
        await here.type("clip 6 missing")
        await here.press("enter")
        assert places(here)["missing"] == 1
        await here.press("enter")
        assert places(here)["box 1"] == 5
        assert "1 of 6 missing" in here.screen
        await here.press("end", "enter")
        assert "Missing: clip 6 (Student6 H.)" in here.screen


async def test_which_one_is_missing_of_a_rod_that_was_counted_one_short_finishes_it_at_once(
    forty: Path,
):
    async with sweep_begun(forty) as here:
        told = "Which is not there? Type its clip and missing, as “NN missing”, or scan those that"
        assert told in (await here.say("5"))
        assert re.search("“NN missing” +clip NN is not there: boxes the others", here.screen)
        assert "rod 1: which is not there? “NN missing”, or scan" in here.screen
        assert not re.search(r"\d missing”", here.screen)  # what is copied names no real strip
        answer = await here.say("4 missing")
        assert "Missing, last seen rod 1, position 4. 5 to box 1. Clips 1 2 3 5 6." in answer
        assert places(here) == {"box 1": 5, "missing": 1} | {
            f"rod {n}": many for n, many in enumerate(FORTY, 1) if n > 1
        }
        assert "Rod 2, Period 2" in here.screen
        await here.say("undo")
        assert places(here)["rod 1"] == 6
        assert "Rod 1, Period 1" in here.screen
        assert "scanned. 5 counted, 6 should hang" in here.screen


async def test_of_two_that_are_missing_the_second_one_finishes_the_rod(forty: Path):
    async with sweep_begun(forty) as here:
        assert "2 fewer than listed. Which are not there?" in await here.say("4")
        await here.say("6 missing")
        assert places(here)["box 1"] == 0
        await here.say("5 missing")
        assert places(here)["box 1"] == 4
        await here.press("end", "enter")
        assert "Missing: clip 6 (Student6 H.), clip 5 (Student5 H.)" in here.answer


async def test_which_one_is_missing_boxes_the_dry_others_and_leaves_the_damp(
    damp: Path, school: School
):
    async with damp_rod(damp, school) as here:
        await here.say("9")
        assert "clip NN is not there: boxes the others that are dry" in here.screen
        answer = await here.say("3 missing")
        assert "2 to box 2. Clips 1 2. 7 hang on (7 wet)" in answer
        assert places(here) == {"box 2": 2, "rod 2": 7, "missing": 1}
        assert "2 Period 2   1 of 10 missing" in here.screen
        assert "Rod 2, Period 2" not in here.screen
        await here.press("end")
        assert "Rod 2: 7 hang (7 wet)" in here.screen


async def test_behind_a_stray_which_one_is_missing_boxes_no_others_by_itself(forty: Path):
    async with sweep_begun(forty) as here:
        await here.scan(clip_code(38, "A"))
        await here.say("count 5")
        await here.say("6 missing")
        assert places(here)["box 1"] == 0


async def test_missing_alone_asks_which_where_several_are_looked_for(forty: Path):
    async with at_desk(forty, now=EVENING) as here:
        with here.app.session.file.writing() as conn:
            people.add(conn, Person(99, "Missing", "Persons"))
        await begin(here)
        await here.type("missing")
        await here.press("enter")
        assert "Which roll is missing is not said: type its clip, as in “6 missing”" in here.screen
        assert "Missing P." not in here.screen
        assert sweeps_told(here) == 0


async def test_after_the_end_a_roll_is_marked_missing_without_another_sweep(forty: Path):
    async with at_desk(forty, now=EVENING) as here:
        await finished(here)
        await here.type("17 missing")
        await here.press("enter")
        assert str(rolls.by_id(here.app.session.file.conn, 17).place) == "missing"
        assert sweeps_told(here) == 1
        assert sweeps.going_on(here.app.session.file.conn) is None


async def test_what_is_missing_after_the_end_stands_in_the_sweeps_list_until_that_is_taken_back(
    forty: Path,
):
    async with at_desk(forty, now=EVENING) as here:
        await finished(here)
        for clip, row in ((3, r"3 .* box 1"), (17, r"17 .* rod 3")):
            await here.say(f"clip {clip} missing")
            assert "missing, last seen" in here.screen
            assert re.search(row, here.shown)
        await here.say("undo")
        await here.say("undo")
        assert places(here)["missing"] == 0
        assert "Swept" in here.screen
        assert sweeps_told(here) == 1


async def test_what_turns_up_after_the_end_leaves_the_missing_and_its_slips_are_printed_anew(
    forty: Path, documents: Path
):
    async with sweep_begun(forty) as here:
        await here.say("5")
        for clip in (1, 2, 3, 4, 5):
            await here.scan(clip_code(clip, "A"))
        await here.press("end", "enter", "enter")
        assert "1 slip saved as a PDF" in here.answer
        assert "slips printed before that are out of date" not in here.screen
        await here.say("6 box")
        here.app.face.go("sweep")
        await here.pilot.pause()
        assert "missing, last seen" not in here.screen
        assert "was missing and turned up; it is now" in here.screen
        assert re.search(r" 6 +Student6 H\. +box 1", here.screen)
        assert "6 in box 1" in here.screen
        told = "Found or missed at 17:00: slips printed before that are out of date"
        assert told in " ".join(here.screen.split())
        assert re.search("Enter +save new slips as a PDF", here.screen)
        await here.wait(minutes=4)
        await here.press("enter")
        assert "out of date" not in here.screen
        words = [
            pypdfium2.PdfDocument(each)[0].get_textpage().get_text_range()
            for each in sorted(documents.glob("sweep-slips-*.pdf"))
        ]
        assert ["last seen rod 1" in each for each in words] == [True, False]
    async with sweep_begun(forty, now=EVENING + timedelta(minutes=9)) as here:
        assert told in " ".join(here.screen.split())  # not since those of 17:04


async def test_what_is_said_to_be_missing_after_the_end_is_on_no_slip_printed_before(
    forty: Path, documents: Path
):
    async with at_desk(forty, now=EVENING) as here:
        await finished(here)
        await here.say("slips")
        await here.say("clip 3 missing")
        assert "slips printed before that are out of date" in " ".join(here.screen.split())
        await here.say("undo")
        assert "out of date" not in here.screen


@pytest.mark.parametrize("words", ["print", "print slips", "slips"])
async def test_print_means_the_slips_once_a_sweep_is_finished(
    forty: Path, documents: Path, words: str
):
    async with at_desk(forty, now=EVENING) as here:
        await finished(here)
        await here.say(words)
        assert here.open == "sweep"
        assert "saved as a PDF" in here.answer
        assert "print it, one to lie in each box" in here.answer
        assert list(documents.glob("sweep-slips-*.pdf"))


async def test_turned_to_with_a_roll_in_hand_answer_and_footer_say_the_same_of_enter(forty: Path):
    async with at_desk(forty, now=EVENING) as here:
        await here.say("7")
        await here.press("tab", "tab")
        assert here.open == "sweep"
        assert "On this screen Enter is not about it: these 6 hang here" in here.answer
        assert "enter these 6 hang here" in here.screen


async def test_a_name_and_a_word_mean_that_strip_on_the_rod_in_hand(forty: Path):
    async with sweep_begun(forty) as here:
        await here.say("5")
        await here.say("student6 h is missing")
        assert "6 → Student6 H.. Missing, last seen rod 1" in here.answer
        assert str(here.on(6).place) == "missing"
        assert places(here)["box 1"] == 5
        await here.say("student7 still wet")
        assert here.open == "sweep"
        assert here.acts[-1] == "touch"
        assert here.on(7).checks[-1].dry is False


async def test_a_name_that_fits_no_strip_of_the_rod_or_several_is_asked_about(
    damp: Path, school: School
):
    async with damp_rod(damp, school) as here:
        before = here.acts
        assert "“ivo” can be clip 4 (Ivo" in await here.say("ivo missing")
        assert "type which, as “4 missing”" in here.answer
        asked = "no strip of “mara” should hang on rod 2: go to the rod where it should"
        assert asked in await here.say("mara wet")
        assert (here.acts, here.open) == (before, "sweep")


async def test_a_name_alone_says_where_its_roll_is_and_enter_stays_the_sweeps(forty: Path):
    async with sweep_begun(forty) as here:
        await here.say("rod 2 6")
        await here.say("rod 1")
        await here.enter("student38")
        assert here.open == "sweep"
        assert "38 → Student38 H.. rod 7, position 3" in here.answer
        assert "Rod 1, Period 1" in here.screen
        assert "enter these 6 hang here" in here.screen
        await here.enter("student6")
        assert "Not there? Type “6 missing”. Still wet? “6 wet”" in here.answer
        assert set(places(here)) == {"rod 1", "box 2", *(f"rod {n}" for n in range(3, 8))}
        await here.press("enter")
        assert places(here)["box 1"] == 6


@pytest.mark.parametrize("words", ["find student38", "where is student38"])
async def test_find_and_a_name_shows_the_roll_while_a_sweep_goes_on(forty: Path, words: str):
    async with sweep_begun(forty) as here:
        await here.say("rod 2 6")
        await here.enter(words)
        assert (here.open, here.app.view.selected) == ("dryer", here.on(38).id)


async def test_before_a_sweep_is_under_way_a_name_alone_shows_its_roll(forty: Path):
    async with sweep_begun(forty) as here:
        await here.enter("student38")
        assert (here.open, here.app.view.selected) == ("dryer", here.on(38).id)


@pytest.mark.parametrize(
    "words", ["6 missing", "missing 6", "student6 missing", "missing student6"]
)
async def test_missing_stands_before_a_strip_or_behind_it(forty: Path, words: str):
    async with sweep_begun(forty) as here:
        await here.say("5")
        assert "6 → Student6 H.. Missing, last seen rod 1" in await here.say(words)
        assert str(here.on(6).place) == "missing"
        assert places(here)["box 1"] == 5


@pytest.mark.parametrize("words", ["rod 3 6", "rod 3 count 6", "Rod  3 6"])
async def test_a_rod_and_a_number_behind_it_count_that_rod(forty: Path, words: str):
    async with sweep_begun(forty) as here:
        await here.say(words)
        assert "rod 3: 6 to box 3" in here.answer
        assert places(here)["box 3"] == 6
        before = places(here)
        assert "no rod 9 in this sweep" in await here.say("rod 9 6")
        assert places(here) == before
        await here.say("rod 1 5")
        assert "rod 1: 5 counted, 6 listed" in here.answer
        assert "Rod 1, Period 1" in here.screen


@pytest.mark.parametrize("size", [(80, 24), (120, 34), (200, 50)])
async def test_the_list_of_rods_stays_where_it_is_when_an_answer_comes(
    forty: Path, size: tuple[int, int]
):
    async with sweep_begun(forty, size=size) as here:
        before = [n for n, row in enumerate(here.rows()) if re.search("[ ▸] \\d Period", row)]
        await here.say("5")
        assert here.answer
        now = [n for n, row in enumerate(here.rows()) if re.search("[ ▸] \\d Period", row)]
        assert now == before


async def test_another_sweep_is_begun_from_any_screen(forty: Path):
    async with at_desk(forty, now=EVENING) as here:
        await finished(here)
        here.app.face.go("dryer")
        await here.type("sweep again")
        await here.press("enter")
        assert here.open == "sweep"
        assert "rod 1 should be empty" in here.screen


async def test_a_half_scanned_rod_is_taken_up_after_a_restart_and_at_another_desk(forty: Path):
    async with sweep_begun(forty) as here:
        await here.type("5")
        await here.press("enter")
        await here.scan(clip_code(1, "A"))
        await here.scan(clip_code(2, "A"))
    with open_file(forty, write=True) as file:
        scan = scans.Scan(3, rod=1)
        sweeping.sweep(file, Hand(EVENING, EVENING, "desk 2"), scans=[scan])
    async with sweep_begun(forty, now=EVENING + timedelta(minutes=5)) as here:
        assert "Rod 1, Period 1" in here.screen
        assert "3 of 5 scanned" in here.screen
        await here.scan(clip_code(4, "A"))
        await here.scan(clip_code(5, "A"))
        assert "Rod 1 is through, 1 not seen" in here.screen


async def test_whose_roll_goes_to_which_box_is_said_before_and_after(db: Path, school: School):
    hanging.hang(school.file, school.hand(), person=OLU, clip=1, rod=2)
    hanging.hang(school.file, school.hand(), person=IVO, clip=2, rod=2)
    hanging.hang(school.file, school.hand(), person=MARA, clip=3, rod=2)
    async with sweep_begun(db, size=(80, 24), now=EVENING) as here:
        await here.press("down")
        said = " ".join(row[33:].strip() for row in here.rows())
        assert "More than one box: 2 to box 2, but clip 3 (Mara O.) to box 1." in said
        await here.press("enter")
        assert "rod 2: 2 to box 2" in here.screen
        assert "But clip 3 (Mara O.) to box 1" in here.screen


async def test_what_has_no_box_of_its_own_hangs_on_and_says_how_it_is_boxed(
    db: Path, school: School
):
    school.now = EVENING
    hanging.hang(school.file, school.hand(), person=OLU, clip=1, rod=3)
    hanging.hang(school.file, school.hand(), clip=61, rod=3)
    async with sweep_begun(db, now=EVENING + timedelta(days=1)) as here:
        await here.press("end", "up")
        assert "Clip 61 (unknown roll) has no box of its own" in here.screen
        await here.press("enter")
        assert "rod 3: 1 to box 2" in here.screen
        assert "type its clip and a box, as in “61 box 4”" in here.screen
        assert "1 boxed, 1 hangs" in here.screen
        await here.type("61 box 1")
        await here.press("enter")
        assert str(here.on(61).place) == "box 1"


async def test_where_nothing_that_is_dry_has_a_box_none_is_boxed_and_it_is_said_so(
    db: Path, school: School
):
    school.now = EVENING
    hanging.hang(school.file, school.hand(), clip=61, rod=3)
    school.wait(400)
    hanging.hang(school.file, school.hand(), clip=62, rod=3)
    async with sweep_begun(db, now=school.now + timedelta(minutes=5)) as here:
        await here.scan(rod_code(3))
        answer = await here.say("box dry")
        assert "rod 3: none boxed. Clip 61 (unknown roll) has no box of its own" in answer
        assert places(here) == {"rod 3": 2}


async def test_film_of_a_closed_term_is_boxed_and_said_so(db: Path, school: School):
    hanging.hang(school.file, school.hand(), person=OLU, clip=1, rod=2)
    hanging.hang(school.file, school.hand(), person=IVO, clip=2, rod=2)
    closing.close_term(school.file, school.hand(), "26F", "the cabinet is locked")
    async with sweep_begun(db) as here:
        await here.press("down", "enter")
        assert places(here) == {"box 2": 2}
        told = "Clip 1 (Olu A.), clip 2 (Ivo L.) are of term 26F, which is closed"
        assert told in here.screen
        assert "reopen it before you cut and sleeve" in here.screen


async def test_a_rod_whose_film_all_goes_to_another_box_says_so(db: Path, school: School):
    hanging.hang(school.file, school.hand(), person=MARA, clip=3, rod=2)
    async with sweep_begun(db) as here:
        await here.press("down")
        assert "it hangs here: to box 1, though the" in here.screen
        await here.press("enter")
        assert "rod 2: 1 to box 1, though the rod’s is box 2" in here.screen


async def test_a_rod_that_was_left_stays_so_when_the_count_after_it_is_taken_back(forty: Path):
    async with sweep_begun(forty) as here:
        await here.scan(clip_code(1, "A"))
        await here.press("enter")
        assert "5 of 6 not seen" in here.screen
        await here.press("enter")
        await here.type("undo")
        await here.press("enter")
        assert "Rod 2, Period 2" in here.screen
        assert "5 of 6 not seen" in here.screen


@asynccontextmanager
async def damp_rod(damp: Path, school: School) -> AsyncIterator[AtDesk]:
    """Rod 2: three dry strips, clips 1 to 3, and seven wet ones, clips 4 to 10."""
    async with sweep_begun(damp, now=school.now + timedelta(minutes=5)) as here:
        await here.scan(rod_code(2))
        assert "10 should hang" in here.screen
        yield here


async def scan_the_dry(here: AtDesk) -> None:
    for clip in (1, 2, 3):
        await here.scan(clip_code(clip, "A"))


@pytest.fixture
def damp(db: Path, school: School) -> Path:
    longer_rods(school, 10)
    for clip in (1, 2, 3):
        hanging.hang(school.file, school.hand(), person=OLU, clip=clip, rod=2)
    school.wait(400)
    for clip in range(4, 11):
        hanging.hang(school.file, school.hand(), person=IVO, clip=clip, rod=2)
    return db


async def test_wet_strips_hang_on_when_the_dry_ones_are_scanned(damp: Path, school: School):
    async with damp_rod(damp, school) as here:
        await scan_the_dry(here)
        assert "Rod 2 is through, 7 hang on" in here.screen
        assert "3 boxed, 7 hang" in here.screen
        assert "left hanging" in here.screen
        await here.press("enter", "end")
        assert "Rod 2: 7 hang (7 wet)" in here.screen
        assert "missing when you finish" not in here.screen
        await here.press("enter")
        assert "Nothing is missing" in here.screen
        assert places(here) == {"box 2": 3, "rod 2": 7}


async def test_a_wet_strip_that_is_dry_to_the_touch_is_scanned_from_the_same_rod(
    damp: Path, school: School
):
    async with damp_rod(damp, school) as here:
        await scan_the_dry(here)
        await here.scan(clip_code(4, "A"))
        assert "4 boxed, 6 hang" in here.screen
        assert "though noted" not in here.screen


async def test_a_dry_strip_that_is_not_scanned_beside_wet_ones_hangs_on_and_is_named(
    damp: Path, school: School
):
    async with damp_rod(damp, school) as here:
        for clip in (1, 2):
            await here.scan(clip_code(clip, "A"))
        assert "Enter      that is all that is dry" in here.screen
        assert "should be dry, not scanned: left hanging" in here.screen
        await here.press("enter")
        told = "Clip 3 (Olu A.) should be dry and hangs on. If it is gone, type “3 missing”"
        assert told in here.screen
        assert "2 boxed, 8 hang" in here.screen
        await here.press("end")
        assert "Rod 2: 8 hang (7 wet, 1 dry)" in here.screen
        assert "of these should be dry and were not scanned" in here.screen
        assert re.search(r"3 +Olu A\. +rod 2, position 3", here.screen)
        await here.press("enter")
        assert "Nothing is missing" in here.screen
        assert "Rod 2: 8 hang (7 wet, 1 dry)" in here.screen
        assert places(here) == {"box 2": 2, "rod 2": 8}


async def test_a_dry_strip_beside_wet_ones_is_missing_by_a_word_of_the_hand(
    damp: Path, school: School
):
    async with damp_rod(damp, school) as here:
        for clip in (1, 2):
            await here.scan(clip_code(clip, "A"))
        await here.press("enter")
        await here.say("3 missing")
        await here.press("end")
        assert "Rod 2: 7 hang (7 wet)" in here.screen
        await here.press("enter")
        assert "Missing: clip 3 (Olu A.)" in here.screen
        assert places(here) == {"box 2": 2, "rod 2": 7, "missing": 1}


async def test_a_tacky_strip_is_among_those_that_the_end_says_are_left_hanging(
    damp: Path, school: School
):
    async with damp_rod(damp, school) as here:
        await here.scan(clip_code(1, "A"))
        await here.scan(clip_code(2, "A"))
        await here.wait(seconds=30)
        await here.say("3 tacky")
        assert "2 boxed, 8 hang" in here.screen
        await here.press("end")
        assert "Rod 2: 8 hang" in here.screen


async def test_a_wet_strip_that_is_scanned_says_how_it_hangs_again(damp: Path, school: School):
    async with damp_rod(damp, school) as here:
        assert "Damp film hangs on unless you scan it" in " ".join(here.shown.split())
        await here.scan(clip_code(4, "A"))
        assert "If tacky, hang it again and type “4 tacky”" in here.answer
        await here.say("4 tacky")
        assert here.on(4).place.kind == "rod"
        assert "box 2" not in places(here)


@pytest.mark.parametrize("size", [(80, 24), (120, 34)])
async def test_a_rod_names_its_clips_and_asks_for_others_before_it_is_counted(
    forty: Path, size: tuple[int, int]
):
    async with sweep_begun(forty, size=size) as here:
        said = " ".join(row[33:].strip() for row in here.rows())
        told = "Clips 1 2 3 4 5 6. Do you see another number? Scan that clip first, or type “clip”"
        assert told in " ".join(said.split())
        assert re.search("Enter +these 6 hang here", here.screen)
        assert "another clip than these? Scan it first" in here.screen
        await here.press("enter")
        assert here.keys == 1
        assert "Clips 1 2 3 4 5 6. Wrong? Type undo" in here.answer
        assert places(here)["box 1"] == 6


async def test_one_missing_and_one_foreign_strip_are_both_found_when_the_foreign_one_is_scanned(
    forty: Path,
):
    async with sweep_begun(forty) as here:
        await here.scan(clip_code(38, "A"))
        await here.say("count 5")
        for clip in (1, 2, 3, 4, 5):
            await here.scan(clip_code(clip, "A"))
        await here.press("enter", "end", "enter")
        assert "Missing: clip 6 (Student6 H.)" in here.answer
        assert places(here) == {"box 1": 5, "box 7": 1, "missing": 1} | {
            f"rod {n}": many - (n == 7) for n, many in enumerate(FORTY, 1) if n > 1
        }


async def test_after_a_count_the_page_offers_no_count_that_gainsays_it(forty: Path):
    async with sweep_begun(forty) as here:
        await here.say("5")
        assert "still here" not in here.screen
        assert re.search("“undo” +it was not 5", here.screen)
        await here.scan(clip_code(1, "A"))
        assert "scanned. 5 counted, 6 should hang" in here.screen
        assert "still here" not in here.screen


@pytest.mark.parametrize("words", ["box dry", "all dry", "all but the wet"])
async def test_all_that_is_dry_is_boxed_by_one_word_and_the_wet_hangs_on(
    damp: Path, school: School, words: str
):
    async with damp_rod(damp, school) as here:
        assert re.search("Enter +these 10 hang here: box the 3 dry, 7 hang on", here.screen)
        await here.say(words)
        assert "rod 2: 3 to box 2. Clips 1 2 3. 7 hang on (7 wet). Wrong? Type undo" in here.answer
        assert places(here) == {"box 2": 3, "rod 2": 7}
        await here.press("end", "enter")
        assert "Nothing is missing. Wrong?" in here.answer
        await here.say("undo")
        await here.say("undo")
        assert places(here) == {"rod 2": 10}


async def test_the_word_for_what_is_dry_is_said_only_where_wet_film_hangs_beside(forty: Path):
    async with sweep_begun(forty) as here:
        assert "box dry" not in here.screen
        await here.say("box dry")
        assert "all of rod 1 is dry: press Enter" in here.answer
        assert places(here)["rod 1"] == 6


async def test_where_nothing_is_dry_there_is_no_word_for_it(forty: Path):
    async with sweep_begun(forty, now=TUESDAY_9_00 + timedelta(minutes=1)) as here:
        assert "box dry" not in here.screen
        await here.say("box dry")
        assert "nothing on rod 1 is sure to be dry (6 wet)" in here.answer


async def test_all_dry_is_not_said_of_a_rod_that_was_counted_short(damp: Path, school: School):
    async with damp_rod(damp, school) as here:
        await here.say("9")
        await here.say("box dry")
        assert "not clear which are there: scan them one by one, or type which is" in here.answer
        assert places(here) == {"rod 2": 10}


async def test_before_and_after_that_is_all_it_is_said_who_is_missing_then(forty: Path):
    async with sweep_begun(forty) as here:
        for clip in (1, 2, 3, 4):
            await here.scan(clip_code(clip, "A"))
        assert "Enter      that is all: 2 not seen" in here.screen
        assert "not seen yet: Enter now, and they are missing when you finish" in here.screen
        await here.press("enter")
        told = "Clip 5 (Student5 H.), clip 6 (Student6 H.) not seen: missing when you finish."
        assert f"{told} Found after all? Scan them" in here.answer
        await here.scan(clip_code(5, "A"))
        assert "noted at" not in here.answer
        await here.press("end")
        assert re.search("Enter +finish: 1 missing", here.screen)
        assert "not seen: missing when you finish. If you find one, scan it" in here.screen
        await here.press("enter")
        assert (
            "missing, last seen. Does one turn up? “6 box”; with its owner “6 take”" in here.screen
        )
        assert "Missing: clip 6 (Student6 H.). Not looked at: rod 2 (6)" in here.answer
        await here.say("6 box")
        assert str(here.on(6).place) == "box 1"


async def test_a_rod_that_was_counted_is_not_asked_again_after_a_restart(forty: Path):
    async with sweep_begun(forty) as here:
        await here.say("5")
        await here.press("enter")
        assert "Rod 2, Period 2" in here.screen
        await here.press("enter")
    async with sweep_begun(forty) as here:
        assert "Rod 3, Period 3" in here.screen
        assert "5 of 6 counted" in here.screen
        await here.press("up", "up")
        await here.scan(clip_code(1, "A"))
        assert "1 of 5 scanned" in here.screen


@pytest.mark.parametrize("words", ["finish", "end", "Finish the sweep"])
async def test_finish_goes_to_the_end_first_and_finishes_there(forty: Path, words: str):
    async with sweep_begun(forty) as here:
        await here.press("enter")
        await here.say(words)
        assert "Finish the sweep" in here.screen
        assert sweeps.going_on(here.app.session.file.conn) is not None
        await here.say(words)
        assert "swept: 6 to the boxes" in here.answer
        await here.say(words)
        assert "this sweep is finished already: type “sweep again”" in here.answer


async def test_next_passes_a_rod_by_and_boxes_nothing(forty: Path):
    async with sweep_begun(forty) as here:
        await here.say("next")
        assert "Rod 2, Period 2" in here.screen
        assert "6 left hanging" in here.screen
        assert places(here)["rod 1"] == 6
        await here.press("end")
        await here.say("next")
        assert "no rod comes next" in here.answer


@pytest.mark.parametrize("words", ["stop", "pause"])
async def test_a_sweep_needs_no_word_to_be_left(forty: Path, words: str):
    async with sweep_begun(forty) as here:
        await here.press("enter")
        await here.say(words)
        assert "stays as it is, at every desk: Tab leaves it, “sweep” comes back" in here.answer
        assert "Rod 2, Period 2" in here.screen


async def test_done_alone_asks_whether_the_rod_or_the_sweep_is_meant(forty: Path):
    async with sweep_begun(forty) as here:
        await here.say("done")
        assert "done with this, or with the sweep? Press Enter (these 6 hang here)" in here.answer
        assert places(here)["rod 1"] == 6
        await here.press("enter", "end")
        await here.say("done")
        assert "swept: 6 to the boxes" in here.answer


async def test_a_rod_counted_whole_while_it_is_scanned_agrees_with_its_row(
    damp: Path, school: School
):
    async with damp_rod(damp, school) as here:
        await scan_the_dry(here)
        await here.say("count 10")
        assert "rod 2: 10 is right" in here.answer
        assert "3 boxed, 7 hang on: “box all” boxes them too" in here.answer
        assert "3 boxed, 7 hang" in here.screen
        await here.press("end", "enter")
        assert "Nothing is missing" in here.screen


async def test_a_count_of_what_hangs_still_boxes_nothing_wet_and_box_all_asks_before_it_does(
    damp: Path, school: School
):
    async with damp_rod(damp, school) as here:
        await scan_the_dry(here)
        assert re.search("“box all” +box these 7 all the same", here.screen)
        await here.say("box all")
        assert "rod 2: 7 hang here, 7 wet" in here.screen
        assert places(here)["rod 2"] == 7
        await here.press("enter")
        assert places(here) == {"box 2": 10}
        assert "Boxed damp and all" in here.answer
        await here.say("undo")
        await here.say("count 7")
        assert "rod 2: 7 hang, as listed. None boxed, 7 hang on (7 wet)" in here.answer
        assert places(here) == {"box 2": 3, "rod 2": 7}
        await here.press("end", "enter")
        assert "Nothing is missing" in here.screen


async def test_a_question_is_of_the_rod_that_is_shown(damp: Path, school: School):
    async with damp_rod(damp, school) as here:
        await here.say("box all")
        assert re.search("Enter +box them all the same", here.screen)
        assert "box dry" not in here.screen
        assert "enter box them all the same" in here.screen
        await here.press("down", "enter")
        assert places(here) == {"rod 2": 10}


async def test_a_typed_number_that_no_record_explains_is_asked_about(forty: Path):
    async with sweep_begun(forty) as here:
        await here.scan(clip_code(1, "A"))
        before = places(here)
        await here.say("77")
        assert "clip 77: no record explains it" in here.screen
        await here.press("escape")
        assert places(here) == before
        await here.say("clip 77")
        await here.press("enter")
        assert str(here.on(77).place) == "box 1"


async def test_a_number_that_no_record_explains_is_a_count_unless_a_hand_says_clip(
    damp: Path, school: School
):
    async with damp_rod(damp, school) as here:
        await scan_the_dry(here)
        await here.say("11")
        assert "Enter: 11 counted. For clip 11 type “clip 11”" in here.answer
        await here.say("clip 11")
        assert "clip 11: no record explains it" in here.answer
        await here.press("enter")
        assert str(here.on(11).place) == "box 2"


async def test_behind_a_count_that_did_not_agree_a_bare_number_counts_the_rod_anew(forty: Path):
    async with sweep_begun(forty) as here:
        await here.say("rod 2 4")
        assert "rod 2: 4 counted, 6 listed" in here.answer
        before = places(here)
        assert "rod 2: 5 counted, 6 listed. One fewer than listed" in await here.say("5")
        assert (places(here), str(here.on(5).place)) == (before, "rod 1, position 5")
        assert "do these 6 hang here" in await here.say("6")
        await here.press("enter")
        assert places(here)["box 2"] == 6
        assert str(here.on(6).place) == "rod 1, position 6"


async def test_behind_such_a_count_a_clip_of_the_rod_a_scan_or_the_word_is_the_clip(forty: Path):
    async with sweep_begun(forty) as here:
        await here.say("rod 2 5")
        await here.say("8")
        assert str(here.on(8).place) == "box 2"
        assert "was found before" in await here.say("8")
        await here.say("clip 6")
        assert str(here.on(6).place) == "box 1"
        await here.scan(clip_code(13, "A"))
        assert str(here.on(13).place) == "box 3"


@pytest.mark.parametrize("number", ["13", "14", "38", "77"])
async def test_a_new_count_of_more_than_the_rod_holds_is_refused(forty: Path, number: str):
    async with sweep_begun(forty) as here:
        await here.say("rod 2 5")
        before = places(here), here.acts
        assert f"{number} is too many for rod 2, which has 8 positions" in await here.say(number)
        assert f"type “clip {number}” if it is that clip, or scan it" in here.answer
        assert (places(here), here.acts) == before


async def test_a_number_that_no_rod_holds_is_the_clip(forty: Path):
    async with sweep_begun(forty) as here:
        await here.scan(rod_code(7))
        await here.say("38")
        assert str(here.on(38).place) == "box 7"
        assert "1 of 5 scanned" in here.screen


async def test_behind_a_stray_a_count_says_which_clips_it_boxes_and_which_it_leaves_out(
    forty: Path,
):
    async with sweep_begun(forty) as here:
        await here.scan(clip_code(38, "A"))
        assert re.search("“1 missing” +if that one is not here", here.screen)
        assert re.search("“count 6” +boxes all 6 still here without 38, into box 1", here.screen)
        await here.say("count 6")
        assert "rod 1: do these 6 hang here still without 38?" in here.answer
        assert "Clips 1 2 3 4 5 6. Enter boxes them" in here.answer
        await here.press("escape")
        assert places(here)["box 1"] == 0
        await here.say("6")
        assert "6 counted without 38 (boxes clips 1 2 3 4 5 6)" in here.answer
        await here.say("count")
        assert places(here)["box 1"] == 6


async def test_as_many_as_should_hang_are_asked_once_at_a_rod_that_is_scanned(forty: Path):
    async with sweep_begun(forty) as here:
        await here.press("enter")
        await here.scan(clip_code(38, "A"))
        await here.say("6")
        assert "rod 2: do these 6 hang here still without 38?" in here.answer
        assert "enter box them" in here.screen
        await here.press("enter")
        assert places(here)["box 2"] == 6


@pytest.mark.parametrize("words", ["5", "count 5"])
async def test_while_it_is_asked_whether_just_those_hang_another_number_is_a_new_count(
    forty: Path, words: str
):
    async with sweep_begun(forty) as here:
        await here.scan(rod_code(2))
        await here.scan(clip_code(38, "A"))
        await here.say("6")
        assert "Not so? Type how many do, or press Esc and scan them" in here.answer
        assert "rod 2: 5 counted, 6 listed" in await here.say(words)
        assert (places(here)["box 2"], str(here.on(5).place)) == (0, "rod 1, position 5")


async def test_at_that_question_a_clip_of_the_rod_is_asked_about_and_the_same_number_is_yes(
    forty: Path,
):
    async with sweep_begun(forty) as here:
        await here.scan(rod_code(2))
        await here.scan(clip_code(38, "A"))
        await here.say("6")
        assert "8: clip 8, or 8 counted?" in await here.say("8")
        await here.press("escape")
        assert places(here)["box 2"] == 0
        await here.say("6")
        assert "is no answer here: Enter to box them" in await here.say("six")
        assert "19 is too many for rod 2, which has 8 positions" in await here.say("19")
        assert places(here)["box 2"] == 0
        await here.say("6")
        assert places(here)["box 2"] == 6


async def test_a_stray_does_not_fill_a_rods_count_and_its_own_are_scanned_on(forty: Path):
    async with sweep_begun(forty) as here:
        await here.say("5")
        await here.scan(clip_code(38, "A"))
        assert "0 of 5 scanned" in here.screen
        assert "1 more from elsewhere" in here.screen
        for clip in (1, 2, 3, 4):
            await here.scan(clip_code(clip, "A"))
        assert "4 of 5 scanned" in here.screen
        assert "Rod 1, Period 1" in here.screen
        for clip in (5, 6):
            await here.scan(clip_code(clip, "A"))
        assert "noted at" not in here.answer
        assert "Rod 2, Period 2" in here.screen


async def test_the_finish_page_and_the_top_row_count_the_same_rods(forty: Path):
    async with sweep_begun(forty) as here:
        await here.press("enter")
        await here.say("5")
        await here.press("enter")
        assert "5 of 6 counted" in here.screen
        await here.press("end")
        assert "Rod 2: 6" in here.screen
        here.app.face.go("dryer")
        await here.wait(seconds=1)
        assert "sweep on, 1 of 7 rods through" in here.screen


@pytest.fixture
def helpers(forty: Path) -> Path:
    """A room with a passphrase that lets helpers and substitutes sweep."""
    with open_file(forty, write=True) as file:
        room = file.room()
        refitting.refit(
            file,
            Hand(EVENING, EVENING),
            room._replace(rules=room.rules._replace(helpers_sweep=True)),
        )
        set_passphrase(file, "three dry clips", None, EVENING)
    return forty


async def test_a_substitute_sweeps_at_a_student_desk_from_the_count_to_the_slips(
    helpers: Path, documents: Path
):
    async with sweep_begun(helpers) as here:
        assert not here.app.teacher
        await here.type("5")
        await here.press("enter")
        for clip in (1, 2, 3, 4):
            await here.scan(clip_code(clip, "A"))
        await here.type("6 missing")
        await here.press("enter")
        await here.scan(clip_code(5, "A"))
        await here.press("end", "enter")
        assert "Missing: clip 6 (Student6 H.)" in here.screen
        await here.press("enter")
        assert list(documents.glob("sweep-slips-*.pdf"))
        assert places(here)["box 1"] == 5
        await here.type("undo")
        await here.press("enter")
        assert "Finish the sweep" in here.screen


async def test_a_substitute_looks_up_what_is_on_its_way_and_nothing_in_the_archive(helpers: Path):
    with open_file(helpers, write=True) as file:
        fetching.box(file, Hand(EVENING, EVENING, "desk 2"), [40])
        sleeved = archiving.sleeve(file, Hand(EVENING, EVENING, "desk 2"), 40).roll.number
    async with at_desk(helpers, now=EVENING) as here:
        await finished(here)
        await here.type("1")
        await here.press("enter")
        assert "1 → [/x]" in here.screen
        await here.type(sleeved)
        await here.press("enter")
        assert "the archive is the teacher's" in here.screen


async def test_an_unknown_roll_is_put_aside_while_no_term_is_open(db: Path, school: School):
    closing.close_term(school.file, school.hand(), "26F", "the end of term")
    async with sweep_begun(db) as here:
        await here.type("1")
        await here.press("enter")
        await here.scan(clip_code(40, "A"))
        assert "No record explains it, and no term is open to number it in" in here.screen
        assert places(here) == {}


@pytest.mark.parametrize("size", [(80, 24), (120, 34)])
async def test_no_word_of_the_sweep_is_cut(db: Path, school: School, size: tuple[int, int]):
    hanging.hang(school.file, school.hand(), person=OLU, clip=1, rod=2)
    hanging.hang(school.file, school.hand(), person=MARA, clip=3, rod=2)
    async with sweep_begun(db, size=size, now=EVENING) as here:
        room = here.app.query_one(Line).size.width - 4

        async def whole(*keys: str) -> None:
            await here.press(*keys)
            assert len(here.app.view.hint()) <= room
            shown = [row for row in here.rows() if row.strip()]
            assert f"enter {here.app.view.enter_does()}" in shown[-1]
            assert shown[-1].endswith("? help")
            assert "…" not in "".join(row for row in shown[2:])

        await whole()
        await whole("down")
        await whole("1", "enter")
        await whole("end")
        await whole("enter")
        await whole("home")


@pytest.mark.parametrize("size", [(80, 24), (120, 34), (200, 50)])
@pytest.mark.parametrize("colours", ["dim", "daylight", "terminal"])
async def test_no_name_breaks_the_screen(forty: Path, size: tuple[int, int], colours: str):
    async with sweep_begun(forty, size=size, now=EVENING, colours=colours) as here:
        assert "[/x]" in here.screen
        await here.type("3")
        await here.press("enter")
        await here.scan(clip_code(1, "A"))
        await here.press("end")
        assert "not seen" in here.screen


@pytest.mark.parametrize(
    "text",
    [
        "mara",
        "17 mar",
        "17 dry",
        "17 tacky",
        "P023188",
        "fan off",
        "",
        "mara missing",
        "rod 3 missing",
        "missing mara",
        "missing rod 3",
    ],
)
def test_names_and_other_sentences_are_not_the_sweeps(text: str):
    assert meant(text) is None


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("6", "number"),
        ("count 6", "count"),
        ("clip 17", "clip"),
        (clip_code(17, "A"), "clip"),
        ("rod 3", "rod"),
        (box_code(3), "box"),
        ("26F-0142-09", "roll"),
        ("61 box 4", "roll"),
        ("Undo", "undo"),
        ("Sweep  Again", "sweep again"),
        ("missing", "missing"),
        ("17 missing", "missing"),
        ("Missing 17", "missing"),
        ("missing clip 17", "missing"),
    ],
)
def test_counts_clips_and_places_are_the_sweeps(text: str, kind: str):
    line = meant(text)
    assert line is not None
    assert line.kind == kind
