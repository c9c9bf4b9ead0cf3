"""What is done to the clip, the roll or the rod that was named first, scanned and typed."""

from __future__ import annotations

import pytest

from filmrack.acts import archiving
from filmrack.domain.codes import action_code, binder_code, box_code, person_code, rod_code
from filmrack.domain.refusal import Refused
from filmrack.store import rolls
from tests.conftest import MARA, OLU
from tests.desk.bench import BOX, DRY, FLIP, TACKY, TAKE, Bench, a, b, hung, loaded


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


def test_a_roll_in_the_box_of_another_period_is_said_to_be_in_it(bench: Bench) -> None:
    hung(bench, MARA, 17)
    said = bench.say("17 box 2")
    assert said.words.startswith("in box 2, not in box 1 where it belongs")
    assert bench.on(17).place.number == 2


def test_a_box_that_is_not_there_is_refused(bench: Bench) -> None:
    with pytest.raises(Refused, match="there is no box 99: this room has the boxes 1, 2"):
        bench.say("box 99")


@pytest.mark.parametrize(
    ("lines", "hours"),
    [(["fan"], 1), ([action_code("FAN")], 1), (["fan off"], 0), ([action_code("FANOFF")], 0)],
)
def test_the_dial_is_logged(bench: Bench, lines: list[str], hours: float) -> None:
    bench.say(*lines)
    row = bench.session.file.conn.execute("SELECT detail FROM ledger WHERE act = 'fan'").fetchone()
    assert f'"hours":{hours}' in row[0].replace(" ", "").replace(".0", "")


def test_a_stack_of_sleeves_is_filed_by_scanning_the_binder_once(bench: Bench) -> None:
    first, second = hung(bench, MARA, 17), hung(bench, OLU, 18)
    for roll in (first, second):
        archiving.sleeve(bench.session.file, bench.session.hand(), roll.id)
    said = bench.say(binder_code("26F", 3), first.number, second.number)
    assert said.headline == f"{second.number} → Olu Adeyemi"
    assert said.words == (
        "filed in binder 3, without a contact sheet; “label” makes its 2 labels. It is Period 1's"
        " binder. Wrong? Type “undo”. The next one?"
    )
    again = bench.say(binder_code("26F", 3), second.number)
    assert again.words == "in binder 3 already. The next one?"
    stored = [rolls.by_id(bench.session.file.conn, roll.id) for roll in (first, second)]
    assert [(roll.place.kind, roll.place.number) for roll in stored] == [("binder", 3)] * 2


def test_a_sleeve_is_filed_by_the_clip_that_its_film_was_just_cut_from(bench: Bench) -> None:
    roll = hung(bench, MARA, 17)
    archiving.sleeve(bench.session.file, bench.session.hand(), roll.id)
    assert "binder 3?" in bench.say("file 17 binder 3").headline
    bench.enter()
    assert rolls.by_id(bench.session.file.conn, roll.id).place.number == 3
    with pytest.raises(Refused, match="clip 40 is on no roll: type the number"):
        bench.say("file 40 binder 3")


def test_film_that_a_finger_found_tacky_is_taken_with_what_it_needs_before_it_is_cut(
    bench: Bench,
) -> None:
    hung(bench, MARA, 17)
    bench.say("17 tacky")
    bench.wait(60)
    said = bench.say("17 take").words
    assert "not dry to a finger" in said
    assert "let it dry before it is cut; back on a rod, type “17 hang”" in said
