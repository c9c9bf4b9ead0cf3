from __future__ import annotations

from filmrack.domain.enrolling import Enrolling, Known, enrolling
from filmrack.domain.names import Person
from filmrack.domain.roster import RosterLine


def row(line: int, given: str, family: str, **more: str) -> RosterLine:
    return RosterLine(line, given, family, **more)


def person(number: int, given: str, family: str, **more: str) -> Person:
    return Person(number, given, family, **more)


def periods(text: str) -> int | None:
    return int(text) if text in {"1", "2", "3"} else None


def enrol(rows: list[RosterLine], *known: Known, default: int | None = 1) -> Enrolling:
    return enrolling(rows, known, periods, default)


MARA = Known(person(1, "Mara", "Okafor", school_id="77", called="Mo"), 1)


def test_a_person_is_known_by_school_id_under_a_new_name():
    done = enrol([row(2, "Mara", "Li", school_id="77")], MARA)
    assert [one.person for one in done.updated] == [
        person(1, "Mara", "Li", school_id="77", called="Mo")
    ]
    assert not done.added


def test_a_name_that_the_person_asked_for_stands_against_the_roster():
    renamed = Known(person(1, "Max", "Okafor", school_id="77"), 1, name_stands=True)
    done = enrol([row(2, "Mara", "Okafor", school_id="77", period="2")], renamed)
    assert [(one.person.given, one.period) for one in done.updated] == [("Max", 2)]


def test_a_person_without_id_is_known_by_the_exact_name_and_gets_the_id():
    plain = Known(person(4, "Bo", "Li"), 1)
    done = enrol([row(2, "Bo", "Li", school_id="9")], plain)
    assert [one.person for one in done.updated] == [person(4, "Bo", "Li", school_id="9")]
    assert [one.person.given for one in enrol([row(2, "Bob", "Li")], plain).added] == ["Bob"]


def test_a_called_by_name_survives_a_roster_that_says_nothing_of_it():
    done = enrol([row(2, "Mara", "Okafor", school_id="77")], MARA)
    assert done.unchanged == [MARA]
    done = enrol([row(2, "Mara", "Okafor", school_id="77", called="Maz")], MARA)
    assert done.updated[0].person.called == "Maz"


def test_two_people_of_one_name_are_told_apart_by_their_ids():
    other = row(3, "Mara", "Okafor", school_id="78")
    done = enrol([row(2, "Mara", "Okafor", school_id="77"), other], MARA)
    assert [one.person.school_id for one in done.added] == ["78"]
    assert done.unchanged == [MARA]


def test_of_two_with_one_name_only_one_takes_over_the_person_without_id():
    plain = Known(person(4, "Bo", "Li"), 1)
    done = enrol([row(2, "Bo", "Li", school_id="1"), row(3, "Bo", "Li", school_id="2")], plain)
    assert [one.person.school_id for one in done.updated] == ["1"]
    assert [one.person.school_id for one in done.added] == ["2"]


def test_a_name_that_two_people_have_is_refused_unless_the_period_tells():
    first, second = Known(person(4, "Bo", "Li"), 1), Known(person(5, "Bo", "Li"), 2)
    assert enrol([row(2, "Bo", "Li")], first, second).unchanged == [first]
    done = enrol([row(2, "Bo", "Li", period="3")], first, second)
    assert [line for line, _ in done.refused] == [2]
    assert not done.added


def test_a_person_named_twice_is_taken_once():
    done = enrol(
        [
            row(2, "Bo", "Li", school_id="1"),
            row(3, "Bo", "Li", school_id="1", period="2"),
            row(4, "Bo", "Li"),
            row(5, "Cy", "Lo"),
            row(6, "Cy", "Lo"),
        ]
    )
    assert [one.person.given for one in done.added] == ["Bo", "Cy"]
    assert [line for line, _ in done.refused] == [3, 4, 6]
    assert "line 2" in done.refused[0][1]


def test_a_period_that_the_room_has_not_is_refused_and_none_is_the_default():
    done = enrol([row(2, "Bo", "Li", period="9"), row(3, "Cy", "Lo")], default=3)
    assert [line for line, _ in done.refused] == [2]
    assert done.added[0].period == 3


def test_without_any_period_a_person_keeps_theirs():
    assert enrol([row(2, "Mara", "Okafor", school_id="77")], MARA, default=None).unchanged == [MARA]


def test_who_is_not_on_the_roster_is_absent_from_its_periods_alone():
    elsewhere = Known(person(2, "Bo", "Li"), 2)
    gone = Known(person(3, "Cy", "Lo"), 1)
    done = enrol([row(2, "Mara", "Okafor", school_id="77")], MARA, elsewhere, gone)
    assert done.absent == [gone]


def test_nobody_is_absent_while_a_line_is_refused():
    gone = Known(person(3, "Cy", "Lo"), 1)
    done = enrol([row(2, "Mara", "Okafor", school_id="77"), row(3, "C", "L", period="9")], gone)
    assert done.absent == []


def test_who_has_left_and_stands_on_the_roster_is_back():
    left = Known(person(3, "Cy", "Lo"), None, left=True)
    (back,) = enrol([row(2, "Cy", "Lo")], left).updated
    assert not back.left
