from __future__ import annotations

import pytest

from filmrack.acts.archiving import contact, sleeve
from filmrack.acts.hanging import hang, load
from filmrack.acts.refitting import refit
from filmrack.domain.contact import Paper
from filmrack.domain.refusal import Refused
from filmrack.domain.roomrules import Materials
from filmrack.store.room import read_room
from tests.conftest import MARA, OLU, School

OWN = Materials("135-24", "8x5", "b4", ("8x5",), (Paper("b4", 250.0, 353.0),))


@pytest.fixture
def own(school: School) -> School:
    """A room that uses short rolls, a page of eight fives, and B4 paper (ISO 216: 250 x 353 mm)."""
    refit(school.file, school.hand(), school.file.room()._replace(materials=OWN))
    return school


def test_what_is_loaded_hung_or_found_without_a_word_is_the_rooms_film(own: School):
    (loaded,) = load(own.file, own.hand(), OLU, [17]).rolls
    assert loaded.film == "135-24"
    assert hang(own.file, own.hand(), person=MARA, clip=18).roll.film == "135-24"
    assert hang(own.file, own.hand(), clip=19, rod=3).roll.film == "135-24"
    assert hang(own.file, own.hand(), clip=20, rod=3, film="120 6x6").roll.film == "120-6x6"


def test_film_that_is_none_is_refused_by_every_act(own: School):
    before = own.dump()
    with pytest.raises(Refused, match="is no film"):
        load(own.file, own.hand(), OLU, [17], "110-24")
    with pytest.raises(Refused, match="is no film"):
        hang(own.file, own.hand(), person=OLU, clip=17, film="110-24")
    assert own.dump() == before


def test_a_roll_goes_on_the_rooms_page_and_its_contact_on_the_rooms_paper(own: School):
    roll = hang(own.file, own.hand(), person=OLU, clip=17).roll.id
    sleeved = sleeve(own.file, own.hand(), roll)
    assert sleeved.roll.page_name == "8x5"
    # 8 rows of 34.975 mm are 279.8 mm and 5 frames of 38 mm are 190 mm (ISO 1007, summary).
    assert sleeved.cut.fits["b4"] == "fits"
    assert sleeved.cut.fits["8x10in"] == "no"
    assert contact(own.file, own.hand(), roll).sheets[-1].paper == "b4"


def test_paper_and_pages_of_another_room_are_refused_with_those_of_this_one(own: School):
    roll = hang(own.file, own.hand(), person=OLU, clip=17).roll.id
    with pytest.raises(Refused, match=r"7x5, .*8x5"):
        sleeve(own.file, own.hand(), roll, "large")
    sleeve(own.file, own.hand(), roll)
    with pytest.raises(Refused, match=r"8x10in, .*b4"):
        contact(own.file, own.hand(), roll, "b9")
    assert contact(own.file, own.hand(), roll, " B4 ").sheets[-1].paper == "b4"


def test_film_of_each_gauge_goes_on_a_page_with_pockets_for_it(own: School):
    for clip, film, page in ((17, "120-6x6", "4x3"), (18, "sheet-4x5", "2x2"), (19, None, "8x5")):
        roll = hang(own.file, own.hand(), person=OLU, clip=clip, film=film, rod=3).roll
        assert sleeve(own.file, own.hand(), roll.id).roll.page_name == page
    room = own.file.room()
    refit(
        own.file,
        own.hand(),
        room._replace(materials=OWN._replace(page_120="5x2", page_sheet="1x1")),
    )
    for clip, film, page in ((17, "120-6x6", "5x2"), (18, "sheet-4x5", "1x1")):
        roll = hang(own.file, own.hand(), person=OLU, clip=clip, film=film, rod=3).roll
        assert sleeve(own.file, own.hand(), roll.id).roll.page_name == page


def test_a_file_from_before_those_pages_has_the_usual_ones(own: School):
    with own.file.writing() as conn:
        conn.execute(
            "UPDATE settings SET value = json_remove(value, '$.materials.page_120',"
            " '$.materials.page_sheet') WHERE name = 'room'"
        )
    assert read_room(own.file.conn).materials == OWN
