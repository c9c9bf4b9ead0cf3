"""The room as the file keeps it."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Sequence
from dataclasses import asdict
from datetime import date, time
from typing import TypedDict, cast

from filmrack.domain.dayplan import DayPlan, Slot
from filmrack.domain.room import Box, Dryer, Period, Rod, Room, Rules
from filmrack.domain.schooldays import DayOff, OneOff, Rotation, SchoolDays, Term
from filmrack.domain.timetable import Timetable, zone_named
from filmrack.store import settings

_TABLES = (
    "periods",
    "dryers",
    "rods",
    "boxes",
    "timetable",
    "days_off",
    "one_offs",
    "terms",
)


class _Fixed(TypedDict):
    name: str
    zone: str
    period_word: str
    weekdays: list[str]
    rotation: list[str]
    rotation_from: str | None
    rules: dict[str, float | int | str]


def read_room(conn: sqlite3.Connection) -> Room:
    """Return the room of a darkroom file."""
    fixed = cast(_Fixed, settings.read(conn, "room"))
    rotation = fixed["rotation_from"] and Rotation(
        tuple(fixed["rotation"]), date.fromisoformat(fixed["rotation_from"])
    )
    days = SchoolDays(
        weekdays=tuple(fixed["weekdays"]),
        terms=tuple(
            Term(row["code"], date.fromisoformat(row["starts"]), date.fromisoformat(row["ends"]))
            for row in _rows(conn, "terms ORDER BY starts")
        ),
        days_off=tuple(
            DayOff(row["name"], date.fromisoformat(row["first"]), date.fromisoformat(row["last"]))
            for row in _rows(conn, "days_off")
        ),
        one_offs=tuple(_one_off(row) for row in _rows(conn, "one_offs")),
        rotation=rotation or None,
    )
    return Room(
        name=fixed["name"],
        zone=fixed["zone"],
        period_word=fixed["period_word"],
        timetable=Timetable(zone_named(fixed["zone"]), _plans(conn), days),
        periods=tuple(
            Period(row["number"], row["name"]) for row in _rows(conn, "periods ORDER BY number")
        ),
        dryers=tuple(
            Dryer(row["number"], row["name"], row["clear_height_mm"], row["dial_hours"])
            for row in _rows(conn, "dryers ORDER BY number")
        ),
        rods=tuple(
            Rod(
                row["number"],
                row["dryer"],
                row["positions"],
                row["period"],
                row["spacing_mm"],
                row["counted_from"],
            )
            for row in _rows(conn, "rods ORDER BY dryer, number")
        ),
        boxes=tuple(
            Box(row["number"], row["period"]) for row in _rows(conn, "boxes ORDER BY number")
        ),
        rules=Rules(**fixed["rules"]),  # type: ignore[arg-type]
    )


def write_new_room(conn: sqlite3.Connection, room: Room) -> None:
    """Write the room of a file that has none yet."""
    days = room.timetable.days
    settings.write(
        conn,
        "room",
        _Fixed(
            name=room.name,
            zone=room.zone,
            period_word=room.period_word,
            weekdays=list(days.weekdays),
            rotation=list(days.rotation.letters) if days.rotation else [],
            rotation_from=days.rotation.first_day.isoformat() if days.rotation else None,
            rules=asdict(room.rules),
        ),
    )
    _insert(conn, "periods", [(p.number, p.name) for p in room.periods])
    _insert(
        conn,
        "dryers",
        [(d.number, d.name, d.clear_height_mm, d.dial_hours) for d in room.dryers],
    )
    _insert(
        conn,
        "rods",
        [
            (r.number, r.dryer, r.positions, r.spacing_mm, r.counted_from, r.period)
            for r in room.rods
        ],
    )
    _insert(conn, "boxes", [(b.number, b.period) for b in room.boxes])
    _insert(
        conn,
        "timetable",
        [
            (name, slot.period, slot.starts.isoformat("minutes"), slot.ends.isoformat("minutes"))
            for name, plan in room.timetable.plans.items()
            for slot in plan
        ],
    )
    _insert(
        conn,
        "days_off",
        [(d.first.isoformat(), d.last.isoformat(), d.name) for d in days.days_off],
    )
    _insert(
        conn,
        "one_offs",
        [(o.day.isoformat(), o.name, _plan_text(o.plan), o.keeps_letter) for o in days.one_offs],
    )
    _insert(
        conn,
        "terms",
        [(t.code, t.starts.isoformat(), t.ends.isoformat(), None) for t in days.terms],
    )


def _insert(conn: sqlite3.Connection, table: str, rows: Sequence[tuple[object, ...]]) -> None:
    if rows:
        marks = ", ".join("?" * len(rows[0]))
        conn.executemany(f"INSERT INTO {table} VALUES ({marks})", rows)


def _rows(conn: sqlite3.Connection, table: str) -> list[sqlite3.Row]:
    return conn.execute(f"SELECT * FROM {table}").fetchall()


def _plans(conn: sqlite3.Connection) -> dict[str, DayPlan]:
    plans: dict[str, list[Slot]] = {}
    for row in _rows(conn, "timetable ORDER BY plan, starts"):
        plans.setdefault(row["plan"], []).append(
            Slot(row["period"], time.fromisoformat(row["starts"]), time.fromisoformat(row["ends"]))
        )
    return {name: tuple(slots) for name, slots in plans.items()}


def _one_off(row: sqlite3.Row) -> OneOff:
    plan: str | DayPlan = row["plan"]
    if row["plan"].startswith("["):
        plan = tuple(
            Slot(period, time.fromisoformat(starts), time.fromisoformat(ends))
            for period, starts, ends in json.loads(row["plan"])
        )
    return OneOff(date.fromisoformat(row["date"]), row["name"], plan, bool(row["keeps_letter"]))


def _plan_text(plan: str | DayPlan) -> str:
    if isinstance(plan, str):
        return plan
    return json.dumps(
        [
            [slot.period, slot.starts.isoformat("minutes"), slot.ends.isoformat("minutes")]
            for slot in plan
        ]
    )
