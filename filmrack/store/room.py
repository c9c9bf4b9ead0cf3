"""The room as the file keeps it."""

from __future__ import annotations

import json
import sqlite3
from datetime import date, time
from typing import NotRequired, TypedDict, Unpack, cast

from filmrack.domain.dayplan import DayPlan, Slot
from filmrack.domain.room import Binder, Box, Dryer, Materials, Period, Rod, Room, Rules
from filmrack.domain.schooldays import DayOff, OneOff, Rotation, SchoolDays, Term
from filmrack.domain.timetable import LeftBehindRule, Timetable, zone_named
from filmrack.store import settings


class _Rules(TypedDict):
    drying_lag_minutes: float
    process_minutes: float
    overnight_hours: float
    left_behind: LeftBehindRule
    box_school_days: int
    contact_school_days: int
    loan_school_days: int
    keep_names_years: int
    desk_idle_minutes: float
    helpers_sweep: bool


class _Materials(TypedDict):
    film: str
    page: str
    paper: str
    more_pages: list[str]
    more_papers: list[tuple[str, float, float]]
    page_120: NotRequired[str]
    page_sheet: NotRequired[str]


class _Fixed(TypedDict):
    name: str
    zone: str
    period_word: str
    weekdays: list[str]
    rotation: list[str]
    rotation_from: str | None
    plans: list[str]
    rules: _Rules
    materials: _Materials
    initials_on_sleeves: bool


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
            for row in _rows(conn, "days_off ORDER BY first, last")
        ),
        one_offs=tuple(_one_off(row) for row in _rows(conn, "one_offs ORDER BY date")),
        rotation=rotation or None,
    )
    periods = _rows(conn, "periods ORDER BY number")
    return Room(
        name=fixed["name"],
        zone=fixed["zone"],
        period_word=fixed["period_word"],
        timetable=Timetable(zone_named(fixed["zone"]), _plans(conn, fixed["plans"]), days),
        periods=tuple(Period(row["number"], row["name"]) for row in periods if not row["gone"]),
        former_periods=tuple(Period(row["number"], row["name"]) for row in periods if row["gone"]),
        dryers=tuple(
            Dryer(row["number"], row["name"], row["clear_height_mm"], row["dial_hours"])
            for row in _rows(conn, "dryers WHERE NOT gone ORDER BY number")
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
            for row in _rows(conn, "rods WHERE NOT gone ORDER BY dryer, number")
        ),
        boxes=tuple(
            Box(row["number"], row["period"])
            for row in _rows(conn, "boxes WHERE NOT gone ORDER BY number")
        ),
        binders=tuple(
            Binder(row["term"], row["number"], row["period"])
            for row in _rows(conn, "binders ORDER BY term, number")
        ),
        rules=_rules(**fixed["rules"]),
        materials=_materials(fixed["materials"]),
        initials_on_sleeves=fixed["initials_on_sleeves"],
    )


def write_room(conn: sqlite3.Connection, room: Room) -> None:
    """Write a room over the one of the file, if it has one.

    What the room has no more is marked as gone; a term is removed. Binders that it does not name
    stay: they are made as they fill. Whether rolls would be stranded was asked before.
    """
    # A period and its box change places in two steps; only the end has to hold together.
    conn.execute("PRAGMA defer_foreign_keys = ON")
    _write_fixed(conn, room)
    for table in ("timetable", "days_off", "one_offs"):
        conn.execute(f"DELETE FROM {table}")
    for table in ("periods", "dryers", "rods", "boxes"):
        conn.execute(f"UPDATE {table} SET gone = 1")
    _write_places(conn, room)
    _write_days(conn, room)


def bump_stamp(conn: sqlite3.Connection) -> None:
    """Tell every desk that the room has changed."""
    stamp = settings.read(conn, "room_stamp")
    settings.write(conn, "room_stamp", stamp + 1 if isinstance(stamp, int) else 1)


def _write_fixed(conn: sqlite3.Connection, room: Room) -> None:
    days, materials = room.timetable.days, room.materials
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
            plans=list(room.timetable.plans),
            rules=cast(_Rules, room.rules._asdict()),
            materials=_Materials(
                film=materials.film,
                page=materials.page,
                paper=materials.paper,
                more_pages=list(materials.more_pages),
                more_papers=[(p.name, p.short_mm, p.long_mm) for p in materials.more_papers],
                page_120=materials.page_120,
                page_sheet=materials.page_sheet,
            ),
            initials_on_sleeves=room.initials_on_sleeves,
        ),
    )


