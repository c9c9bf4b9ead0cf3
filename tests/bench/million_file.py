"""Files of up to a million rolls, each filed with seven ledger entries behind a full room.

The rows are those that the acts would have written; `filmrack check` finds the files in order.
"""

from __future__ import annotations

import csv
import json
import random
import sqlite3
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

from filmrack.domain.names import tokens
from filmrack.domain.roll import roll_number
from filmrack.store.room import bump_stamp
from filmrack.store.times import to_text
from tests.desk.full_room import GIVEN, PERIODS, POSITIONS, STUDENTS, empty_room, fill

A_TERM = 25_000
TERMS = [f"{year:02d}{half}" for year in range(6, 27) for half in "SF"][:-1]
"""Twenty years and a half before the term of the full room."""
CLIPS = 900
A_DIAL = 40
"""One roll in so many finds the fan still and has it turned on."""
SYLLABLES = list(zip("bcdfghjklmnprstvw", "aoiueaoiueaoiueao", strict=True))

LIFE: tuple[tuple[str, timedelta], ...] = (
    ("load", timedelta()),
    ("hang", timedelta(minutes=8)),
    ("flip", timedelta(minutes=30)),
    ("box", timedelta(minutes=90)),
    ("sleeve", timedelta(hours=50)),
    ("contact", timedelta(hours=75)),
    ("file", timedelta(hours=100)),
)
PAGES = [[5, 5, 5, 5, 5, 5, 3], [3]]


def made(folder: Path, count: int) -> Path:
    """Return the file of so many rolls in a folder, made if it is not there yet."""
    path = folder / f"{count}.db"
    if path.exists():
        return path
    folder.mkdir(parents=True, exist_ok=True)
    draft = folder / f"{count}.draft.db"
    draft.unlink(missing_ok=True)
    with empty_room(draft) as file:
        with file.writing() as conn:
            _people(conn, count)
            _terms(conn)
            first = len(TERMS) - 1 - (count - 1) // A_TERM
            for nth, start in enumerate(range(0, count, A_TERM), first):
                _term(conn, TERMS[nth], start, min(A_TERM, count - start), count)
        fill(file)
        file.conn.execute("PRAGMA wal_checkpoint(TRUNCATE)")
        _spreadsheet(file.conn, path.with_suffix(".csv"))
    draft.rename(path)
    return path


