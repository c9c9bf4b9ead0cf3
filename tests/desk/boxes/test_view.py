"""The period boxes after class: who lies in them, since when, and what is owed."""

from __future__ import annotations

import re
from datetime import timedelta
from pathlib import Path

import pytest

from filmrack.acts import fetching, hanging, scans, sweeping
from filmrack.acts.group import Hand
from filmrack.acts.hanging import load
from filmrack.domain.roll import Roll
from filmrack.domain.room import Binder
from filmrack.store import rolls
from filmrack.store.binders import know_binder
from filmrack.store.file import open_file
from filmrack.store.waiting import to_be_sleeved
from tests.conftest import IVO, MARA, OLU, TUESDAY_9_00, School
from tests.desk.at_desk import AtDesk, at_desk
from tests.desk.full_room import AWKWARD, NOW

LATER = TUESDAY_9_00 + timedelta(hours=1)


@pytest.fixture
def boxed(school: School) -> list[Roll]:
    """Mara's roll in box 1, two of Olu's in box 2, Ivo's with him; clips 1 to 4."""
    for clip, person in enumerate((MARA, OLU, OLU, IVO), 1):
        roll = hanging.hang(school.file, school.hand(), person=person, clip=clip).roll.id
        school.wait(1)
        if person == IVO:
            fetching.take(school.file, school.hand(), roll)
        else:
            fetching.box(school.file, school.hand(), [roll])
    return rolls.read(school.file.conn, "clip IS NOT NULL ORDER BY clip")


async def go(here: AtDesk) -> None:
    here.app.face.go("boxes")
    await here.pilot.pause()


def marked(here: AtDesk) -> str:
    """Return the row of the selected roll."""
    return next((row for row in here.rows() if row.strip().startswith("▸")), "")


async def test_each_box_says_how_many_lie_in_it_and_the_fullest_is_open(
    db: Path, boxed: list[Roll]
):
    async with at_desk(db, now=LATER) as here:
        await go(here)
        assert "1 Period 1" in here.screen
        assert "2 Period 2" in here.screen
        assert "Box 2, Period 2   2 rolls to cut and sleeve" in here.screen
        assert "Olu A." in marked(here)


async def test_the_arrows_go_from_box_to_box_and_from_roll_to_roll(db: Path, boxed: list[Roll]):
    async with at_desk(db, now=LATER) as here:
        await go(here)
        assert here.app.view.selected == boxed[1].id
        await here.press("down", "down")
        assert here.app.view.selected == boxed[2].id
        await here.press("left")
        assert here.app.view.selected == boxed[0].id
        await here.press("right", "right")
        assert "With their owners" in here.screen
        assert "Ivo L." in marked(here)
        await here.press("right")
        assert here.app.view.selected == boxed[3].id


async def test_enter_cuts_one_roll_and_the_next_one_only_after_an_arrow(
    db: Path, boxed: list[Roll]
):
    async with at_desk(db, now=LATER) as here:
        await go(here)
        await here.press("enter", "enter")
        assert here.app.view.screen_id == "boxes"
        assert here.acts.count("sleeve") == 1
        assert "↓ the next roll" in here.screen
        assert "↓ and Enter: the next roll in this box" in here.answer
        await here.press("down")
        assert here.app.view.selected == boxed[2].id
        await here.press("enter", "enter")
        assert here.acts.count("sleeve") == 2
        assert "the next roll" not in here.answer
        assert "Nothing lies in it" in here.screen


@pytest.mark.parametrize("cut", ["", "2 cut"])
async def test_a_word_behind_a_cut_is_about_the_roll_that_was_cut(
    db: Path, school: School, boxed: list[Roll], cut: str
):
    async with at_desk(db, now=LATER) as here:
        await go(here)
        await here.say(cut)
        said = await here.say("contact")
        assert boxed[1].number in said
        await here.press("down")
        said = await here.say("contact")
        assert f"{boxed[2].number} is in box 2: “contact”" in said or "not sleeved" in said
    assert len(school.roll(boxed[1].id).sheets) == 1


@pytest.mark.parametrize("enters", [1, 2])
async def test_what_was_said_of_a_roll_goes_when_another_one_is_marked(
    db: Path, boxed: list[Roll], enters: int
):
    async with at_desk(db, now=LATER) as here:
        await go(here)
        await here.press(*["enter"] * enters)
        assert "Sheet made? Type “contact”" in here.answer
        await here.press("down")
        assert here.app.view.selected == boxed[2].id
        assert here.answer == ""
        await here.say("box 2")
        assert "Enter: 3 → Olu A." in here.answer
        await here.press("left")
        assert here.answer == ""


