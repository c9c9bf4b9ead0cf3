"""A roll that is on another clip pair than was told: its clip is put right, and nothing else."""

from __future__ import annotations

from typing import NamedTuple

from filmrack.acts.clips import cautions
from filmrack.acts.group import Group, Hand, one_group
from filmrack.domain.clip import refuse_other_clips
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Detail, Roll
from filmrack.store import rolls
from filmrack.store.clips import know_clips
from filmrack.store.file import DarkroomFile


class Reclipped(NamedTuple):
    """A roll on its right clip; `other` had that clip by the record, as it is now."""

    roll: Roll
    was: int | None
    other: Roll | None = None
    warnings: tuple[str, ...] = ()
    """What is to be heeded, of the clip: nothing was refused for it."""


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
            raise Refused(f"{state.number} is on clip {clip} already: nothing is to be put right")
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
        return Reclipped(states[roll], state.clip, now, tuple(cautions(group.conn, clip)))


def _reclip(group: Group, state: Roll, clip: int) -> None:
    know_clips(group.conn, [clip])
    group.append("reclip", state.id, Detail(clip=clip, clip_before=state.clip))


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
