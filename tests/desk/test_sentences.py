"""Which lines are sentences, and what a clip alone is answered."""

from __future__ import annotations

import pytest

from filmrack.domain.names import Person
from filmrack.domain.refusal import Refused
from filmrack.store import people
from tests.conftest import MARA
from tests.desk.bench import FLIP, Bench, a, b, hung, loaded


@pytest.mark.parametrize("clip", ["17", "clip 17", "clip 17 b"])
def test_a_loaded_clip_that_is_typed_is_shown_and_nothing_is_done(bench: Bench, clip: str) -> None:
    loaded(bench)
    said = bench.say(clip)
    assert "in the tank. Enter: hung on rod 1" in said.all_words()
    assert (bench.on(17).place.kind, bench.sentences.in_hand.roll) == ("tank", bench.on(17).id)


@pytest.mark.parametrize("clip", [a(17), b(17)])
def test_a_loaded_clip_hangs_by_one_scan_on_its_owners_rod(bench: Bench, clip: str) -> None:
    loaded(bench)
    said = bench.say(clip)
    assert "hung on rod 1" in said.all_words()
    assert "Turn the dial" in said.all_words()
    assert bench.on(17).place.number == 1


def test_the_answer_says_what_enter_does_and_nothing_of_it_where_it_does_nothing(
    bench: Bench,
) -> None:
    roll = hung(bench)
    assert "Enter" not in bench.say("17").all_words()
    bench.say("17 dry")
    assert (
        "Enter: it is in its box. Or type “flip”, “dry”, “tacky”, “take”"
        in bench.say("17").all_words()
    )
    assert roll.id == bench.on(17).id


def test_a_dry_roll_that_is_shown_is_said_to_be_dry(bench: Bench) -> None:
    hung(bench, MARA, 17)
    bench.say("17 dry")
    assert (
        "position 1. Dry by touch. To box 1, or with its owner. Enter:"
        in bench.say("17").all_words()
    )


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
