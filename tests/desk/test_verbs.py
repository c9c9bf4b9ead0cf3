"""Lines that begin with what to do, as the commands of the same name do it."""

from __future__ import annotations

from pathlib import Path

import pytest

from filmrack.acts import archiving, hanging
from filmrack.desk.clip_words import say_of_clip, says_of_clip
from filmrack.desk.verbs import ANSWER_TO_VERB_ALONE, looked_for
from filmrack.domain.refusal import Refused
from filmrack.store import people
from tests.conftest import MARA, OLU, School
from tests.desk.at_desk import at_desk
from tests.desk.bench import Bench, a, hung, loaded


@pytest.mark.parametrize("line", ["load mara 17", "load mara --clip 17", "load 17 mara okafor"])
def test_load_says_whose_roll_is_on_which_clip(bench: Bench, line: str) -> None:
    assert bench.say(line).headline == "17 → Mara O."
    assert (bench.on(17).person, bench.on(17).place.kind) == (MARA, "tank")


def test_load_takes_both_clips_of_a_double_reel_tank(bench: Bench) -> None:
    bench.say("load mara 17 18")
    assert [bench.on(clip).person for clip in (17, 18)] == [MARA, MARA]


@pytest.mark.parametrize("line", ["mara 17", "mara okafor 17", "mara clip 17"])
def test_a_name_may_stand_before_its_clip(bench: Bench, line: str) -> None:
    assert bench.say(line).headline == "17 → Mara O."
    assert bench.on(17).person == MARA


@pytest.mark.parametrize("line", ["17 hang rod 3", "17 hang on rod 3", "17 unknown rod 3"])
def test_words_that_only_lead_to_the_rod_are_passed_over(bench: Bench, line: str) -> None:
    bench.say(line)
    assert (bench.on(17).person, bench.on(17).place.number) == (None, 3)


def test_a_clip_of_nobody_known_waits_for_its_rod(bench: Bench) -> None:
    assert "its rod, if nobody knows" in bench.say("17 unknown").words
    assert "unknown roll, hung on rod 3" in bench.say("rod 3").words


@pytest.mark.parametrize("line", ["17 lost", "lost 17", "clip 17 lost"])
def test_lost_is_asked_back_whether_film_or_tag(bench: Bench, line: str) -> None:
    hung(bench, MARA, 17)
    assert says_of_clip(line)
    with pytest.raises(Refused, match="“17 missing” for the film, or “clip 17 tag A lost”"):
        say_of_clip(bench.session, line)


@pytest.mark.parametrize("line", ["where is mara", "where mara", "find mara"])
def test_where_looks_for_a_name(line: str) -> None:
    assert looked_for(line) == ("find", "mara")


@pytest.mark.parametrize("line", ["hang 17", "17 hang", "hang clip 17 b"])
def test_hang_hangs_a_loaded_roll_on_its_owners_rod(bench: Bench, line: str) -> None:
    loaded(bench)
    assert "hung on rod 1" in bench.say(line).words
    assert bench.on(17).place.number == 1


@pytest.mark.parametrize("line", ["hang 17 rod 3", "hang 17 --rod 3"])
def test_hang_takes_the_rod_that_is_named(bench: Bench, line: str) -> None:
    loaded(bench)
    bench.say(line)
    assert bench.on(17).place.number == 3


@pytest.mark.parametrize("line", ["hang mara 17", "hang 17 mara"])
def test_hang_with_a_name_loads_and_hangs(bench: Bench, line: str) -> None:
    bench.say(line)
    assert (bench.on(17).person, bench.on(17).place.kind) == (MARA, "rod")


@pytest.mark.parametrize(
    ("line", "act"),
    [
        ("flip 17", "flip"),
        ("flip rod 1", "flip"),
        ("touch 17 dry", "touch"),
        ("touch 17 tacky", "touch"),
        ("dry 17", "touch"),
        ("take 17", "take"),
        ("box clip 17", "box"),
        ("box rod 1", "box"),
        ("box 17", "box"),
        ("move 17 rod 2", "move"),
    ],
)
def test_a_verb_first_does_what_it_does_behind(bench: Bench, line: str, act: str) -> None:
    roll = hung(bench)
    before = bench.ledger
    assert bench.say(line).done
    assert [entry[:2] for entry in bench.ledger[len(before) :]] == [(act, roll.id)]


