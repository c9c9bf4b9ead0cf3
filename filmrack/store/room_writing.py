"""Writing a room over the one that the file has."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Sequence
from typing import TYPE_CHECKING, cast

from filmrack.domain.dayplan import DayPlan
from filmrack.domain.room import Box, Dryer, Period, Rod, Room
from filmrack.store import settings
from filmrack.store.kept_room import KeptMaterials, KeptRoom, KeptRules
from filmrack.store.rows import marks
from filmrack.store.tables import by_name

if TYPE_CHECKING:
    from sqlite_utils import Database


def write_room(conn: sqlite3.Connection, room: Room) -> None:
    """Write a room over the one of the file, if it has one.

    What the room has no more is marked as gone; a term is removed. Binders that it does not name
    stay: they are made as they fill. Whether rolls would be stranded was asked before. The caller
    holds a transaction.
    """
    # A period and its box change places in two steps; only the end has to hold together.
    conn.execute("PRAGMA defer_foreign_keys = ON")
    _write_fixed(conn, room)
    db = by_name(conn)
    _write_places(db, room)
    _write_days(db, room)
    _write_terms(db, room)


def _write_fixed(conn: sqlite3.Connection, room: Room) -> None:
    days, materials = room.timetable.days, room.materials
    settings.write(
        conn,
        "room",
        KeptRoom(
            name=room.name,
            zone=room.zone,
            period_word=room.period_word,
            weekdays=list(days.weekdays),
            rotation=list(days.rotation.letters) if days.rotation else [],
            rotation_from=days.rotation.first_day.isoformat() if days.rotation else None,
            weeks=list(days.weeks.letters) if days.weeks else [],
            weeks_from=days.weeks.first_day.isoformat() if days.weeks else None,
            plans=list(room.timetable.plans),
            rules=cast(KeptRules, room.rules._asdict()),
            materials=KeptMaterials(
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


def _write_places(db: Database, room: Room) -> None:
    # A place's fields are called as the columns that keep them.
    kept: dict[str, Sequence[Period | Dryer | Rod | Box]] = {
        "periods": room.periods,
        "dryers": room.dryers,
        "rods": room.rods,
        "boxes": room.boxes,
    }
    for name in kept:
        db.execute(f"UPDATE {name} SET gone = 1")
    for name, places in kept.items():
        db.table(name).upsert_all({**place._asdict(), "gone": 0} for place in places)


def _write_days(db: Database, room: Room) -> None:
    days = room.timetable.days
    for name in ("timetable", "days_off", "one_offs"):
        db.table(name).delete_where()
    db.table("timetable").insert_all(
        {"plan": name, "period": period, "starts": starts, "ends": ends}
        for name, plan in room.timetable.plans.items()
        for period, starts, ends in _slots(plan)
    )
    db.table("days_off").insert_all(off._asdict() for off in days.days_off)
    db.table("one_offs").insert_all(
        {
            "date": one.day,
            "name": one.name,
            "plan": one.plan if isinstance(one.plan, str) else json.dumps(_slots(one.plan)),
            "keeps_letter": one.keeps_letter,
        }
        for one in days.one_offs
    )


def _write_terms(db: Database, room: Room) -> None:
    db.table("terms").upsert_all(term._asdict() for term in room.terms)
    kept = [term.code for term in room.terms]
    unnamed = f"NOT IN ({marks(kept)})"
    db.table("binders").delete_where(f"term {unnamed}", kept)
    db.table("terms").delete_where(f"code {unnamed}", kept)
    db.table("binders").upsert_all(binder._asdict() for binder in room.binders)


def _slots(plan: DayPlan) -> list[tuple[int, str, str]]:
    return [
        (slot.period, slot.starts.isoformat("minutes"), slot.ends.isoformat("minutes"))
        for slot in plan
    ]
