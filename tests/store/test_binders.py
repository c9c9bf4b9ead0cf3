from __future__ import annotations

from filmrack.domain.room import Binder
from filmrack.store.binders import binder_period, binders_of, know_binder
from tests.conftest import School


def test_a_binder_keeps_the_period_for_which_it_was_begun(school: School):
    with school.file.writing() as conn:
        know_binder(conn, Binder("26F", 7, 2))
        know_binder(conn, Binder("26F", 7, 1))
        know_binder(conn, Binder("26F", 8, None))
    conn = school.file.conn
    assert [each for each in binders_of(conn, "26F") if each.number > 6] == [
        Binder("26F", 7, 2),
        Binder("26F", 8, None),
    ]
    assert binder_period(conn, "26F", 7) == 2
    assert binder_period(conn, "26F", 8) is None
    assert binder_period(conn, "26F", 9) is None
    assert binders_of(conn, "26S") == []
