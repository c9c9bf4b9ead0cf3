"""What is usual for a new entry of a room's lists: what Enter alone answers."""

from __future__ import annotations

from datetime import date

from filmrack.domain.room import Room
from filmrack.domain.roomchange import RoomEntry, entries_of, values_of
from filmrack.domain.termcode import half_year, usual_term


def usual(room: Room, table: str, entry: RoomEntry, key: str, today: date) -> str:
    """Return what is usual for one value of a new entry, as it would be typed; empty for none.

    `entry` is what was said of it so far. What is usual is what the last entry of the list has,
    and the next number, period or half-year that is free.
    """
    entries = entries_of(values_of(room), table)
    if key == "number":
        taken = {one["number"] for one in entries if one.get("term") == entry.get("term")}
        return str(next(number for number in range(1, 1000) if number not in taken))
    match table, key:
        case "periods", "name":
            return f"{room.period_word.capitalize()} {entry.get('number', '')}"
        case "dryers", "name":
            return f"Dryer {entry.get('number', '')}"
        case "dryers", "clear_height_mm" | "dial_hours":
            return str(entries[-1][key]) if entries else ""
        case "rods", "dryer":
            return str(room.dryers[-1].number)
        case "rods" | "boxes", "period":
            owners = room.rods if table == "rods" else room.boxes
            taken_by = {one.period for one in owners}
            free = [one for one in room.periods if one.number not in taken_by]
            if free:
                return room.short_period(free[0])
            return "anyone" if table == "rods" else ""
        case "binders", "period":
            return "anyone"
        case "binders", "term":
            now = room.timetable.days.term_in_force(today)
            return now.code if now else ""
        case "rods", _:
            return str(entries[-1].get(key, "")) if entries else ""
        case "terms", _:
            return _of_a_term(room, entry, key, today)
        case "one_offs", "plan":
            return "none"
        case "one_offs", "keeps_letter":
            return "no"
        case _:
            return ""


def _of_a_term(room: Room, entry: RoomEntry, key: str, today: date) -> str:
    last = max((term.ends for term in room.terms), default=today)
    if key == "code":
        in_spring = last.month <= 6
        return half_year(
            date(last.year if in_spring else last.year + 1, 7 if in_spring else 1, 1)
        ).code
    term = usual_term(str(entry.get("code", "")), today)
    if term is None:
        return ""
    return str(term.starts if key == "starts" else term.ends)
