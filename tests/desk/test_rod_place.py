"""A position that is typed behind a rod, and the refusal that says how."""

from __future__ import annotations

import pytest

from filmrack.acts import hanging
from filmrack.domain.names import Person
from filmrack.domain.refusal import Refused
from filmrack.store import people
from tests.conftest import MARA, OLU, School
from tests.desk.at_desk import at_desk
from tests.desk.bench import Bench, a, hung, loaded


@pytest.mark.parametrize(
    "line",
    [
        "hang 17 rod 3 position 2",
        "hang 17 --rod 3 --position 2",
        "17 rod 3, position 2",
        "17 rod 3 pos 2",
        "17 rod 3 pos. 2",
        "17 hangs on rod 3 at place 2",
        "17 position 2 rod 3",
        "17 at position 2 of rod 3",
        "move 17 rod 3 position 02",
        "0001 ROD 3 POS 2",
    ],
)
def test_a_roll_hangs_at_the_position_that_is_typed_behind_its_rod(bench: Bench, line: str) -> None:
    loaded(bench)
    assert "rod 3, position 2" in bench.say(line).words
    assert str(bench.on(17).place) == "rod 3, position 2"


def test_a_rod_with_a_position_may_come_as_the_second_half(bench: Bench) -> None:
    loaded(bench)
    bench.say(a(17), "rod 2 position 3")
    assert str(bench.on(17).place) == "rod 2, position 3"
    bench.say("17 rod 2 position 1")
    assert str(bench.on(17).place) == "rod 2, position 1"
    before = bench.ledger
    assert "hangs on rod 2, position 1 already" in bench.say("17 rod 2 position 1").words
    assert bench.ledger == before


def test_an_unknown_roll_hangs_at_a_position_too(bench: Bench) -> None:
    bench.say("17 unknown rod 3 position 2")
    assert (bench.on(17).person, str(bench.on(17).place)) == (None, "rod 3, position 2")


def test_a_place_alone_shows_what_hangs_there_and_nothing_else_of_its_rod(bench: Bench) -> None:
    hung(bench, OLU, 17)
    hung(bench, OLU, 18)
    before = bench.ledger
    said = bench.say("rod 2, position 2")
    assert (said.headline, bench.ledger) == ("18 → Olu A.", before)
    bench.say("rod 2 position 1 flip")
    assert (bench.on(17).flipped, bench.on(18).flipped) == (True, False)
    with pytest.raises(Refused, match="nothing is noted at rod 2, position 3"):
        bench.say("rod 2 position 3")


def test_a_full_rod_is_refused_with_the_lines_to_type_and_they_do_it(bench: Bench) -> None:
    for clip in (1, 2, 3):
        hung(bench, MARA, clip)
    loaded(bench, MARA, 4)
    before = bench.ledger
    lost = r"“4 rod 1 position 3”: clip 3 \(Mara O.'s\), noted there, is missing then"
    with pytest.raises(Refused, match=rf"hang it on rod 3 with “4 rod 3”.* {lost}"):
        bench.say("hang 4 rod 1")
    with pytest.raises(Refused, match=r"hang it on rod 3 with “9 rod 3”.* “9 rod 1 position 3”"):
        bench.say("9 rod 1")  # a clip that is nobody's yet
    assert bench.ledger == before
    was = bench.on(3).number
    said = bench.say("4 rod 1 position 3")
    assert str(bench.on(4).place) == "rod 1, position 3"
    assert f"{was}, which was noted there, is marked missing" in said.words
    hung(bench, OLU, 5)
    with pytest.raises(Refused, match="“5 rod 1 position 3”"):
        bench.say("5 rod 1")


def test_a_full_rod_names_no_position_that_is_free_beside_a_wide_strip(bench: Bench) -> None:
    hung(bench, MARA, 1)
    file, hand = bench.session.file, bench.session.hand()
    hanging.hang(file, hand, person=MARA, clip=2, film="120-6x6")
    loaded(bench, MARA, 4)
    with pytest.raises(Refused, match=r"“4 rod 1 position 2”: clip 2 \(Mara O.'s\), noted there"):
        bench.say("4 rod 1")


def test_a_bare_number_behind_a_rod_does_nothing_and_a_position_wants_its_rod(
    bench: Bench,
) -> None:
    loaded(bench)
    before = bench.ledger
    with pytest.raises(Refused, match="a position or another clip: type “17 rod 2 position 3”"):
        bench.say("hang 17 rod 2 3")
    with pytest.raises(Refused, match="name its rod too, as “17 rod 3 position 2”"):
        bench.say("17 position 2")
    with pytest.raises(Refused, match="rod 2 has no position 9: it has the positions 1 to 3"):
        bench.say("17 rod 2 position 9")
    assert bench.ledger == before


def test_somebody_who_is_called_pos_is_no_position(bench: Bench) -> None:
    with bench.session.file.writing() as conn:
        number = people.add(conn, Person(0, "Pos", "Tomte"))
        people.enrol(conn, number, "26F", 1)
    bench.say("17 pos 2")
    assert bench.on(17).person == number


async def test_enter_behind_the_refusal_says_what_it_leaves_and_how_to_go_on(
    school: School,
) -> None:
    for clip in (1, 2, 3):
        hanging.hang(school.file, school.hand(), person=MARA, clip=clip)
    async with at_desk(school.file.path, school.now, size=(80, 24)) as here:
        await here.say("load mara 4")
        assert "enter it hangs" in here.rows()[-1]
        await here.say("hang 4 rod 1")
        assert "↑ ↓ or type its number" in here.rows()[-1]
        acts = here.acts
        await here.press("enter")
        assert here.acts == acts
        said = "4 → Mara O.. Enter leaves it as it is, for “hang 4 rod 1” did nothing."
        assert here.answer == f"{said} Type “4” to go on with it, or select with the arrows"
        await here.say("4")
        await here.press("enter")
        assert here.rolls[4] == "rod 3, position 1"