async def test_what_was_said_of_no_roll_or_of_the_marked_one_stays(db: Path, boxed: list[Roll]):
    async with at_desk(db, now=LATER) as here:
        await go(here)
        await here.say("clip 99 rod 99")
        refused = here.answer
        await here.press("down")
        assert here.app.view.selected == boxed[2].id
        assert here.answer == refused != ""
        await here.say("box 2")
        said = here.answer
        await here.press("up")
        assert here.app.view.selected == boxed[1].id
        assert here.answer == said


async def test_what_lies_too_long_or_in_the_wrong_box_is_marked_in_words(
    db: Path, school: School, boxed: list[Roll]
):
    fetching.box(school.file, school.hand(), [boxed[0].id], box_number=2)
    async with at_desk(db, now=LATER + timedelta(days=14)) as here:
        await go(here)
        assert "here too long" in here.screen
        assert "belongs in box 1" in here.screen


async def test_an_unknown_roll_says_how_it_gets_its_owner(db: Path, school: School):
    sweeping.sweep(school.file, school.hand(), scans=[scans.Scan(None, 40, 1)])
    async with at_desk(db, now=LATER) as here:
        await go(here)
        assert "whose? type 40 and a name" in here.screen
        await here.type("40 mar")
        await here.press("enter")
        assert here.on(40).person == MARA
        assert "whose?" not in here.screen


async def test_a_roll_that_is_looked_for_by_its_clip_is_shown_in_its_box(
    db: Path, boxed: list[Roll]
):
    async with at_desk(db, now=LATER) as here:
        await here.type("4")
        await here.press("enter")
        assert here.app.view.screen_id == "boxes"
        assert "Ivo L." in marked(here)


async def test_a_click_on_a_box_opens_it_and_a_second_one_cuts_nothing(db: Path, boxed: list[Roll]):
    async with at_desk(db, now=LATER) as here:
        await go(here)
        await here.pilot.click("#boxes", offset=(5, 3), times=2)
        await here.pilot.pause()
        assert "Box 1, Period 1" in here.screen
        await here.press("enter")
        assert "sleeve" not in here.acts
        await here.press("down")
        assert here.app.view.selected == boxed[0].id


async def test_empty_boxes_say_what_comes_to_them(db: Path):
    async with at_desk(db, now=LATER) as here:
        await go(here)
        assert "Dry film comes here" in here.screen
        await here.press("left", "right", "down", "enter")
        assert here.acts == []


async def test_another_desk_boxing_a_roll_shows(db: Path, boxed: list[Roll]):
    async with at_desk(db, now=LATER) as here:
        await go(here)
        with open_file(db, write=True) as file:
            hand = Hand(LATER, LATER, "desk 2")
            roll = load(file, hand, MARA, [9]).rolls[0].id
            fetching.box(file, hand, [roll])
        here.app._poll()
        await here.press("left")
        assert "Box 1, Period 1   2 rolls" in here.screen


@pytest.fixture
def eighty(full: Path, tmp_path: Path) -> Path:
    """Return a file with eighty-four rolls in seven boxes."""
    path = tmp_path / "darkroom.db"
    path.write_bytes(full.read_bytes())
    with open_file(path, write=True) as file:
        file.conn.execute("PRAGMA synchronous = OFF")  # no power cut is tested with this
        hung = [roll.id for roll in rolls.hanging(file.conn)]
        fetching.box(file, Hand(NOW, NOW, "desk 1"), hung)
        assert len(to_be_sleeved(file, NOW).standings) == 84
    return path


@pytest.mark.parametrize("size", [(80, 24), (120, 34), (200, 50)])
async def test_eighty_rolls_in_seven_boxes_stay_whole_with_any_name(
    eighty: Path, size: tuple[int, int]
):
    async with at_desk(eighty, size=size, now=NOW) as here:
        await go(here)
        shown = here.screen
        await here.press("right")
        for _ in range(8):
            await here.press("left")
        shown += here.screen
        assert "12 rolls to cut and sleeve" in shown
        assert AWKWARD[0].split()[0] in shown
        await here.press("end")
        assert marked(here)
        assert all(len(row) <= size[0] for row in here.rows())


