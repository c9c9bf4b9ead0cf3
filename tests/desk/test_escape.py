"""Escape: it clears, then it goes back to the screen that a line led away from, and says which."""

from __future__ import annotations

import pytest

from filmrack.acts import fetching, hanging
from filmrack.acts.locking import set_passphrase
from filmrack.desk.footer import Footer
from filmrack.desk.roll_card.card import Card
from tests.conftest import IVO, MARA, OLU, School
from tests.desk.archive.sleeves import archive, in_last_term, sleeved
from tests.desk.at_desk import AtDesk, at_desk


def escape(here: AtDesk) -> str:
    """Return what the footer says of Escape; empty where it says nothing."""
    _, _, words = here.part(Footer).partition("esc ")
    return words.removesuffix("? help").strip()


async def test_escape_leads_back_to_the_dryer_that_a_find_led_away_from(school: School) -> None:
    sleeved(school, MARA, 17)
    hanging.hang(school.file, school.hand(), person=OLU, clip=5)
    async with at_desk(school.file.path, school.now) as here:
        await here.say("mara")
        assert (here.open, escape(here)) == ("archive", "clear")
        await here.press("escape")
        assert (here.open, escape(here)) == ("archive", "back to Dryer")
        await here.press("escape")
        assert (here.open, escape(here)) == ("dryer", "")
        assert "Nothing selected." in here.part(Card)
        await here.press("down")
        assert here.app.view.selected == here.on(5).id


async def test_escape_leads_back_from_what_was_ordered_to_be_shown_but_not_from_a_screen_asked_for(
    school: School,
) -> None:
    sleeved(school, MARA, 17)
    async with at_desk(school.file.path, school.now) as here:
        await here.say("term report")
        await here.press("escape", "escape")
        assert here.open == "archive"
        await here.press("escape")
        assert here.open == "dryer"
        await here.say("archive")
        await here.press("escape", "escape", "escape")
        assert (here.open, escape(here)) == ("archive", "")


@pytest.mark.parametrize("verb", ["lend juniper", "contact", "hand back", "mark missing", "note x"])
async def test_behind_escape_no_verb_alone_is_about_what_was_only_found(
    school: School, verb: str
) -> None:
    found = in_last_term(school, "Mara Okafor")
    sleeved(school, OLU, 5)
    async with at_desk(school.file.path, school.now) as here:
        await here.say("mara")
        assert here.app.view.selected == found
        done = here.acts
        await here.press("escape")
        assert "Olu Adeyemi" in here.page, "the term in force is shown again"
        assert "Select a roll" in await here.say(verb)
        await here.press("escape", "escape")
        assert here.open == "dryer"
        assert "Select a roll" in await here.say(verb)
        assert here.acts == done


async def test_behind_escape_the_archive_marks_nothing_until_an_arrow_does(school: School) -> None:
    some = [sleeved(school, person, clip) for person, clip in ((MARA, 17), (OLU, 5), (IVO, 9))]
    async with archive(school.file.path) as desk:
        await desk.press("down")
        assert desk.app.view.selected == some[1]
        await desk.press("escape")
        assert "▸" not in desk.page
        assert "roll 2 of" not in desk.page
        assert "Nothing selected." in desk.part(Card)
        assert escape(desk) == ""
        await desk.enter()
        assert desk.acts.count("contact") == 0
        await desk.press("down")
        assert desk.app.view.selected == some[1]


async def test_escape_goes_back_only_once_a_list_that_was_typed_is_whole_again(
    school: School,
) -> None:
    sleeved(school, MARA, 17)
    async with at_desk(school.file.path, school.now) as here:
        await here.say("borrowed")
        assert (here.open, escape(here)) == ("archive", "clear")
        while escape(here) == "clear":
            await here.press("escape")
        assert "Mara Okafor" in here.page
        await here.press("escape")
        assert here.open == "dryer"


async def test_escape_leads_back_to_the_archive_unless_another_screen_was_asked_for_since(
    school: School,
) -> None:
    sleeved(school, OLU, 5)
    boxed = hanging.hang(school.file, school.hand(), person=MARA, clip=17).roll.id
    fetching.box(school.file, school.hand(), [boxed])
    async with archive(school.file.path) as desk:
        await desk.say("find 17")
        assert desk.open == "boxes"
        await desk.press("escape", "escape")
        assert desk.open == "archive"
        await desk.say("find 17")
        await desk.press("tab", "shift+tab", "escape", "escape")
        assert (desk.open, escape(desk)) == ("boxes", "")


async def test_on_a_desk_that_was_locked_since_escape_leads_to_no_screen_of_the_teacher(
    school: School,
) -> None:
    sleeved(school, OLU, 5)
    hanging.hang(school.file, school.hand(), person=MARA, clip=17)
    set_passphrase(school.file, "three dry clips", None, school.now)
    async with at_desk(school.file.path, school.now) as here:
        await here.say("teacher")
        await here.say("three dry clips")
        await here.say("archive")
        await here.say("find 17")
        await here.press("escape")
        assert (here.open, escape(here)) == ("dryer", "back to Archive")
        await here.say("lock")
        await here.press("escape")
        assert escape(here) == ""
        await here.press("escape", "escape")
        assert here.open == "dryer"
