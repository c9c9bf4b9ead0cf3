"""People, days off from a file, and clips, on the screen Room."""

from __future__ import annotations

from pathlib import Path

import pytest

from filmrack.acts.group import Hand
from filmrack.acts.refitting import change_room
from filmrack.domain.codes import clip_code
from filmrack.store import people
from filmrack.store.clips import read_clip
from filmrack.store.file import open_file
from tests.conftest import MARA, TUESDAY_9_00
from tests.desk.at_desk import at_desk
from tests.desk.room.at_room import exported, form, select, sure, to_row

ROSTER = """Last Name,First Name,Student ID,Advisor,Block
Okafor,Mara,S-101,Smith,2
Haddad,Lina,S-104,Smith,1
"""
# RFC 5545, section 3.6.1: whole-day events have a DATE, and DTEND is the day after the last.
CALENDAR = """BEGIN:VCALENDAR
VERSION:2.0
PRODID:-//school//office//EN
BEGIN:VEVENT
UID:1@school
DTSTAMP:20260801T000000Z
SUMMARY:No school: harvest
DTSTART;VALUE=DATE:20261125
DTEND;VALUE=DATE:20261128
END:VEVENT
BEGIN:VEVENT
UID:2@school
DTSTAMP:20260801T000000Z
SUMMARY:Photo day
DTSTART;VALUE=DATE:20261201
DTEND;VALUE=DATE:20261202
END:VEVENT
END:VCALENDAR
""".replace("\n", "\r\n")


def known(path: Path) -> list[str]:
    with open_file(path, write=False) as file:
        numbers = range(1, 10)
        found = people.read_people(file.conn, numbers).values()
        return [f"{one.full} {people.period_of(file.conn, one.number, '26F')}" for one in found]


async def test_a_person_is_added_renamed_moved_and_leaves(db: Path) -> None:
    async with at_desk(db, size=(80, 24)) as desk:
        await to_row(desk, "people", "add a person …")
        assert "Lina Haddad" in await form(desk, "Leyla", "Haddad", "Lina", "", "2", "")
        await desk.say("mara")
        await form(desk)
        await select(desk, "called")
        await desk.press("enter")
        assert "Nothing is changed yet" in await desk.say("Mo")
        await desk.press("escape")
        assert known(db)[MARA - 1] == "Mara Okafor 1", "a name is asked about first"
        assert "Mo Okafor" in await form(desk, "Mo", "")
        await select(desk, "period")
        assert "is in Period 2" in await sure(desk, "2")
        await select(desk, "has left")
        assert "has left" in await form(desk)
        assert known(db)[MARA - 1] == "Mo Okafor 2"
        with open_file(db, write=False) as file:
            assert people.with_words(file.conn, ["okafor"]) == []
        await select(desk, "is back")
        await form(desk)
        with open_file(db, write=False) as file:
            assert people.with_words(file.conn, ["okafor"])
    assert "Lina Haddad 2" in known(db)


async def test_a_roster_is_shown_as_it_is_read_before_anything_is_written(
    db: Path, tmp_path: Path
) -> None:
    file = tmp_path / "block two.csv"
    file.write_text(ROSTER)
    before = known(db)
    async with at_desk(db, size=(80, 24)) as desk:
        await to_row(desk, "people", "take in a roster …")
        await desk.press("enter")
        assert "there is no file" in await desk.say(str(tmp_path / "none.csv"))
        shown = await desk.say(f"'{file}'")
        assert "Last Name is the family name" in shown
        assert "not used: Advisor" in shown
        assert "1 added, 1 updated, 0 unchanged" in shown
        assert "nothing was changed" in await desk.say("no")
        assert known(db) == before
        await form(desk, str(file).replace(" ", "\\ "), "yes")
    assert known(db)[MARA - 1] == "Mara Okafor 2"
    assert "Lina Haddad 1" in known(db)


async def test_days_off_come_from_a_calendar_file(db: Path, tmp_path: Path) -> None:
    file = tmp_path / "school.ics"
    file.write_text(CALENDAR, newline="")
    async with at_desk(db, size=(80, 24)) as desk:
        await to_row(desk, "terms", "from a calendar …")
        await form(desk, str(file), "no school", "yes")
        assert "first = 2026-11-25, last = 2026-11-27" in exported(db)
        assert "Photo day" not in exported(db)
        await desk.say("undo")
    assert "2026-11-25" not in exported(db)


@pytest.mark.parametrize(
    ("said", "kept"),
    [
        ("clip 17 hook A lost", "A has no hook: bottom only, the strip cannot be flipped"),
        ("17 tag b lost", "B has no tag: print one"),
        ("17b lost tag", "B has no tag: print one"),
        ("clip 17 retired", "retired"),
    ],
)
async def test_what_happens_to_a_clip_is_said_at_any_screen(db: Path, said: str, kept: str) -> None:
    async with at_desk(db) as desk:
        assert kept in await desk.say(said)
        assert "whole and in use" in await desk.say("clip 17 whole")
        assert "say “clip 17 tag A lost”, or B" in await desk.say("17 tag lost")
        await desk.say(said)
    with open_file(db, write=False) as file:
        clip = read_clip(file.conn, 17)
        assert clip is not None
        assert clip.says == kept


