"""Each row of what the line means, scanned and typed; and whom a sentence must never mean."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta
from pathlib import Path

import pytest

from filmrack.desk.said import Said
from filmrack.desk.sentences import Sentences
from filmrack.desk.session import Session
from filmrack.domain.codes import (
    action_code,
    binder_code,
    box_code,
    clip_code,
    person_code,
    rod_code,
)
from filmrack.domain.names import Person
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.store import people, rolls
from tests.conftest import IVO, MARA, OLU, TUESDAY_9_00


class Bench:
    """A desk's sentences on the small school's file, and its clock."""

    def __init__(self, path: Path) -> None:
        self.now = TUESDAY_9_00
        self.session = Session(path, lambda: self.now)
        self.sentences = Sentences(self.session)

    def say(self, *lines: str, apart: float = 1.0) -> Said:
        """Scan or type lines so many seconds apart; return the last answer."""
        for line in lines:
            said = self.sentences.say(line)
            self.wait(apart)
        return said

    def enter(self) -> Said | None:
        return self.sentences.enter()

    def wait(self, seconds: float) -> None:
        self.now += timedelta(seconds=seconds)

    def on(self, clip: int) -> Roll:
        roll = rolls.on_clip(self.session.file.conn, clip)
        assert roll is not None
        return roll

    @property
    def count(self) -> int:
        found: int = self.session.file.conn.execute("SELECT count(*) FROM rolls").fetchone()[0]
        return found

    @property
    def ledger(self) -> list[tuple[object, ...]]:
        sql = "SELECT act, roll, undoes FROM ledger ORDER BY id"
        return [tuple(row) for row in self.session.file.conn.execute(sql).fetchall()]


@pytest.fixture
def bench(db: Path) -> Iterator[Bench]:
    bench = Bench(db)
    yield bench
    bench.session.close()


def a(clip: int) -> str:
    return clip_code(clip, "A")


def b(clip: int) -> str:
    return clip_code(clip, "B")


FLIP, DRY, TACKY, TAKE, BOX, UNDO = (
    action_code(word) for word in ("FLIP", "DRY", "TACKY", "TAKE", "BOX", "UNDO")
)


def loaded(bench: Bench, person: int = MARA, clip: int = 17) -> Roll:
    bench.say(person_code(person), a(clip))
    bench.wait(60)
    return bench.on(clip)


def hung(bench: Bench, person: int = MARA, clip: int = 17) -> Roll:
    loaded(bench, person, clip)
    bench.say(a(clip))
    bench.wait(60)
    return bench.on(clip)


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


@pytest.mark.parametrize("clip", ["17", "clip 17", "clip 17 b"])
def test_a_loaded_clip_that_is_typed_is_shown_and_nothing_is_done(bench: Bench, clip: str) -> None:
    loaded(bench)
    said = bench.say(clip)
    assert "in the tank. Enter: hung on rod 1" in said.words
    assert (bench.on(17).place.kind, bench.sentences.in_hand.roll) == ("tank", bench.on(17).id)


@pytest.mark.parametrize("clip", [a(17), b(17)])
def test_a_loaded_clip_hangs_by_one_scan_on_its_owners_rod(bench: Bench, clip: str) -> None:
    loaded(bench)
    said = bench.say(clip)
    assert "hung on rod 1" in said.words
    assert "Turn the dial" in said.words
    assert bench.on(17).place.number == 1


@pytest.mark.parametrize("lines", [[a(17), rod_code(3)], ["17 rod 3"]])
def test_a_loaded_clip_hangs_on_the_rod_that_is_named(bench: Bench, lines: list[str]) -> None:
    loaded(bench)
    bench.say(*lines)
    assert bench.on(17).place.number == 3


def test_person_clip_and_rod_load_and_hang_in_one_go(bench: Bench) -> None:
    bench.say(person_code(MARA), a(17), rod_code(3))
    assert (bench.on(17).person, bench.on(17).place.number) == (MARA, 3)
    bench.wait(60)
    bench.say("18 olu rod 2")
    assert (bench.on(18).person, bench.on(18).place.number) == (OLU, 2)


@pytest.mark.parametrize("lines", [[a(17), rod_code(2)], ["17 rod 2"]])
def test_a_hanging_roll_is_moved_to_the_rod_that_is_named(bench: Bench, lines: list[str]) -> None:
    hung(bench)
    bench.say(*lines)
    assert bench.on(17).place.number == 2
    assert bench.count == 1


@pytest.mark.parametrize("lines", [[a(17), rod_code(3)], ["17 rod 3"]])
def test_a_clip_that_is_nobodys_and_a_rod_are_an_unknown_roll(
    bench: Bench, lines: list[str]
) -> None:
    bench.say(*lines)
    assert bench.on(17).person is None
    assert bench.on(17).place.number == 3


@pytest.mark.parametrize("lines", [[a(17), person_code(OLU)], ["17 olu"]])
def test_an_unknown_roll_is_claimed_by_its_owner(bench: Bench, lines: list[str]) -> None:
    bench.say("17 rod 3")
    bench.wait(60)
    bench.say(*lines)
    assert bench.on(17).person == OLU
    assert bench.count == 1


@pytest.mark.parametrize(
    ("lines", "act"),
    [
        ([a(17), FLIP], "flip"),
        (["17 flip"], "flip"),
        ([a(17), DRY], "touch"),
        (["17 dry"], "touch"),
        ([b(17), TACKY], "touch"),
        (["17 tacky"], "touch"),
        ([a(17), TAKE], "take"),
        (["17 take"], "take"),
        ([a(17), BOX], "box"),
        (["17 box"], "box"),
        ([a(17), box_code(1)], "box"),
        ([box_code(1), a(17)], "box"),
        (["17 box 1"], "box"),
    ],
)
def test_a_clip_and_a_word_do_that_to_its_roll_once(
    bench: Bench, lines: list[str], act: str
) -> None:
    roll = hung(bench)
    before = bench.ledger
    said = bench.say(*lines)
    assert said.done
    assert "17 → Mara O." in said.headline
    assert [entry[:2] for entry in bench.ledger[len(before) :]] == [(act, roll.id)]


@pytest.mark.parametrize("lines", [[a(17), TACKY], ["17 tacky"]])
def test_a_roll_that_was_taken_down_too_early_is_put_back_as_tacky(
    bench: Bench, lines: list[str]
) -> None:
    hung(bench)
    bench.say("17 take")
    bench.wait(60)
    bench.say(*lines)
    assert bench.on(17).place.number == 1


@pytest.mark.parametrize("lines", [[a(17), UNDO], ["17 undo"], ["undo"], [UNDO]])
def test_the_last_act_is_taken_back(bench: Bench, lines: list[str]) -> None:
    hung(bench)
    bench.say("17 take")
    bench.wait(60)
    assert "taken back" in bench.say(*lines).words
    assert bench.on(17).place.kind == "rod"


@pytest.mark.parametrize("lines", [[rod_code(1), FLIP], ["rod 1 flip"]])
def test_a_whole_rod_is_flipped(bench: Bench, lines: list[str]) -> None:
    hung(bench, MARA, 17)
    hung(bench, MARA, 18)
    assert "2 flipped" in bench.say(*lines).words


def test_a_rod_says_what_it_leaves_unflipped(bench: Bench) -> None:
    hung(bench, MARA, 17)
    bench.wait(400 * 60)
    hung(bench, MARA, 18)
    said = bench.say("rod 1 flip")
    assert said.words.startswith("1 flipped, clip 18, before time. Not flipped: clip 17")
    assert not bench.on(17).flipped


@pytest.mark.parametrize("lines", [[rod_code(1), BOX], ["rod 1 box"]])
def test_a_whole_rod_is_boxed(bench: Bench, lines: list[str]) -> None:
    hung(bench, MARA, 17)
    hung(bench, MARA, 18)
    bench.say(*lines)
    assert {bench.on(clip).place.kind for clip in (17, 18)} == {"box"}


@pytest.mark.parametrize(
    ("lines", "hours"),
    [(["fan"], 1), ([action_code("FAN")], 1), (["fan off"], 0), ([action_code("FANOFF")], 0)],
)
def test_the_dial_is_logged(bench: Bench, lines: list[str], hours: float) -> None:
    bench.say(*lines)
    row = bench.session.file.conn.execute("SELECT detail FROM ledger WHERE act = 'fan'").fetchone()
    assert f'"hours":{hours}' in row[0].replace(" ", "").replace(".0", "")


def test_a_stack_of_sleeves_is_filed_by_scanning_the_binder_once(bench: Bench) -> None:
    from filmrack.acts import archiving

    first, second = hung(bench, MARA, 17), hung(bench, OLU, 18)
    for roll in (first, second):
        archiving.sleeve(bench.session.file, bench.session.hand(), roll.id)
    said = bench.say(binder_code("26F", 3), first.number, second.number)
    assert "filed in binder 3" in said.words
    stored = [rolls.by_id(bench.session.file.conn, roll.id) for roll in (first, second)]
    assert [(roll.place.kind, roll.place.number) for roll in stored] == [("binder", 3)] * 2


def test_the_second_half_may_take_ten_seconds_and_no_more(bench: Bench) -> None:
    hung(bench)
    bench.say(a(17), apart=9.9)
    bench.say(FLIP)
    assert bench.on(17).flipped
    bench.wait(60)
    bench.say(a(17), apart=10.1)
    with pytest.raises(Refused, match="dry what"):
        bench.say(DRY)


def test_the_answer_says_what_enter_does_and_nothing_of_it_where_it_does_nothing(
    bench: Bench,
) -> None:
    roll = hung(bench)
    assert "Enter" not in bench.say("17").words
    bench.say("17 dry")
    assert "Enter: it is in its box. Or type flip, dry, tacky, take" in bench.say("17").words
    assert roll.id == bench.on(17).id


def test_the_rod_that_is_promised_at_loading_is_the_one_it_gets(bench: Bench) -> None:
    for clip in range(21, 24):
        bench.say(f"{clip} rod 1")
    said = bench.say("17 mar")
    bench.wait(60)
    bench.say(a(17))
    assert bench.on(17).place.number != 1
    assert f"rod {bench.on(17).place.number} (rod 1 is full);" in said.words


def test_a_second_clip_cancels_the_first_and_says_so(bench: Bench) -> None:
    hung(bench, MARA, 17)
    hung(bench, OLU, 18)
    said = bench.say(a(17), a(18))
    assert said.headline == "18 → Olu A."
    assert said.words.startswith("nothing was done to clip 17. Now clip 18: rod 2")
    bench.say(FLIP)
    assert (bench.on(17).flipped, bench.on(18).flipped) == (False, True)


def test_behind_an_act_another_clip_is_shown_without_a_word_of_the_one_before(bench: Bench) -> None:
    hung(bench, OLU, 18)
    loaded(bench, MARA, 17)
    bench.say(a(17))
    assert bench.say(a(18)).words.startswith("rod 2")
    bench.wait(60)
    bench.say("19 rod 3")
    assert bench.say("18").words.startswith("rod 2")


def test_a_clip_that_was_only_looked_at_is_let_go_without_words(bench: Bench) -> None:
    hung(bench, MARA, 17)
    hung(bench, OLU, 18)
    bench.wait(60)
    bench.say("17")
    assert bench.say("18").words.startswith("rod 2")


def test_the_same_clip_scanned_twice_is_not_let_go(bench: Bench) -> None:
    hung(bench)
    assert "Instead" not in bench.say(a(17), b(17)).words


@pytest.mark.parametrize(
    ("line", "why"),
    [
        ("https://example.org/a", "not one of our codes"),
        ("C017A71", "check digits"),
        ("rod 99", "no rod 99"),
        ("clip 1234", "no clip 1234"),
        ("0", "no clip 0"),
        ("17 nobody", "nobody here is called"),
        ("person 77", "no person 77"),
        ("17 fan", "nobody here is called"),
        ("26F-0999", "no roll"),
        (FLIP, "flip what"),
        ("dry", "dry what"),
        ("rod 3 dry", "dry what"),
        ("rod 3 flip", "nothing is noted on rod 3"),
    ],
)
def test_what_cannot_be_meant_is_refused_in_words_and_changes_nothing(
    bench: Bench, line: str, why: str
) -> None:
    with pytest.raises(Refused, match=why) as refused:
        bench.say(line)
    assert bench.ledger == []
    assert any(sign in str(refused.value) for sign in (":", "?"))


def test_a_half_read_code_behind_a_clip_does_nothing_and_forgets_the_clip(bench: Bench) -> None:
    hung(bench)
    with pytest.raises(Refused, match="check digits"):
        bench.say(a(17), "P000299")
    with pytest.raises(Refused, match="flip what"):
        bench.say(FLIP)


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


def test_the_other_tag_of_a_pair_just_loaded_hangs_nothing(bench: Bench) -> None:
    said = bench.say(person_code(MARA), a(17), b(17))
    assert "loaded already" in said.words
    assert bench.on(17).place.kind == "tank"
    assert bench.count == 1


def test_saying_again_whose_a_clip_is_loads_no_second_roll(bench: Bench) -> None:
    bench.say("17 mar")
    bench.wait(60)
    bench.say("17 mar")
    hung(bench, OLU, 18)
    bench.say(person_code(OLU), a(18))
    assert bench.count == 2


def test_enter_while_the_other_half_is_missing_does_nothing_to_what_is_selected(
    bench: Bench,
) -> None:
    hung(bench, OLU, 18)
    before = bench.ledger
    for line, why in [
        (person_code(MARA), "no clip yet"),
        (a(17), "nobody's yet"),
        (rod_code(1), "flip or box"),
        (box_code(1), "other half"),
    ]:
        bench.say(line)
        with pytest.raises(Refused, match=why):
            bench.enter()
        bench.sentences.in_hand.clear()
    assert bench.ledger == before


def test_enter_behind_loading_is_about_the_roll_just_loaded(bench: Bench) -> None:
    hung(bench, OLU, 18)
    bench.say(person_code(MARA), a(17))
    assert bench.enter() is None
    assert bench.sentences.in_hand.roll == bench.on(17).id


def test_a_typed_name_that_two_people_have_names_both_and_loads_nothing(bench: Bench) -> None:
    with bench.session.file.writing() as conn:
        people.add(conn, Person(4, "Mara", "Okafor", None, "S-104"))
    with pytest.raises(Refused, match=r"person 1.*person 4"):
        bench.say("17 mara okafor")
    assert bench.count == 0
    bench.say("17 person 4")
    assert bench.on(17).person == 4


def test_somebody_called_fan_is_looked_for_and_turns_no_dial(bench: Bench) -> None:
    with bench.session.file.writing() as conn:
        people.add(conn, Person(4, "Li", "Fan", None, None))
    assert not bench.sentences.understands("fan")
    assert bench.sentences.understands("fan off")
    bench.say("17 fan")
    assert bench.on(17).person == 4


@pytest.mark.parametrize("line", ["mar", "okafor", "zora 17", "26f", "", "   ", "é", "[/x]", "17x"])
def test_a_name_is_no_sentence(bench: Bench, line: str) -> None:
    assert not bench.sentences.understands(line)


def test_a_person_chosen_from_the_list_is_as_good_as_scanned(bench: Bench) -> None:
    bench.say("17")
    assert bench.sentences.in_hand.wants_person
    bench.sentences.person(people.read_people(bench.session.file.conn, [IVO])[IVO])
    assert bench.on(17).person == IVO


def test_a_clip_typed_that_was_never_used_is_called_new_for_a_finger_slips(bench: Bench) -> None:
    assert "Clip 99 is new here: if that is a slip, type undo" in bench.say("load mara 99").words
    bench.say("undo")
    assert "is new here" in bench.say("98 rod 2").words


def test_a_clip_whose_tag_was_scanned_is_no_slip(bench: Bench) -> None:
    assert "new here" not in bench.say(person_code(MARA), a(17)).words


def test_an_unknown_roll_that_hangs_is_somebodys_by_the_name_typed_next(bench: Bench) -> None:
    said = bench.say("17 rod 2")
    assert "unknown roll, hung on rod 2, position 1" in said.words
    assert "Whose? Type a name" in said.words
    bench.sentences.person(Person(IVO, "Ivo", "Lindqvist"))
    assert (bench.on(17).person, str(bench.on(17).place)) == (IVO, "rod 2, position 1")


def test_a_roll_in_the_box_of_another_period_is_said_to_be_in_it(bench: Bench) -> None:
    hung(bench, MARA, 17)
    said = bench.say("17 box 2")
    assert said.words.startswith("in box 2, not in box 1 where it belongs")
    assert bench.on(17).place.number == 2


def test_a_box_that_is_not_there_is_refused(bench: Bench) -> None:
    with pytest.raises(Refused, match="there is no box 99: this room has the boxes 1, 2"):
        bench.say("box 99")


def test_a_dry_roll_that_is_shown_is_said_to_be_dry(bench: Bench) -> None:
    hung(bench, MARA, 17)
    bench.say("17 dry")
    assert "position 1. Dry. To box 1, or with its owner. Enter:" in bench.say("17").words
