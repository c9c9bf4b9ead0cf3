"""The lock between a student desk and the teacher's: a passphrase, slowed after wrong tries."""

from __future__ import annotations

from datetime import datetime, timedelta

from filmrack.domain.refusal import Refused
from filmrack.store import passphrase
from filmrack.store.file import DarkroomFile

SHORTEST = 6
LONGEST = 200
_FREE_TRIES = 3
_FIRST_WAIT = timedelta(seconds=5)
LONGEST_WAIT = timedelta(minutes=5)


def is_locked(file: DarkroomFile) -> bool:
    """Tell whether the room has a passphrase, so that desks start as student desks."""
    return passphrase.is_set(file.conn)


def set_passphrase(file: DarkroomFile, new: str, old: str | None, now: datetime) -> None:
    """Set the room's passphrase; `old` is the one until now, None where there is none yet.

    Raises Refused for one that is too short or too long, and as `unlock` does for a wrong old one.
    """
    refuse_unfit(new)
    _prove(file, old, now)
    with file.writing() as conn:
        passphrase.keep(conn, new)


def refuse_unfit(new: str) -> None:
    """Raise Refused for a passphrase that is too short or too long."""
    if not SHORTEST <= len(new) <= LONGEST:
        raise Refused(
            f"a passphrase of {len(new)} characters is not kept: take {SHORTEST} to {LONGEST},"
            " three words are good"
        )


def remove_passphrase(file: DarkroomFile, old: str, now: datetime) -> None:
    """Let every desk be the teacher's again. Raises Refused as `unlock` does."""
    _prove(file, old, now)
    with file.writing() as conn:
        passphrase.forget(conn)


def unlock(file: DarkroomFile, text: str, now: datetime) -> None:
    """Try a passphrase.

    After three wrong ones each further try has to wait, longer every time, also after a restart
    and at another desk. Raises Refused when it is wrong, or too early.
    """
    conn = file.conn
    before = passphrase.missed(conn)
    if before is not None:
        # With a clock set back nobody is locked out for longer than the wait itself.
        waited = now - before.last
        wait = waiting(before.tries)
        if timedelta(0) <= waited < wait:
            left = round((wait - waited).total_seconds())
            raise Refused(
                f"there were {before.tries} wrong passphrases: wait {max(1, left)} s, then try"
                " again"
            )
    if passphrase.fits(conn, text):
        if before is not None:
            with file.writing():
                passphrase.forget_misses(conn)
        return
    with file.writing():
        passphrase.count_miss(conn, now)
    raise Refused("that is not the passphrase: type it again, or press Esc")


def waiting(tries: int) -> timedelta:
    """Return how long the next try has to wait after so many wrong ones."""
    beyond = tries - _FREE_TRIES
    if beyond < 0:
        return timedelta(0)
    return min(LONGEST_WAIT, _FIRST_WAIT * (1 << min(beyond, 10)))


def _prove(file: DarkroomFile, old: str | None, now: datetime) -> None:
    if passphrase.is_set(file.conn):
        unlock(file, old or "", now)
