"""An answer belongs to the screen on which it was given."""

from __future__ import annotations

import re
from datetime import timedelta
from pathlib import Path

import pytest

from filmrack.acts import archiving, clips, drying, hanging, locking
from filmrack.desk.answer import Answer
from filmrack.desk.labels import press
from filmrack.desk.roll_card.card import Card
from filmrack.desk.said import capital
from filmrack.domain.clip import lost_named
from tests.conftest import MARA, OLU, TUESDAY_9_00, School
from tests.desk.at_desk import at_desk


async def test_an_answer_stays_behind_when_another_screen_is_turned_to(school: School) -> None:
    hanging.hang(school.file, school.hand(), person=MARA, clip=17)
    async with at_desk(school.file.path) as desk:
        assert "flipped" in await desk.say("17 flip")
        await desk.press("tab")
        assert desk.open == "boxes"
        assert desk.answer == ""
        assert "nothing is called" in await desk.say("zzz")
        assert await desk.say("board") == ""


async def test_an_answer_that_leads_to_a_screen_is_read_there(school: School) -> None:
    hanging.hang(school.file, school.hand(), person=MARA, clip=17)
    async with at_desk(school.file.path) as desk:
        assert "box" in await desk.say("17 box")
        await desk.say("archive")
        assert "Mara O." in await desk.say("17")
        assert desk.answer


async def test_a_name_that_ends_a_sentence_brings_no_second_stop(school: School) -> None:
    async with at_desk(school.file.path) as desk:
        desk.app.query_one(Answer).tell("Roster", "new here: Mara O., Olu A.. “undo” takes it back")
        await desk.pilot.pause()
        assert "New here: Mara O., Olu A. “undo” takes it back." in desk.screen


async def test_a_sentence_half_said_and_a_question_go_along(school: School) -> None:
    async with at_desk(school.file.path) as desk:
        assert "nobody's yet" in await desk.say("17")
        await desk.press("tab")
        assert "nobody's yet" in desk.answer
        await desk.press("escape")
        await desk.say("shelve 3")
        await desk.press("tab")
        assert "Type whose the first sleeve is" in desk.answer


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        ("no rod is free", "No rod is free"),
        ("26 is back", "26 is back"),
        ("sweep-slips-2026-11-17-1605.pdf: print it", "sweep-slips-2026-11-17-1605.pdf: print it"),
        ("darkroom.db: 6 rolls", "darkroom.db: 6 rolls"),
        ("found. That is all", "Found. That is all"),
        ("", ""),
    ],
)
def test_a_sentence_begins_large_and_a_file_keeps_its_name(words: str, sentence: str) -> None:
    assert capital(words) == sentence


