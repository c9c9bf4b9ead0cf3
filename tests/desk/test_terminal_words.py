"""The README's commands as they are typed at the desk: done, or answered with what to type."""

from __future__ import annotations

from pathlib import Path

import pytest

from filmrack.acts import drying, fetching, hanging, lending
from filmrack.cli.app import COMMANDS
from filmrack.desk.terminal_words import why_not_here
from tests.conftest import MARA, OLU, School
from tests.desk.archive.sleeves import archive, in_last_term
from tests.desk.at_desk import at_desk


@pytest.mark.parametrize("name", COMMANDS)
async def test_every_command_typed_with_its_program_is_done_or_answered(
    db: Path, name: str
) -> None:
    async with at_desk(db) as here:
        assert "nothing is called" not in await here.say(f"filmrack {name} 0001")
        assert here.acts == []


@pytest.mark.parametrize("line", ["filmrack load mara --clip 17", "load mara --clip 17"])
async def test_a_command_does_the_same_with_and_without_the_program(db: Path, line: str) -> None:
    async with at_desk(db) as here:
        assert (await here.say(line)).startswith("17 → Mara O.")
        assert "hung on rod 1" in await here.say("filmrack hang 17")
        assert "flipped" in await here.say("FILMRACK flip 17")


async def test_what_is_typed_behind_the_program_is_looked_for_as_it_is_typed(
    school: School,
) -> None:
    hanging.hang(school.file, school.hand(), person=MARA, clip=17)
    async with at_desk(school.file.path) as here:
        await here.type("filmrack find mar")
        assert "Mara O." in next(row for row in here.rows() if "▸" in row)


async def test_the_program_in_an_answer_stays_what_it_is(school: School) -> None:
    hanging.hang(school.file, school.hand(), person=MARA, clip=17)
    async with at_desk(school.file.path) as here:
        await here.say("17 touch")
        assert "“filmrack dry” is neither dry nor tacky" in await here.say("filmrack dry")


@pytest.mark.parametrize(
    ("line", "chosen"),
    [
        ("labels clips 1-60", "clips 1-60"),
        ("labels sleeves", "sleeves"),
        ("label 0001", "sleeves 0001"),
        ("0001 labels", "sleeves 0001"),
        ("labels guide-student", "guide-student"),
    ],
)
async def test_labels_with_what_to_print_is_chosen_on_the_screen_labels(
    school: School, line: str, chosen: str
) -> None:
    school.sleeved(MARA, 17)
    async with at_desk(school.file.path) as here:
        await here.say(line)
        assert here.open == "labels"
        assert chosen in here.screen


async def test_a_roster_is_read_by_its_path(db: Path, tmp_path: Path) -> None:
    listed = tmp_path / "students.csv"
    listed.write_text("given,family,period\nAda,Wu,1\n", encoding="utf-8")
    async with at_desk(db) as here:
        assert "there is no file “nobody.csv”" in await here.say("roster nobody.csv")
        assert "Is it read rightly" in await here.say(f"filmrack roster {listed}")
        assert "1 added" in await here.say("yes")


@pytest.mark.parametrize(
    ("line", "then"),
    [
        ("sweep --count 3=6", "here type “sweep”, then count"),
        ("room export room.toml", "type it there, or “room” here"),
        ("labels sleeves --from 5", "one after the other"),
        ("filmrack", "this is the desk of filmrack already"),
        ("mara", ""),
    ],
)
def test_what_is_the_terminals_alone_is_answered_with_what_to_type(line: str, then: str) -> None:
    assert then in why_not_here(line)


@pytest.mark.parametrize("line", ["mara contact", "contact mara", "contact sheet mara"])
async def test_a_step_and_a_name_hold_the_roll_whose_next_step_it_is(
    school: School, line: str
) -> None:
    roll = school.sleeved(MARA, 17)
    hanging.hang(school.file, school.hand(), person=MARA, clip=18)
    for screen in ("dryer", "archive"):
        async with at_desk(school.file.path) as here:
            await here.say(screen)
            said = await here.say(line)
            assert school.roll(roll).number in said
            assert "Enter: contact sheet made" in said
            assert here.app.view.selected == roll
            assert "contact" not in here.acts
    async with at_desk(school.file.path) as here:
        await here.say(line)
        await here.press("enter")
    assert len(school.roll(roll).sheets) == 1


async def test_a_step_that_is_not_next_is_said_to_be_so_and_enter_rests(school: School) -> None:
    hanging.hang(school.file, school.hand(), person=MARA, clip=18)
    async with at_desk(school.file.path) as here:
        assert "“contact” is not its next step" in await here.say("mara contact")
        assert "To cut it all the same type “18 cut”" in await here.say("mara cut")
        assert "enter" not in here.rows()[-1]


async def test_a_verb_that_fits_several_rolls_of_a_name_asks_which(school: School) -> None:
    some = [school.sleeved(MARA, clip) for clip in (17, 18)]
    async with at_desk(school.file.path) as here:
        assert "contact which of these?" in await here.say("mara contact")
        assert "Contact which of these? Choose with the arrows." in here.screen
        await here.press("down", "enter")
        assert here.app.view.selected in some
        await here.press("enter")
        assert here.acts.count("contact") == 1


