"""Changes of who and which clip pairs are known: kept on the ledger, so that undo reaches them."""

from __future__ import annotations

import json
import sqlite3
from typing import cast

from filmrack.acts.former import former, keep_former
from filmrack.acts.group import Group, Hand
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Detail, Entry
from filmrack.domain.room import Room
from filmrack.store import lists
from filmrack.store.lists import Row, Rows
from filmrack.store.room import read_room

LISTED = ("people", "clips")
"""What the ledger calls these changes: the list that is another then."""


def keep_listed(conn: sqlite3.Connection, room: Room, hand: Hand, before: Rows) -> None:
    """Keep what of people or of clip pairs is another than `before`."""
    after = lists.read_rows(conn, before)
    other = [key for key in before if before[key] != after[key]]
    if not other:
        return
    both = {key: [before[key], after[key]] for key in other}
    kept = Detail(listed=keep_former(conn, json.dumps(both, ensure_ascii=False)))
    group = Group(conn, room, hand)
    if lists.is_person(other[0]):
        group.append("people", None, kept)
    else:
        group.append("clips", None, kept)


def take_back_listed(conn: sqlite3.Connection, entry: Entry) -> list[str]:
    """Make people or clip pairs what they were before an entry; return what that is, in words.

    Raises Refused when they were changed again since, when somebody or some clip pair that would
    go is on the record meanwhile, and when a name among them was wiped.
    """
    kept = former(conn, entry.detail["listed"], of=entry.act)
    both = cast("dict[str, list[Row | None]]", json.loads(kept))
    if lists.read_rows(conn, both) != {key: after for key, (_, after) in both.items()}:
        raise Refused(
            f"that change of {entry.act} stays because they were changed again since: change it"
            f" back on the screen Room, in {entry.act.capitalize()}"
        )
    for key, (before, after) in both.items():
        if before is None and lists.told_of_since(conn, key, entry.id):
            raise Refused(_stays(key, after))
    lists.put_rows(conn, {key: before for key, (before, _) in both.items()})
    if entry.act == "clips":
        return _of_clips(both)
    room = read_room(conn)
    return [words for key, (b, a) in both.items() for words in _of_person(room, key, b, a)]


def _stays(key: str, after: Row | None) -> str:
    if not lists.is_person(key):
        return f"{key} stays because it carried film since: type “{key} retired” to use it no more"
    assert after is not None
    name = lists.person_in(lists.number_in(key), after).full
    return (
        f"{name} stays because there is film of theirs on the record: open them on the screen Room,"
        " in People, and choose “has left”"
    )


def _of_clips(both: dict[str, list[Row | None]]) -> list[str]:
    gone = [lists.number_in(key) for key, (before, _) in both.items() if before is None]
    told = [f"{key} is as it was before" for key, (before, _) in both.items() if before is not None]
    if gone:
        which = f"clip {gone[0]} is" if len(gone) == 1 else f"{len(gone)} clip pairs are"
        told.insert(0, f"{which} unknown again")
    return told


def _of_person(room: Room, key: str, before: Row | None, after: Row | None) -> list[str]:
    number = lists.number_in(key)
    assert after is not None
    was = lists.person_in(number, after).full
    if before is None:
        return [f"{was} is gone again"]
    name = lists.person_in(number, before).full
    told = []
    if _names(before) != _names(after):
        told.append(f"{name} is the name again, it was {was}" if name != was else f"{was}'s names")
    if before["periods"] != after["periods"]:
        told.append(f"{name} is in {_period(room, before, after)} again")
    if (before["left_at"] is None) != (after["left_at"] is None):
        told.append(f"{name} {'is here' if before['left_at'] is None else 'has left'} again")
    return told or [f"{name} is as before"]


def _names(row: Row) -> list[object]:
    return [row[key] for key in ("given", "family", "called", "school_id")]


def _period(room: Room, before: Row, after: Row) -> str:
    then, now = (cast("dict[str, int]", row["periods"]) for row in (before, after))
    changed = next(term for term in {**now, **then} if now.get(term) != then.get(term))
    found = room.period(then.get(changed))
    return found.name if found else f"no {room.period_word}"
