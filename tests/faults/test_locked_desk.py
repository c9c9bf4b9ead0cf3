"""A locked desk driven by chance through keys, words, scans and clicks: it stays a student desk."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from filmrack.acts import archiving, hanging
from filmrack.acts.locking import set_passphrase
from filmrack.desk.registry import COMMANDS, KEYS, SCREENS
from filmrack.domain import codes
from filmrack.domain.journey import POSSIBLE_FROM
from filmrack.domain.refusal import Refused
from filmrack.domain.student_desk import HELPER_ACTS, STUDENT_ACTS, refuse_act
from tests.conftest import IVO, MARA, OLU, open_school
from tests.desk.at_desk import at_desk

FAMILIES = ("Okafor", "Adeyemi", "Lindqvist")
OTHER_ACTS = ("load", "shelve", "fan", "sweep", "count", "close", "reopen")
OPEN_SCREENS = {screen.id for screen in SCREENS if not screen.teacher}

WORDS = [
    *(command.words for command in COMMANDS),
    *(name for screen in SCREENS for name in (screen.title, *screen.words)),
    *("mar", "olu", "okafor", "26F", "0001", "0002", "17", "18", "30", "rod 1", "box 1", "17 box"),
    *("17 flip", "17 dry", "17 tacky", "17 take", "17 undo", "17 rod 3", "30 olu", "olu", "undo"),
    *("binder 3", "17 binder 3", "17 olu", "rod 1 flip", "rod 1 box", "yes", "no", "a guess", "?"),
    *(codes.action_code(word) for word in ("FLIP", "DRY", "TACKY", "TAKE", "BOX", "UNDO", "FAN")),
    *(codes.clip_code(17, "A"), codes.clip_code(18, "B"), codes.clip_code(30, "A")),
    *(codes.roll_code("26F", 1), codes.roll_code("26F", 2), codes.person_code(2)),
    *(codes.binder_code("26F", 3), codes.rod_code(1), codes.box_code(1)),
]
PRESSED = [key for entry in KEYS for key in entry.keys] + ["enter", "enter", "enter"]


@pytest.fixture
def locked(db: Path) -> Path:
    school = open_school(db)
    hanging.hang(school.file, school.hand(ago=20), person=MARA, clip=17)
    filed = hanging.hang(school.file, school.hand(ago=500), person=IVO, clip=18).roll.id
    archiving.sleeve(school.file, school.hand(ago=400), filed)
    hanging.load(school.file, school.hand(ago=5), OLU, [19])
    set_passphrase(school.file, "three dry clips", None, school.now)
    school.file.close()
    return db


@pytest.mark.parametrize("act", sorted({*POSSIBLE_FROM, *OTHER_ACTS}))
def test_every_act_that_is_not_a_students_is_refused_to_a_student_desk(act: str):
    for by, allowed in (("student desk", STUDENT_ACTS), ("helper desk", HELPER_ACTS)):
        if act in allowed:
            refuse_act(by, act, {})
        else:
            with pytest.raises(Refused, match="not for a student desk"):
                refuse_act(by, act, {})


@pytest.mark.parametrize("seed", range(2))
async def test_whatever_is_typed_scanned_pressed_or_clicked_it_stays_a_student_desk(
    locked: Path, seed: int
):
    chance = random.Random(seed)
    before = set(locked.parent.iterdir()) | {locked.parent / "backups"}
    async with at_desk(locked) as desk:
        for _ in range(45):
            match chance.randint(0, 3):
                case 0:
                    await desk.press(chance.choice(PRESSED))
                case 1:
                    await desk.pilot.click(offset=(chance.randrange(118), chance.randrange(32)))
                case 2:
                    await desk.type(chance.choice(WORDS))
                case _:
                    await desk.say(chance.choice(WORDS))
            assert desk.app.is_running
            assert not desk.app.teacher
            assert desk.screen in OPEN_SCREENS
            typed = desk.line.text
            shown = desk.shown.replace(typed, "") if typed else desk.shown
            assert not [name for name in FAMILIES if name in shown], shown
            desk.app.draw()
    school = open_school(locked)
    told = school.file.conn.execute(
        "SELECT act, detail FROM ledger WHERE by = 'student desk'"
    ).fetchall()
    for act, detail in told:
        assert act in STUDENT_ACTS | {"undo"} or '"assumed":true' in detail, act
    assert {row[0] for row in school.file.conn.execute("SELECT by FROM ledger WHERE id > 12")} <= {
        "student desk"
    }
    school.file.close()
    made = {each for each in locked.parent.iterdir() if not each.name.startswith("darkroom.db")}
    assert made <= before
