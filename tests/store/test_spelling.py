"""Names with typing errors, against the reference library rapidfuzz asked about every name."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from rapidfuzz.distance import DamerauLevenshtein

from filmrack.domain.names import Person
from filmrack.store import people
from filmrack.store.schema import STEPS
from filmrack.store.spelling import meant_by

words = st.text("abcde", min_size=1, max_size=8)


@pytest.fixture(scope="module")
def conn() -> Iterator[sqlite3.Connection]:
    made = sqlite3.connect(":memory:", isolation_level=None)
    for step in STEPS:
        made.executescript(step)
    yield made
    made.close()


@settings(deadline=None)
@example(["costa"], "cosat")
@example(["costa"], "csota")
@example(["dan"], "dna")
@example(["lindqvist"], "lyndqist")
@example(["lindqvist"], "rundqvist")
@example(["lindqvist"], "rindqvisp")
@given(st.lists(words, max_size=12), words)
def test_no_name_within_one_error_is_overlooked_nor_with_two_unless_both_its_ends_are_wrong(
    conn: sqlite3.Connection, names: list[str], typed: str
):
    conn.executescript("DELETE FROM name_tokens; DELETE FROM people")
    for name in names:
        people.add(conn, Person(0, name, ""))
    found = meant_by(conn, typed)
    distances = {
        name: distance
        for name in names
        if (distance := DamerauLevenshtein.distance(typed, name)) < 2
        or name.startswith(typed[:1])
        or name.endswith(typed[-(len(typed) // 3) :])
    }
    errors = min(distances.values(), default=9)
    within = max(errors, 1)
    if len(typed) < 3 or within > (1 if len(typed) <= 5 else 2):
        assert found == []
    else:
        assert set(found) == {name for name, distance in distances.items() if distance <= within}
        assert [distances[name] for name in found] == sorted(distances[name] for name in found)