@pytest.mark.parametrize(
    ("felt", "answer"),
    [
        ("tacky", "still tacky"),
        ("still tacky", "still tacky"),
        ("wet", "still wet"),
        ("still wet", "still wet"),
        ("damp", "still wet"),
        ("not dry", "still wet"),
    ],
)
def test_what_a_finger_felt_is_kept_as_not_dry_and_answered_in_its_own_word(
    bench: Bench, felt: str, answer: str
) -> None:
    hung(bench)
    assert answer in bench.say(f"17 {felt}").words
    assert bench.on(17).checks[-1].dry is False
    bench.wait(60)
    bench.say("17 box")
    bench.wait(1)
    assert f"put back as {answer.removeprefix('still ')} on rod" in bench.say(f"17 {felt}").words


def test_hang_asks_before_film_hangs_again_that_was_in_its_box(bench: Bench) -> None:
    roll = hung(bench)
    bench.say("17 box")
    bench.wait(60)
    said = bench.say("hang 17")
    assert "clip 17 is noted on Mara O.'s roll" in said.words
    assert "Enter: that one hangs again" in said.words
    assert bench.on(17).place.kind == "box"
    assert bench.sentences.in_hand.does == "Mara O.'s roll hangs again"
    bench.enter()
    assert (bench.on(17).id, bench.on(17).place.kind) == (roll.id, "rod")


@pytest.mark.parametrize("line", ["17 take", "17 box"])
def test_wet_film_that_is_taken_down_is_said_to_be_so(bench: Bench, line: str) -> None:
    hung(bench)
    assert "wet by the clock: if it is tacky, type “17 tacky”" in bench.say(line).words


def test_film_that_a_finger_found_wet_is_not_said_to_be_wet_by_the_clock(bench: Bench) -> None:
    hung(bench)
    bench.say("17 wet")
    bench.wait(1)
    assert "in box 1, not dry to a finger at " in bench.say("17 box").words.casefold()


def test_a_roll_that_is_in_its_box_is_not_boxed_again(bench: Bench) -> None:
    hung(bench)
    bench.say("17 box")
    before = bench.ledger
    bench.wait(60)
    assert "in box 1 already" in bench.say("17 box").words
    assert bench.ledger == before


def test_a_second_flip_says_that_it_hangs_as_at_first(bench: Bench) -> None:
    hung(bench)
    bench.say("17 flip")
    bench.wait(60)
    assert "flipped, and hangs as at first again" in bench.say("17 flip").words


@pytest.mark.parametrize("line", ["flip rod 1", "rod 1 flip"])
def test_a_whole_sentence_is_about_nothing_that_was_in_hand(bench: Bench, line: str) -> None:
    hung(bench, MARA, 17)
    other = hung(bench, OLU, 18)
    bench.say("18")
    assert "1 flipped" in bench.say(line).words
    assert bench.on(18).place == other.place


def test_a_roll_with_its_owner_is_not_taken_again(bench: Bench) -> None:
    hung(bench)
    bench.say("17 take")
    before = bench.ledger
    bench.wait(60)
    assert "with its owner already" in bench.say("17 take").words
    assert bench.ledger == before


def test_hanging_says_when_to_flip(bench: Bench) -> None:
    loaded(bench)
    assert "hung on rod 1, position 1: wait, flip at 09:0" in bench.say(a(17)).words


@pytest.mark.parametrize("line", ["touch 17", "17 touch", "show 17", "find 17", "find clip 17"])
def test_a_verb_that_leaves_something_open_shows_the_roll(bench: Bench, line: str) -> None:
    roll = hung(bench)
    before = bench.ledger
    assert bench.say(line).select == roll.id
    assert bench.ledger == before


def test_a_box_that_is_there_is_never_taken_for_a_clip(bench: Bench) -> None:
    hung(bench, MARA, 2)
    before = bench.ledger
    said = bench.say("box 2")
    assert (said.headline, bench.ledger) == ("box 2", before)
    assert "To box what is on clip 2, type “2 box”" in said.words


def test_file_names_the_roll_and_then_its_binder(bench: Bench) -> None:
    roll = hung(bench)
    archiving.sleeve(bench.session.file, bench.session.hand(), roll.id)
    archiving.contact(bench.session.file, bench.session.hand(), roll.id)
    assert "filed in binder 3" in bench.say(f"file {roll.number} --binder 3").words


