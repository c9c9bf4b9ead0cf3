"""What is done to film while it dries: the dial, the flip, the touch check."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime, timedelta
from typing import NamedTuple

from filmrack.acts.group import Group, Hand, one_group, settled
from filmrack.domain.attention import drying_rules
from filmrack.domain.bell import likely_within, minutes_to_dry
from filmrack.domain.clip import clips_of
from filmrack.domain.dryer import FanRun, dial_hours, fan_until
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Detail, Roll
from filmrack.domain.student_desk import refuse_act
from filmrack.store import desks, fan, ledger, search
from filmrack.store.file import DarkroomFile
from filmrack.store.lessons import learned_by
from filmrack.store.standings import see

_MUCH_LONGER = timedelta(hours=1)
"""From so much more than film needs on, a dial is said to be set for longer (common practice: no
cabinet runs unattended)."""


def flip(file: DarkroomFile, hand: Hand, numbers: Sequence[int]) -> list[Roll]:
    """Turn strips end for end. Raises Refused when one does not hang: none is flipped then."""
    with one_group(file, hand) as group:
        for number in numbers:
            group.append("flip", number)
        return settled(group, numbers)


class RodFlipped(NamedTuple):
    """What was flipped of a rod, and why the rest was not: `clips 3 17 are dry`.

    `early` is which of those were not to be flipped yet.
    """

    flipped: list[Roll]
    left: tuple[str, ...]
    early: list[Roll]


def flip_rod(file: DarkroomFile, hand: Hand, rod: int) -> RodFlipped:
    """Turn the strips of a rod that want it: those that are wet and hang as they were hung.

    Raises Refused for an empty rod, and where none wants it: a named strip is flipped anyway.
    """
    some = search.which_all(file.conn, [f"rod {rod}"])
    wanting, early = [], []
    others: dict[str, list[Roll]] = {}
    for each in see(file, some, hand.at).standings:
        if each.roll.flipped and each.state == "wet":
            others.setdefault("flipped already", []).append(each.roll)
        elif each.state in ("wet", "flip"):
            wanting.append(each.roll.id)
            early += [each.roll] if each.state == "wet" else []
        else:
            why = "dry" if each.state == "dry" else "to be touched first"
            others.setdefault(why, []).append(each.roll)
    left = tuple(
        f"{clips_of(some)} {'is' if len(some) == 1 else 'are'} {why}"
        for why, some in others.items()
    )
    if not wanting:
        raise Refused(
            f"no strip on rod {rod} wants flipping ({', '.join(left)}): to flip one all the same,"
            f" name its clip, as in “{some[0].clip or 17} flip”"
        )
    return RodFlipped(flip(file, hand, wanting), left, early)


def touch(file: DarkroomFile, hand: Hand, number: int, *, dry: bool) -> Roll:
    """Keep what a touch at both ends found. Raises Refused when the roll does not hang."""
    with one_group(file, hand) as group:
        group.append("touch", number, Detail(dry=dry))
        return settled(group, [number])[0]


def turn_dial(
    file: DarkroomFile, hand: Hand, hours: float | None = None, dryer: int | None = None
) -> FanRun | None:
    """Keep that the fan was turned on for some hours (the room's, when None), or found off (0).

    Returns the run that is on then. Raises Refused for an unknown dryer and for more hours than
    any dial has.
    """
    with one_group(file, hand) as group:
        cabinet = group.room.dryer_meant(dryer)
        turned = cabinet.dial_hours if hours is None else hours
        most = fan.LONGEST_RUN / timedelta(hours=1)
        if not 0 <= turned <= most:
            raise Refused(f"no dial goes to {turned:g} hours: give hours from 0 to {most:g}")
        _set_dial(group, cabinet.number, turned, hand.at, assumed=False)
        group.settle()
        return next(
            (
                run
                for run in fan.runs(group.conn, hand.at).get(cabinet.number, [])
                if run.starts <= hand.at < run.ends
            ),
            None,
        )


def enough_hours(file: DarkroomFile, run: FanRun, dryer: int | None = None) -> float | None:
    """Return the hours that film hung now needs, where the fan was set for much longer.

    None where it was not.
    """
    room = file.room()
    number = room.dryers[0].number if dryer is None else dryer
    needed = dial_hours(minutes_to_dry(learned_by(file.conn, number), drying_rules(room)))
    return needed if run.ends - run.starts >= timedelta(hours=needed) + _MUCH_LONGER else None


class Silence(NamedTuple):
    """No desk was alive since a moment, so the assumed runs of the fans stop there.

    `group` is the act that says so.
    """

    since: datetime
    group: int


def stop_at_silence(file: DarkroomFile, hand: Hand) -> Silence | None:
    """Stop the assumed runs where every desk fell silent and none was closed: a power cut, perhaps.

    Returns None when a desk was alive, or no assumed run was on. To be asked before this desk's
    own heartbeat.
    """
    since = desks.silent_since(file.conn, hand.now)
    if since is None:
        return None
    with one_group(file, replace(hand, at=since)) as group:
        stopped = {
            number
            for number, runs in fan.runs(group.conn, since).items()
            if any(run.assumed and run.starts < since < run.ends for run in runs)
        }
        for number in sorted(stopped):
            _set_dial(group, number, 0, since, assumed=True)
        for hung in ledger.hangings(group.conn, since, hand.now):
            if group.room.dryer_of(hung.detail["rod"]).number in stopped:
                assume_the_fan(group, hung.detail["rod"], hung.happened)
        group.settle()
        return Silence(since, group.id) if stopped else None


def power_was_on(file: DarkroomFile, hand: Hand, silence: Silence) -> None:
    """Take back that the fans stopped when the desks fell silent.

    Raises Refused for a student desk: what the fan does is the teacher's to say.
    """
    refuse_act(hand.by, "fan", {})
    with one_group(file, hand) as group:
        group.reach_back_to(silence.since)
        for entry in ledger.of_the_fan(group.conn, silence.since):
            if entry.group == silence.group:
                group.append("undo", None, undoes=entry.id)
                group.refold_fan(entry.happened)
        group.settle()


def assume_the_fan(group: Group, rod: int, at: datetime | None = None) -> float | None:
    """Assume that hanging goes with turning the dial, unless the fan is on for long enough.

    `at` is when it was hung, where that is not when the act happens. Returns the hours to turn it
    to, or None when it is to be left alone.
    """
    dryer = group.room.dryer_of(rod)
    hung = at or group.hand.at
    until = fan_until(fan.runs(group.conn, hung).get(dryer.number, []), hung)
    if until is not None and likely_within(
        learned_by(group.conn, dryer.number), (until - hung) / timedelta(minutes=1)
    ):
        return None
    _set_dial(group, dryer.number, dryer.dial_hours, hung, assumed=True)
    return dryer.dial_hours


def _set_dial(group: Group, dryer: int, hours: float, at: datetime, *, assumed: bool) -> None:
    detail = Detail(dryer=dryer, hours=hours)
    if assumed:
        detail["assumed"] = True
    group.append("fan", None, detail, at=at)
    group.refold_fan(at)
