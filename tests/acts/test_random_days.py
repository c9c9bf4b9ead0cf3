"""Random days in a small darkroom: whatever people do, tell late or take back, the record holds."""

from __future__ import annotations

import json
from collections.abc import Callable
from datetime import datetime

import hypothesis.strategies as st
from hypothesis import HealthCheck, settings
from hypothesis.stateful import invariant, precondition, rule

from filmrack.acts import (
    archiving,
    drying,
    fetching,
    hanging,
    lending,
    owning,
    reclipping,
    sweeping,
    undoing,
)
from filmrack.acts.group import Hand
from filmrack.acts.scans import read_scans
from filmrack.domain.dryer import FanSetting, fan_runs
from filmrack.domain.holdings import held
from filmrack.domain.journey import fold
from filmrack.domain.roll import PLACES
from filmrack.store import checking, fan, ledger, rolls, search, standings
from filmrack.store.file import DarkroomFile
from filmrack.store.times import from_text
from tests.acts.random_school import RandomSchool

CLIPS = st.integers(1, 4)
PEOPLE = st.integers(1, 3)
RODS = st.integers(1, 3)
POSITIONS = st.integers(1, 3)
MINUTES_AGO = st.sampled_from([0, 0, 0, 0, 1, 3, 8, 20, 60])
DESKS = st.sampled_from(["desk 1", "desk 2"])
HANDS = st.tuples(MINUTES_AGO, DESKS)


