from __future__ import annotations

import pytest

from filmrack.acts.group import Hand
from filmrack.acts.people import come_back, leave, rename
from filmrack.acts.rostering import take_roster
from filmrack.domain.refusal import Refused
from filmrack.domain.roster import read_roster
from filmrack.store import people
from filmrack.store.file import DarkroomFile
from tests.conftest import TUESDAY_9_00 as NOW

HAND = Hand(NOW, NOW)


@pytest.fixture(autouse=True)
def mara(file: DarkroomFile) -> None:
    take(file)


def take(file: DarkroomFile) -> None:
    take_roster(file, HAND, read_roster(b"Name,ID,Period\nMara Okafor,77,1\n"))


def called(file: DarkroomFile, word: str) -> list[str]:
    return [person.full for person in people.with_words(file.conn, [word])]


def test_a_former_name_is_found_no_more(file: DarkroomFile):
    assert rename(file, HAND, 1, given="Max").full == "Max Okafor"
    assert called(file, "mara") == []
    assert called(file, "max") == ["Max Okafor"]


def test_the_next_roster_does_not_bring_a_former_name_back(file: DarkroomFile):
    rename(file, HAND, 1, given="Max")
    take(file)
    assert called(file, "mara") == []
    assert called(file, "okafor") == ["Max Okafor"]


def test_a_called_by_name_comes_and_goes(file: DarkroomFile):
    assert rename(file, HAND, 1, called="Mo").full == "Mo Okafor"
    assert rename(file, HAND, 1, called="").full == "Mara Okafor"
    assert rename(file, HAND, 1, called="Mara").called is None


def test_a_family_name_may_be_given_up(file: DarkroomFile):
    assert rename(file, HAND, 1, family="").full == "Mara"


@pytest.mark.parametrize(
    "names", [{}, {"given": " "}, {"family": "a\x1b[31m"}, {"called": "x" * 121}]
)
def test_a_name_that_is_none_is_refused(file: DarkroomFile, names: dict[str, str]):
    with pytest.raises(Refused):
        rename(file, HAND, 1, **names)
    assert called(file, "mara") == ["Mara Okafor"]


def test_who_has_left_is_not_offered_until_they_are_back(file: DarkroomFile):
    leave(file, HAND, 1)
    assert called(file, "mara") == []
    come_back(file, HAND, 1)
    assert called(file, "mara") == ["Mara Okafor"]


def test_a_person_who_is_not_known_is_refused(file: DarkroomFile):
    with pytest.raises(Refused, match="no person 5"):
        leave(file, HAND, 5)
