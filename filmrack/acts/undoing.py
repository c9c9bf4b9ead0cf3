"""Taking back: what was done stays on the ledger, marked as undone."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import NamedTuple

from filmrack.acts.drying import assume_the_fan
from filmrack.acts.group import Group, Hand, one_group
from filmrack.acts.listing import LISTED, take_back_listed
from filmrack.acts.refitting import take_back
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Entry, Roll
from filmrack.domain.student_desk import refuse_undo
from filmrack.store import ledger, rolls
from filmrack.store.file import DarkroomFile


class Undone(NamedTuple):
    """What was taken back: each act with the roll it was done to, the rolls as they are now and
    as they `were` before that, also those that are none any more, and what of the room, its people
    and clips, or of a term is another now, each in words.
    """

    acts: tuple[tuple[str, int | None], ...]
    happened: datetime
    rolls: tuple[Roll, ...]
    settings: tuple[str, ...] = ()
    were: tuple[Roll, ...] = ()


def undo(file: DarkroomFile, hand: Hand, roll: int | None = None) -> Undone:
    """Take back the last standing act of this desk, or the last one on a roll.

    Raises Refused when there is none, when a later act depends on it, naming that act, and when it
    is not for this desk to take back.
    """
    with one_group(file, hand) as group:
        return _undo(group, hand, roll)


def would_undo(file: DarkroomFile, hand: Hand, roll: int | None = None) -> Undone:
    """Return what `undo` would take back now, and leave the file as it is. Raises as it does."""
    try:
        with one_group(file, hand) as group:
            raise _OnlyTried(_undo(group, hand, roll))
    except _OnlyTried as tried:
        return tried.undone


class _OnlyTried(Exception):
    """Lets go what was written, for it was only tried."""

    def __init__(self, undone: Undone) -> None:
        super().__init__()
        self.undone = undone


def _undo(group: Group, hand: Hand, roll: int | None) -> Undone:
    if roll is None:
        number = ledger.last_standing_group(group.conn, hand.desk)
    else:
        number = ledger.last_standing_group_of_roll(group.conn, roll)
    if number is None:
        raise Refused("there is nothing to take back: nothing was done here yet")
    entries = ledger.of_group(group.conn, number)
    refuse_undo(hand.by, hand.desk, roll, entries)
    touched = dict.fromkeys(entry.roll for entry in entries if entry.roll is not None)
    were = tuple(rolls.by_ids(group.conn, touched))
    first = min(entry.happened for entry in entries)
    settings: list[str] = []
    group.reach_back_to(first)
    for entry in entries:
        of_sweep = "sweep" in entry.detail
        group.append("undo", entry.roll, undoes=entry.id, at_hand=of_sweep)
        if entry.act == "fan":
            group.refold_fan(entry.happened)
        if of_sweep:
            group.refold_sweep(entry.detail["sweep"])
        if entry.act in ("close", "reopen"):
            settings.append(_open_or_close_anew(group, entry))
        if entry.act == "room":
            settings += take_back(group.conn, entry)
        if entry.act in LISTED:
            settings += take_back_listed(group.conn, entry)
    for entry in entries:
        if entry.act == "fan":
            _assume_anew(group, entry)
    states = group.settle(displace=False)
    acts = tuple((entry.act, entry.roll) for entry in entries)
    return Undone(acts, first, tuple(states.values()), tuple(settings), were)


def _open_or_close_anew(group: Group, entry: Entry) -> str:
    """Take back that a term was closed or opened again; return in words what that makes of it."""
    term = entry.detail["term"]
    if entry.act == "reopen" and ledger.told_of_term_since(group.conn, term, entry.id):
        raise Refused(
            f"term {term} stays open because its rolls were changed since: close it again with"
            f" “term close {term}”"
        )
    group.refold_term(term)
    is_now = "open" if entry.act == "close" else "closed"
    return f"{entry.act} term {term}, so it is {is_now} again"


def _assume_anew(group: Group, setting: Entry) -> None:
    """What was hung while the fan seemed on would have had its dial turned without that."""
    ended = setting.happened + timedelta(hours=setting.detail["hours"])
    for hung in ledger.hangings(group.conn, setting.happened, ended):
        rod = hung.detail["rod"]
        if group.room.dryer_of(rod).number == setting.detail["dryer"]:
            assume_the_fan(group, rod, hung.happened)
