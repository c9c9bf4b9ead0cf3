"""The darkroom file: opening it, making it, and one transaction at a time.

Only plain sqlite3 here: a lookup between two lessons must not wait for larger imports.
"""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from functools import cached_property
from os import PathLike
from types import TracebackType
from typing import TYPE_CHECKING, Self

from filmrack.domain.refusal import FileTrouble, NeedsBackup
from filmrack.domain.room import Room
from filmrack.store.clock import is_demo
from filmrack.store.room import read_room, read_stamp
from filmrack.store.rows import understood
from filmrack.store.trouble import (
    damage_in,
    damaged,
    refuse_over,
    refuse_without_folder,
    trouble_with,
)
from filmrack.store.version import APPLICATION_ID, VERSION

if TYPE_CHECKING:
    from pathlib import Path

Named = str | PathLike[str]
"""A file by its name, as typed: to open it, SQLite needs no more."""

_BUSY_SECONDS = 10.0
_TURN = 0.25
"""Seconds after which a desk that waits begins to ask often again.

SQLite asks ever more seldom: of four desks that write without a pause, one would wait for ever.
"""


class DarkroomFile:
    """One open darkroom file; `conn` is its connection, in autocommit outside `writing`."""

    def __init__(self, path: Named, conn: sqlite3.Connection) -> None:
        self._named = path
        self.conn = conn
        self.patience = 2 * _BUSY_SECONDS
        """Seconds to wait for other desks before an act is refused."""
        self._room: tuple[object, Room] | None = None

    @cached_property
    def path(self) -> Path:
        """Return where the file is."""
        from pathlib import Path

        return Path(self._named)

    def room(self) -> Room:
        """Return the room, read anew only when somebody has changed it."""
        stamp = read_stamp(self.conn)
        if self._room is None or self._room[0] != stamp:
            with understood("room"):
                self._room = (stamp, read_room(self.conn))
        return self._room[1]

    @contextmanager
    def writing(self) -> Iterator[sqlite3.Connection]:
        """Hold the file for one transaction: all of it is kept, or nothing.

        Begins IMMEDIATE, so that a second desk waits instead of failing at its first write.
        Raises FileTrouble when the file cannot be written; nothing is changed then.
        """
        with trouble_with(self._named):
            self._begin()
            try:
                yield self.conn
                self.conn.execute("COMMIT")
            except BaseException:
                if self.conn.in_transaction:
                    self.conn.execute("ROLLBACK")
                raise

    def _begin(self) -> None:
        usual: int = self.conn.execute("PRAGMA busy_timeout").fetchone()[0]
        self.conn.execute(f"PRAGMA busy_timeout = {min(_TURN, self.patience) * 1000:.0f}")
        try:
            turns = max(1, round(self.patience / _TURN))
            for turn in range(1, turns + 1):
                try:
                    self.conn.execute("BEGIN IMMEDIATE")
                    return
                except sqlite3.OperationalError as error:
                    if turn == turns or "locked" not in str(error):
                        raise
        finally:
            self.conn.execute(f"PRAGMA busy_timeout = {usual}")

    @contextmanager
    def reading(self) -> Iterator[sqlite3.Connection]:
        """Hold one view of the file for several reads, whatever other desks write meanwhile.

        Raises FileTrouble when the file turns out to be damaged.
        """
        with damage_in(self._named):
            self.conn.execute("BEGIN")
            try:
                yield self.conn
            finally:
                if self.conn.in_transaction:
                    self.conn.execute("ROLLBACK")

    def others_wrote(self) -> int:
        """Return SQLite's count of what other connections committed to the file."""
        count: int = self.conn.execute("PRAGMA data_version").fetchone()[0]
        return count

    def shrink(self) -> None:
        """Write the file anew without the pages that earlier changes gave up."""
        self.conn.execute("VACUUM")

    def write_in_haste(self) -> None:
        """Do not wait for the disk any more: only for what a power cut may take."""
        self.conn.execute("PRAGMA synchronous = OFF")

    def close(self) -> None:
        """Close the file."""
        self.conn.close()

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        where: TracebackType | None,
    ) -> None:
        self.close()


def open_file(path: Named, *, write: bool, keep_earlier: bool = True) -> DarkroomFile:
    """Open a darkroom file, bringing an earlier version up to this one when it may be written.

    A backup of the earlier one is kept in the folder beside it, unless the file is a copy itself
    (`keep_earlier` False). Raises FileTrouble when it is missing, not ours, damaged, newer or not
    readable.
    """
    with trouble_with(path):
        conn = _connect_to_existing(path, "rw" if write else "ro")
        try:
            if _version(conn, path) < VERSION:
                if not write:
                    conn.close()
                    conn = _connect(path, "rw")
                if keep_earlier:
                    _keep_earlier(DarkroomFile(path, conn))
                _migrate(conn, VERSION)
            if write:
                conn.execute("PRAGMA journal_mode = WAL")
        except BaseException:
            conn.close()
            raise
    return DarkroomFile(path, conn)


