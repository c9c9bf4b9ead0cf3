"""Who is meant by a name: somebody called just so, else the one whose name begins so."""

from __future__ import annotations

import pytest

from filmrack.domain.names import Person
from filmrack.domain.refusal import Refused
from filmrack.store import people
from filmrack.store.search import who
from tests.conftest import School


def add(school: School, *names: tuple[str, str, str | None]) -> None:
    with school.file.writing() as conn:
        for given, family, called in names:
            people.add(conn, Person(0, given, family, called))


def meant(school: School, text: str) -> str:
    return who(school.file.conn, text).full


def test_ana_is_ana_and_not_anabel(school: School):
    add(school, ("Anabel", "Duarte", None), ("Ana", "Reis", None), ("Anaïs", "Petit", None))
    assert meant(school, "ana") == "Ana Reis"
    assert meant(school, "ANAB") == "Anabel Duarte"
    with pytest.raises(Refused, match=r"Anabel Duarte .*Petit .*Ana Reis .*type more"):
        meant(school, "an")


def test_who_is_called_ana_is_ana(school: School):
    add(school, ("Susana", "Reis", "Ana"), ("Anabel", "Duarte", None))
    assert meant(school, "ana") == "Ana Reis"


def test_two_who_are_called_ana_are_told_apart_by_number(school: School):
    add(school, ("Ana", "Reis", None), ("Susana", "Pires", "Ana"), ("Anabel", "Duarte", None))
    with pytest.raises(Refused, match=r"Ana Pires \(person 5\), Ana Reis \(person 4\)"):
        meant(school, "ana")
    assert meant(school, "ana re") == "Ana Reis"
    assert meant(school, "person 5") == "Ana Pires"


def test_twins_of_the_same_name_are_refused_with_their_numbers(school: School):
    add(school, ("Ana", "Reis", None), ("Ana", "Reis", None), ("Anabel", "Reis", None))
    with pytest.raises(Refused, match=r"\(person 4\), Ana Reis \(person 5\)"):
        meant(school, "ana reis")


def test_a_family_name_counts_as_much_as_a_given_one(school: School):
    add(school, ("Ana", "Reis", None), ("Bo", "Ana", None))
    with pytest.raises(Refused, match="type more of the name"):
        meant(school, "ana")


def test_of_many_who_begin_alike_the_two_called_so_are_both_seen(school: School):
    many = [(f"Ana{n:03d}", "Aa", None) for n in range(600)]
    add(school, ("Ana", "Aa", None), *many, ("Ana", "Zz", None))
    with pytest.raises(Refused, match="type more of the name"):
        meant(school, "ana")
