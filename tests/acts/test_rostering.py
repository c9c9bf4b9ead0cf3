from __future__ import annotations

import pytest

from filmrack.acts.group import Hand
from filmrack.acts.rostering import Rostered, take_roster, would_take_roster
from filmrack.acts.undoing import undo
from filmrack.domain.names import Person
from filmrack.domain.refusal import Refused
from filmrack.domain.roster import read_roster
from filmrack.store import people
from filmrack.store.file import DarkroomFile
from tests.conftest import TUESDAY_9_00 as NOW

HAND = Hand(NOW, NOW)
CLASS = "Family,Given,ID,Period\nOkafor,Mara,77,1\nLi,Bo,78,Period 2\n"


def take(file: DarkroomFile, text: str, **more: object) -> Rostered:
    return take_roster(file, HAND, read_roster(text.encode()), **more)  # type: ignore[arg-type]


def called(file: DarkroomFile, *words: str) -> list[str]:
    return [person.full for person in people.with_words(file.conn, list(words))]


def test_a_roster_puts_people_in_their_periods(file: DarkroomFile):
    assert take(file, CLASS) == Rostered("26F", 2, 0, 0, 0, ())
    assert [person.given for person in people.in_period(file.conn, "26F", 1)] == ["Mara"]
    assert called(file, "oka") == ["Mara Okafor"]


def test_the_same_roster_again_is_harmless(file: DarkroomFile):
    take(file, CLASS)
    before = list(file.conn.iterdump())
    assert take(file, CLASS) == Rostered("26F", 0, 0, 2, 0, ())
    assert list(file.conn.iterdump()) == before


def test_a_look_beforehand_writes_nothing(file: DarkroomFile):
    before = list(file.conn.iterdump())
    assert would_take_roster(file, NOW, read_roster(CLASS.encode())).added == 2
    assert list(file.conn.iterdump()) == before


def test_bad_lines_are_refused_and_the_others_taken(file: DarkroomFile):
    told = take(file, "Name,Period\nMara Okafor,9\n,1\nBo Li,1\n")
    assert (told.added, [line for line, _ in told.refused]) == (1, [2, 3])


def test_a_former_name_is_found_no_more_and_kept_only_for_undo(file: DarkroomFile):
    take(file, CLASS)
    assert take(file, "Family,Given,ID,Period\nReed,Mara,77,1\n").updated == 1
    assert called(file, "okafor") == []
    assert called(file, "reed") == ["Mara Reed"]
    kept = [line for line in file.conn.iterdump() if "kafor" in line]
    assert {line.split(" VALUES")[0] for line in kept} == {'INSERT INTO "notes"'}
    assert undo(file, HAND).settings == ("Mara Okafor is the name again, it was Mara Reed",)


def test_a_called_by_name_stays_through_the_next_roster(file: DarkroomFile):
    take(file, CLASS)
    with file.writing() as conn:
        people.rename(conn, Person(1, "Mara", "Okafor", "Mo", "77"))
    assert take(file, CLASS.replace(",77,1", ",77,3")).updated == 1
    assert called(file, "mo") == ["Mo Okafor"]
    assert people.period_of(file.conn, 1, "26F") == 3


def test_who_left_is_kept_but_no_longer_offered(file: DarkroomFile):
    take(file, CLASS)
    told = take(file, "Name,ID,Period\nMara Okafor,77,1\nCy Lo,80,2\n", others_left=True)
    assert (told.added, told.left) == (1, 1)
    assert called(file, "bo") == []
    assert people.read_people(file.conn, [2])[2].full == "Bo Li"
    assert take(file, CLASS).updated == 1
    assert called(file, "bo") == ["Bo Li"]


def test_nobody_has_left_while_a_line_cannot_be_read(file: DarkroomFile):
    take(file, CLASS)
    told = take(file, 'Name,ID,Period\n"Bo Li,78,2\nMara Okafor,77,2\n', others_left=True)
    assert told.left == 0
    assert called(file, "bo") == ["Bo Li"]


def test_people_belong_to_the_term_they_are_enrolled_in(file: DarkroomFile):
    with pytest.raises(Refused, match="no term 27S"):
        take(file, CLASS, term="27S")
    with file.writing() as conn:
        conn.execute("UPDATE terms SET closed_at = '2026-12-31T12:00:00Z'")
    with pytest.raises(Refused, match="closed"):
        take(file, CLASS)


def test_five_thousand_people_come_in_at_once_and_again(file: DarkroomFile):
    text = "Name,ID,Period\n" + "".join(f'"Fam{n}, Giv{n}",{n},{n % 6 + 1}\n' for n in range(5000))
    assert take(file, text).added == 5000
    assert take(file, text).unchanged == 5000
    with pytest.raises(Refused, match="room for 4999"):
        take(file, text.replace("Giv", "Other").replace('",', '",x'))
    assert file.conn.execute("SELECT count(*) FROM people").fetchone()[0] == 5000