@pytest.mark.parametrize("line", ["cut 17", "sleeve 17"])
@pytest.mark.parametrize("screen", ["boxes", "archive"])
async def test_cut_and_a_clip_that_may_be_frames_holds_the_roll_on_it_and_cuts_no_other(
    school: School, line: str, screen: str
) -> None:
    for clip, person in ((17, MARA), (18, OLU)):
        roll = hanging.hang(school.file, school.hand(), person=person, clip=clip).roll.id
        drying.touch(school.file, school.hand(), roll, dry=True)
        fetching.box(school.file, school.hand(), [roll])
    async with at_desk(school.file.path) as here:
        await here.say(screen)
        said = await here.say(line)
        assert "17 → Mara O." in said
        assert "Enter: it is cut and sleeved" in said
        assert "If you mean 17 frames of 1" in said
        assert "sleeve" not in here.acts
        await here.press("enter")
        assert here.rolls.keys() == {18}


@pytest.mark.parametrize(
    ("line", "screen", "clip"),
    [
        ("sleeve 41", "boxes", 41),  # no 135-36 has 41 frames
        ("cut 41", "archive", 41),
        ("sleeve 12", "dryer", 12),  # no roll is on its card
        ("sleeve clip 12", "boxes", 12),
        ("sleeve 12 36", "boxes", 12),
    ],
)
async def test_a_clip_behind_cut_that_can_be_no_frames_is_cut_as_with_the_clip_before_it(
    school: School, line: str, screen: str, clip: int
) -> None:
    for each, person in ((8, OLU), (clip, MARA)):
        school.boxed(person, each)
    async with at_desk(school.file.path) as here:
        await here.say(screen)
        assert "Mara O" in await here.say(line)
        assert here.acts.count("sleeve") == 1
        assert here.rolls.keys() == {8}


async def test_wet_film_named_behind_cut_is_asked_about_as_with_its_clip_before_it(
    school: School,
) -> None:
    hanging.hang(school.file, school.hand(), person=MARA, clip=41)
    async with at_desk(school.file.path) as here:
        for line in ("41 sleeve", "sleeve 41"):
            assert "wet by the clock" in await here.say(line)
            assert "sleeve" not in here.acts
            await here.press("escape")


async def test_a_clip_before_find_is_shown(school: School) -> None:
    hanging.hang(school.file, school.hand(), person=MARA, clip=17)
    async with at_desk(school.file.path) as here:
        assert "17 → Mara O.. rod 1" in await here.say("17 find")
        assert "17 → Mara O.. rod 1" in await here.say("mara find")


async def test_hang_of_what_hangs_already_says_so_and_enter_rests(school: School) -> None:
    roll = hanging.hang(school.file, school.hand(), person=MARA, clip=17).roll.id
    drying.touch(school.file, school.hand(), roll, dry=True)
    async with at_desk(school.file.path) as here:
        assert "rod 1, position 1, hangs already" in await here.say("mara hang")
        await here.press("enter")
        assert "box" not in here.acts


@pytest.mark.parametrize("line", ["filmrack hand-back 0001", "0001 hand-back", "0001 hand back"])
async def test_a_roll_is_handed_back_however_the_word_is_written(school: School, line: str) -> None:
    roll = school.sleeved(MARA, 17)
    async with at_desk(school.file.path) as here:
        assert "handed back to its owner" in await here.say(line)
    assert school.roll(roll).place.kind == "handed_back"


@pytest.mark.parametrize("line", ["my rolls", "mine", "my film", "Where is my roll?", "my clip"])
async def test_who_asks_for_their_own_is_told_to_say_who_they_are(db: Path, line: str) -> None:
    async with at_desk(db) as here:
        await here.type(line.replace("?", ""))
        assert "type yours" in here.screen
        await here.press("escape")
        told = await here.say(line)
        assert "type yours" in told
        assert "scan your clip" in told
        assert "fewer letters" not in told


@pytest.mark.parametrize("line", ["novak", "Ms Novak", "what does ms novak have"])
async def test_a_guest_whose_loan_has_ended_has_nothing_on_loan(school: School, line: str) -> None:
    roll = school.sleeved(MARA, 17)
    lending.lend(school.file, school.hand(), roll, "4 dec", to="Ms Novak")
    async with at_desk(school.file.path) as here:
        assert "due Fri 4 Dec" in await here.say(line)
        lending.back(school.file, school.hand(), [roll])
        said = await here.say(line)
        assert (
            said == ". Ms Novak has nothing on loan now: “borrowed” shows what is lent, and to whom"
        )


async def test_of_two_words_that_nobody_is_called_the_first_one_says_whom_it_fits(
    school: School,
) -> None:
    async with at_desk(school.file.path) as here:
        said = await here.say("olu q")
        assert (
            said
            == ". nothing is called “olu q”, but “olu” fits Olu A.: type that alone, or scan it"
        )
        assert "but" not in await here.say("qqq olu")
        assert here.acts == []


@pytest.mark.parametrize("typed", ["26S olu", "find 26s adeyemy"])
async def test_whoever_has_no_roll_of_the_term_that_is_typed_is_named(
    school: School, typed: str
) -> None:
    in_last_term(school, "Mara Okafor")
    async with archive(school.file.path) as desk:
        await desk.enter(typed)
        assert "Olu Adeyemi has no roll of term 26S: type “" in desk.answer
