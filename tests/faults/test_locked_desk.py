"""A locked desk, driven through all that can be done and said: it stays a student desk."""

from __future__ import annotations

import inspect
import pkgutil
import random
from collections.abc import Callable, Iterator
from datetime import date
from importlib import import_module
from itertools import product
from pathlib import Path
from typing import Any

import pytest
from rich.text import Text
from textual import events

from filmrack import acts
from filmrack.acts import (
    archiving,
    catching_up,
    clips,
    closing,
    drying,
    fetching,
    hanging,
    lending,
    owning,
    people,
    reclipping,
    refitting,
    rostering,
    shelving,
    sweeping,
    terms,
    undoing,
)
from filmrack.acts.group import Hand
from filmrack.desk.keys import KEYS
from filmrack.desk.keystrokes import Submitted, Typed
from filmrack.desk.line import Line
from filmrack.desk.lines import Lines
from filmrack.desk.registry import COMMANDS, SCREENS, open_to
from filmrack.domain.clip import lost_named
from filmrack.domain.hangsheet import SheetRow
from filmrack.domain.loans import LoanLine
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.domain.roster import read_roster
from filmrack.domain.schooldays import DayOff
from filmrack.domain.student_desk import HELPER_ACTS, STUDENT_ACTS, By, refuse_act
from filmrack.store import ledger
from filmrack.store.file import DarkroomFile
from tests.conftest import MARA, OLU, School, open_school
from tests.desk.at_desk import AtDesk, at_desk
from tests.faults import locked as said

DESKS: tuple[tuple[By, frozenset[str]], ...] = (
    ("student desk", STUDENT_ACTS),
    ("helper desk", HELPER_ACTS),
)


@pytest.fixture
def locked(db: Path) -> Path:
    said.furnish(db)
    return db


@pytest.fixture(params=[by for by, _ in DESKS])
def by(request: pytest.FixtureRequest, locked: Path) -> By:
    """What kind of locked desk it is: in a room that lets helpers sweep, or in another."""
    if request.param == "helper desk":
        school = open_school(locked)
        room = school.file.room()
        refitting.refit(
            school.file, school.hand(), room._replace(rules=room.rules._replace(helpers_sweep=True))
        )
        school.file.close()
    found: By = request.param
    return found


def test_what_is_open_to_a_student_desk_is_open_on_purpose():
    """A new command or screen is the teacher's until it is named here."""
    commands = {each.words for each in COMMANDS if open_to(each, "student desk")}
    assert commands == {"help", "undo", "unknown", "colours", "bell", "clock", "teacher"}
    assert {each.id for each in SCREENS if open_to(each, "student desk")} == {"board", "dryer"}
    more = {each.id for each in SCREENS if open_to(each, "helper desk")} - {"board", "dryer"}
    assert more == {"boxes", "sweep"}
    assert not [each for each in COMMANDS if each.helper]


@pytest.mark.parametrize("act", sorted(said.acts_written()))
def test_every_act_that_is_not_a_students_is_refused_to_a_student_desk(act: str):
    for by, allowed in DESKS:
        if act in allowed:
            refuse_act(by, act, {})
        else:
            with pytest.raises(Refused, match="not for a student desk"):
                refuse_act(by, act, {})


EVE = date(2026, 12, 24)
Does = Callable[[DarkroomFile, Hand, dict[str, int]], object]

