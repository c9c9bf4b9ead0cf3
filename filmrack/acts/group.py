"""One key press, one group of ledger entries, one transaction.

An act appends its entries here; at its end every roll it touched is folded anew and written. Who
held a clip or a position that is now another roll's is marked as missing, on the record, unless
its owner has it: the hand beats the record.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime

from filmrack.domain.clock import clock
from filmrack.domain.holdings import Holding, held, holdings
from filmrack.domain.journey import OutOfPlace, fold
from filmrack.domain.refusal import Hopeless, Refused
from filmrack.domain.roll import Detail, Entry, Roll
from filmrack.domain.room import Room
from filmrack.domain.story import act_in_words
from filmrack.domain.student_desk import refuse_act
from filmrack.store import fan, ledger, rolls, sweeps, teaching, terms
from filmrack.store.file import DarkroomFile

_COMMAND_LINE = "command line"


@dataclass(frozen=True, slots=True)
class Hand:
    """Whose hand it was, at which desk, when it happened and when it is told."""

    at: datetime
    now: datetime
    desk: str = _COMMAND_LINE
    by: str = "teacher"

    def __post_init__(self) -> None:
        if self.at > self.now:
            raise Refused(
                "that time is still to come: leave the time out for now, or give an earlier one"
            )


class Group:
    """The entries of one act, and the rolls they touch."""

    def __init__(self, conn: sqlite3.Connection, room: Room, hand: Hand) -> None:
        self.conn = conn
        self.room = room
        self.hand = hand
        self.id = ledger.next_group(conn)
        self._latest = ledger.latest_happened(conn)
        self.reach_back_to(hand.at)
        self.displaced: list[int] = []
        self._touched: dict[int, None] = {}
        self._read: dict[int, Roll] = {}
        self._fan_from: datetime | None = None
        self._sweeps: set[int] = set()
        self._terms: set[str] = set()
        self._closed = terms.closed(conn).keys()

    def reach_back_to(self, since: datetime) -> None:
        """Say from which moment on this act can change what later acts relied on."""
        self.since = since.replace(microsecond=0)
        self.late = self._latest is not None and self.since < self._latest

    def append(
        self,
        act: str,
        roll: int | None,
        detail: Detail | None = None,
        *,
        at: datetime | None = None,
        undoes: int | None = None,
        at_hand: bool = False,
    ) -> int:
        """Append one entry, now or at another moment than the act itself; return its number.

        `at_hand` tells that a hand found at the cabinet how it is. Raises Refused for what is not
        for a student desk, and for a roll of a closed term that nothing was found out of.
        """
        refuse_act(self.hand.by, act, detail or {})
        if roll is not None:
            if self._closed and not at_hand:
                self._refuse_closed(roll, detail or {})
            self._touched[roll] = None
        return ledger.append(
            self.conn,
            group=self.id,
            happened=at or self.hand.at,
            entered=self.hand.now,
            act=act,
            roll=roll,
            detail=detail or {},
            by=self.hand.by,
            desk=self.hand.desk,
            undoes=undoes,
        )

    def _refuse_closed(self, roll: int, detail: Detail) -> None:
        """A closed term is only read, but film that another hand displaced is gone all the same."""
        if "gave_up" in detail:
            return
        term, number = rolls.numbered(self.conn, roll)
        if term in self._closed:
            raise Hopeless(
                f"{number} stays as it is because term {term} is closed: reopen it first, at a desk"
                f" with “reopen term {term}”, else with “filmrack term reopen {term}”"
            )

    def is_closed(self, term: str) -> bool:
        """Tell whether a term is closed, so that no more than the place of its rolls is kept."""
        return term in self._closed

    def refold_term(self, term: str) -> None:
        """Say that a term was closed or reopened, or that this was taken back."""
        self._terms.add(term)

    def refold_fan(self, at: datetime) -> None:
        """Say that a dial's setting of that moment was told, or taken back."""
        changed = fan.refold(self.conn, at)
        if changed is not None:
            self._fan_from = min(changed, self._fan_from or changed)

    def refold_sweep(self, sweep: int) -> None:
        """Say that something of a sweep was told, or taken back."""
        self._sweeps.add(sweep)

    def roll(self, roll: int) -> Roll:
        """Return a roll as it was when the act happened, with what the act did to it so far.

        Raises Refused for one that was not there yet.
        """
        until = self.hand.at if self.late else None
        if until is None and roll not in self._touched:
            if roll not in self._read:
                self._read[roll] = rolls.by_id(self.conn, roll)
            return self._read[roll]
        state = fold(ledger.of_roll(self.conn, roll, until=until))
        if state is None:
            known = rolls.by_id(self.conn, roll)
            raise Refused(
                f"{known.number} was not there yet at {self.clock(self.hand.at)}: give a later time"
            )
        return state

    def as_they_were(self, some: Iterable[Roll]) -> list[Roll]:
        """Return those rolls that were there when the act happened, as they were then."""
        if not self.late:
            return list(some)
        told = (fold(ledger.of_roll(self.conn, roll.id, until=self.hand.at)) for roll in some)
        return [roll for roll in told if roll is not None]

    def clock(self, moment: datetime) -> str:
        """Return a moment as the room reads it."""
        return clock(moment, self.room.timetable.zone, self.hand.now)

    def settle(self, *, displace: bool = True) -> dict[int, Roll]:
        """Fold and write every touched roll; return those that are not void.

        With `displace` whoever is in the way is marked missing, else the clash is refused. A roll
        that its owner took is missed by nobody: it stays with them, without its clip. Raises
        Refused too where a later entry of a roll would make no sense any more.
        """
        states = {number: self._fold(number) for number in self._touched}
        clashes = self._clashes_over_time if self.late else self._clashes_now
        while clash := clashes(states):
            earlier, later = sorted(clash, key=lambda held: (held.since, held.entry.id))
            if not displace:
                raise Refused(self._needs_undo(later))
            gave_up = Detail(assumed=True, other=later.roll, gave_up=earlier.kind)
            if earlier.kind == "clip" and self._with_its_owner(earlier.roll, later.since):
                self.append("unclip", earlier.roll, gave_up, at=later.since)
            else:
                self.append("missing", earlier.roll, gave_up, at=later.since)
                self.displaced.append(earlier.roll)
            states[earlier.roll] = self._fold(earlier.roll)
        self._write(states)
        return {number: state for number, state in states.items() if state is not None}

    def _with_its_owner(self, number: int, at: datetime) -> bool:
        state = fold(ledger.of_roll(self.conn, number, until=at))
        return state is not None and state.place.kind == "owner"

    def _fold(self, number: int) -> Roll | None:
        try:
            return fold(ledger.of_roll(self.conn, number))
        except OutOfPlace as error:
            if error.entry.group == self.id:
                raise
            raise Refused(self._spoils(error.entry)) from error

    def _spoils(self, later: Entry) -> str:
        assert later.roll is not None
        number = rolls.by_id(self.conn, later.roll).number
        return (
            f"{number} has “{act_in_words(later.act)}” at {self.clock(later.happened)} on its"
            " ledger, which would make no sense then: undo that first, or give another time"
        )

    def _needs_undo(self, later: Holding) -> str:
        number = rolls.by_id(self.conn, later.roll).number
        place = (
            f"clip {later.what}"
            if isinstance(later.what, int)
            else f"rod {later.what[0]}, position {later.what[1]}"
        )
        return (
            f"{place} has been given to {number} by “{act_in_words(later.entry.act)}” at"
            f" {self.clock(later.since)}: undo that first"
        )

    def _clashes_now(self, states: dict[int, Roll | None]) -> tuple[Holding, Holding] | None:
        """Return two rolls that hold the same thing now, by the index on each."""
        mine: dict[object, Roll] = {}
        for state in states.values():
            if state is None:
                continue
            for kind, what in held(state).items():
                other = mine.setdefault((kind, what), state)
                if other is not state:
                    return self._pair(kind, other.id, state.id)
                holder = rolls.holder(self.conn, what)
                if holder is not None and holder not in states:
                    return self._pair(kind, holder, state.id)
        return None

    def _pair(self, kind: str, one: int, other: int) -> tuple[Holding, Holding]:
        first, second = (
            next(
                holding
                for holding in holdings(ledger.of_roll(self.conn, roll))
                if holding.kind == kind and holding.until is None
            )
            for roll in (one, other)
        )
        return first, second

    def _clashes_over_time(self, states: dict[int, Roll | None]) -> tuple[Holding, Holding] | None:
        """Return two rolls of which one is touched that ever held the same thing at once."""
        all_held: dict[object, list[Holding]] = {}
        for number in {*rolls.loose_since(self.conn, self.since), *states}:
            for holding in holdings(ledger.of_roll(self.conn, number)):
                all_held.setdefault((holding.kind, holding.what), []).append(holding)
        for same in all_held.values():
            for one in same:
                if one.roll in states:
                    for other in same:
                        if one.overlaps(other):
                            return one, other
        return None

    def _write(self, states: dict[int, Roll | None]) -> None:
        if len(states) > 1:
            # Rolls that change places with each other pass through nowhere, or the second would
            # find its place still taken.
            rolls.lift(self.conn, states)
        for number, state in states.items():
            if state is None:
                rolls.make_void(self.conn, number, self.hand.at)
            else:
                rolls.save(self.conn, state)
        changed = [state for state in states.values() if state is not None]
        if self._fan_from is not None:
            checked = rolls.checked_since(self.conn, self._fan_from)
            changed += [roll for roll in checked if roll.id not in states]
        for sweep in self._sweeps:
            sweeps.refold(self.conn, sweep)
        for term in self._terms:
            terms.refold(self.conn, term)
        teaching.learn_from(self.conn, self.room, changed, forget=states)


@contextmanager
def one_group(file: DarkroomFile, hand: Hand) -> Iterator[Group]:
    """Hold the file for one act; leave it as it was when the act is refused.

    An act that appended something of a roll, a fan, a sweep or a term calls `settle` as its last
    step.
    """
    with file.writing() as conn:
        yield Group(conn, file.room(), hand)


def settled(group: Group, numbers: Iterable[int]) -> list[Roll]:
    """Settle a group and return some of its rolls in the order given."""
    states = group.settle()
    return [states[number] for number in numbers]
