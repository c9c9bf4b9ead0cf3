"""What is said of a wrong clip, and small words, short names and verbs that are no guess."""

from __future__ import annotations

from pathlib import Path

import pytest

from filmrack.acts import clips, hanging
from filmrack.domain.names import Person
from filmrack.domain.refusal import Refused
from filmrack.store import people, rolls
from tests.conftest import MARA, OLU, School
from tests.desk.at_desk import at_desk
from tests.desk.bench import Bench, a, hung, loaded


@pytest.fixture
def isa(bench: Bench) -> int:
    """Somebody called Isa, whose name begins as a small word does."""
    with bench.session.file.writing() as conn:
        number = people.add(conn, Person(0, "Isa", "Tomte"))
        people.enrol(conn, number, "26F", 1)
    return number


@pytest.mark.parametrize(
    "line",
    [
        "17 clip 62",
        "clip 17 is 62",
        "17 is 62",
        "17 is clip 62",
        "17 is now on clip 62",
        "move 17 62",
        "17 move 62",
        "17 to 62",
        "reclip 17 62",
        "reclip 17 --clip 62",
        "17 hangs on clip 62",
        "0001 clip 62",
    ],
)
def test_the_roll_of_a_wrong_clip_is_on_the_right_one(bench: Bench, isa: int, line: str) -> None:
    before = hung(bench)
    said = bench.say(line)
    assert said.headline == "62 → Mara O."
    assert said.words.startswith("on clip 62, not 17. Clip 62 is new here")
    assert "undo" in said.words
    assert bench.on(62) == before._replace(clip=62)
    assert bench.count == 1


def test_a_clip_that_another_roll_has_is_exchanged_when_enter_says_so(bench: Bench) -> None:
    mara, olu = hung(bench), hung(bench, OLU, 18)
    said = bench.say("17 clip 18")
    assert "clip 18 is noted on Olu A.'s roll" in said.words
    assert "Enter: clips 17 and 18 are exchanged; that roll is on clip 17 then" in said.words
    assert (bench.on(17).id, bench.on(18).id) == (mara.id, olu.id)
    bench.enter()
    assert (bench.on(18).id, bench.on(17).id) == (mara.id, olu.id)


def test_the_clip_of_a_roll_that_its_owner_took_is_given_away_when_enter_says_so(
    bench: Bench,
) -> None:
    mara, olu = hung(bench), hung(bench, OLU, 18)
    bench.say("18 take")
    said = bench.say("17 clip 18")
    assert "that roll stays with its owner, without a clip" in said.words
    bench.enter()
    theirs = rolls.by_id(bench.session.file.conn, olu.id)
    assert (bench.on(18).id, theirs.clip, theirs.place.kind) == (mara.id, None, "owner")


def test_a_roll_that_is_on_that_clip_already_stays_as_it_was(bench: Bench) -> None:
    hung(bench)
    before = bench.ledger
    assert "on clip 17 already" in bench.say("17 is 17").words
    assert bench.ledger == before


def test_a_clip_that_has_no_roll_is_not_put_right(bench: Bench, isa: int) -> None:
    hung(bench)
    before = bench.ledger
    with pytest.raises(Refused, match="clip 64 is noted on no roll"):
        bench.say("64 is 85")
    with pytest.raises(Refused, match="clip 64 is noted on no roll"):
        bench.say("64 clip 17")
    assert bench.ledger == before


@pytest.mark.parametrize("line", ["17 is", "17 wrong clip", "wrong clip 17", "17 clip", "17 to"])
def test_a_word_that_joins_nothing_is_answered_with_what_to_type(
    bench: Bench, isa: int, line: str
) -> None:
    hung(bench)
    clips.add(bench.session.file, bench.session.hand(), [62])
    before = bench.ledger
    with pytest.raises(Refused, match="type the right one behind it, as “17 clip 62”"):
        bench.say(line)
    assert bench.ledger == before


async def test_wrong_clip_alone_is_answered_with_what_to_type(db: Path) -> None:
    async with at_desk(db) as here:
        assert "which clip is wrong? Type it and the right one" in await here.say("wrong clip")


@pytest.mark.parametrize(
    ("line", "why"),
    [
        ("move 17 mar", "move what"),
        ("touch 17 mar", "touch what"),
        ("17 mar touch", "touch what"),
        ("show 17 mar", "show what"),
        ("reclip 17", "reclip what"),
        ("17 reclip mara", "reclip what"),
        ("claim 17", "whose is it"),
    ],
)
def test_a_verb_is_never_left_out_while_the_rest_is_done(bench: Bench, line: str, why: str) -> None:
    hung(bench, OLU)
    before = bench.ledger
    with pytest.raises(Refused, match=why):
        bench.say(line)
    assert bench.ledger == before
    assert bench.sentences.in_hand.first is None


@pytest.mark.parametrize("line", ["17 load mara", "mara load 17", "17 loaded mar", "load 17 mara"])
def test_load_stands_before_between_or_behind(bench: Bench, line: str) -> None:
    bench.say(line)
    assert bench.on(17).person == MARA