DOES: dict[str, tuple[str, Does]] = {
    "archiving.contact": ("contact", lambda f, h, at: archiving.contact(f, h, at["sleeve"])),
    "archiving.file_in_binder": (
        "file",
        lambda f, h, at: archiving.file_in_binder(f, h, [at["sleeve"]], 4),
    ),
    "archiving.picks": ("picks", lambda f, h, at: archiving.picks(f, h, at["binder"], [4])),
    "archiving.unpick": ("unpick", lambda f, h, at: archiving.unpick(f, h, at["binder"], [9])),
    "archiving.sleeve": ("sleeve", lambda f, h, at: archiving.sleeve(f, h, at["box"])),
    "catching_up.catch_up": (
        "load",  # whatever a hang sheet tells is a student's; the desk keeps the command itself
        lambda f, h, _: catching_up.catch_up(
            f, [SheetRow(1, "08:58", "60", "Olu Adeyemi", "", "")], h.now.date(), h
        ),
    ),
    "clips.add": ("clips", lambda f, h, _: clips.add(f, h, [151])),
    "clips.lose": ("clips", lambda f, h, _: clips.lose(f, h, 17, lost_named("hook A"))),
    "clips.restore": ("clips", lambda f, h, _: clips.restore(f, h, 152)),
    "clips.retire": ("clips", lambda f, h, _: clips.retire(f, h, 17)),
    "closing.close_term": ("close", lambda f, h, _: closing.close_term(f, h, "26F", "moved")),
    "closing.reopen_term": ("reopen", lambda f, h, _: closing.reopen_term(f, h, "26F")),
    "drying.flip": ("flip", lambda f, h, at: drying.flip(f, h, [at["rod"]])),
    "drying.flip_rod": (
        "flip",
        lambda f, h, _: hanging.hang(f, h, clip=40, rod=1) and drying.flip_rod(f, h, 1),
    ),
    "drying.power_was_on": (
        "fan",
        lambda f, h, _: drying.power_was_on(f, h, drying.Silence(h.now, 0)),
    ),
    "drying.stop_at_silence": ("flip", lambda f, h, _: drying.stop_at_silence(f, h)),
    "drying.touch": ("touch", lambda f, h, at: drying.touch(f, h, at["rod"], dry=True)),
    "drying.turn_dial": ("fan", lambda f, h, _: drying.turn_dial(f, h)),
    "fetching.box": ("box", lambda f, h, at: fetching.box(f, h, [at["rod"]])),
    "fetching.take": ("take", lambda f, h, at: fetching.take(f, h, at["rod"])),
    "hanging.hang": ("hang", lambda f, h, at: hanging.hang(f, h, roll=at["tank"])),
    "hanging.load": ("load", lambda f, h, _: hanging.load(f, h, OLU, [60])),
    "hanging.move": ("move", lambda f, h, at: hanging.move(f, h, at["rod"], 3)),
    "lending.back": ("back", lambda f, h, at: lending.back(f, h, [at["out"]])),
    "lending.discard": ("discard", lambda f, h, at: lending.discard(f, h, at["box"], "blank")),
    "lending.found": ("found", lambda f, h, at: lending.found(f, h, at["missing"])),
    "lending.lend": ("lend", lambda f, h, at: lending.lend(f, h, at["binder"], to=MARA)),
    "lending.lend_as_said": (
        "lend",
        lambda f, h, at: lending.lend_as_said(f, h, at["binder"], LoanLine("Ms Novak", EVE)),
    ),
    "lending.missing": ("missing", lambda f, h, at: lending.missing(f, h, [at["rod"]])),
    "lending.release": ("release", lambda f, h, at: lending.release(f, h, [at["binder"]])),
    "owning.claim": ("claim", lambda f, h, at: owning.claim(f, h, at["unknown"], OLU)),
    "owning.note": ("note", lambda f, h, at: owning.note(f, h, at["rod"], "fogged")),
    "owning.swap": ("swap", lambda f, h, at: owning.swap(f, h, at["rod"], at["tank"])),
    "people.come_back": (
        "people",
        lambda f, h, _: people.leave(f, h, OLU) and people.come_back(f, h, OLU),
    ),
    "people.leave": ("people", lambda f, h, _: people.leave(f, h, OLU)),
    "people.move": ("people", lambda f, h, _: people.move(f, h, OLU, 1)),
    "people.rename": ("people", lambda f, h, _: people.rename(f, h, OLU, given="Ola")),
    "reclipping.reclip": ("reclip", lambda f, h, at: reclipping.reclip(f, h, at["rod"], 77)),
    "refitting.add_days_off": (
        "room",
        lambda f, h, _: refitting.add_days_off(
            f, h, [DayOff("holidays", date(2026, 12, 24), date(2026, 12, 24))]
        ),
    ),
    "refitting.change_room": (
        "room",
        lambda f, h, _: refitting.change_room(f, h, lambda room: room._replace(name="Room 9")),
    ),
    "refitting.refit": (
        "room",
        lambda f, h, _: refitting.refit(f, h, f.room()._replace(name="Room 9")),
    ),
    "rostering.take_roster": (
        "people",
        lambda f, h, _: rostering.take_roster(
            f, h, read_roster(b"Name,ID,Period\nLina Haddad,S-104,2\n")
        ),
    ),
    "shelving.shelve": ("shelve", lambda f, h, _: shelving.shelve(f, h, 3)),
    "sweeping.miss_after": ("missing", lambda f, h, at: sweeping.miss_after(f, h, 1, at["rod"])),
    "sweeping.sweep": ("sweep", lambda f, h, _: sweeping.sweep(f, h, counts={1: 1})),
    "terms.open_term": ("room", lambda f, h, _: terms.open_term(f, h, "27S")),
    "undoing.undo": ("", lambda f, h, at: undoing.undo(f, h, at["tank"])),
    "undoing.would_undo": ("", lambda f, h, at: undoing.would_undo(f, h, at["tank"])),
}
"""Each act that a hand does: what it writes to the ledger, empty for nothing that a student desk
may, and a call that a teacher can make in the furnished school.
"""


