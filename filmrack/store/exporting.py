"""Everything the darkroom file holds as tables that other programs can read, and back again."""

from __future__ import annotations

import csv
import json
import math
import re
import sqlite3
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import IO, TYPE_CHECKING

from filmrack.domain.cells import from_cell, to_cell
from filmrack.domain.refusal import Refused
from filmrack.store import rolls
from filmrack.store.columns import COLUMNS
from filmrack.store.file import DarkroomFile
from filmrack.store.tables import own_tables
from filmrack.store.trouble import damage_in

if TYPE_CHECKING:
    from sqlite_utils.db import Column, Table

_ABOUT = "about.json"
_MEANINGS = "columns.csv"
_READ_ME = "READ-ME.txt"

_LONGEST_CELL = 1 << 26
_INT64 = 1 << 63

_Value = str | int | float | bytes | None


def write_all(conn: sqlite3.Connection, folder: Path) -> list[str]:
    """Write every table to an empty folder, as CSV and as JSON, and what each column means.

    Return the names of the files. The caller holds one view of the file.
    """
    found = own_tables(conn)
    written = []
    for table in found:
        with _new(folder / f"{table.name}.csv") as cells, _new(folder / f"{table.name}.json") as js:
            _write_table(table, cells, js)
        written += [f"{table.name}.csv", f"{table.name}.json"]
    with _new(folder / _MEANINGS) as cells:
        write = _row_writer(cells)
        write(["table", "column", "type", "meaning"])
        for table in found:
            meanings = COLUMNS.get(table.name, {})
            for column in table.columns:
                meaning = to_cell(meanings.get(column.name, ""))
                write([table.name, column.name, column.type, meaning])
    version = conn.execute("PRAGMA user_version").fetchone()[0]
    about = {"file": "filmrack export", "version": version, "rolls": rolls.count(conn)}
    (folder / _ABOUT).write_text(json.dumps(about, indent=2) + "\n", encoding="utf-8")
    (folder / _READ_ME).write_text(_LETTER, encoding="utf-8")
    return [*written, _MEANINGS, _ABOUT, _READ_ME]


def _write_table(table: Table, cells: IO[str], documents: IO[str]) -> None:
    write = _row_writer(cells)
    write(table.columns_dict)
    documents.write("[")
    before = "\n"
    for row in table.rows_where(order_by=", ".join(table.pks)):
        write(to_cell(_text(value)) for value in row.values())
        document = {name: _plain(value) for name, value in row.items()}
        documents.write(before + json.dumps(document, ensure_ascii=False))
        before = ",\n"
    documents.write("\n]\n")


def version_of(folder: Path) -> int:
    """Return the version of the file that an export was made from.

    Raises Refused for a folder that is no export.
    """
    try:
        about = json.loads(_inside(folder, _ABOUT).read_bytes())
    except (OSError, ValueError, RecursionError):
        about = None
    version = about.get("version") if isinstance(about, dict) else None
    if not isinstance(version, int) or isinstance(version, bool) or version < 1:
        raise Refused(f"{folder} is no export: name a folder that “filmrack export” has made")
    return version


def fill(file: DarkroomFile, folder: Path) -> list[str]:
    """Read every table's CSV file from a folder into an empty file of the same version.

    Return the names of the files. Raises Refused, naming file and line, for what is missing or
    cannot be read, and where rows do not fit together; FileTrouble when it cannot be written.
    """
    conn = file.conn
    with damage_in(file.path):
        conn.execute("BEGIN IMMEDIATE")
        try:
            files = _read_all(conn, folder)
            conn.execute("COMMIT")
        except (sqlite3.IntegrityError, sqlite3.DataError, UnicodeError) as error:
            raise Refused(
                f"{folder} was not taken in because its rows do not fit together ({error}): export"
                " again, or undo what was changed in it"
            ) from error
        finally:
            if conn.in_transaction:
                conn.execute("ROLLBACK")
    return files


def _read_all(conn: sqlite3.Connection, folder: Path) -> list[str]:
    conn.execute("PRAGMA defer_foreign_keys = ON")
    read = []
    for table in own_tables(conn):
        path = _inside(folder, f"{table.name}.csv")
        table.insert_all(_rows(table.columns, path))
        read.append(path.name)
    return read


