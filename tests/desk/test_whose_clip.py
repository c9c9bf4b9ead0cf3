"""Whose roll a clip carries: loading, claiming, and whom a sentence must never mean."""

from __future__ import annotations

import pytest

from filmrack.domain.codes import person_code
from filmrack.domain.names import Person
from filmrack.domain.refusal import Refused
from filmrack.store import clips, people
from tests.conftest import IVO, MARA, OLU
from tests.desk.bench import TAKE, Bench, a, b, hung, loaded


@pytest.mark.parametrize(
    "lines",
    [[person_code(MARA), a(17)], [a(17), person_code(MARA)], ["17 mar"], ["17 mara okafor"]],
)
def test_a_clip_is_loaded_for_who_is_named(bench: Bench, lines: list[str]) -> None:
    said = bench.say(*lines)
    assert said.headline == "17 → Mara O."
    assert (bench.on(17).person, bench.on(17).place.kind) == (MARA, "tank")
    assert bench.count == 1


def test_two_rolls_of_a_double_reel_tank_are_one_person_and_two_clips(bench: Bench) -> None:
    bench.say(person_code(MARA), a(17), a(18))
    assert [bench.on(clip).person for clip in (17, 18)] == [MARA, MARA]


def test_the_rod_that_is_promised_at_loading_is_the_one_it_gets(bench: Bench) -> None:
    for clip in range(21, 24):
        bench.say(f"{clip} rod 1")
    said = bench.say("17 mar")
    bench.wait(60)
    bench.say(a(17))
    assert bench.on(17).place.number != 1
    assert f"rod {bench.on(17).place.number} (rod 1 is full);" in said.words


def test_hanging_says_that_its_own_rod_is_full_where_another_one_was_chosen(bench: Bench) -> None:
    for clip in range(21, 24):
        bench.say(f"{clip} rod 1")
    assert ". Rod 1 is full." in bench.say("hang mar 17").words
    bench.wait(60)
    assert "is full" not in bench.say("18 olu rod 2").words


def test_a_wrong_name_is_put_right_by_a_claim_and_costs_no_film(bench: Bench) -> None:
    hung(bench, OLU, 17)
    assert "Is that very roll Mara O.'s? “17 claim mara”" in bench.say("mar 17").words
    bench.say("undo")
    bench.wait(60)
    bench.say("17 take")
    bench.wait(60)
    assert "that very roll" not in bench.say("mar 17").words


def test_one_line_that_loads_two_clips_names_them_both(bench: Bench) -> None:
    assert bench.say("load mar 17 18").headline == "17, 18 → Mara O."
    assert [bench.on(clip).person for clip in (17, 18)] == [MARA, MARA]


def test_two_clips_are_not_hung_in_one_line_so_none_is_loaded_either(bench: Bench) -> None:
    with pytest.raises(Refused, match="one roll at a time, not for clip 17 and clip 18"):
        bench.say("hang mar 17 18")
    assert bench.count == 0


def test_a_clip_of_somebody_else_that_is_to_hang_is_asked_about_first(bench: Bench) -> None:
    hung(bench, OLU, 17)
    bench.say("17 take")
    bench.wait(60)
    assert "Enter: clip 17 is Mara O.'s" in bench.say("hang mar 17").words
    bench.enter()
    assert (bench.on(17).person, bench.on(17).place.kind) == (MARA, "tank")


def test_saying_again_whose_a_clip_is_loads_no_second_roll(bench: Bench) -> None:
    bench.say("17 mar")
    bench.wait(60)
    bench.say("17 mar")
    hung(bench, OLU, 18)
    bench.say(person_code(OLU), a(18))
    assert bench.count == 2


def test_the_other_tag_of_a_pair_just_loaded_hangs_nothing(bench: Bench) -> None:
    said = bench.say(person_code(MARA), a(17), b(17))
    assert "loaded already" in said.words
    assert bench.on(17).place.kind == "tank"
    assert bench.count == 1


def test_a_clip_typed_that_was_never_used_is_called_new_for_a_finger_slips(bench: Bench) -> None:
    assert "Clip 99 is new here: if that is wrong, type “undo”" in bench.say("load mara 99").words
    bench.say("undo")
    assert "is new here" in bench.say("98 rod 2").words


def test_a_clip_whose_tag_was_scanned_is_no_slip(bench: Bench) -> None:
    assert "new here" not in bench.say(person_code(MARA), a(17)).words


def test_a_person_chosen_from_the_list_is_as_good_as_scanned(bench: Bench) -> None:
    bench.say("17")
    assert bench.sentences.in_hand.wants_person
    bench.sentences.person(people.read_people(bench.session.file.conn, [IVO])[IVO])
    assert bench.on(17).person == IVO


def test_a_typed_name_that_two_people_have_names_both_and_loads_nothing(bench: Bench) -> None:
    with bench.session.file.writing() as conn:
        people.add(conn, Person(4, "Mara", "Okafor", None, "S-104"))
    with pytest.raises(Refused, match=r"person 1.*person 4"):
        bench.say("17 mara okafor")
    assert bench.count == 0
    bench.say("17 person 4")
    assert bench.on(17).person == 4


