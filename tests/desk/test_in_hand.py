"""The half of a sentence that waits for the other one: how long, and what lets it go."""

from __future__ import annotations

import pytest

from filmrack.domain.codes import box_code, person_code, rod_code
from filmrack.domain.refusal import Refused
from tests.conftest import MARA, OLU
from tests.desk.bench import DRY, FLIP, Bench, a, b, hung, loaded


def test_the_second_half_may_take_ten_seconds_and_no_more(bench: Bench) -> None:
    hung(bench)
    bench.say(a(17), apart=9.9)
    bench.say(FLIP)
    assert bench.on(17).flipped
    bench.wait(60)
    bench.say(a(17), apart=10.1)
    with pytest.raises(Refused, match="dry what"):
        bench.say(DRY)


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


def test_a_half_read_code_behind_a_clip_does_nothing_and_forgets_the_clip(bench: Bench) -> None:
    hung(bench)
    with pytest.raises(Refused, match="check digits"):
        bench.say(a(17), "P000299")
    with pytest.raises(Refused, match="flip what"):
        bench.say(FLIP)


def test_enter_while_the_other_half_is_missing_does_nothing_to_what_is_selected(
    bench: Bench,
) -> None:
    hung(bench, OLU, 18)
    before = bench.ledger
    for line, why in [
        (person_code(MARA), "no clip yet"),
        (a(17), "nobody's yet"),
        (rod_code(1), "“flip” or “box”"),
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