@pytest.mark.parametrize("colours", ["daylight", "terminal"])
async def test_the_boxes_are_told_apart_in_every_theme(db: Path, boxed: list[Roll], colours: str):
    async with at_desk(db, now=LATER, colours=colours) as here:
        await go(here)
        assert "▸" in here.screen


@pytest.mark.parametrize("size", [(80, 24), (120, 34)])
async def test_why_a_box_wants_a_look_is_said_in_words_at_every_width(
    db: Path, school: School, boxed: list[Roll], size: tuple[int, int]
):
    fetching.box(school.file, school.hand(), [boxed[0].id], box_number=2)
    async with at_desk(db, size=size, now=LATER) as here:
        await go(here)
        assert "1 wrong box" in here.screen
        assert "Box 2, Period 2   3 rolls to cut and sleeve: 1 in the wrong box" in here.screen
        assert "! " not in here.screen
        assert len(here.app.view.hint()) <= size[0] - 8


def under(here: AtDesk, box: int) -> str:
    """Return what stands below one of eight boxes side by side, from the count on downwards."""
    rows = here.rows()
    floor = next(nth for nth, row in enumerate(rows) if "└" in row)
    left = [match.start() for match in re.finditer("└", rows[floor])][box - 1]
    right = rows[floor].index("┘", left) + 1
    below = iter(row[left:right].strip() for row in rows[floor + 1 :])
    return " ".join(iter(lambda: next(below), ""))


async def test_seven_narrow_boxes_have_room_for_the_words(eighty: Path):
    with open_file(eighty, write=True) as file:
        some = [roll.id for roll in rolls.read(file.conn, "place = 'box' AND box = 7 LIMIT 3")]
        fetching.box(file, Hand(NOW, NOW, "desk 1"), some, box_number=1)
    async with at_desk(eighty, size=(80, 24), now=NOW) as here:
        await go(here)
        assert under(here, 1) == "15 3 wrong box"
        assert under(here, 2) == "12"


@pytest.mark.parametrize("size", [(80, 24), (126, 34), (130, 34)])
async def test_why_two_boxes_side_by_side_want_a_look_does_not_read_as_one(
    eighty: Path, size: tuple[int, int]
):
    with open_file(eighty, write=True) as file:
        for number in range(1, 8):
            lying = rolls.read(file.conn, "place = 'box' AND box = ?", (number,))
            for roll in lying[2:]:
                fetching.take(file, Hand(NOW, NOW, "desk 1"), roll.id)
    async with at_desk(eighty, size=size, now=NOW + timedelta(days=30)) as here:
        await go(here)
        assert [under(here, box) for box in range(1, 8)] == ["2 2 too long"] * 7
        words = [row for row in here.rows() if row.count("too") > 6 or row.count("long") > 6]
        assert words
        assert all(re.match(r" *((2 too|2 too long|long) {2,}){7}", row) for row in words)


async def test_rolls_that_want_attention_for_different_reasons_want_a_look(
    db: Path, school: School, boxed: list[Roll]
):
    fetching.box(school.file, school.hand(), [boxed[0].id], box_number=2)
    async with at_desk(db, now=LATER + timedelta(days=14)) as here:
        await go(here)
        assert under(here, 2) == "3 3 want a look"
        assert "1 in the wrong box" in here.screen
        assert "2 in it too long" in here.screen


@pytest.mark.parametrize("size", [(80, 24), (120, 34), (200, 50)])
async def test_a_box_with_more_rolls_than_dots_have_room_says_how_many_more(
    eighty: Path, size: tuple[int, int]
):
    async with at_desk(eighty, size=size, now=NOW) as here:
        await go(here)
        rows = [row[: row.rindex("│") + 1] for row in here.rows() if row.count("│") > 12]
        first = [row.split("│")[1] for row in rows]
        dots = "".join(first).count("●")
        more = re.search(r"\+(\d+)", "".join(first))
        assert dots + (int(more[1]) if more else 0) == 12
        assert (more is None) is (size == (200, 50))


