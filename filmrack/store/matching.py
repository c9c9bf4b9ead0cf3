"""The rolls that fit all parts of a question, in the order in which they are wanted."""

from __future__ import annotations

import sqlite3

from filmrack.domain.asking import Part
from filmrack.domain.names import begin_names, only_by_family
from filmrack.domain.roll import Roll
from filmrack.store import people, rolls
from filmrack.store.rows import beginning_with, marks

_RECENT = 5_000
"""A frequent name has enough rolls among the newest ones: those of all years are not sorted."""


def matching(
    conn: sqlite3.Connection, parts: list[Part], similar: dict[str, list[str]], limit: int
) -> list[Roll]:
    """Return the rolls that all parts agree on: those on their way first, then the newest.

    Of both, rolls of whoever is called so go before those of a family of that name. Where names are
    `similar`, those count instead.
    """
    conditions: list[str] = ["place <> 'void'"]
    values: list[object] = []
    names = [part for part in parts if part.kind == "name"]
    told = [_condition(part) for part in parts if part.kind != "name"]
    for condition, its_values in [*told, *([named(names, similar)] if names else [])]:
        conditions.append(condition)
        values.extend(its_values)
    where = " AND ".join(conditions)
    # Within a term the later number is the newer roll, and there is an index in that order.
    newest = "serial" if any(part.kind == "term" for part in parts) else "id"
    live = -1 if names else limit  # whoever is called so may have the oldest of them
    found = rolls.read(
        conn, f"{rolls.IS_LIVE} AND {where} ORDER BY id DESC LIMIT ?", [*values, live]
    )
    words = [part.value for part in names]
    found = _called_so_first(conn, found, words)[:limit]
    if len(found) < limit:
        rest = f"NOT ({rolls.LIVE}) AND {where} ORDER BY {newest} DESC LIMIT ?"
        more = _rest(conn, rest, [*values, limit - len(found)], limit - len(found), bool(names))
        found += _called_so_first(conn, more, words)
    return found


def borrowed_by(conn: sqlite3.Connection, words: list[str]) -> list[Roll]:
    """Return the rolls on loan to whoever has a name beginning with each of some folded words.

    Also to guests, who have no rolls of their own: who types that name looks for what they have.
    """
    if not words:
        return []
    rows = conn.execute(
        "SELECT l.roll, coalesce(n.text, p.given || ' ' || coalesce(p.called, '') || ' ' ||"
        " p.family) FROM loans l LEFT JOIN notes n ON n.id = l.note"
        " LEFT JOIN people p ON p.id = l.person WHERE n.id IS NOT NULL OR p.id IS NOT NULL"
    )
    return rolls.by_ids(conn, [row[0] for row in rows if begin_names(words, row[1])])


def _called_so_first(conn: sqlite3.Connection, found: list[Roll], words: list[str]) -> list[Roll]:
    if not words:
        return found
    owners = people.read_people(conn, (roll.person for roll in found if roll.person is not None))
    ranks = {number: only_by_family(owner, words) for number, owner in owners.items()}
    return sorted(found, key=lambda roll: ranks.get(roll.person or 0, 0))


def _rest(
    conn: sqlite3.Connection, where: str, values: list[object], enough: int, named: bool
) -> list[Roll]:
    """Return the newest rolls that a condition names; those of a name near the end first."""
    last = conn.execute("SELECT max(id) FROM rolls").fetchone()[0] or 0
    if named and last > _RECENT:
        recent = rolls.read(conn, f"id > ? AND {where}", [last - _RECENT, *values])
        if len(recent) == enough:
            return recent
    return rolls.read(conn, where, values)


def _condition(part: Part) -> tuple[str, list[object]]:
    value = part.value
    match part.kind:
        case "roll":
            term, serial = value.split("-")
            return "term = ? AND serial = ?", [term, int(serial[:18])]
        case "term":
            return "term = ?", [value]
        case "binder" if "-" in value:
            term, nth = value.split("-")
            return "term = ? AND binder = ?", [term, int(nth)]
        case "clip" | "rod" | "box" | "binder" | "person":
            return f"{part.kind} = ?", [int(value[:18])]
        case "number":
            number = int(value[:18])
            if part.may_be_a_clip:
                return "(clip = ? OR serial = ?)", [number, number]
            return "serial = ?", [number]
        case _:
            raise AssertionError(part.kind)


def named(parts: list[Part], similar: dict[str, list[str]]) -> tuple[str, list[object]]:
    """Return the condition that a person has all these names, or ones that are similar."""
    chosen: list[str] = []
    values: list[object] = []
    for part in parts:
        words = similar.get(part.value)
        if words is None:
            chosen.append("token >= ? AND token < ?")
            values += beginning_with(part.value)
        else:
            chosen.append(f"token IN ({marks(words)})")
            values += words
    people_ = " INTERSECT ".join(f"SELECT person FROM name_tokens WHERE {one}" for one in chosen)
    return f"person IN ({people_})", values
