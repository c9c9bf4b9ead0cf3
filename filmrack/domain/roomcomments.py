"""Bringing a room file up to date without losing what a person wrote in it."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, MutableMapping
from typing import cast

from filmrack.domain.room import Room
from filmrack.domain.roomfile import examine
from filmrack.domain.roomtext import room_text

_NAMED_BY = {
    "periods": ("number",),
    "dryers": ("number",),
    "rods": ("number",),
    "boxes": ("number",),
    "terms": ("code",),
    "days_off": ("first", "last"),
    "one_offs": ("day",),
    "binders": ("term", "number"),
    "papers": ("name",),
}
"""What tells the entries of a list apart."""

Table = MutableMapping[str, object]


def up_to_date(text: str | None, room: Room) -> str:
    """Return the room file of a room: the text it came from, changed where the room has changed.

    Comments, order and the person's own way to write a value stay wherever the value does. When
    there is no such text, or it can no longer be followed, the room is written afresh.
    """
    room = _without_what_was(room)
    if text is None:
        return room_text(room)
    before = examine(text.encode()).room
    if before is None:
        return room_text(room)
    if before == room:
        return text
    from tomlkit.exceptions import TOMLKitError

    try:
        changed = _changed(text, before, room)
    except TOMLKitError:
        return room_text(room)
    return changed if examine(changed.encode()).room == room else room_text(room)


def _without_what_was(room: Room) -> Room:
    """Return a room as its file can say it: what is there, without the periods of other days."""
    known = {period.number for period in room.periods}
    binders = tuple(
        binder if binder.period in known else binder._replace(period=None)
        for binder in room.binders
    )
    return room._replace(former_periods=(), binders=binders)


def _changed(text: str, before: Room, now: Room) -> str:
    import tomlkit

    document = tomlkit.parse(text)
    _follow(
        cast(Table, document), tomllib.loads(room_text(before)), tomllib.loads(room_text(now)), ""
    )
    return tomlkit.dumps(document)


def _follow(
    target: Table, before: Mapping[str, object], now: Mapping[str, object], path: str
) -> None:
    """Change in a table what is different between two rooms, and nothing else."""
    for key in before:
        if key not in now:
            target.pop(key, None)
    for key, value in now.items():
        old = before.get(key)
        if old == value:
            continue
        mine = target.get(key)
        if isinstance(mine, MutableMapping) and isinstance(old, dict) and isinstance(value, dict):
            _follow(mine, old, value, f"{path}{key}.")
        elif isinstance(mine, list) and isinstance(old, list) and path + key in _NAMED_BY:
            _follow_list(mine, old, cast(list[Mapping[str, object]], value), key)
        else:
            target[key] = value


def _follow_list(
    target: list[Table],
    before: list[Mapping[str, object]],
    now: list[Mapping[str, object]],
    key: str,
) -> None:
    def name(entry: Mapping[str, object]) -> tuple[object, ...]:
        # A last day may be left out, and a date may be written as a text.
        last = entry.get("first") if key == "days_off" else None
        return tuple(str(entry.get(part, last)) for part in _NAMED_BY[key])

    old, new = {name(entry): entry for entry in before}, {name(entry): entry for entry in now}
    for place in reversed(range(len(target))):
        if name(target[place]) not in new:
            del target[place]
    for entry in target:
        _follow(entry, old[name(entry)], new[name(entry)], f"{key}.")
    for what, added in new.items():
        if what not in old:
            target.append(cast(Table, _entry(added)))


def _entry(values: Mapping[str, object]) -> object:
    import tomlkit

    table = tomlkit.inline_table()
    table.update(values)
    return table