async def test_typed_words_go_on_with_the_roll_on_the_card_down_to_its_binder(
    db: Path, boxed: list[Roll]
):
    async with at_desk(db, now=LATER) as here:
        await go(here)
        await here.say("2")
        await here.say("sleeve")
        assert here.app.view.selected == boxed[1].id
        assert not marked(here)
        assert "is sleeved already" in await here.say("sleeve")
        assert boxed[1].number in await here.say("contact")
        assert "filed in binder 1" in await here.say("file 1")
        assert here.acts[-3:] == ["sleeve", "contact", "file"]
        assert rolls.by_id(here.app.session.file.conn, boxed[1].id).binder == 1
        assert here.rolls.keys() == {1, 3, 4}


async def test_a_roll_in_its_box_is_refused_a_binder_and_nothing_is_asked(
    db: Path, boxed: list[Roll]
):
    async with at_desk(db, now=LATER) as here:
        await go(here)
        await here.say("2")
        why = f"{boxed[1].number} is not sleeved yet (in box 2): cut and sleeve it first"
        for line in ("file", "file 1", "2 file 1"):
            assert why in await here.say(line)
            assert here.app.question is None


async def test_behind_the_cut_card_and_refusal_say_how_the_roll_is_named_now(
    db: Path, boxed: list[Roll]
):
    async with at_desk(db, now=LATER) as here:
        await go(here)
        await here.say("2")
        await here.press("enter")
        assert "Sheet made? Type “contact”" in here.screen
        cut = boxed[1]
        said = await here.say("2 lend ivo")
        assert f"clip 2 is free since {cut.number} was cut: name that roll by its number" in said
        assert "contact sheet made on 8x10in: fits" in await here.say(f"{cut.serial:04d} contact")


async def test_a_contact_sheet_with_picks_is_typed_as_the_card_says_right_behind_the_cut(
    db: Path, boxed: list[Roll]
):
    async with at_desk(db, now=LATER) as here:
        await go(here)
        await here.say("2")
        await here.press("enter")
        assert "Sheet made? Type “contact”" in here.screen
        said = await here.say("contact 3 12")
        assert boxed[1].number in said
        assert "picks 3, 12" in said


async def test_the_clip_that_a_roll_was_just_cut_from_names_it_for_its_contact_sheet_and_binder(
    db: Path, boxed: list[Roll]
):
    async with at_desk(db, now=LATER) as here:
        await go(here)
        await here.say("2")
        await here.press("enter")
        assert "picks 3, 12" in await here.say("2 contact 3 12")
        assert "filed in binder 1" in await here.say("2 file 1")
        assert rolls.by_id(here.app.session.file.conn, boxed[1].id).binder == 1
        assert here.acts[-3:] == ["sleeve", "contact", "file"]


async def test_a_clip_that_carries_another_roll_by_now_names_that_one_alone(
    db: Path, boxed: list[Roll]
):
    async with at_desk(db, now=LATER) as here:
        await go(here)
        await here.say("2")
        await here.press("enter")
        await here.say("load ivo 2")
        assert "not sleeved yet" in await here.say("2 contact 3 12")
        assert "contact" not in here.acts


async def test_each_answer_and_enter_at_rest_say_the_word_that_goes_on_down_to_the_periods_binder(
    db: Path, boxed: list[Roll]
):
    """Olu's period has binder 2, whatever other periods have."""
    with open_file(db, write=True) as file, file.writing() as conn:
        for number, period in ((1, 1), (2, 2)):
            know_binder(conn, Binder("26F", number, period))
    async with at_desk(db, now=LATER) as here:
        assert "Enter: 2 → Olu A., it is cut and sleeved" in await here.say("box 2")
        await here.press("enter")
        assert "Sheet made? Type “contact”" in here.answer
        await here.press("enter")
        assert "Enter leaves it as it is. Sheet made? Type “contact”" in here.answer
        assert here.acts[-1] == "sleeve"
        assert "In binder 2? Type “file 2”" in await here.say("contact")
        await here.press("enter")
        assert "Enter leaves it as it is. In binder 2? Type “file 2”" in here.answer
        assert "In binder 2? Type “file 2”" in here.screen
        assert "filed in binder 2" in await here.say("file 2")
        assert rolls.by_id(here.app.session.file.conn, boxed[1].id).binder == 2


async def test_a_period_without_a_binder_is_told_the_first_number_that_is_free(
    db: Path, boxed: list[Roll]
):
    with open_file(db, write=True) as file, file.writing() as conn:
        know_binder(conn, Binder("26F", 1, 1))
    async with at_desk(db, now=LATER) as here:
        await here.say("box 2")
        await here.press("enter")
        assert "In binder 2? Type “file 2”" in await here.say("contact")