def acts_of_hands() -> Iterator[str]:
    """Yield each public function among the acts that takes a hand."""
    for found in pkgutil.iter_modules(acts.__path__):
        module = import_module(f"{acts.__name__}.{found.name}")
        for name, each in inspect.getmembers(module, inspect.isfunction):
            its_own = each.__module__ == module.__name__ and found.name != "group"
            kinds = [str(one.annotation) for one in inspect.signature(each).parameters.values()]
            on_a_file = kinds[:1] == ["DarkroomFile"]
            by_a_hand = on_a_file and any(kind.startswith("Hand") for kind in kinds)
            if its_own and by_a_hand and not name.startswith("_"):
                yield f"{found.name}.{name}"


def test_every_act_of_a_hand_is_tried_here():
    assert set(acts_of_hands()) == set(DOES)


@pytest.mark.parametrize("name", sorted(DOES))
def test_what_is_not_a_students_is_refused_whole_to_a_students_hand(locked: Path, name: str):
    act, does = DOES[name]
    school = open_school(locked)
    if name == "closing.reopen_term":
        closing.close_term(school.file, school.hand(), "26F", "moved")
    at = {str(roll.place.kind): roll.id for roll in reversed(said.all_rolls(school))}
    at["unknown"] = next(r.id for r in said.all_rolls(school) if r.person is None and r.live)
    before = school.dump()
    for by, allowed in DESKS:
        hand = Hand(school.now, school.now, "another desk", by)
        if act not in allowed:
            with pytest.raises(Refused, match=r"not for a student desk|not done by a student"):
                does(school.file, hand, at)
            assert school.dump() == before, by
    allowed_to = "student desk" if act in STUDENT_ACTS else "teacher"
    does(school.file, Hand(school.now, school.now, "another desk", allowed_to), at)
    school.file.close()


@pytest.fixture
def drawn(monkeypatch: pytest.MonkeyPatch) -> set[str]:
    """Every row that any part of the desk was told to show, also those that nobody looks at."""
    rows: set[str] = set()
    show = Lines.show

    def keep(self: Lines, lines: list[Text], *spots: Any, **keep: Any) -> None:
        rows.update(line.plain for line in lines)
        show(self, lines, *spots, **keep)

    monkeypatch.setattr(Lines, "show", keep)
    return rows


