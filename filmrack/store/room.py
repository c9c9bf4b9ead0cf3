"""The room as the file keeps it; `room_writing` writes it."""

from __future__ import annotations

import json
import sqlite3
from datetime import date, time
from typing import TYPE_CHECKING, Unpack, cast

from filmrack.domain.dayplan import DayPlan, Slot
from filmrack.domain.room import Binder, Box, Dryer, Period, Rod, Room
from filmrack.domain.roomrules import Materials, Rules
from filmrack.domain.schooldays import DayOff, OneOff, Rotation, SchoolDays, Term
from filmrack.domain.timetable import Timetable, zone_named
from filmrack.store import settings

if TYPE_CHECKING:
    from filmrack.store.kept_room import KeptMaterials, KeptRoom, KeptRules

STAMP = "room_stamp"
"""The setting that counts the changes of the room."""


def read_room(conn: sqlite3.Connection) -> Room:
    """Return the room of a darkroom file."""
    fixed = cast("KeptRoom", settings.read(conn, "room"))
    rotation = fixed["rotation_from"] and Rotation(
        tuple(fixed["rotation"]), date.fromisoformat(fixed["rotation_from"])
    )
    weeks = fixed.get("weeks_from")
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
        weeks=Rotation(tuple(fixed["weeks"]), date.fromisoformat(weeks)) if weeks else None,
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
        binders=_binders(conn),
        rules=_rules(**fixed["rules"]),
        materials=_materials(fixed["materials"]),
        initials_on_sleeves=fixed["initials_on_sleeves"],
    )


def kept_room_file(conn: sqlite3.Connection) -> str | None:
    """Return the room file that was last applied, with its comments, or None."""
    text = settings.read(conn, "room_text")
    return text if isinstance(text, str) else None


def keep_room_file(conn: sqlite3.Connection, text: str) -> None:
    """Keep a room file for its comments."""
    settings.write(conn, "room_text", text)


def bump_stamp(conn: sqlite3.Connection) -> None:
    """Tell every desk that the room has changed."""
    stamp = read_stamp(conn)
    settings.write(conn, STAMP, stamp + 1 if isinstance(stamp, int) else 1)


def read_stamp(conn: sqlite3.Connection) -> object:
    """Return what is another one after each change of the room."""
    return settings.read(conn, STAMP)


def _rows(conn: sqlite3.Connection, table: str) -> list[sqlite3.Row]:
    return conn.execute(f"SELECT * FROM {table}").fetchall()


def _binders(conn: sqlite3.Connection) -> tuple[Binder, ...]:
    """Return all binders, of which a room gathers thousands over the years."""
    told = conn.execute("SELECT term, number, period FROM binders ORDER BY term, number")
    return tuple(map(Binder._make, told))


def _rules(**kept: Unpack[KeptRules]) -> Rules:
    return Rules(**kept)


def _materials(kept: KeptMaterials) -> Materials:
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
