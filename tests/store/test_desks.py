from datetime import timedelta

from filmrack.store import desks
from tests.conftest import School

MINUTE = timedelta(minutes=1)


def test_no_desk_was_ever_open(school: School) -> None:
    assert desks.last_beat(school.file.conn) is None


def test_the_last_heartbeat_of_any_desk_counts(school: School) -> None:
    now = school.now
    with school.file.writing() as conn:
        desks.beat(conn, "dryer 7", now, now + 10 * MINUTE)
        desks.beat(conn, "archive 9", now, now + 2 * MINUTE)
    assert desks.last_beat(school.file.conn) == now + 10 * MINUTE


def test_a_process_number_used_again_is_another_desk(school: School) -> None:
    with school.file.writing() as conn:
        desks.beat(conn, "dryer 7", school.now, school.now)
        desks.beat(conn, "dryer 7", school.now, school.now + MINUTE)
        desks.beat(conn, "dryer 7", school.now + 60 * MINUTE, school.now + 61 * MINUTE)
    assert school.file.conn.execute("SELECT count(*) FROM desks").fetchone()[0] == 2


def test_desks_of_long_ago_are_forgotten(school: School) -> None:
    with school.file.writing() as conn:
        desks.beat(conn, "dryer 7", school.now - timedelta(days=70), school.now - desks.KEPT)
        desks.beat(conn, "dryer 8", school.now, school.now + MINUTE)
    assert school.file.conn.execute("SELECT count(*) FROM desks").fetchone()[0] == 1
