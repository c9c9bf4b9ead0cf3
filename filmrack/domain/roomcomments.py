"""A room file that a person wrote: brought up to date without losing their comments."""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Mapping, MutableMapping
from typing import cast

from filmrack.domain.room import Room
from filmrack.domain.roomfields import TABLES
from filmrack.domain.roomfile import examine
from filmrack.domain.roomtext import room_text

_Table = MutableMapping[str, object]
"""A table or an entry of a room file, by its keys."""


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


def without_comments(text: str, unwanted: Callable[[str], bool]) -> str:
    """Return a room file without the comments that are unwanted; its values stay."""
    means = tomllib.loads(text)
    lines = text.splitlines(keepends=True)
    for nth, line in enumerate(lines):
        for mark in (at for at, sign in enumerate(line) if sign == "#"):
            if not unwanted(line[mark:]):
                break
            ending = "\n" if line.endswith("\n") else ""
            shorter = [*lines[:nth], line[:mark].rstrip() + ending, *lines[nth + 1 :]]
            # A mark within a text begins no comment.
            if _means("".join(shorter)) == means:
                lines = shorter
                break
    return "".join(lines)


def _means(text: str) -> dict[str, object] | None:
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        return None


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
        cast(_Table, document), tomllib.loads(room_text(before)), tomllib.loads(room_text(now)), ""
    )
    return tomlkit.dumps(document)


def _follow(
    target: _Table, before: Mapping[str, object], now: Mapping[str, object], path: str
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
        elif isinstance(mine, list) and isinstance(old, list) and path + key in TABLES:
            _follow_list(mine, old, cast(list[Mapping[str, object]], value), key)
        else:
            target[key] = value


def _follow_list(
    target: list[_Table],
    before: list[Mapping[str, object]],
    now: list[Mapping[str, object]],
    key: str,
) -> None:
    name = TABLES[key].name_of
    old, new = {name(entry): entry for entry in before}, {name(entry): entry for entry in now}
    for place in reversed(range(len(target))):
        if name(target[place]) not in new:
            del target[place]
    for entry in target:
        _follow(entry, old[name(entry)], new[name(entry)], f"{key}.")
    for what, added in new.items():
        if what not in old:
            target.append(cast(_Table, _entry(added)))


def _entry(values: Mapping[str, object]) -> object:
    import tomlkit

    table = tomlkit.inline_table()
    table.update(values)
    return table