def people_of(count: int) -> int:
    """Return how many people a file of so many rolls has had, beside those of the full room."""
    return min(9_000, max(100, count // 40))


def _people(conn: sqlite3.Connection, count: int) -> None:
    dice = random.Random(1)

    def invented(syllables: int) -> str:
        return "".join(map("".join, dice.choices(SYLLABLES, k=syllables))).title()

    # As in any school, a good third of the people share a dozen given names.
    named = [
        (
            STUDENTS + n,
            dice.choice(GIVEN) if n % 3 == 0 else invented(2),
            invented(3),
        )
        for n in range(1, people_of(count) + 1)
    ]
    conn.executemany("INSERT INTO people (id, given, family) VALUES (?, ?, ?)", named)
    conn.executemany(
        "INSERT INTO name_tokens (token, person, backward) VALUES (?, ?, ?)",
        (
            (word, number, word[::-1])
            for number, given, family in named
            for word in sorted(set(tokens(f"{given} {family}")))
        ),
    )


def _terms(conn: sqlite3.Connection) -> None:
    months = {"S": ("01-05", "06-20"), "F": ("08-24", "12-18")}
    conn.executemany(
        "INSERT INTO terms (code, starts, ends) VALUES (?, ?, ?)",
        ((code, *(f"20{code[:2]}-{day}" for day in months[code[2]])) for code in TERMS),
    )
    conn.executemany(
        "INSERT INTO binders (term, number, period) VALUES (?, ?, NULL)",
        ((term, number) for term in TERMS for number in range(1, 91)),
    )
    conn.executemany(
        "INSERT INTO clips (number) VALUES (?)", ((number,) for number in range(1, CLIPS + 1))
    )
    bump_stamp(conn)


def _term(conn: sqlite3.Connection, term: str, before: int, count: int, all_: int) -> None:
    first = datetime(2000 + int(term[:2]), 1 if term[2] == "S" else 9, 7, 14, tzinfo=UTC)
    stride = timedelta(days=90) / A_TERM
    begun = [(first + stride * nth).replace(microsecond=0) for nth in range(count)]
    rolls = [_roll(term, before, nth, begun[nth], all_) for nth in range(count)]
    marks = ", ".join("?" * 18)
    conn.executemany(
        "INSERT INTO rolls (id, term, serial, person, period, film, frames, place, binder, since,"
        f" seen, seen_at, first_at, hung_at, stays, page_name, sleeved_at, filed_at)"
        f" VALUES ({marks})",
        rolls,
    )
    conn.executemany(
        "INSERT INTO sleeves (roll, page, strips) VALUES (?, ?, ?)",
        (
            (roll[0], page, json.dumps(strips))
            for roll in rolls
            for page, strips in enumerate(PAGES, 1)
        ),
    )
    conn.executemany(
        "INSERT INTO contact_sheets (roll, nth, at, paper, picks) VALUES (?, 0, ?, '8x10in', '[]')",
        ((roll[0], to_text(at + LIFE[5][1])) for roll, at in zip(rolls, begun, strict=True)),
    )
    _told(conn, begun, rolls, 1 + before * len(LIFE))


def _told(
    conn: sqlite3.Connection, begun: list[datetime], rolls: list[tuple[object, ...]], group: int
) -> None:
    """Write the fan's runs and the ledger of rolls; `group` numbers the first act group."""
    conn.executemany(
        "INSERT INTO fan_runs (dryer, starts, ends, assumed, refuted) VALUES (1, ?, ?, 1, 0)",
        (
            (to_text(at + LIFE[1][1]), to_text(at + LIFE[1][1] + timedelta(hours=1)))
            for at in begun[::A_DIAL]
        ),
    )
    told = sorted(
        (at + after, nth, step)
        for nth, at in enumerate(begun)
        for step, (_, after) in enumerate(LIFE)
    )
    conn.executemany(
        "INSERT INTO ledger (act_group, happened, entered, act, roll, detail, by, desk)"
        " VALUES (?, ?, ?, ?, ?, ?, 'teacher', 'desk 1')",
        _entries(told, rolls, group),
    )


def _roll(term: str, before: int, nth: int, at: datetime, all_: int) -> tuple[object, ...]:
    number = before + nth + 1
    # Six hundred people or fewer at a time, who stay for four terms.
    people = people_of(all_)
    cohort = before // A_TERM // 4 * 600
    person = STUDENTS + 1 + (cohort + nth * 31 % min(600, people)) % people
    hung, flipped, boxed, sleeved, _, filed = (to_text(at + after) for _, after in LIFE[1:])
    period = 1 + person % PERIODS
    stays = [[period, hung, flipped, 0], [period, flipped, boxed, 1]]
    binder = 1 + nth % 90
    return (
        *(number, term, nth + 1, person, period, "135-36", 36, "binder", binder, filed),
        *(f"binder {binder}", filed, to_text(at), hung, json.dumps(stays), "7x5", sleeved, filed),
    )


def _entries(
    told: list[tuple[datetime, int, int]], rolls: list[tuple[object, ...]], group: int
) -> Iterator[tuple[object, ...]]:
    for place, (at, nth, step) in enumerate(told):
        number, term, serial, person, period, film, frames, _, binder = rolls[nth][:9]
        details: tuple[dict[str, object], ...] = (
            {
                "clip": 1 + nth % CLIPS,
                "film": film,
                "period": period,
                "person": person,
                "serial": serial,
                "term": term,
            },
            {"position": 1 + nth % POSITIONS, "rod": period},
            {},
            {"box": period, "by_count": True},
            {"frames": frames, "page_name": "7x5", "pages": PAGES},
            {"paper": "8x10in", "picks": []},
            {"binder": binder},
        )
        text = to_text(at)
        detail = json.dumps(details[step], separators=(",", ":"))
        yield group + place, text, text, LIFE[step][0], number, detail
        if step == 1 and nth % A_DIAL == 0:
            dial = '{"assumed":true,"dryer":1,"hours":1.0}'
            yield group + place, text, text, "fan", None, dial


def _spreadsheet(conn: sqlite3.Connection, path: Path) -> None:
    """Write the sheet that a room without Filmrack would keep: a roll a row."""
    rows = conn.execute(
        "SELECT r.term, r.serial, p.given, p.family, r.period, r.clip, r.place, r.rod, r.position,"
        " r.binder, r.hung_at, r.sleeved_at FROM rolls r JOIN people p ON p.id = r.person"
        " ORDER BY r.id"
    )
    with path.open("w", newline="", encoding="utf-8") as out:
        sheet = csv.writer(out)
        sheet.writerow(["roll", "given", "family", "period", "clip", "place", "rod", "position"])
        sheet.writerows([roll_number(row[0], row[1]), *tuple(row)[2:]] for row in rows)
