"""Removing names from a darkroom file for good: from its tables and from its bytes."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable, Sequence
from datetime import date, datetime
from pathlib import Path

from filmrack.domain.names import Person
from filmrack.domain.refusal import FileTrouble
from filmrack.domain.roomcomments import up_to_date, without_comments
from filmrack.domain.wiping import holds_a_name
from filmrack.store import people
from filmrack.store.beside import make_one_file
from filmrack.store.file import DarkroomFile, open_file
from filmrack.store.lists import key_of_person
from filmrack.store.room import keep_room_file, kept_room_file, read_room
from filmrack.store.times import from_text, to_text
from filmrack.store.trouble import trouble_with


def _wipe_names(conn: sqlite3.Connection, wanted: Iterable[Person], now: datetime) -> int:
    """Remove the names of people, and every note that holds one; return how many notes.

    Their rolls, periods and ledger stay. The number of each `wanted` says who; the names are those
    to look for in notes.
    """
    gone = list(wanted)
    # What a change of people found and left may be a name that they had before.
    kept = [f'"{key_of_person(person.number)}"' for person in gone]
    emptied = [
        row["id"]
        for row in conn.execute("SELECT id, text FROM notes WHERE text <> ''").fetchall()
        if _names_one(row["text"], gone) or any(mark in row["text"] for mark in kept)
    ]
    conn.executemany("UPDATE notes SET text = '' WHERE id = ?", [(note,) for note in emptied])
    _clean_room_file(conn, gone)
    for person in gone:
        conn.execute("DELETE FROM name_tokens WHERE person = ?", (person.number,))
        conn.execute(
            "UPDATE people SET given = '', family = '', called = NULL, school_id = NULL,"
            " name_stands = 0, wiped_at = coalesce(wiped_at, ?) WHERE id = ?",
            (to_text(now), person.number),
        )
    return len(emptied)


def _clean_room_file(conn: sqlite3.Connection, gone: Sequence[Person]) -> None:
    """Bring the room file that is kept for its comments up to date, without those that name them.

    As it was applied it may still say what the room has not been called since.
    """
    text = kept_room_file(conn)
    if text is not None and _names_one(text, gone):
        now = up_to_date(text, read_room(conn))
        keep_room_file(conn, without_comments(now, lambda comment: _names_one(comment, gone)))


def _names_one(text: str, people: Iterable[Person]) -> bool:
    return any(holds_a_name(text, person) for person in people)


def wipe_from(file: DarkroomFile, wanted: Iterable[Person], now: datetime) -> int:
    """Remove names from a file so that none of its bytes holds them; return how many notes went.

    Raises FileTrouble when another program holds the file, so that old pages could not go: the
    names are off the record then, and wiping again removes the rest.
    """
    conn = file.conn
    conn.execute("PRAGMA secure_delete = ON")
    with file.writing():
        notes = _wipe_names(conn, wanted, now)
    with trouble_with(file.path):
        # Pages that earlier changes gave up may hold a name that was changed since.
        file.shrink()
        busy, *_ = conn.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchone()
    if busy:
        raise FileTrouble(
            f"{file.path} is still read by another program, so its journal keeps old pages: close"
            " the other desks and wipe again"
        )
    return notes


def names_in_backup(path: Path, file: DarkroomFile, numbers: Iterable[int]) -> list[Person] | None:
    """Return what a kept copy of a file calls some people; None for another darkroom's file.

    Raises FileTrouble when it cannot be read.
    """
    with open_file(path, write=False, keep_earlier=False) as copy, trouble_with(path):
        if not _same_darkroom(copy.conn, file.conn):
            return None
        return list(people.read_people(copy.conn, numbers).values())


def wiped_in_backup(path: Path, file: DarkroomFile) -> list[int]:
    """Return the people whose names are wiped in a kept copy; nobody of another darkroom's file.

    Raises FileTrouble when it cannot be read.
    """
    with open_file(path, write=False, keep_earlier=False) as copy, trouble_with(path):
        return wiped(copy.conn) if _same_darkroom(copy.conn, file.conn) else []


def wipe_from_backup(path: Path, wanted: Iterable[Person], now: datetime) -> None:
    """Remove names from a kept copy. Raises FileTrouble when it cannot be changed."""
    with open_file(path, write=True, keep_earlier=False) as copy:
        wipe_from(copy, wanted, now)
        with trouble_with(path):
            make_one_file(copy.conn)  # as every backup is


def wiped(conn: sqlite3.Connection) -> list[int]:
    """Return the people whose names were removed."""
    rows = conn.execute("SELECT id FROM people WHERE wiped_at IS NOT NULL ORDER BY id").fetchall()
    return [row[0] for row in rows]


def last_used(conn: sqlite3.Connection) -> dict[int, date]:
    """Return the day of the last use of each name that is kept, in UTC.

    That is the end of their last term, the day they left, or the last time that one of their
    rolls was seen, whichever is latest. Who has film that is not sleeved, or a borrowed sleeve, is
    left out: their name is in use.
    """
    used: dict[int, date] = {}
    for row in conn.execute(_LAST_USED).fetchall():
        moments = [from_text(row[name]).date() for name in ("left_at", "seen_at") if row[name]]
        if row["ends"] is not None:
            moments.append(date.fromisoformat(row["ends"]))
        if moments and not row["in_use"]:
            used[row["id"]] = max(moments)
    return used


_LAST_USED = """
SELECT p.id, p.left_at,
  (SELECT max(t.ends) FROM enrolments e JOIN terms t ON t.code = e.term WHERE e.person = p.id)
    AS ends,
  (SELECT max(r.seen_at) FROM rolls r WHERE r.person = p.id) AS seen_at,
  EXISTS (SELECT 1 FROM rolls r WHERE r.person = p.id AND r.sleeved_at IS NULL
    AND r.gone_at IS NULL AND r.place <> 'missing')
  OR EXISTS (SELECT 1 FROM loans l WHERE l.person = p.id) AS in_use
FROM people p WHERE p.wiped_at IS NULL ORDER BY p.id
"""


def _same_darkroom(one: sqlite3.Connection, other: sqlite3.Connection) -> bool:
    """Copies share how their ledger began; it is never changed, so this tells them from others."""
    first = "SELECT happened, entered, act, roll, detail, desk FROM ledger WHERE id = 1"
    begins = [conn.execute(first).fetchone() for conn in (one, other)]
    # A copy from before the first act has only people, and they are this file's if anybody's.
    return begins[0] is None or (begins[1] is not None and tuple(begins[0]) == tuple(begins[1]))
