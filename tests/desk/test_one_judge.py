"""A school day minute by minute: the command, the board, the dryer and the card say the same."""

from __future__ import annotations

import json
import re
from contextlib import redirect_stdout
from datetime import datetime, timedelta
from io import StringIO
from pathlib import Path
from typing import Any

import pytest

from filmrack.acts.drying import flip, touch, turn_dial
from filmrack.acts.group import Hand
from filmrack.acts.hanging import hang
from filmrack.cli.app import run
from filmrack.domain.clock import clock
from filmrack.store.clock import stand_at
from tests.conftest import IVO, MARA, OLU, TUESDAY_9_00, open_school
from tests.desk.at_desk import AtDesk, at_desk

DRIED = ("flip_at", "likely_at", "dry_at")
BEFORE_BELL = {"yes": "dry by then", "tight": "perhaps dry", "no": "not dry"}


def act(desk: AtDesk, minute: int, rolls: dict[int, int]) -> None:
    """Do what happens at this minute: three rolls, a fan found off, and two fingers."""
    file, hand = desk.app.session.file, Hand(desk.now, desk.now)
    match minute:
        case 0:
            rolls[17] = hang(file, hand, person=OLU, clip=17).roll.id
        case 6:
            flip(file, hand, [rolls[17]])
            rolls[18] = hang(file, hand, person=IVO, clip=18).roll.id
        case 10:
            touch(file, hand, rolls[17], dry=False)
        case 14:
            touch(file, hand, rolls[17], dry=True)
        case 20:
            turn_dial(file, hand, 0)
        case 24:
            turn_dial(file, hand, 0.5)
        case 36:
            rolls[19] = hang(file, hand, person=MARA, clip=19).roll.id
    desk.app.session.acted()


def found(clip: int) -> dict[str, Any]:
    """Return what the command line says of a roll."""
    with redirect_stdout(StringIO()) as out:
        assert run(["find", "--json", f"clip {clip}"]) == 0
    (told,) = json.loads(out.getvalue())
    return dict(told)


async def look_at(desk: AtDesk, screen: str, roll: int) -> str:
    """Return what a screen shows with a roll selected on it."""
    desk.app.face.go(screen)
    desk.app.view.select(roll)
    await desk.wait()
    return desk.shown


async def test_all_say_the_same_at_every_minute(db: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setenv("FILMRACK_DB", str(db))
    other = open_school(db).file
    rolls: dict[int, int] = {}
    seen: set[str] = set()
    async with at_desk(db) as desk:
        for minute in range(0, 62):
            desk.now = TUESDAY_9_00 + timedelta(minutes=minute)
            with other.writing() as conn:
                stand_at(conn, desk.now)
            act(desk, minute, rolls)
            for clip, roll in rolls.items():
                if (minute + clip) % 3 and minute not in (20, 24):
                    continue  # every roll at a third of the minutes, to be quick
                told = found(clip)
                seen |= {told["state"], told["before_bell"] or "none"}
                await compare(desk, roll, told)
    other.close()
    assert seen >= {"wet", "flip", "touch", "dry", "yes", "tight", "no", "none"}


async def compare(desk: AtDesk, roll: int, told: dict[str, Any]) -> None:
    standing = next(each for each in desk.app.session.look().hanging if each.roll.id == roll)
    drying, room = standing.outlook, desk.app.session.file.room()
    assert drying is not None
    assert told["state"] == standing.state
    for key in DRIED:
        moment = getattr(drying, key)
        assert told[key] == (moment and moment.astimezone(room.timetable.zone).isoformat()), key
    assert told["dryer_minutes"] == round(drying.dryer_minutes, 2)
    assert told["p_dry"] == round(drying.p_dry, 4)
    assert told["before_bell"] == standing.before_bell

    late = told["left_behind"] and told["state"] not in ("wet", "flip")
    clip, word = told["clip"], "late" if late else told["state"]
    board = await look_at(desk, "board", roll)
    assert re.search(rf"\b{clip} .*\b{word}\b", board)
    dryer = await look_at(desk, "dryer", roll)
    assert f"┬{clip}" in dryer
    assert re.search(rf"\b{word}\b", dryer)
    assert told["next"].casefold() in " ".join(dryer.split()).casefold()
    for name, key in (("flip", "flip_at"), ("likely dry", "likely_at")):
        moment = told[key] and datetime.fromisoformat(told[key])
        says = f"{name:<11}{moment and clock(moment, room.timetable.zone, desk.now)}"
        assert (says in dryer) == (moment is not None)
    if told["before_bell"] and told["state"] != "dry":
        assert BEFORE_BELL[told["before_bell"]] in dryer