def _rows(columns: list[Column], path: Path) -> Iterator[list[_Value]]:
    """Yield the names of the columns, then each row of a table's CSV file."""
    names: list[_Value] = [column.name for column in columns]
    with _long_cells(), _opened(path) as opened:
        rows = csv.reader(opened, strict=True)
        try:
            if next(rows, None) != names:
                raise Refused(
                    f"{path.name} cannot be read because its first line must be"
                    f" {','.join(map(str, names))}: export again"
                )
            yield names
            for row in rows:
                if len(row) != len(columns):
                    raise Refused(
                        f"{path.name}, line {rows.line_num}: it has {len(row)} cells instead of"
                        f" {len(columns)}, export again"
                    )
                yield [
                    _value(column, path, rows.line_num, cell)
                    for column, cell in zip(columns, row, strict=True)
                ]
        except (csv.Error, UnicodeError) as error:
            raise Refused(
                f"{path.name}, line {rows.line_num}: it cannot be read ({error}), export again"
            ) from error


def _value(column: Column, path: Path, line: int, cell: str) -> _Value:
    text = from_cell(cell)
    if text is None:
        return None
    try:
        return _READERS[column.type](text)
    except ValueError:
        raise Refused(
            f"{path.name}, line {line}: “{cell[:40]}” is no {_KIND_WORDS[column.type]} for"
            f" {column.name}, put back what stood there or export again"
        ) from None


def _integer(text: str) -> int:
    if not re.fullmatch(r"-?[0-9]{1,19}", text) or not -_INT64 <= int(text) < _INT64:
        raise ValueError
    return int(text)


def _real(text: str) -> float:
    number = float(text)
    if math.isnan(number):  # SQLite has none; what was never found to be dry is infinite
        raise ValueError
    return number


_READERS: dict[str, Callable[[str], _Value]] = {
    "TEXT": str,
    "INTEGER": _integer,
    "REAL": _real,
    "BLOB": bytes.fromhex,
}
_KIND_WORDS = {"TEXT": "text", "INTEGER": "number", "REAL": "number", "BLOB": "row of bytes"}


def _plain(value: _Value) -> _Value:
    """Return a value as JSON has it, which knows neither bytes nor the infinite."""
    whole = not isinstance(value, float) or math.isfinite(value)
    return value if whole and not isinstance(value, bytes) else _text(value)


def _text(value: _Value) -> str | None:
    if isinstance(value, bytes):
        return value.hex()
    if isinstance(value, float):
        return repr(value)
    return None if value is None else str(value)


def _inside(folder: Path, name: str) -> Path:
    """Return a file of a folder. Raises Refused for a link that leads out of it."""
    path = folder / name
    if path.resolve().parent != folder.resolve():
        raise Refused(f"{path} leads out of the folder: put the file itself there")
    if not path.is_file():
        raise Refused(f"{folder} lacks {name}: name a folder that “filmrack export” has made")
    return path


@contextmanager
def _opened(path: Path) -> Iterator[IO[str]]:
    try:
        with path.open(encoding="utf-8-sig", newline="") as opened:
            yield opened
    except OSError as error:
        raise Refused(f"{path} cannot be read ({error.strerror}): allow reading it") from error


@contextmanager
def _long_cells() -> Iterator[None]:
    """A room file may be longer than the module's limit, which is one for the whole process."""
    before = csv.field_size_limit(_LONGEST_CELL)
    try:
        yield
    finally:
        csv.field_size_limit(before)


def _new(path: Path) -> IO[str]:
    # The mark at its head tells a spreadsheet that it is UTF-8.
    mark = "utf-8-sig" if path.suffix == ".csv" else "utf-8"
    return path.open("x", encoding=mark, newline="")


def _row_writer(opened: IO[str]) -> Callable[[Iterable[str]], object]:
    return csv.writer(opened, quoting=csv.QUOTE_ALL, lineterminator="\r\n").writerow


_LETTER = """\
All that a darkroom file holds, table by table.

NAME.csv     a table, for a spreadsheet; “filmrack import” reads these
NAME.json    the same table, for programs
columns.csv  what each column means
about.json   the version of the file

In the CSV files an empty cell is no value. A cell that a spreadsheet could take for a formula
(it begins with = + - @, a tab or a line break), one that begins with an apostrophe, and an empty
text have an apostrophe in front, which is not part of the value. Moments are UTC, in ISO 8601.

These files hold the names of students: keep them as you keep the darkroom file.
"""