def _write_places(conn: sqlite3.Connection, room: Room) -> None:
    conn.executemany(
        "INSERT INTO periods (number, name) VALUES (?, ?)"
        " ON CONFLICT (number) DO UPDATE SET name = excluded.name, gone = 0",
        [(p.number, p.name) for p in room.periods],
    )
    conn.executemany(
        "INSERT INTO dryers (number, name, clear_height_mm, dial_hours) VALUES (?, ?, ?, ?)"
        " ON CONFLICT (number) DO UPDATE SET name = excluded.name, gone = 0,"
        " clear_height_mm = excluded.clear_height_mm, dial_hours = excluded.dial_hours",
        [(d.number, d.name, d.clear_height_mm, d.dial_hours) for d in room.dryers],
    )
    conn.executemany(
        "INSERT INTO rods (number, dryer, positions, spacing_mm, counted_from, period)"
        " VALUES (?, ?, ?, ?, ?, ?) ON CONFLICT (number) DO UPDATE SET gone = 0,"
        " dryer = excluded.dryer, positions = excluded.positions, period = excluded.period,"
        " spacing_mm = excluded.spacing_mm, counted_from = excluded.counted_from",
        [
            (r.number, r.dryer, r.positions, r.spacing_mm, r.counted_from, r.period)
            for r in room.rods
        ],
    )
    conn.executemany(
        "INSERT INTO boxes (number, period) VALUES (?, ?)"
        " ON CONFLICT (number) DO UPDATE SET period = excluded.period, gone = 0",
        [(b.number, b.period) for b in room.boxes],
    )


def _write_days(conn: sqlite3.Connection, room: Room) -> None:
    days = room.timetable.days
    conn.executemany(
        "INSERT INTO timetable (plan, period, starts, ends) VALUES (?, ?, ?, ?)",
        [
            (name, slot.period, slot.starts.isoformat("minutes"), slot.ends.isoformat("minutes"))
            for name, plan in room.timetable.plans.items()
            for slot in plan
        ],
    )
    conn.executemany(
        "INSERT INTO days_off (first, last, name) VALUES (?, ?, ?)",
        [(d.first.isoformat(), d.last.isoformat(), d.name) for d in days.days_off],
    )
    conn.executemany(
        "INSERT INTO one_offs (date, name, plan, keeps_letter) VALUES (?, ?, ?, ?)",
        [(o.day.isoformat(), o.name, _plan_text(o.plan), o.keeps_letter) for o in days.one_offs],
    )
    conn.executemany(
        "INSERT INTO terms (code, starts, ends) VALUES (?, ?, ?)"
        " ON CONFLICT (code) DO UPDATE SET starts = excluded.starts, ends = excluded.ends",
        [(t.code, t.starts.isoformat(), t.ends.isoformat()) for t in days.terms],
    )
    kept = [term.code for term in days.terms]
    unnamed = f"NOT IN ({', '.join('?' * len(kept))})"
    conn.execute(f"DELETE FROM binders WHERE term {unnamed}", kept)
    conn.execute(f"DELETE FROM terms WHERE code {unnamed}", kept)
    conn.executemany(
        "INSERT INTO binders (term, number, period) VALUES (?, ?, ?)"
        " ON CONFLICT (term, number) DO UPDATE SET period = excluded.period",
        [(b.term, b.number, b.period) for b in room.binders],
    )


def _rows(conn: sqlite3.Connection, table: str) -> list[sqlite3.Row]:
    return conn.execute(f"SELECT * FROM {table}").fetchall()


def _rules(**kept: Unpack[_Rules]) -> Rules:
    return Rules(**kept)


def _materials(kept: _Materials) -> Materials:
    papers, usual = kept["more_papers"], Materials()
    if papers:
        from filmrack.domain.contact import Paper

        more = tuple(Paper(name, short, long_) for name, short, long_ in papers)
    return Materials(
        kept["film"],
        kept["page"],
        kept["paper"],
        tuple(kept["more_pages"]),
        more if papers else (),
        # A file that was made before these were kept has the usual ones.
        kept.get("page_120", usual.page_120),
        kept.get("page_sheet", usual.page_sheet),
    )


def _plans(conn: sqlite3.Connection, names: list[str]) -> dict[str, DayPlan]:
    # A plan may be empty: a day letter on which no class uses the darkroom.
    plans: dict[str, list[Slot]] = {name: [] for name in names}
    for row in _rows(conn, "timetable ORDER BY plan, starts"):
        plans[row["plan"]].append(
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
