"""Building the demo school's file: the same acts, the same chance, the same bytes each time."""

from __future__ import annotations

import os
from contextlib import suppress
from datetime import UTC, datetime
from pathlib import Path
from random import Random

from filmrack.acts.founding import make_darkroom_file
from filmrack.acts.group import Hand
from filmrack.acts.rostering import take_roster
from filmrack.demo.archive import Archive
from filmrack.demo.calendar import Calendar
from filmrack.demo.classwork import Classwork
from filmrack.demo.darkroom import Darkroom
from filmrack.demo.departures import Departures
from filmrack.demo.emptying import Emptying
from filmrack.demo.incidents import Incidents
from filmrack.demo.morning import Morning
from filmrack.demo.school import MOMENT, demo_room
from filmrack.demo.students import class_lists
from filmrack.domain.refusal import FileTrouble, Refused
from filmrack.domain.roster import read_roster
from filmrack.store import beside, clock
from filmrack.store.file import DarkroomFile, open_file
from filmrack.store.trouble import trouble_with

SEED = 26_11_17
FOUNDED = datetime(2025, 8, 21, 15, 0, tzinfo=UTC)


def build(path: Path, until: datetime = MOMENT) -> None:
    """Build the demo school's file, standing at its moment and without a journal beside it.

    With an earlier `until` it is the beginning of the same story.

    Raises Refused over anything that exists, FileTrouble when it cannot be written.
    """
    with make_darkroom_file(path, demo_room(), FOUNDED) as file, trouble_with(path):
        # Nothing is lost if this is cut short: the file is not in its place yet.
        file.write_in_haste()
        _live(file, until)
        with file.writing() as conn:
            clock.stand_at(conn, until)
        beside.make_one_file(file.conn)
        file.shrink()


def rebuild(path: Path) -> None:
    """Build the demo anew in the place of an earlier one, which stays until that is done.

    Raises Refused over a file that is no demo or is in use, FileTrouble when it cannot be written.
    """
    _refuse_over_other_files(path)
    draft = beside.draft_of(path)
    try:
        build(draft)
        with trouble_with(path):
            # SQLite would take a journal of the earlier file for one of the new.
            for leftover in beside.all_beside(path):
                leftover.unlink(missing_ok=True)
            draft.replace(path)
    except FileTrouble as error:
        raise FileTrouble(str(error).replace(str(draft), str(path))) from error
    finally:
        beside.remove(draft)


def _refuse_over_other_files(path: Path) -> None:
    if not os.path.lexists(path):
        return
    is_demo = False
    with suppress(FileTrouble), open_file(path, write=False) as file:
        is_demo = clock.is_demo(file.conn)
    if not is_demo:
        raise Refused(
            f"{path} exists and is not a demo: name another file, or move this one away first"
        )
    if any(journal.exists() and journal.stat().st_size for journal in beside.journals_of(path)):
        raise Refused(f"{path} is in use: close what has it open, and build it anew then")


def _live(file: DarkroomFile, until: datetime) -> None:
    chance = Random(SEED)
    for classes in class_lists(chance):
        roster = read_roster(classes.roster(), file.room().period_word)
        take_roster(file, Hand(FOUNDED, FOUNDED), roster, term=classes.term)
    darkroom = Darkroom(file, chance)
    archive = Archive(darkroom)
    classwork = Classwork(darkroom, archive)
    Calendar(darkroom, archive, classwork, Emptying(darkroom)).plan()
    Incidents(darkroom, classwork).plan()
    Departures(darkroom).plan()
    Morning(darkroom).plan()
    darkroom.diary.live_until(until)
