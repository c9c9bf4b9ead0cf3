"""Where film that was missing is when it turns up: what is not dry by the record hangs again."""

from __future__ import annotations

from datetime import timedelta

from filmrack.acts.group import Group
from filmrack.acts.placing import RodFull, choose, where_it_hung
from filmrack.domain.attention import Standing
from filmrack.domain.places import ChosenPlace
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll, Stay
from filmrack.store.lessons import dryers_for


def hangs_again(group: Group, roll: Roll) -> ChosenPlace | None:
    """Return where a roll hangs that was last seen on a rod and turned up before it is dry: where
    it hung, else on that rod, else where there is room. None for any other.

    Raises Refused where every rod is full, and for film that was last seen in the tank and may be
    wet: where that is now nobody can know.
    """
    if roll.place.kind != "missing" or roll.sleeved_at is not None:
        return None
    if roll.seen.kind == "tank":
        _refuse_from_tank(group, roll)
    if roll.seen.rod is None or not roll.stays or _dry(group, roll):
        return None
    own = where_it_hung(group, roll)
    if own is not None:
        return own
    try:
        return choose(group, roll, roll.seen.rod if group.room.rod(roll.seen.rod) else None, None)
    except RodFull:
        return choose(group, roll, None, None)


def _dry(group: Group, roll: Roll) -> bool:
    """Tell whether film is dry by what it had on the rod, or a night has gone by since it hung.

    Nobody knows whether it hung while it was missing, so no minutes of the fan count meanwhile.
    """
    at, last, seen = group.hand.at, roll.stays[-1], roll.seen
    now = Stay(last.rod, at, None, last.flipped)
    hung = roll._replace(place=seen, stays=(*roll.stays, now))
    all_along = roll._replace(place=seen, stays=(*roll.stays[:-1], last._replace(until=None)))
    dryers = dryers_for(group.conn, group.room, [hung])
    if Standing(hung, group.room, dryers, at).state == "dry":
        return True
    outlook = Standing(all_along, group.room, dryers, at).outlook
    return outlook is not None and outlook.course.overnight <= at


def _refuse_from_tank(group: Group, roll: Roll) -> None:
    night = timedelta(hours=group.room.rules.overnight_hours)
    if group.hand.at - roll.seen_at < night:
        named = roll.clip or roll.number
        raise Refused(
            f"{roll.number} was in the tank when it was last seen and may be wet: say where it is"
            f" now, with “hang {named}” or “box {named}”"
        )
