"""The end of the day at the open cabinet, counted in keys and scans."""

from __future__ import annotations

import shutil
from collections import Counter
from datetime import timedelta
from pathlib import Path

import pytest

from filmrack.acts import hanging, sweeping
from filmrack.acts.founding import found
from filmrack.acts.group import Hand
from filmrack.desk.sweep_acts import meant
from filmrack.domain.codes import action_code, box_code, clip_code, rod_code
from filmrack.domain.default_room import default_room
from filmrack.domain.names import Person
from filmrack.store import people, rolls, sweeps
from filmrack.store.file import open_file
from tests.conftest import IVO, MARA, OLU, TUESDAY_9_00, School
from tests.desk.bench import AtTheDesk, at_the_desk

FORTY = (6, 6, 6, 6, 6, 5, 5)
"""Rolls on each of seven rods."""
AWKWARD = ("[/x] [bold]", "😀👩‍👩‍👧 Emoji", "أحمد", "W" * 60)
EVENING = TUESDAY_9_00 + timedelta(hours=8)


@pytest.fixture(scope="session")
def _forty(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A file with forty rolls on seven rods since nine; clips 1 to 40 from the first rod on."""
    path = tmp_path_factory.mktemp("forty") / "built.db"
    room = default_room("America/Chicago", TUESDAY_9_00.date(), periods=7, positions=8)
    with found(path, room, TUESDAY_9_00) as file:
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


def places(here: AtTheDesk) -> Counter[str]:
    """Return how many rolls are where, without their position on a rod."""
    found = rolls.read(here.desk.session.file.conn, "place <> 'void'")
    return Counter(str(roll.place).partition(",")[0] for roll in found)


async def begin(here: AtTheDesk) -> None:
    here.desk.face.go("sweep")
    await here.pilot.pause()
    here.keys = here.scans = 0


async def test_forty_rolls_on_seven_rods_with_right_counts_are_seven_keys_and_finish(forty: Path):
    async with at_the_desk(forty, now=EVENING) as here:
        await begin(here)
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
        assert sweeps.going_on(here.desk.session.file.conn) is None


async def test_a_rod_whose_count_is_wrong_takes_its_count_and_one_scan_a_roll(forty: Path):
    async with at_the_desk(forty, now=EVENING) as here:
        await begin(here)
        await here.type("5")
        await here.press("enter")
        assert "rod 1: 5, not 6" in here.screen
        assert places(here)["box 1"] == 0
        for clip in (1, 2, 3, 4, 5):
            await here.scan(clip_code(clip, "A"))
        assert (here.keys, here.scans) == (2, 5)
        assert "Rod 1 is through, 1 not seen" in here.screen
        assert "Rod 2, Period 2" in here.screen
        await here.press("end", "enter")
        assert "Missing: clip 6 (Student6 H.)" in here.screen
        assert places(here)["missing"] == 1
        assert "5 found, 1 not" in here.screen
        assert places(here)["rod 2"] == 6


async def test_what_was_neither_counted_nor_scanned_stays_where_it_is(forty: Path):
    async with at_the_desk(forty, now=EVENING) as here:
        await begin(here)
        await here.press("down", "enter", "end")
        assert "6 left hanging" in here.screen
        assert "Rod 1, Period 1: 6" in here.screen
        await here.press("enter")
        assert places(here)["rod 1"] == 6
        assert places(here)["box 2"] == 6
        assert places(here)["missing"] == 0


async def test_a_rod_can_be_skipped_and_come_back_to(forty: Path):
    async with at_the_desk(forty, now=EVENING) as here:
        await begin(here)
        await here.press("down", "enter")
        assert "Rod 3, Period 3" in here.screen
        await here.press("up", "up", "enter")
        assert places(here)["rod 1"] == 0
        assert "Rod 3, Period 3" in here.screen


async def test_a_sweep_is_taken_up_after_a_restart_where_it_was_left(forty: Path):
    async with at_the_desk(forty, now=EVENING) as here:
        await begin(here)
        await here.press("enter", "enter")
    async with at_the_desk(forty, now=EVENING + timedelta(minutes=5)) as here:
        await begin(here)
        assert "Rod 3, Period 3" in here.screen
        for _ in range(6):
            await here.press("enter")
        assert places(here)["box 7"] == 5
        assert "swept: 40 to the boxes" in here.screen


async def test_what_another_desk_swept_is_seen_and_not_told_twice(forty: Path):
    async with at_the_desk(forty, now=EVENING) as here:
        await begin(here)
        with open_file(forty, write=True) as file:
            sweeping.sweep(file, Hand(EVENING, EVENING, "desk 2"), counts={1: 6})
        await here.press("enter")
        assert "look once more" in here.screen
        await here.press("enter")
        assert "Rod 2, Period 2" in here.screen
        counts = sweeps.counts(here.desk.session.file.conn, 1)
        assert (counts[1].expected, counts[1].counted) == (6, 6)
        assert 2 not in counts


async def test_undo_brings_a_boxed_rod_back_and_goes_to_it(forty: Path):
    async with at_the_desk(forty, now=EVENING) as here:
        await begin(here)
        await here.press("enter")
        await here.type("undo")
        await here.press("enter")
        assert places(here)["rod 1"] == 6
        assert "Rod 1, Period 1" in here.screen
        await here.press("enter")
        await here.scan(action_code("UNDO"))
        assert places(here)["rod 1"] == 6


async def test_a_finished_sweep_that_is_undone_goes_on(forty: Path):
    async with at_the_desk(forty, now=EVENING) as here:
        await begin(here)
        await here.type("0")
        await here.press("enter", "end", "enter")
        assert places(here)["missing"] == 6
        await here.type("undo")
        await here.press("enter")
        assert places(here)["missing"] == 0
        assert "Finish the sweep" in here.screen


async def test_a_roll_on_the_wrong_rod_is_named_and_goes_to_its_own_box(forty: Path):
    async with at_the_desk(forty, now=EVENING) as here:
        await begin(here)
        await here.type("7")
        await here.press("enter")
        await here.scan(clip_code(40, "B"))
        assert here.on(40).place.number == 7
        assert "Found in the wrong place: by the record rod 7, position 5" in here.screen
        for clip in range(1, 7):
            await here.scan(clip_code(clip, "A"))
        await here.press("end")
        assert "in the wrong place, by the record at" in here.screen
        assert "not seen" not in here.screen


async def test_a_clip_that_no_record_explains_is_an_unknown_roll_whichever_tag_is_read(
    forty: Path,
):
    async with at_the_desk(forty, now=EVENING) as here:
        await begin(here)
        await here.type("7")
        await here.press("enter")
        await here.scan(clip_code(99, "A"))
        assert "99 → unknown roll, box 1" in here.screen
        await here.scan(clip_code(99, "B"))
        assert "Was found before, and is in box 1" in here.screen
        await here.press("end")
        assert "unknown rolls" in here.screen


async def test_a_rods_code_goes_to_that_rod_and_a_boxs_code_into_that_box(forty: Path):
    async with at_the_desk(forty, now=EVENING) as here:
        await begin(here)
        await here.scan(rod_code(4))
        assert "Rod 4, Period 4" in here.screen
        await here.scan(box_code(2))
        assert "Box 2" in here.screen
        await here.scan(clip_code(1, "A"))
        assert str(here.on(1).place) == "box 2"
        await here.press("enter")
        assert "Rod 4, Period 4" in here.screen
        assert sweeps.counts(here.desk.session.file.conn, 1) == {}


async def test_a_clips_number_is_not_taken_for_a_count(forty: Path):
    async with at_the_desk(forty, now=EVENING) as here:
        await begin(here)
        await here.type("38")
        await here.press("enter")
        assert "38 rolls cannot hang on rod 1" in here.screen
        assert sweeps.going_on(here.desk.session.file.conn) is None
        await here.type("clip 6")
        await here.press("enter")
        assert str(here.on(6).place) == "box 1"
        await here.type("5")  # a rod that is being scanned is asked for clips
        await here.press("enter")
        assert str(here.on(5).place) == "box 1"
        await here.type("count 4")
        await here.press("enter")
        assert places(here)["box 1"] == 6


async def test_the_last_scans_of_a_rod_that_was_counted_short_still_belong_to_it(forty: Path):
    async with at_the_desk(forty, now=EVENING) as here:
        await begin(here)
        await here.type("5")
        await here.press("enter")
        for clip in range(1, 7):
            await here.scan(clip_code(clip, "A"))
        assert "wrong place" not in here.screen
        await here.press("end")
        assert "not seen" not in here.screen


async def test_a_roll_that_is_found_tacky_stays_and_is_not_missing(forty: Path):
    async with at_the_desk(forty, now=EVENING) as here:
        await begin(here)
        await here.scan(clip_code(1, "A"))
        for clip in (2, 3, 4, 5):
            await here.scan(clip_code(clip, "A"))
        await here.wait(60)
        await here.type("6 tacky")
        await here.press("enter")
        await here.press("end", "enter")
        assert str(here.on(6).place) == "rod 1, position 6"
        assert places(here)["missing"] == 0


async def test_a_scan_at_the_end_goes_back_to_its_rod(forty: Path):
    async with at_the_desk(forty, now=EVENING) as here:
        await begin(here)
        await here.press("end")
        await here.scan(clip_code(7, "A"))
        assert "Rod 2, Period 2" in here.screen
        assert "not seen yet" in here.screen


async def test_a_number_typed_at_the_end_goes_to_that_rod_and_boxes_no_clip(forty: Path):
    async with at_the_desk(forty, now=EVENING) as here:
        await begin(here)
        await here.press("enter", "end")
        before = places(here)
        await here.type("2")
        await here.press("enter")
        assert "Rod 2, Period 2" in here.screen
        assert places(here) == before


async def test_nothing_is_counted_after_a_finished_sweep(forty: Path):
    async with at_the_desk(forty, now=EVENING) as here:
        await begin(here)
        await here.press("enter", "end", "enter")
        before = places(here)
        await here.type("count 3")
        await here.press("enter")
        assert "nothing is counted" in here.screen
        assert places(here) == before
        assert sweeps.going_on(here.desk.session.file.conn) is None


async def test_the_slips_are_printed_after_the_end(forty: Path):
    async with at_the_desk(forty, now=EVENING) as here:
        await begin(here)
        await here.press("enter", "end", "enter", "enter")
        (slips,) = forty.parent.glob("sweep-slips-*.pdf")
        assert slips.read_bytes().startswith(b"%PDF")
        assert "1 slip to print" in here.screen


async def test_a_sweep_without_anything_told_cannot_be_finished(forty: Path):
    async with at_the_desk(forty, now=EVENING) as here:
        await begin(here)
        await here.press("end", "enter")
        assert "Nothing was counted or scanned yet" in here.screen
        assert sweeps.going_on(here.desk.session.file.conn) is None


async def test_enter_leaves_a_rod_whose_film_is_wet_and_its_count_boxes_it(forty: Path):
    async with at_the_desk(forty, now=TUESDAY_9_00 + timedelta(minutes=1)) as here:
        await begin(here)
        assert "leave this rod" in here.screen
        await here.press("enter")
        assert places(here)["rod 1"] == 6
        assert "6 of 6 not dry" in here.screen
        await here.press("up")
        await here.type("6")
        await here.press("enter")
        assert places(here)["box 1"] == 6


async def test_after_the_end_a_number_is_looked_up_and_nothing_is_counted(forty: Path):
    async with at_the_desk(forty, now=EVENING) as here:
        await begin(here)
        for _ in range(8):
            await here.press("enter")
        await here.type("17")
        await here.press("enter")
        assert "17 → Student17 H." in here.screen
        assert sweeps.going_on(here.desk.session.file.conn) is None


async def test_a_double_click_in_the_list_boxes_nothing(forty: Path):
    async with at_the_desk(forty, now=EVENING) as here:
        await begin(here)
        await here.pilot.click("#sweep", offset=(6, 4), times=2)
        await here.pilot.pause()
        assert places(here)["rod 2"] == 6
        assert sweeps.going_on(here.desk.session.file.conn) is None


async def test_another_sweep_begins_after_a_finished_one(forty: Path):
    async with at_the_desk(forty, now=EVENING) as here:
        await begin(here)
        await here.press("enter", "end", "enter", "down")
        assert "Rod 1, Period 1" in here.screen
        await here.wait(60)
        await here.press("down", "enter")
        assert places(here)["box 2"] == 6
        assert len(sweeps.finished(here.desk.session.file.conn, 9)) == 1


async def test_a_roll_of_another_class_on_the_rod_is_sent_to_its_own_box(db: Path, school: School):
    hanging.hang(school.file, school.hand(), person=OLU, clip=1, rod=2)
    hanging.hang(school.file, school.hand(), person=IVO, clip=2, rod=2)
    hanging.hang(school.file, school.hand(), person=MARA, clip=3, rod=2)
    async with at_the_desk(db, now=EVENING) as here:
        await begin(here)
        await here.press("down", "enter")
        assert "rod 2: 2 to box 2" in here.screen
        assert "But clip 3 (Mara O.) to box 1" in here.screen


@pytest.mark.parametrize("size", [(80, 24), (120, 34), (200, 50)])
@pytest.mark.parametrize("colours", ["dim", "daylight", "terminal"])
async def test_no_name_breaks_the_screen(forty: Path, size: tuple[int, int], colours: str):
    async with at_the_desk(forty, size=size, now=EVENING, colours=colours) as here:
        await begin(here)
        assert "[/x]" in here.screen
        await here.type("3")
        await here.press("enter")
        await here.scan(clip_code(1, "A"))
        await here.press("end")
        assert "not seen" in here.screen


@pytest.mark.parametrize("text", ["mara", "17 mar", "17 dry", "17 tacky", "P023188", "fan off", ""])
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
    ],
)
def test_counts_clips_and_places_are_the_sweeps(text: str, kind: str):
    line = meant(text)
    assert line is not None
    assert line[0] == kind