class Driven:
    """A locked desk that takes one line after the other, each from the same beginning."""

    def __init__(self, desk: AtDesk, by: By) -> None:
        self.desk, self.by = desk, by
        self.file = desk.app.session.file
        self.acts: set[str] = set()
        self._last = self._newest()

    async def say(self, *lines: str) -> None:
        app, line = self.desk.app, self.desk.line
        for text in lines:
            line._typed = Typed(text, len(text))
            app.on_line_changed(Line.Changed(text))
            line._typed = Typed()
            app.on_line_entered(Line.Entered(Submitted(text, "enter")))
            self.stays_locked(text)
        for _ in range(2):
            app.keys_and_clicks._back()
        await self._begin_again()

    def stays_locked(self, what: str) -> None:
        app = self.desk.app
        assert app.is_running, what
        assert app.session.by == self.by, what
        entry = next(each for each in SCREENS if each.id == self.desk.open)
        assert open_to(entry, self.by), what

    async def _begin_again(self) -> None:
        """Take back what was done, as the teacher would: all is where it was for the next line."""
        if self._newest() == self._last:
            return
        told = self.file.conn.execute(
            "SELECT act, detail, by FROM ledger WHERE id > ?", (self._last,)
        ).fetchall()
        for act, detail, by in told:
            assert by == self.by
            if '"assumed":true' not in detail:
                self.acts.add(act)
        session = self.desk.app.session
        hand = Hand(session.now, session.now, session.desk)
        while ledger.last_standing_group(self.file.conn, session.desk) is not None:
            undoing.undo(self.file, hand)
        self._last = self._newest()
        session.acted()
        await self.desk.pilot.pause()

    def _newest(self) -> int:
        newest: int = self.file.conn.execute("SELECT max(id) FROM ledger").fetchone()[0]
        return newest


CHANGED_BY_STUDENTS = frozenset(
    {"ledger", "rolls", "touch_checks", "fan_runs", "lessons", "learned", "desks"}
)
BY_HELPERS = frozenset({"sweeps", "sweep_counts"})


def kept(school: School, by: By) -> dict[str, list[tuple[object, ...]]]:
    """Return all that no act of a locked desk may change: clips become known, nothing else."""
    names = school.file.conn.execute("SELECT name FROM sqlite_master WHERE type = 'table'")
    left = {name for (name,) in names.fetchall() if not name.startswith("sqlite_")}
    left -= CHANGED_BY_STUDENTS | (BY_HELPERS if by == "helper desk" else frozenset())
    return {
        name: [tuple(row) for row in school.file.conn.execute(f"SELECT * FROM {name}").fetchall()]
        for name in sorted(left)
    }


def not_for(by: By) -> list[str]:
    """Return what such a desk never shows: names, the archive, what only a teacher can do."""
    commands = [each.does for each in COMMANDS if not open_to(each, by)]
    screens = [each.purpose for each in SCREENS if not open_to(each, by)]
    return [*said.SECRETS, *commands, *screens]


def shows_nothing_else(by: By, drawn: set[str]) -> None:
    for secret in not_for(by):
        assert not [row for row in drawn if secret in row]


def lines(which: str, some: list[Roll]) -> Iterator[tuple[str, ...]]:
    """Yield what is said, line behind line."""
    match which:
        case "words":
            for word in said.words():
                yield from ((word,), ("17", word))
        case "scans":
            yield from said.scanned(some)
        case "orders":
            yield from ((order,) for order in said.ordered(some))
        case screen:
            scans = (code for codes in said.scans(some).values() for code in codes)
            for line in (*said.words(), *scans, *said.counted(some)):
                yield screen, line
                if line.endswith(" missing"):  # which asks of what is not of the rod in hand
                    yield screen, line, ""