class RandomDays(RandomSchool):
    """Each rule is one thing that a hand does, or that is told of it."""

    def __init__(self) -> None:
        super().__init__()
        self.written: list[tuple[object, ...]] = []

    def known(self, data: st.DataObject) -> int:
        numbers = [row[0] for row in self.school.file.conn.execute("SELECT id FROM rolls")]
        return data.draw(st.sampled_from(numbers), "roll")

    def any_roll(self) -> bool:
        return self.school.file.conn.execute("SELECT count(*) FROM rolls").fetchone()[0] > 0

    @rule(minutes=st.sampled_from([0.5, 1, 4, 15, 45, 600]))
    def time_passes(self, minutes: float) -> None:
        self.school.wait(minutes)

    @rule(hand=HANDS, person=PEOPLE, clips=st.lists(CLIPS, min_size=1, max_size=2))
    def load(self, hand: tuple[int, str], person: int, clips: list[int]) -> None:
        self.do(hand, lambda by: hanging.load(self.school.file, by, person, clips))

    @rule(
        hand=HANDS,
        person=st.none() | PEOPLE,
        clip=st.none() | CLIPS,
        rod=st.none() | RODS,
        position=st.none() | POSITIONS,
    )
    def hang_somebodys(
        self,
        hand: tuple[int, str],
        person: int | None,
        clip: int | None,
        rod: int | None,
        position: int | None,
    ) -> None:
        self.do(
            hand,
            lambda by: hanging.hang(
                self.school.file, by, person=person, clip=clip, rod=rod, position=position
            ),
        )

    @precondition(any_roll)
    @rule(
        hand=HANDS,
        data=st.data(),
        clip=st.none() | CLIPS,
        rod=st.none() | RODS,
        position=st.none() | POSITIONS,
        tacky=st.booleans(),
    )
    def hang_a_known_roll(
        self,
        hand: tuple[int, str],
        data: st.DataObject,
        clip: int | None,
        rod: int | None,
        position: int | None,
        tacky: bool,
    ) -> None:
        roll = self.known(data)
        self.do(
            hand,
            lambda by: hanging.hang(
                self.school.file, by, roll=roll, clip=clip, rod=rod, position=position, tacky=tacky
            ),
        )

    @precondition(any_roll)
    @rule(hand=HANDS, data=st.data(), rod=RODS, position=st.none() | POSITIONS)
    def move(
        self, hand: tuple[int, str], data: st.DataObject, rod: int, position: int | None
    ) -> None:
        roll = self.known(data)
        self.do(hand, lambda by: hanging.move(self.school.file, by, roll, rod, position))

    @precondition(any_roll)
    @rule(hand=HANDS, data=st.data(), clip=CLIPS, exchange=st.booleans())
    def put_a_clip_right(
        self, hand: tuple[int, str], data: st.DataObject, clip: int, exchange: bool
    ) -> None:
        roll = self.known(data)
        self.do(
            hand,
            lambda by: reclipping.reclip(self.school.file, by, roll, clip, exchange=exchange),
        )

    @precondition(any_roll)
    @rule(hand=HANDS, data=st.data())
    def flip(self, hand: tuple[int, str], data: st.DataObject) -> None:
        roll = self.known(data)
        self.do(hand, lambda by: drying.flip(self.school.file, by, [roll]))

    @precondition(any_roll)
    @rule(hand=HANDS, data=st.data(), dry=st.booleans())
    def touch(self, hand: tuple[int, str], data: st.DataObject, dry: bool) -> None:
        roll = self.known(data)
        self.do(hand, lambda by: drying.touch(self.school.file, by, roll, dry=dry))

    @rule(hand=HANDS, hours=st.sampled_from([0.0, 0.5, 1.0, 24.0]))
    def turn_the_dial(self, hand: tuple[int, str], hours: float) -> None:
        self.do(hand, lambda by: drying.turn_dial(self.school.file, by, hours))

    @precondition(any_roll)
    @rule(hand=HANDS, data=st.data(), several=st.booleans())
    def box(self, hand: tuple[int, str], data: st.DataObject, several: bool) -> None:
        numbers = [self.known(data)] + ([self.known(data)] if several else [])
        self.do(hand, lambda by: fetching.box(self.school.file, by, sorted(set(numbers))))

    @precondition(any_roll)
    @rule(hand=HANDS, data=st.data())
    def take(self, hand: tuple[int, str], data: st.DataObject) -> None:
        roll = self.known(data)
        self.do(hand, lambda by: fetching.take(self.school.file, by, roll))

    @precondition(any_roll)
    @rule(hand=HANDS, data=st.data())
    def sleeve(self, hand: tuple[int, str], data: st.DataObject) -> None:
        roll = self.known(data)
        self.do(hand, lambda by: archiving.sleeve(self.school.file, by, roll))

    @precondition(any_roll)
    @rule(hand=HANDS, data=st.data())
    def make_a_contact_sheet(self, hand: tuple[int, str], data: st.DataObject) -> None:
        roll = self.known(data)
        self.do(hand, lambda by: archiving.contact(self.school.file, by, roll, picks=[4, 11]))

    @precondition(any_roll)
    @rule(hand=HANDS, data=st.data())
    def file_in_a_binder(self, hand: tuple[int, str], data: st.DataObject) -> None:
        roll = self.known(data)
        self.do(hand, lambda by: archiving.file_in_binder(self.school.file, by, [roll], 3))

    @precondition(any_roll)
    @rule(
        hand=HANDS,
        data=st.data(),
        act=st.sampled_from([lending.back, lending.release, lending.missing]),
    )
    def bring_back_hand_back_or_miss(
        self,
        hand: tuple[int, str],
        data: st.DataObject,
        act: Callable[[DarkroomFile, Hand, list[int]], object],
    ) -> None:
        roll = self.known(data)
        self.do(hand, lambda by: act(self.school.file, by, [roll]))

    @precondition(any_roll)
    @rule(hand=HANDS, data=st.data(), box=st.none() | st.integers(1, 2))
    def find_what_was_missing(
        self, hand: tuple[int, str], data: st.DataObject, box: int | None
    ) -> None:
        roll = self.known(data)
        self.do(hand, lambda by: lending.found(self.school.file, by, roll, box=box))

    @precondition(any_roll)
    @rule(hand=HANDS, data=st.data())
    def throw_away(self, hand: tuple[int, str], data: st.DataObject) -> None:
        roll = self.known(data)
        self.do(hand, lambda by: lending.discard(self.school.file, by, roll, "fogged"))

    @precondition(any_roll)
    @rule(hand=HANDS, data=st.data(), person=PEOPLE)
    def claim(self, hand: tuple[int, str], data: st.DataObject, person: int) -> None:
        roll = self.known(data)
        self.do(hand, lambda by: owning.claim(self.school.file, by, roll, person))

    @precondition(any_roll)
    @rule(hand=HANDS, data=st.data())
    def swap(self, hand: tuple[int, str], data: st.DataObject) -> None:
        one, other = self.known(data), self.known(data)
        self.do(hand, lambda by: owning.swap(self.school.file, by, one, other))

    @rule(
        hand=HANDS,
        counts=st.dictionaries(RODS, st.integers(0, 3), max_size=2),
        scanned=st.lists(CLIPS, max_size=3),
        rod=st.none() | RODS,
        finish=st.booleans(),
    )
    def sweep(
        self,
        hand: tuple[int, str],
        counts: dict[int, int],
        scanned: list[int],
        rod: int | None,
        finish: bool,
    ) -> None:
        place = [] if rod is None else [f"rod {rod}"]
        lines = [*place, *(f"clip {clip}" for clip in scanned)]
        scans = read_scans(self.school.file, lines)
        self.do(
            hand,
            lambda by: sweeping.sweep(
                self.school.file, by, counts=counts, scans=scans, finish=finish
            ),
        )

    @rule(desk=DESKS)
    def undo_the_last(self, desk: str) -> None:
        self.do((0, desk), lambda by: undoing.undo(self.school.file, by))

    @precondition(any_roll)
    @rule(desk=DESKS, data=st.data())
    def undo_on_a_roll(self, desk: str, data: st.DataObject) -> None:
        roll = self.known(data)
        self.do((0, desk), lambda by: undoing.undo(self.school.file, by, roll))

    @invariant()
    def the_state_is_the_ledger_folded(self) -> None:
        assert checking.problems(self.school.file) == []

    @invariant()
    def the_fan_ran_as_the_ledger_says(self) -> None:
        conn = self.school.file.conn
        told = ledger.of_the_fan(conn, datetime.min.replace(tzinfo=self.school.now.tzinfo))
        settings_ = [FanSetting(e.happened, e.detail["hours"], e.assumed) for e in told]
        kept = fan.runs(conn, datetime.min.replace(tzinfo=self.school.now.tzinfo))
        assert tuple(kept.get(1, ())) == fan_runs(settings_)

    @invariant()
    def each_roll_is_in_one_place_and_nothing_was_ever_held_by_two(self) -> None:
        conn = self.school.file.conn
        numbers = conn.execute("SELECT DISTINCT roll FROM ledger WHERE roll > 0").fetchall()
        stories = [ledger.of_roll(conn, number) for (number,) in numbers]
        moments = [row[0] for row in conn.execute("SELECT DISTINCT happened FROM ledger")]
        for moment in map(from_text, moments):
            taken: set[object] = set()
            for story in stories:
                state = fold(entry for entry in story if entry.happened <= moment)
                if state is None:
                    continue
                assert state.place.kind in PLACES
                things = set(held(state).items())
                assert not things & taken, (moment, things)
                taken |= things

    @invariant()
    def the_ledger_only_grows(self) -> None:
        rows = [tuple(row) for row in self.school.file.conn.execute("SELECT * FROM ledger")]
        assert rows[: len(self.written)] == self.written
        self.written = rows
        assert all(set(json.loads(row[6])).isdisjoint({"given", "family", "text"}) for row in rows)

    @invariant()
    def all_that_can_be_looked_up_can_be_judged(self) -> None:
        file, now = self.school.file, self.school.now
        standings.see(file, rolls.read(file.conn, "place <> 'void'"), now)
        standings.in_need(file, now)
        assert len(search.find(file.conn, "26F")) <= search.MOST


RandomDays.TestCase.settings = settings(
    max_examples=settings().max_examples if settings().max_examples > 100 else 25,
    stateful_step_count=settings().stateful_step_count,
    deadline=None,
    suppress_health_check=list(HealthCheck),
)
TestRandomDays = RandomDays.TestCase
