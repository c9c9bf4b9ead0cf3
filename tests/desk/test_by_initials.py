"""Initials, as a narrow map shows them, find the rolls on their way of whoever has them."""

from __future__ import annotations

import pytest

from filmrack.acts import hanging
from filmrack.desk.hits import Hits
from filmrack.domain.names import Person
from filmrack.store import people
from tests.conftest import IVO, MARA, OLU, School
from tests.desk.at_desk import AtDesk, at_desk


def found(here: AtDesk) -> list[int | None]:
    hits = here.app.query_one(Hits).hits
    return [hit.standing.roll.clip for hit in hits if hit.standing is not None]


async def test_initials_find_the_rolls_on_their_way_and_nothing_is_done(school: School) -> None:
    for clip, person in ((17, MARA), (18, OLU), (19, IVO)):
        hanging.hang(school.file, school.hand(), person=person, clip=clip)
    school.sleeved(MARA, 20)
    async with at_desk(school.file.path, school.now, size=(80, 24)) as here:
        before = here.acts
        await here.type("MO")
        assert found(here) == [17]
        await here.press("enter")
        assert "17 → Mara O." in here.answer
        assert here.acts == before


@pytest.mark.parametrize("line", ["m o", "M. O.", "m.o."])
async def test_initials_may_stand_apart(school: School, line: str) -> None:
    hanging.hang(school.file, school.hand(), person=OLU, clip=18)
    hanging.hang(school.file, school.hand(), person=MARA, clip=17)
    async with at_desk(school.file.path, school.now, size=(80, 24)) as here:
        assert "17 → Mara O." in await here.say(line)


async def test_of_several_with_the_same_initials_all_are_shown(school: School) -> None:
    with school.file.writing() as conn:
        miro = people.add(conn, Person(0, "Miro", "Öberg"))
        people.enrol(conn, miro, "26F", 1)
    for clip, person in ((17, MARA), (18, miro)):
        hanging.hang(school.file, school.hand(), person=person, clip=clip)
    async with at_desk(school.file.path, school.now, size=(80, 24)) as here:
        await here.type("mo")
        assert sorted(clip or 0 for clip in found(here)) == [17, 18]


async def test_whose_name_begins_so_goes_before_whose_initials_those_are(school: School) -> None:
    with school.file.writing() as conn:
        mona = people.add(conn, Person(0, "Mona", "Finch"))
        people.enrol(conn, mona, "26F", 1)
    for clip, person in ((17, MARA), (18, mona)):
        hanging.hang(school.file, school.hand(), person=person, clip=clip)
    async with at_desk(school.file.path, school.now) as here:
        await here.type("mo")
        assert found(here) == [18]
        await here.press("escape")
        await here.type("zq")
        assert "Nothing is called “zq”" in here.screen
