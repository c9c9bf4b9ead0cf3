"""Undo at the desk: which act it takes back, and what it lets go instead."""

from __future__ import annotations

import pytest

from filmrack.acts import hanging
from filmrack.acts.locking import set_passphrase
from filmrack.domain.refusal import Refused
from tests.conftest import MARA, OLU, School
from tests.desk.archive.sleeves import sleeved
from tests.desk.at_desk import at_desk
from tests.desk.bench import UNDO, Bench, a, hung


@pytest.mark.parametrize("lines", [[a(17), UNDO], ["17 undo"], ["undo"], [UNDO]])
def test_the_last_act_is_taken_back(bench: Bench, lines: list[str]) -> None:
    hung(bench)
    bench.say("17 take")
    bench.wait(60)
    assert "taken back" in bench.say(*lines).words
    assert bench.on(17).place.kind == "rod"


def test_undo_and_a_clip_take_back_the_last_act_on_it(bench: Bench) -> None:
    hung(bench)
    bench.say("take 17")
    bench.wait(60)
    bench.say("undo 17")
    assert bench.on(17).place.kind == "rod"


def test_what_is_taken_back_of_a_load_says_its_clip_and_whose(bench: Bench) -> None:
    bench.say("17 mara")
    said = bench.say("undo")
    assert said.headline == "17 → Mara O."
    assert "taken back: “loaded”" in said.words


def test_an_act_of_long_ago_is_taken_back_only_when_enter_says_so(bench: Bench) -> None:
    hung(bench)
    bench.say("17 flip")
    bench.wait(3600)
    before = bench.ledger
    said = bench.say("17", "undo")
    assert "its last act is “flipped” of 09:02" in said.words
    assert bench.ledger == before
    bench.enter()
    assert not bench.on(17).flipped


def test_undo_offers_no_old_act_of_a_roll_that_was_only_looked_at(school: School) -> None:
    hanging.hang(school.file, school.hand(500), person=MARA, clip=17)
    bench = Bench(school.file.path)
    bench.say("17")
    with pytest.raises(Refused, match=r"nothing was done at this desk .* type “17 undo”"):
        bench.say("undo")
    bench.session.close()


def test_undo_behind_load_takes_nothing_back_of_the_former_roll(bench: Bench) -> None:
    hung(bench, OLU, 18)
    bench.say("18 box")
    hung(bench, MARA, 17)
    bench.say("load 18", "undo")
    assert (bench.on(18).place.kind, bench.on(17).place.kind) == ("box", "tank")


def test_undo_lets_go_what_is_asked_and_nothing_else(bench: Bench) -> None:
    hung(bench, OLU)
    before = bench.ledger
    bench.say("load mara 17")
    said = bench.say("undo")
    assert "nothing was done: “clip 17 is Mara O.'s” is let go" in said.words
    assert bench.ledger == before
    assert bench.enter() is None


async def test_undo_lets_a_question_go_and_says_so(school: School) -> None:
    hanging.hang(school.file, school.hand(500), person=MARA, clip=17)
    async with at_desk(school.file.path) as here:
        await here.say("17 touch")
        assert "is not answered. Undo once more takes back" in await here.say("undo")
        assert here.app.hearing.dispatch.question is None
        assert here.acts == ["load", "hang"]


@pytest.mark.parametrize("line", ["lend 17 nobodyatall", "no such name", "17 rod 77"])
async def test_undo_behind_a_refused_line_takes_back_no_older_act(
    school: School, line: str
) -> None:
    async with at_desk(school.file.path) as here:
        await here.say("17 mara")
        await here.press("escape")
        before = here.acts
        await here.say(line)
        said = await here.say("undo")
        assert said.startswith(f"“{line}” did nothing. ")
        assert "Undo once more takes back “loaded”, 17 → Mara O." in said
        assert here.acts == before
        assert "taken back: “loaded”" in await here.say("undo")


async def test_undo_behind_a_line_that_did_nothing_says_which_loan_one_more_takes_back(
    school: School,
) -> None:
    number = school.roll(sleeved(school, MARA, 17)).number
    async with at_desk(school.file.path) as here:
        await here.say(f"lend {number} Ms Novak")
        await here.say("")
        await here.say("my rolls")
        said = await here.say("undo")
        assert said.startswith("“my rolls” did nothing. Undo once more takes back “lent” to ")
        assert f"“lent” to Ms Novak, {number}" in said
        assert "undo" not in here.acts


async def test_undo_behind_a_refused_line_names_the_setting_that_one_more_takes_back(
    school: School,
) -> None:
    async with at_desk(school.file.path) as here:
        await here.say("day off 24 dec")
        await here.say("lend 17 nobodyatall")
        assert "takes back the day off Thu 24 Dec 2026" in await here.say("undo")
        assert len(school.file.room().timetable.days.days_off) == 1
        await here.say("17")  # another line behind it: undo is meant for what was done
        await here.say("undo")
        assert not school.file.room().timetable.days.days_off


async def test_an_undo_says_before_another_one_what_that_would_take_back(school: School) -> None:
    async with at_desk(school.file.path) as here:
        await here.say("18 olu")
        await here.press("escape")
        await here.say("17 mara")
        said = await here.say("undo")
        assert said.endswith(
            "taken back: “loaded”. Undo once more takes back “loaded”, 18 → Olu A."
        )
        assert (await here.say("undo")).endswith("taken back: “loaded”")


async def test_a_teacher_is_asked_before_an_act_of_a_student_is_taken_back(school: School) -> None:
    set_passphrase(school.file, "three dry clips", None, school.now)
    async with at_desk(school.file.path) as here:
        await here.say("17 mara")
        await here.press("escape")
        await here.say("teacher")
        await here.say("three dry clips")
        said = await here.say("undo")
        assert said.startswith("17 → Mara O.. the last act at this desk is “loaded” of 09:00, by a")
        assert "by a student. Enter takes that back; Esc leaves it" in said
        assert "undo" not in here.acts
        await here.press("enter")
        assert here.acts[-1] == "undo"


@pytest.mark.parametrize("answer", ["enter", "escape"])
async def test_an_act_of_long_ago_at_this_desk_is_taken_back_only_by_enter(
    school: School, answer: str
) -> None:
    async with at_desk(school.file.path) as here:
        await here.say("17 mara")
        await here.press("escape")
        await here.wait(minutes=11)
        assert "the last act at this desk is “loaded” of 09:00. Enter" in await here.say("undo")
        assert "undo" not in here.acts
        await here.press(answer)
        assert ("undo" in here.acts) == (answer == "enter")


async def test_a_setting_of_long_ago_is_taken_back_only_by_enter(school: School) -> None:
    def days_off() -> int:
        return len(school.file.room().timetable.days.days_off)

    async with at_desk(school.file.path) as here:
        await here.say("day off 24 dec")
        await here.wait(minutes=11)
        said = await here.say("undo")
        assert "the day off Thu 24 Dec 2026 (No school) is gone again" in said
        assert days_off() == 1
        await here.press("enter")
        assert days_off() == 0


def test_a_fresh_act_of_another_desk_is_asked_about_though_its_clip_is_named(
    school: School,
) -> None:
    hanging.hang(school.file, school.hand(), person=MARA, clip=17)
    bench = Bench(school.file.path)
    before = bench.ledger
    assert "its last act is “loaded, hung” of 09:00, at another desk" in bench.say("17 undo").words
    assert bench.ledger == before
    bench.enter()
    assert {act for act, *_ in bench.ledger[len(before) :]} == {"undo"}
    bench.session.close()
