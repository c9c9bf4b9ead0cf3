"""The passphrase of the teacher's desk: its scrypt hash, and how often it was missed of late.

What hashes is imported where it is used.
"""

import sqlite3
from datetime import datetime
from typing import NamedTuple, cast

from filmrack.store import settings
from filmrack.store.times import from_text, to_text

_MISSED = "passphrase_missed"


class Cost(NamedTuple):
    """What scrypt (RFC 7914) is made to cost; 2**15, 8, 1 takes about a tenth of a second."""

    n: int = 2**15
    r: int = 8
    p: int = 1


_USUAL = Cost()


class Missed(NamedTuple):
    """How many wrong tries there were since the last right one, and when the last of them was."""

    tries: int
    last: datetime


def is_set(conn: sqlite3.Connection) -> bool:
    """Tell whether the room has a passphrase."""
    return settings.read(conn, settings.PASSPHRASE) is not None


def keep(conn: sqlite3.Connection, text: str, cost: Cost = _USUAL) -> None:
    """Keep a passphrase as a hash with a salt of its own; the words themselves are not kept."""
    import secrets

    salt = secrets.token_bytes(16)
    kept = {"salt": salt.hex(), "hash": hashed(text, salt, cost).hex(), **cost._asdict()}
    settings.write(conn, settings.PASSPHRASE, kept)
    forget_misses(conn)


def forget(conn: sqlite3.Connection) -> None:
    """Keep no passphrase any more."""
    settings.forget(conn, settings.PASSPHRASE)
    forget_misses(conn)


def fits(conn: sqlite3.Connection, text: str) -> bool:
    """Tell whether this is the passphrase; False where none is set."""
    from hmac import compare_digest

    kept = cast("dict[str, str | int] | None", settings.read(conn, settings.PASSPHRASE))
    if kept is None:
        return False
    cost = Cost(int(kept["n"]), int(kept["r"]), int(kept["p"]))
    salt, known = bytes.fromhex(str(kept["salt"])), bytes.fromhex(str(kept["hash"]))
    return compare_digest(hashed(text, salt, cost), known)


def missed(conn: sqlite3.Connection) -> Missed | None:
    """Return the wrong tries since the last right one."""
    kept = cast("dict[str, int | str] | None", settings.read(conn, _MISSED))
    return None if kept is None else Missed(int(kept["tries"]), from_text(str(kept["last"])))


def count_miss(conn: sqlite3.Connection, at: datetime) -> None:
    """Count one more wrong try."""
    before = missed(conn)
    tries = 1 if before is None else before.tries + 1
    settings.write(conn, _MISSED, {"tries": tries, "last": to_text(at)})


def forget_misses(conn: sqlite3.Connection) -> None:
    """Forget the wrong tries."""
    settings.forget(conn, _MISSED)


def hashed(text: str, salt: bytes, cost: Cost) -> bytes:
    """Return the scrypt hash (RFC 7914) of a passphrase: 64 bytes."""
    import hashlib
    import unicodedata

    # Two keyboards may write one letter in two ways.
    words = unicodedata.normalize("NFKC", text).encode("utf-8", "surrogatepass")
    memory = 2 * 128 * cost.n * cost.r
    return hashlib.scrypt(words, salt=salt, n=cost.n, r=cost.r, p=cost.p, maxmem=memory)