async def test_a_print_and_a_backup_are_told_with_their_folder(
    school: School, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = school.file.path.parent
    monkeypatch.chdir(folder)
    async with at_desk(Path(school.file.path.name)) as desk:
        assert f"{folder}/{school.file.path.stem}-" in await desk.say("backup")
        monkeypatch.setattr(press, "is_demo", lambda _: True)
        assert press.print_folder(desk.app.session) == folder


async def test_a_roll_on_its_clip_is_called_by_that_also_when_it_is_found_again(
    school: School,
) -> None:
    hanging.hang(school.file, school.hand(), person=MARA, clip=17)
    async with at_desk(school.file.path) as desk:
        for word in ("missing", "found"):
            assert (await desk.say(f"17 {word}")).startswith("17 → Mara O.")


async def test_wet_film_that_turns_up_hangs_on_and_the_answer_says_how_to_say_otherwise(
    school: School,
) -> None:
    hanging.hang(school.file, school.hand(), person=MARA, clip=17, rod=1)
    async with at_desk(school.file.path) as desk:
        await desk.say("17 missing")
        told = await desk.say("found")
        assert "found, wet by the clock, so it hangs again on rod 1, position 1." in told
        assert "In its box? Type “17 box”. On another rod? “17 rod 2”" in told
        await desk.say("17 missing")
        await desk.say("17")
        await desk.press("enter")
        assert desk.rolls == {17: "rod 1, position 1"}, "Enter on its card says the same"
        await desk.say("undo")
        hanging.hang(school.file, school.hand(), person=OLU, clip=18, rod=1, position=1)
        assert "on rod 1, position 2, for rod 1, position 1 is taken" in await desk.say("17 found")


async def test_dry_film_that_turns_up_goes_to_its_box_and_the_answer_says_how_to_hang_it(
    school: School,
) -> None:
    roll = hanging.hang(school.file, school.hand(), person=MARA, clip=17, rod=1).roll
    drying.touch(school.file, school.hand(), roll.id, dry=True)
    async with at_desk(school.file.path) as desk:
        await desk.say("17 missing")
        told = await desk.say("17 found")
        assert "found, dry by the record, so it goes to box 1." in told
        assert "Is it still hanging? Type “17 rod 1”" in told


async def test_who_looks_for_a_roll_is_told_whether_it_is_dry(school: School) -> None:
    roll = hanging.hang(school.file, school.hand(), person=MARA, clip=17).roll
    for minutes, words in (
        (1, "Not dry until about 09:12. Wait, flip at 09:05"),
        (8, "Not dry until about 09:12. Flip it now, end for end"),
    ):
        async with at_desk(school.file.path, now=TUESDAY_9_00 + timedelta(minutes=minutes)) as desk:
            assert words in await desk.say("17")
            assert desk.shown.count("Not dry until about 09:12") == 2, "the card says it as well"
    school.wait(50)
    drying.touch(school.file, school.hand(), roll.id, dry=True)
    async with at_desk(school.file.path, now=school.now) as desk:
        assert "Dry by touch. To box 1, or with its owner" in await desk.say("17")


async def test_dry_by_the_clock_is_said_apart_from_dry_to_a_finger(school: School) -> None:
    hanging.hang(school.file, school.hand(), person=MARA, clip=17)
    school.wait(60 * 20)
    async with at_desk(school.file.path, now=school.now) as desk:
        assert "Dry by the clock. To box 1, or with its owner" in await desk.say("17")
        assert "Dry by the clock" in desk.screen
        await desk.say("17 dry")
        assert "Dry by touch. To box 1, or with its owner" in await desk.say("17")


async def test_a_low_card_says_whole_what_else_is_somebodys(school: School) -> None:
    for clip in (17, 18, 19):
        hanging.hang(school.file, school.hand(), person=MARA, clip=clip)
    async with at_desk(school.file.path, size=(80, 24)) as desk:
        await desk.say("17")
        await desk.wait(seconds=13)
        assert "Not dry until about" in desk.screen
        assert "Also clip 18 wet on rod 1, clip 19 wet on rod 1" in desk.screen


@pytest.mark.parametrize("by", ["teacher", "student"])
@pytest.mark.parametrize("line", ["free clips", "clips free", "which clips are free?"])
async def test_the_free_clips_are_said_as_ranges_at_every_desk(
    school: School, by: str, line: str
) -> None:
    clips.add(school.file, school.hand(), range(1, 11))
    clips.retire(school.file, school.hand(), 2)
    clips.lose(school.file, school.hand(), 9, lost_named("hook A"))
    hanging.hang(school.file, school.hand(), person=MARA, clip=5)
    if by == "student":
        locking.set_passphrase(school.file, "red lamp at noon", None, school.now)
    async with at_desk(school.file.path) as desk:
        assert desk.app.teacher is (by == "teacher")
        assert "Free clips. 1, 3-4, 6-8, 10" in await desk.say(line)


async def test_who_types_a_clip_that_is_in_use_is_told_the_lowest_free_ones(school: School) -> None:
    clips.add(school.file, school.hand(), range(1, 11))
    hanging.hang(school.file, school.hand(), person=MARA, clip=1)
    async with at_desk(school.file.path) as desk:
        assert "Or scan another clip. Free: 2, 3, 4" in await desk.say("load olu 1")
        assert desk.on(1).person == MARA


async def test_a_tacky_roll_is_answered_with_when_to_come_back(school: School) -> None:
    hanging.hang(school.file, school.hand(), person=MARA, clip=17)
    drying.turn_dial(school.file, school.hand(), 4)
    school.wait(6)
    async with at_desk(school.file.path, school.now) as here:
        first = await here.say("17 tacky")
        assert re.search(r"still tacky: flip it now, end for end, likely dry at 09:\d\d\. W", first)
        await here.say("17 flip")
        told = await here.say("17 tacky")
        when = re.search(r"still tacky: wait, likely dry at (09:\d\d)\. Wrong\? Type “undo”", told)
        assert when is not None
        assert when[1] in here.part(Card)


@pytest.mark.parametrize("size", [(80, 24), (120, 34)])
async def test_of_a_filed_roll_it_is_said_where_it_is_and_who_lends_it(
    school: School, size: tuple[int, int]
) -> None:
    roll = school.sleeved(MARA, 17)
    archiving.contact(school.file, school.hand(), roll)
    archiving.file_in_binder(school.file, school.hand(), [roll], 2)
    async with at_desk(school.file.path, school.now, size=size) as here:
        told = await here.say("mara okafor")
        wanted = "Nothing more to do. The teacher lends it to whoever wants it"
        assert f"binder 2. {wanted}" in told


async def test_a_headline_that_is_too_long_for_a_row_goes_on_in_the_next(school: School) -> None:
    for clip in (17, 18, 19, 20):
        hanging.hang(school.file, school.hand(), person=MARA, clip=clip)
    async with at_desk(school.file.path, size=(80, 24)) as desk:
        await desk.enter("mara")
        headline = desk.app.query_one(Answer).headline
        assert len(headline) > 76
        assert headline in desk.part(Answer)
        assert "…" not in desk.part(Answer)


@pytest.mark.parametrize(("words", "rows"), [("it is so", 3), ("it is so, or not, " * 20, 4)])
async def test_around_a_long_answer_no_rows_are_left_empty(
    school: School, words: str, rows: int
) -> None:
    async with at_desk(school.file.path) as desk:
        desk.app.telling.refuse(words.removesuffix(", "))
        await desk.wait(seconds=1)
        assert desk.app.query_one(Answer).outer_size.height == rows


async def test_film_that_a_finger_found_wet_turns_up_as_that(school: School) -> None:
    roll = hanging.hang(school.file, school.hand(), person=MARA, clip=17, rod=1).roll
    drying.touch(school.file, school.hand(), roll.id, dry=False)
    async with at_desk(school.file.path) as desk:
        await desk.say("17 missing")
        assert "found, not dry to a finger, so it hangs again" in await desk.say("17 found")


async def test_dry_behind_a_find_says_how_it_is_taken_along(school: School) -> None:
    hanging.hang(school.file, school.hand(), person=MARA, clip=17)
    async with at_desk(school.file.path) as desk:
        await desk.say("mara")
        assert "dry by touch. Taken along? Type “take”" in await desk.say("dry")
        await desk.say("take")
        assert str(desk.on(17).place) == "with its owner"


@pytest.mark.parametrize(("answer", "kind"), [("no", "rod"), ("yes", "box")])
async def test_a_plain_yes_or_no_answers_a_question_of_the_sweep(
    school: School, answer: str, kind: str
) -> None:
    hanging.hang(school.file, school.hand(), person=MARA, clip=17)
    async with at_desk(school.file.path) as desk:
        await desk.say("sweep")
        assert "sticks in its box" in await desk.say("box all")
        await desk.say(answer)
        assert desk.on(17).place.kind == kind


@pytest.mark.parametrize(("answer", "whose"), [("no", OLU), ("N", OLU), ("yes", MARA)])
async def test_a_plain_yes_or_no_answers_what_enter_would_do(
    school: School, answer: str, whose: int
) -> None:
    hanging.load(school.file, school.hand(), OLU, [17])
    async with at_desk(school.file.path) as desk:
        assert "Enter: clip 17 is Mara O.'s" in await desk.say("load mara 17")
        await desk.say(answer)
        assert desk.on(17).person == whose
