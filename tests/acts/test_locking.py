"""The passphrase of the teacher's desk, and what is slowed after wrong ones."""

from datetime import timedelta

import pytest

from filmrack.acts.locking import (
    LONGEST_WAIT,
    is_locked,
    remove_passphrase,
    set_passphrase,
    unlock,
    waiting,
)
from filmrack.domain.refusal import Refused
from tests.conftest import School

WORDS = "three dry clips"


@pytest.fixture
def locked(school: School) -> School:
    set_passphrase(school.file, WORDS, None, school.now)
    return school


def test_a_room_begins_without_a_passphrase(school: School) -> None:
    assert not is_locked(school.file)


def test_the_right_passphrase_unlocks(locked: School) -> None:
    assert is_locked(locked.file)
    unlock(locked.file, WORDS, locked.now)


@pytest.mark.parametrize("new", ["", "short", "x" * 201])
def test_a_passphrase_that_is_too_short_or_too_long_is_refused(school: School, new: str) -> None:
    with pytest.raises(Refused, match="take 6 to 200"):
        set_passphrase(school.file, new, None, school.now)
    assert not is_locked(school.file)


def test_a_new_passphrase_needs_the_old_one(locked: School) -> None:
    with pytest.raises(Refused):
        set_passphrase(locked.file, "another one", None, locked.now)
    unlock(locked.file, WORDS, locked.now)
    set_passphrase(locked.file, "another one", WORDS, locked.now)
    unlock(locked.file, "another one", locked.now)


def test_it_is_removed_only_by_who_knows_it(locked: School) -> None:
    with pytest.raises(Refused):
        remove_passphrase(locked.file, "guess!", locked.now)
    remove_passphrase(locked.file, WORDS, locked.now)
    assert not is_locked(locked.file)


def test_after_three_wrong_ones_even_the_right_one_waits(locked: School) -> None:
    for _ in range(3):
        with pytest.raises(Refused, match="not the passphrase"):
            unlock(locked.file, "guess", locked.now)
    with pytest.raises(Refused, match="3 wrong passphrases: wait 5 s"):
        unlock(locked.file, WORDS, locked.now)
    locked.now += timedelta(seconds=5)
    unlock(locked.file, WORDS, locked.now)
    unlock(locked.file, WORDS, locked.now)


def test_each_further_wrong_one_waits_twice_as_long_up_to_five_minutes() -> None:
    waits = [waiting(tries).total_seconds() for tries in range(12)]
    assert waits == [0, 0, 0, 5, 10, 20, 40, 80, 160, 300, 300, 300]
    assert waiting(10**9) == LONGEST_WAIT


def test_a_clock_that_is_set_back_locks_nobody_out(locked: School) -> None:
    for _ in range(3):
        with pytest.raises(Refused):
            unlock(locked.file, "guess", locked.now)
    unlock(locked.file, WORDS, locked.now - timedelta(days=400))
