"""What lists print of people: one name that the font cannot write keeps no list unprinted."""

from __future__ import annotations

import pytest

from filmrack.acts.inscriptions import printed_initials, printed_name
from filmrack.acts.wanted_pages import pages_wanted
from filmrack.domain.names import Person
from filmrack.printing import PeopleSheet
from filmrack.store import people
from tests.conftest import School


@pytest.mark.parametrize(
    ("person", "printed"),
    [
        (Person(1, "Mara", "Okafor"), ("Mara", "O")),
        (Person(2, "하늘", "남궁"), ("person 2", "")),
        (Person(3, "하늘", "남궁", "Haneul"), ("Haneul", "")),
        (Person(4, "Yutong", "欧阳", "雨桐"), ("Yutong", "")),
        (Person(5, "Łucja", "Öberg"), ("Łucja", "Ö")),
    ],
)
def test_a_name_is_printed_as_far_as_the_font_writes_it(
    person: Person, printed: tuple[str, str]
) -> None:
    assert printed_name(person) == printed


def test_initials_that_the_font_cannot_write_are_left_out() -> None:
    assert printed_initials(Person(1, "Mara", "Okafor")) == "MO"
    assert printed_initials(Person(2, "하늘", "남궁")) == ""


def test_a_sheet_of_people_names_by_number_whom_the_font_cannot_write(school: School) -> None:
    with school.file.writing() as conn:
        number = people.add(conn, Person(0, "하늘", "남궁"))
        people.enrol(conn, number, "26F", 1)
    (sheet,) = pages_wanted(school.file, "people", ["1"], school.now)
    assert isinstance(sheet, PeopleSheet)
    assert sorted((row.given, row.initial) for row in sheet.people) == [
        ("Mara", "O"),
        (f"person {number}", ""),
    ]