@pytest.mark.parametrize("which", ["words", "scans", "orders", "sweep", "boxes"])
async def test_whatever_is_said_a_locked_desk_does_and_shows_what_is_a_students(
    locked: Path, by: By, drawn: set[str], which: str
):
    school = open_school(locked)
    before = kept(school, by)
    files = {each.name for each in locked.parent.iterdir()}
    async with at_desk(locked) as desk:
        driven = Driven(desk, by)
        await desk.app.workers.wait_for_complete()
        for each in lines(which, said.all_rolls(school)):
            await driven.say(*each)
    assert driven.acts <= dict(DESKS)[by] | {"undo"}
    if which in ("scans", "orders"):
        assert driven.acts >= {"load", "hang", "move", "flip", "touch", "take"}
    if which == "sweep" and by == "helper desk":
        assert driven.acts >= {"sweep", "count", "box", "missing"}
    after = kept(school, by)
    after["clips"] = [row for row in after["clips"] if row in before["clips"]]
    for name in before.keys() - {"settings"}:  # which hold how often the passphrase was missed
        assert after[name] == before[name], name
    shows_nothing_else(by, drawn)
    made = {each.name for each in locked.parent.iterdir()} - files - {"backups"}
    assert not [name for name in made if not name.startswith("darkroom.db-")]
    school.file.close()


KEYS_KNOWN = [key for entry in KEYS for key in entry.keys]
OTHER_KEYS = [
    *(f"f{number}" for number in range(1, 13)),
    *(f"ctrl+{letter}" for letter in "abcdefghijklmnopqrstuvwxyz"),
]


async def test_every_key_leaves_a_locked_desk_locked(locked: Path, by: By, drawn: set[str]):
    async with at_desk(locked) as desk:
        driven = Driven(desk, by)
        seen = set()
        for before, key in (
            *product(("", "17", "mar", "help", "teacher"), KEYS_KNOWN),
            *product(("", "teacher"), OTHER_KEYS),
        ):
            if before in ("help", "teacher"):
                desk.app.on_line_changed(Line.Changed(before))
                desk.app.on_line_entered(Line.Entered(Submitted(before, "enter")))
            else:
                desk.line.begin_from(before)
            desk.app.post_message(events.Key(key, None))
            await desk.pilot.pause()
            driven.stays_locked(key)
            seen.add(desk.open)
            for _ in range(3):
                desk.app.keys_and_clicks.pressed("back")
    assert seen == {screen.id for screen in SCREENS if open_to(screen, by)}
    shows_nothing_else(by, drawn)


@pytest.mark.parametrize("seed", [1])
async def test_whatever_is_typed_pressed_and_clicked_in_any_order_it_stays_locked(
    locked: Path, by: By, drawn: set[str], seed: int
):
    chance = random.Random(seed)
    school = open_school(locked)
    codes = [code for kind in said.scans(said.all_rolls(school)).values() for code in kind]
    lines = [*said.words(), *said.ordered(said.all_rolls(school)), *codes]
    before = kept(school, by)
    async with at_desk(locked) as desk:
        driven = Driven(desk, by)
        for _ in range(45):
            match chance.randint(0, 3):
                case 0:
                    done = chance.choice([*KEYS_KNOWN, "enter", "enter", "enter"])
                    await desk.press(done)
                case 1:
                    await desk.pilot.click(offset=(chance.randrange(118), chance.randrange(32)))
                    done = "click"
                case 2:
                    done = chance.choice(lines)
                    await desk.paste(done)
                case _:
                    done = chance.choice(lines)
                    await desk.say(done)
            driven.stays_locked(done)
    told = school.file.conn.execute(
        "SELECT act FROM ledger WHERE by = ? AND detail NOT LIKE '%\"assumed\":true%'", (by,)
    )
    assert {act for (act,) in told.fetchall()} <= dict(DESKS)[by] | {"undo"}
    assert kept(school, by)["people"] == before["people"]
    shows_nothing_else(by, drawn)
    school.file.close()