@pytest.mark.parametrize("verb", ANSWER_TO_VERB_ALONE)
def test_a_verb_alone_is_answered_with_what_to_type(bench: Bench, verb: str) -> None:
    with pytest.raises(Refused, match=f"^{verb} what"):
        bench.say(verb)


def test_somebody_who_is_called_as_a_verb_is_looked_for(bench: Bench) -> None:
    with bench.session.file.writing() as conn:
        people.add(conn, people.Person(9, "Hang", "Nguyen", None, "S-109"))
    for line in ("hang", "hang nguyen"):
        assert not bench.sentences.understands(line)


@pytest.mark.parametrize(
    ("line", "why"),
    [
        ("flip 17", "clip 17 is noted on no roll: .* as “17 juniper”"),
        ("load nobody 17", "nobody here is called"),
        ("rod 3 load", "load what"),
        ("hang 17 rod 99", "no rod 99"),
        ("flip https://example.org/17", "not one of our codes"),
    ],
)
def test_what_a_verb_cannot_mean_is_refused_and_changes_nothing(
    bench: Bench, line: str, why: str
) -> None:
    with pytest.raises(Refused, match=why):
        bench.say(line)
    assert bench.ledger == []


@pytest.mark.parametrize("answer", ["rod 3", "3"])
def test_hang_and_a_free_clip_asks_for_whose_it_is_and_takes_its_rod(
    bench: Bench, answer: str
) -> None:
    assert "Whose roll is on it?" in bench.say("hang 17").words
    assert bench.ledger == []
    assert "unknown roll, hung on rod 3" in bench.say(answer).words
    assert str(bench.on(17).place).startswith("rod 3")


@pytest.mark.parametrize("line", ["17", "hang 17"])
async def test_behind_a_free_clip_a_name_is_whose_roll_it_carries_and_selects_no_other(
    db: Path, school: School, line: str
) -> None:
    hanging.hang(school.file, school.hand(), person=MARA, clip=31)
    async with at_desk(db) as here:
        assert "Whose roll is on it?" in await here.say(line)
        assert "17 → Mara O." in await here.say("mara")
        assert (here.on(17).person, here.on(17).place.kind) == (MARA, "tank")


def test_a_bare_number_behind_a_free_clip_is_asked_about_where_it_may_be_a_rod(
    bench: Bench,
) -> None:
    bench.say("17")
    assert bench.say("3").headline == "Rod 3 or clip 3?"
    assert bench.ledger == []
    assert "unknown roll, hung on rod 3" in bench.say("rod 3").words
    assert bench.on(17).place.number == 3
    bench.say("18", "3")
    assert "nothing was done to clip 18. Now clip 3" in bench.say("clip 3").words


@pytest.mark.parametrize("line", ["18 mara", "load mara 18"])
def test_anothers_clip_in_one_line_is_given_away_only_when_enter_says_so(
    bench: Bench, line: str
) -> None:
    theirs = hung(bench, OLU, 18)
    said = bench.say(line)
    assert "Enter: clip 18 is Mara O.'s, and Olu A.'s roll is marked missing" in said.words
    assert bench.on(18).person == OLU
    bench.enter()
    assert bench.on(18).person == MARA
    assert bench.on(18).id != theirs.id


@pytest.mark.parametrize("lines", [["18 mara", "rod 2"], ["18 mara rod 2"], ["18 mara", "box 1"]])
def test_before_it_is_said_whose_a_clip_is_nothing_else_is_done_to_it(
    bench: Bench, lines: list[str]
) -> None:
    hung(bench, OLU, 18)
    before = bench.ledger
    with pytest.raises(Refused, match="first say whose clip 18 is"):
        bench.say(*lines)
    assert bench.ledger == before


@pytest.mark.parametrize("line", ["take 17 18", "17 18 take", "flip 17 18"])
def test_a_verb_for_several_rolls_at_once_is_refused_and_does_nothing(
    bench: Bench, line: str
) -> None:
    bench.say("load mara 17 18")
    bench.say("17 hang")
    bench.say("18 hang")
    with pytest.raises(Refused, match="one roll at a time, not for clip 17 and clip 18"):
        bench.say(line)
    assert [bench.on(clip).place.kind for clip in (17, 18)] == ["rod", "rod"]