async def test_clips_say_how_many_there_are_and_on_what_basis(db: Path) -> None:
    async with at_desk(db, size=(120, 34)) as desk:
        await to_row(desk, "clips", "add clips …")
        assert "4 pairs added" in await form(desk, "1-3, 7")
        for words in ("1-3, 7", "0 of 4", "no roll is noted", "4 more are needed: 8 positions"):
            assert words in desk.shown, words
        await desk.say("clip 7 hook B lost")
        await select(desk, "clip 7")
        await form(desk)
        await select(desk, "retired")
        assert "retired" in await form(desk)


async def test_a_persons_names_are_wiped_for_good_only_when_the_family_name_is_typed(
    db: Path,
) -> None:
    async with at_desk(db, size=(80, 24)) as desk:
        await to_row(desk, "people", "add a person …")
        await desk.say("mara")
        await form(desk)
        await select(desk, "wipe names …")
        await desk.press("enter")
        assert "nothing was wiped" in await desk.say("Adeyemi")
        assert "Mara Okafor 1" in known(db)
        assert "Names wiped" in await desk.say("okafor")
        assert "Mara Okafor 1" not in known(db)
        await desk.say("")


async def test_where_the_room_itself_says_the_name_this_is_told_before_it_is_removed(
    db: Path,
) -> None:
    with open_file(db, write=True) as file:
        change_room(
            file, Hand(TUESDAY_9_00, TUESDAY_9_00), lambda room: room._replace(name="Okafor wing")
        )
    async with at_desk(db, size=(80, 24)) as desk:
        await to_row(desk, "people", "add a person …")
        await desk.say("mara")
        await form(desk)
        await select(desk, "wipe names …")
        await desk.press("enter")
        asked = " ".join(desk.shown.split())
        assert "the room itself says “Okafor wing”" in asked
        assert "change it on the screen Room first" in asked


async def test_a_bare_undo_takes_back_what_was_told_of_people_and_clips(db: Path) -> None:
    async with at_desk(db, size=(80, 24)) as desk:
        await desk.say("day off 24 dec")
        before = known(db)
        await to_row(desk, "people", "add a person …")
        assert "Wrong? Type “undo”" in await form(desk, "Leyla", "Haddad", "", "", "2", "")
        assert "Leyla Haddad is gone again" in await desk.say("undo")
        assert known(db) == before
        await to_row(desk, "clips", "add clips …")
        assert "Wrong? Type “undo”" in await form(desk, "151-152")
        assert "2 clip pairs are unknown again" in await desk.say("undo")
        assert "Wrong? Type “undo”" in await desk.say("clip 17 whole")  # it was not known before
        assert "as it was" in await desk.say("clip 17 whole")
        assert "clip 17 is unknown again" in await desk.say("undo")
        assert "24 Dec" in await desk.say("undo")


async def test_a_bare_undo_behind_names_removed_for_good_says_so_once(db: Path) -> None:
    async with at_desk(db, size=(80, 24)) as desk:
        await desk.say("day off 24 dec")
        await desk.say("people")
        await desk.say("mara")
        await desk.press("enter")
        await select(desk, "wipe names …")
        assert "gone from the file" in await form(desk, "Okafor")
        refused = await desk.say("undo")
        assert "wiped for good" in refused
        assert "a second undo goes on" in refused
        assert "24 Dec" in await desk.say("undo")


async def test_a_person_is_shown_whole_before_they_are_added(db: Path) -> None:
    async with at_desk(db, size=(80, 24)) as desk:
        before = known(db)
        await to_row(desk, "people", "add a person …")
        await desk.press("enter", "enter")
        assert "a person needs a given name" in desk.answer
        for typed in ("Leyla", "Haddad", "Block B", "clips"):  # a hand that ran ahead of the desk
            await desk.say(typed)
        assert "Leyla, 5 of 5: period?" in desk.answer
        shown = await desk.say("2")
        for words in ("Add Leyla Haddad?", "called Block B", "school id clips", "Nothing is saved"):
            assert words in shown, shown
        assert "neither yes nor no" in await desk.say("board")
        await desk.press("escape")
        assert "is not added" in desk.answer
        assert known(db) == before


async def test_a_code_is_nobodys_name(db: Path) -> None:
    async with at_desk(db, size=(80, 24)) as desk:
        await to_row(desk, "people", "add a person …")
        await desk.press("enter")
        await desk.scan(clip_code(17, "A"))
        assert "is the code of something, not a setting" in desk.answer


@pytest.mark.parametrize("answers", [[], ["Lena"], ["Lena", "Brook", "", "", "2"]])
async def test_undo_lets_go_the_questions_of_a_new_person(db: Path, answers: list[str]) -> None:
    async with at_desk(db, size=(80, 24)) as desk:
        await to_row(desk, "people", "add a person …")
        await desk.press("enter")
        for each in answers:
            await desk.say(each) if each else await desk.press("enter")
        assert "is not answered" in await desk.say("undo")
        assert desk.app.question is None
        assert not people.with_words(desk.app.session.file.conn, ["brook"])
