"""A roll that is on another clip pair than was told: its clip is put right, and nothing else."""

from __future__ import annotations

import sqlite3
from typing import NamedTuple

from filmrack.acts.clips import cautions
from filmrack.acts.group import Group, Hand, one_group
from filmrack.domain.clip import refuse_other_clips
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Detail, Roll
from filmrack.store import ledger, rolls
from filmrack.store.clips import know_clips
from filmrack.store.file import DarkroomFile


class Reclipped(NamedTuple):
    """A roll on its right clip; `other` had that clip by the record, as it is now."""

    roll: Roll
    was: int | None
    other: Roll | None = None
    warnings: tuple[str, ...] = ()
    """What is to be heeded, of the clip: nothing was refused for it."""
    robbed: Roll | None = None
    """A roll with its owner that had lost the wrong clip to this one, and is on none now."""


def reclip(
    file: DarkroomFile, hand: Hand, roll: int, clip: int, *, exchange: bool = False
) -> Reclipped:
    """Say which clip pair a roll is on really; it keeps its place, its owner and its history.

    With `exchange` the roll that has that clip gets this one's instead. A roll that its owner took
    gives its clip away. Raises Refused for a clip that it has already, that another roll has, and
    for a roll that is on no clip any more.
    """
    refuse_other_clips(clip)
    with one_group(file, hand) as group:
        state = group.roll(roll)
        if state.clip == clip:
            raise Refused(
                f"{state.number} is on clip {clip} already: say which other clip it is on really"
            )
        other = _holder(group, clip)
        with_owner = other is not None and other.place.kind == "owner" and not group.late
        if other is not None and not exchange and not with_owner:
            raise Refused(f"{_in_use(other)}, or exchange the two")
        _reclip(group, state, clip)
        if other is not None and exchange:
            if state.clip is None:
                raise Refused(_in_use(other))
            _reclip(group, other, state.clip)
        states = group.settle(displace=with_owner)
        now = None if other is None else rolls.by_id(group.conn, other.id)
        robbed = None if exchange else _robbed(group.conn, states[roll], state.clip)
        return Reclipped(states[roll], state.clip, now, tuple(cautions(group.conn, clip)), robbed)


def _reclip(group: Group, state: Roll, clip: int) -> None:
    know_clips(group.conn, [clip])
    group.append("reclip", state.id, Detail(clip=clip, clip_before=state.clip))


def _robbed(conn: sqlite3.Connection, roll: Roll, clip: int | None) -> Roll | None:
    """Return the roll that gave up a clip when this one came to have it, if it has none since."""
    if clip is None or rolls.on_clip(conn, clip) is not None:
        return None
    told = [each for each in ledger.of_roll(conn, roll.id) if each.detail.get("clip") == clip]
    for entry in ledger.of_group(conn, told[-1].group) if told else []:
        if entry.act == "unclip" and entry.roll is not None and entry.detail["other"] == roll.id:
            other = rolls.by_id(conn, entry.roll)
            return other if other.clip is None and other.place.kind == "owner" else None
    return None


def _holder(group: Group, clip: int) -> Roll | None:
    """Return the roll that had a clip when it happened."""
    if not group.late:
        return rolls.on_clip(group.conn, clip)
    some = rolls.by_ids(group.conn, rolls.loose_since(group.conn, group.hand.at))
    return next((each for each in group.as_they_were(some) if each.clip == clip), None)


def _in_use(other: Roll) -> str:
    return (
        f"clip {other.clip} is noted on {other.number} ({other.place}): say first which clip"
        " that one is on"
    )