def create_file(path: Path, version: int = VERSION) -> DarkroomFile:
    """Make a new, empty darkroom file, of an earlier version if need be.

    Raises Refused over anything that exists, FileTrouble when it cannot be written.
    """
    refuse_over(path)
    refuse_without_folder(path)
    with trouble_with(path):
        conn = _connect(path, "rwc")
        conn.execute(f"PRAGMA application_id = {APPLICATION_ID}")
        conn.execute("PRAGMA journal_mode = WAL")
        _migrate(conn, version)
    return DarkroomFile(path, conn)


def _connect_to_existing(path: Named, mode: str) -> sqlite3.Connection:
    try:
        return _connect(path, mode)
    except (sqlite3.OperationalError, ValueError):  # ValueError: a name that no file can have
        from pathlib import Path

        there = Path(path)
        if there.is_file():
            raise
        what = "is no file" if there.exists() else "does not exist"
        raise NeedsBackup(
            path,
            f"{there} {what}: make a darkroom file with “filmrack new”, or name yours with --db",
            other_way=True,
        ) from None


def _uri(path: Named, mode: str) -> str:
    """Return what SQLite opens a file by, written as sqlite.org/uri.html says (3.1)."""
    name = os.fspath(path)
    if os.sep == "\\":
        name = name.replace(os.sep, "/")
        name = f"/{name}" if name[1:2] == ":" else name
    for sign in "%?#":
        name = name.replace(sign, f"%{ord(sign):02x}")
    return f"file://{name}?mode={mode}" if name.startswith("/") else f"file:./{name}?mode={mode}"


def _connect(path: Named, mode: str) -> sqlite3.Connection:
    conn = sqlite3.connect(
        _uri(path, mode),
        uri=True,
        isolation_level=None,
        timeout=_BUSY_SECONDS,
    )
    conn.row_factory = sqlite3.Row
    conn.execute("PRAGMA foreign_keys = ON")
    conn.execute("PRAGMA synchronous = FULL")
    return conn


def _version(conn: sqlite3.Connection, path: Named) -> int:
    application = conn.execute("PRAGMA application_id").fetchone()[0]
    version: int = conn.execute("PRAGMA user_version").fetchone()[0]
    if application != APPLICATION_ID and not conn.execute("PRAGMA page_count").fetchone()[0]:
        raise NeedsBackup(
            path, f"{path} is not a darkroom file but empty: go back to the newest backup"
        )
    if application != APPLICATION_ID:
        raise FileTrouble(
            f"{path} is not a darkroom file: name yours with --db, or make one with “filmrack new”"
        )
    if version < 1:
        raise damaged(path)
    if version > VERSION:
        raise FileTrouble(
            f"{path} was written by a newer Filmrack (version {version} of the file, this one"
            f" knows {VERSION}): update Filmrack, nothing was changed"
        )
    return version


def _keep_earlier(file: DarkroomFile) -> None:
    """Keep a file as it is before it becomes one of this version; a demo is not worth it."""
    from filmrack.store.backup import back_up, make_backups_folder, stamp_of

    conn, path = file.conn, file.path
    if is_demo(conn):
        return
    version: int = conn.execute("PRAGMA user_version").fetchone()[0]
    written = datetime.fromtimestamp(path.stat().st_mtime, UTC)
    name = f"{path.stem}-{stamp_of(written)}-before-version-{version + 1}"
    # Desks that start at once each keep one: none of them may count on another's.
    target = make_backups_folder(path) / f"{name}-{os.getpid()}.db"
    back_up(file, target)


def _migrate(conn: sqlite3.Connection, to: int) -> None:
    """Bring the file to a version; of two desks that start at once, the second finds it done."""
    from filmrack.store.schema import STEPS

    conn.execute("BEGIN IMMEDIATE")
    try:
        version = conn.execute("PRAGMA user_version").fetchone()[0]
        for step in STEPS[version:to]:
            for statement in _statements(step):
                conn.execute(statement)
        conn.execute(f"PRAGMA user_version = {max(version, to)}")
        conn.execute("COMMIT")
    except BaseException:
        conn.execute("ROLLBACK")
        raise


def _statements(script: str) -> Iterator[str]:
    """Cut a script into statements; executescript would commit the transaction it stands in."""
    statement = ""
    for line in script.splitlines(keepends=True):
        statement += line
        if sqlite3.complete_statement(statement):
            yield statement
            statement = ""