@pytest.mark.parametrize("line", ["load 18", "18 load", "load clip 18"])
@pytest.mark.parametrize("taken_down", ["18 take", "18 box", "18 missing", ""])
def test_load_of_a_clip_that_has_a_roll_asks_whose_the_new_one_is(
    bench: Bench, line: str, taken_down: str
) -> None:
    former = hung(bench, OLU, 18)
    if taken_down:
        bench.say(taken_down)
    before = bench.ledger
    said = bench.say(line)
    assert said.headline == "Whose new roll is on clip 18?"
    goes = {
        "18 take": "stays with its owner, without a clip",
        "18 missing": "stays missing, without a clip",
    }.get(taken_down, "is marked missing")
    assert f"clip {former.clip} is noted on Olu A.'s roll {former.number}" in said.words
    assert f"which then {goes}" in said.words
    assert bench.sentences.in_hand.wants_person
    assert bench.ledger == before
    assert goes in bench.say("person 1").words
    assert (bench.on(18).person, bench.on(18).place.kind) == (MARA, "tank")
    assert bench.on(18).id != former.id


@pytest.mark.parametrize("then", ["", "rod 3", "take", "box 1", "flip"])
def test_before_it_is_said_whose_the_new_roll_is_nothing_is_done_to_the_former(
    bench: Bench, then: str
) -> None:
    hung(bench, OLU, 18)
    bench.say("18 box")
    before = bench.ledger
    bench.say("load 18")
    with pytest.raises(Refused, match="say whose new roll is on clip 18"):
        bench.say(then) if then else bench.enter()
    assert bench.ledger == before


def test_load_of_a_clip_that_is_loaded_loads_no_second_roll_of_the_same_person(
    bench: Bench,
) -> None:
    loaded(bench, MARA, 17)
    assert "in the tank. Enter: hung on rod 1" in bench.say("load 17", "person 1").all_words()
    assert bench.count == 1


@pytest.mark.parametrize("line", ["load olu 18", "person 2 18"])
def test_a_new_roll_on_the_clip_of_ones_own_former_one_is_asked_about(
    bench: Bench, line: str
) -> None:
    former = hung(bench, OLU, 18)
    bench.say("18 box")
    bench.wait(60)
    said = bench.say(line)
    assert "Enter: clip 18 is a new roll of Olu A.'s, and that one is marked missing" in said.words
    bench.enter()
    assert (bench.on(18).person, bench.on(18).id != former.id) == (OLU, True)


def test_a_name_behind_the_question_whether_film_hangs_again_is_whose_new_roll_it_is(
    bench: Bench,
) -> None:
    hung(bench, OLU, 18)
    bench.say("18 box")
    said = bench.say("hang 18", "person 1")
    assert "Enter: clip 18 is Mara O.'s, and Olu A.'s roll is marked missing" in said.words
    bench.enter()
    assert bench.on(18).person == MARA


@pytest.mark.parametrize("line", ["move it to rod 2", "moved to rod 2", "it hangs on rod 2"])
async def test_a_roll_that_is_seen_is_moved_by_its_new_rod(school: School, line: str) -> None:
    hanging.hang(school.file, school.hand(), person=MARA, clip=17, rod=1)
    async with at_desk(school.file.path) as desk:
        await desk.say("17")
        await desk.say(line)
        assert desk.on(17).place.number == 2


@pytest.mark.parametrize("line", ["still tacky", "it's wet", "not dry"])
async def test_a_finger_says_more_than_one_word_of_the_roll_that_is_seen(
    school: School, line: str
) -> None:
    hanging.hang(school.file, school.hand(), person=MARA, clip=17)
    async with at_desk(school.file.path) as desk:
        await desk.say("17")
        await desk.say(line)
        assert [check.dry for check in desk.on(17).checks] == [False]


async def test_a_claim_of_the_clip_that_was_to_be_loaded_leaves_no_load_behind(
    school: School,
) -> None:
    hanging.hang(school.file, school.hand(), person=OLU, clip=17)
    async with at_desk(school.file.path) as desk:
        assert "“17 claim mara”" in await desk.say("load mara 17")
        assert "not loaded" not in await desk.say("17 claim mara")
        assert desk.on(17).person == MARA