def test_one_or_two_letters_never_load_and_a_whole_name_does(bench: Bench, isa: int) -> None:
    with bench.session.file.writing() as conn:
        bo = people.add(conn, Person(0, "Bo", "Tarn"))
    for line in ("17 ma", "load ma 17", "ma 17"):
        with pytest.raises(Refused, match=r"type three letters of Mara O\.'s name"):
            bench.say(line)
    assert bench.count == 0
    bench.say("17 bo")
    assert bench.on(17).person == bo
    bench.say("18 bo t")
    assert bench.on(18).person == bo


async def test_two_letters_behind_a_free_clip_are_asked_about(school: School) -> None:
    async with at_desk(school.file.path) as here:
        await here.say("17")
        assert "“ma” is short. Enter: clip 17 is Mara O.'s" in await here.say("ma")
        assert here.rolls == {}
        assert "loaded" in await here.say("")
        assert here.on(17).person == MARA


def test_loading_and_hanging_say_how_a_wrong_clip_is_put_right(bench: Bench) -> None:
    says = "Wrong clip? Type “17 clip” and the right one"
    assert says in bench.say("17 mara").words
    assert says in bench.say("17 rod 2").words


async def test_a_rod_that_is_typed_is_looked_at_and_moves_nothing(school: School) -> None:
    for clip, person, rod in ((17, MARA, 1), (18, OLU, 2)):
        hanging.hang(school.file, school.hand(5), person=person, clip=clip, rod=rod)
    async with at_desk(school.file.path) as here:
        acts = here.acts
        await here.say("archive")
        await here.say("17")
        assert (await here.say("rod 2")).startswith("rod 2. clip 18. “flip” or “box” is said")
        assert here.open == "dryer"
        assert here.app.view.selected == here.on(18).id
        await here.say("archive")
        assert "empty: nothing hangs on it" in await here.say("rod 3")
        assert here.open == "dryer"
        assert here.acts == acts


def test_a_rod_behind_a_hanging_or_in_one_line_moves_and_its_own_rod_writes_nothing(
    bench: Bench,
) -> None:
    loaded(bench)
    bench.say("hang 17", "rod 2")
    assert str(bench.on(17).place) == "rod 2, position 1"
    bench.wait(60)
    bench.say("17 rod 1")
    before = bench.ledger
    assert "hangs on rod 1, position 1 already" in bench.say("17 rod 1").words
    assert bench.ledger == before
    bench.say(a(17), "rod 2")
    assert str(bench.on(17).place) == "rod 2, position 1"


async def test_unknown_is_kept_until_the_rod_is_said(school: School) -> None:
    async with at_desk(school.file.path) as here:
        assert "scan or type a free clip, then its rod" in await here.say("unknown")
        assert "Now its rod" in await here.say("17")
        assert "unknown roll, hung on rod 2" in await here.say("2")
        await here.say("18")
        assert "Now its rod" in await here.say("unknown")
        assert "unknown roll, hung on rod 1" in await here.say("1")
        assert {clip: place[:5] for clip, place in here.rolls.items()} == {17: "rod 2", 18: "rod 1"}


@pytest.mark.parametrize("line", ["unknown 17 2", "17 unknown 2", "unknown 17 rod 2"])
def test_unknown_in_one_line_takes_the_number_behind_the_clip_for_its_rod(
    bench: Bench, line: str
) -> None:
    bench.say(line)
    assert (bench.on(17).person, bench.on(17).place.number) == (None, 2)


def test_unknown_is_never_on_a_clip_that_somebody_has(bench: Bench) -> None:
    hung(bench)
    bench.sentences.unknown()
    with pytest.raises(Refused, match=r"clip 17 is noted on Mara O\.'s roll"):
        bench.say("17")


def test_while_it_is_asked_whose_a_clip_is_the_right_one_is_for_who_was_named(
    bench: Bench,
) -> None:
    olu = hung(bench, OLU)
    bench.say("load mara 17")
    assert bench.say("17 is 62").headline == "62 → Mara O."
    assert (bench.on(17).id, bench.on(62).person) == (olu.id, MARA)


def test_hang_of_what_hangs_asks_for_its_rod_and_takes_it_behind(bench: Bench) -> None:
    hung(bench)
    before = bench.ledger
    assert "hangs already. Elsewhere: type its rod" in bench.say("hang 17").words
    with pytest.raises(Refused, match="type what is done with it"):
        bench.enter()
    assert bench.ledger == before
    bench.say("rod 2")
    assert str(bench.on(17).place) == "rod 2, position 1"


def test_the_roll_that_lost_its_clip_to_a_wrong_load_is_named_with_how_it_gets_it_back(
    bench: Bench,
) -> None:
    olus = hung(bench, OLU, 18)
    bench.say("18 take")
    bench.say("load mara 18")
    bench.enter()
    said = bench.say("18 clip 62")
    assert f"Clip 18 is free; Olu A.'s roll had it: type “{olus.serial:04d} clip 18”" in said.words
    bench.say(f"{olus.serial:04d} clip 18")
    assert bench.on(18).id == olus.id
    assert "is free" not in bench.say("62 clip 63").all_words()