@pytest.mark.parametrize("lines", [[a(17), person_code(OLU)], ["17 olu"]])
def test_an_unknown_roll_is_claimed_by_its_owner(bench: Bench, lines: list[str]) -> None:
    bench.say("17 rod 3")
    bench.wait(60)
    bench.say(*lines)
    assert bench.on(17).person == OLU
    assert bench.count == 1


def test_an_unknown_roll_that_hangs_is_somebodys_by_the_name_typed_next(bench: Bench) -> None:
    said = bench.say("17 rod 2")
    assert "unknown roll, hung on rod 2, position 1" in said.words
    assert "Whose? Type a name" in said.words
    bench.sentences.person(Person(IVO, "Ivo", "Lindqvist"))
    assert (bench.on(17).person, str(bench.on(17).place)) == (IVO, "rod 2, position 1")


def test_who_scans_next_never_gets_the_clip_that_the_one_before_looked_at(bench: Bench) -> None:
    hung(bench, MARA, 17)
    said = bench.say(a(17), person_code(OLU))
    assert said.headline == "New roll for Olu A."
    assert said.words == "scan or type its clip. clip 17 stays as it was"
    assert bench.on(17).person == MARA
    assert bench.count == 1


def test_who_hangs_behind_someone_who_loads_hangs_their_own_roll(bench: Bench) -> None:
    loaded(bench, OLU, 18)
    said = bench.say(person_code(MARA), a(17), a(18))
    assert said.headline == "18 → Olu A."
    assert (bench.on(18).person, bench.on(18).place.kind) == (OLU, "rod")
    assert bench.on(17).place.kind == "tank"


def test_anothers_clip_is_given_away_only_when_enter_says_so(bench: Bench) -> None:
    theirs = hung(bench, OLU, 18)
    said = bench.say(person_code(MARA), a(18))
    assert said.headline == "clip 18?"
    assert "Enter: clip 18 is Mara O.'s, and Olu A.'s roll is marked missing" in said.words
    assert bench.on(18).person == OLU
    with pytest.raises(Refused, match="take what"):
        bench.say(TAKE)
    bench.say(person_code(MARA), a(18))
    answer = bench.enter()
    assert answer is not None
    assert f"{theirs.number}, which had that clip, is marked missing" in answer.words
    assert bench.on(18).person == MARA


def test_a_roll_that_its_owner_took_stays_with_them_when_its_clip_is_anothers(bench: Bench) -> None:
    theirs = hung(bench, OLU, 18)
    bench.say("18 take")
    said = bench.say(person_code(MARA), a(18))
    assert "Olu A.'s roll stays with its owner, without a clip" in said.words
    answer = bench.enter()
    assert answer is not None
    told = f"{theirs.number}, which had that clip, stays with its owner, without a clip"
    assert told in answer.words


def test_anothers_clip_scanned_once_more_is_theirs(bench: Bench) -> None:
    loaded(bench, OLU, 18)
    bench.say(person_code(MARA), a(18), a(18))
    assert (bench.on(18).person, bench.on(18).place.kind) == (OLU, "rod")


@pytest.fixture
def sixty_clips(bench: Bench) -> Bench:
    """A room whose clips 1 to 60 have their tags."""
    with bench.session.file.writing() as conn:
        clips.know_clips(conn, range(1, 61))
    return bench


@pytest.mark.parametrize("lines", [("load mara 661",), ("661 mara",), (person_code(MARA), "661")])
def test_a_clip_far_beyond_all_others_is_asked_about_once_for_a_digit_slips(
    sixty_clips: Bench, lines: tuple[str, ...]
) -> None:
    bench, before = sixty_clips, sixty_clips.count
    said = bench.say(*lines)
    assert said.headline == "Is there a clip 661?"
    assert "nothing is loaded yet, for the highest clip so far is 60" in said.words
    assert bench.count == before
    loaded_now = bench.enter()
    assert loaded_now is not None
    assert loaded_now.headline == "661 → Mara O."
    assert "loaded" in bench.say("load olu 662").words


def test_the_right_number_typed_then_is_loaded_and_the_slip_is_not(sixty_clips: Bench) -> None:
    sixty_clips.say("load mara 661")
    assert sixty_clips.say("61").headline == "61 → Mara O."
    assert sixty_clips.count == 1
    with pytest.raises(AssertionError):
        sixty_clips.on(661)


def test_the_next_clips_of_a_room_and_scanned_tags_are_not_asked_about(
    sixty_clips: Bench,
) -> None:
    assert "Clip 61 is new here" in sixty_clips.say("load mara 61").words
    assert sixty_clips.say(person_code(OLU), a(661)).headline == "661 → Olu A."


def test_in_a_new_room_every_clip_is_new(bench: Bench) -> None:
    bench.say("load mara 3")
    assert bench.say("load olu 61").headline == "61 → Olu A."
