from __future__ import annotations

import unicodedata
from collections import Counter
from datetime import UTC, date, datetime, timedelta
from itertools import pairwise

import pytest

from filmrack.demo.departures import BORROWER, REASONS
from filmrack.demo.incidents import NOTES
from filmrack.demo.school import EARLY_RELEASE, MOMENT
from filmrack.domain.contact import PAPERS
from filmrack.domain.film import film_named
from filmrack.domain.roll import PLACES
from filmrack.store import checking, clock, ledger, people, rolls, settings, sweeps
from filmrack.store.file import DarkroomFile
from filmrack.store.labelling import queued_sleeves
from filmrack.store.lessons import learned_by
from filmrack.store.standings import in_need, look_for, see, see_as_of

SOME_DAY_IN_2031 = datetime(2031, 5, 6, 7, 8, tzinfo=UTC)


@pytest.fixture(scope="module")
def now(demo: DarkroomFile) -> datetime:
    return clock.now_in(demo.conn, SOME_DAY_IN_2031)


def test_it_stands_in_a_lesson_of_a_november_morning(demo: DarkroomFile, now: datetime):
    room = demo.room()
    assert now == MOMENT
    assert now.astimezone(room.timetable.zone).strftime("%b %H:%M") == "Nov 10:26"
    meeting = room.timetable.meeting_at(now)
    assert meeting is not None
    assert meeting.ends - now > timedelta(minutes=5)


def test_check_finds_nothing(demo: DarkroomFile):
    assert checking.problems(demo) == []


def test_its_blocks_rotate_and_are_not_one_for_each_rod(demo: DarkroomFile):
    room = demo.room()
    rotation = room.timetable.days.rotation
    assert rotation is not None
    assert len(rotation.letters) == 7
    assert {len(plan) for plan in room.timetable.plans.values()} == {4, 5}
    assert room.period_word == "block"
    assert len({rod.positions for rod in room.rods}) > 2
    assert [rod.number for rod in room.rods if rod.period is None] == [5]
    assert len(room.rods_of(7)) == 2


def test_one_day_is_an_early_release(demo: DarkroomFile):
    timetable = demo.room().timetable
    early = timetable.school_day_ends(EARLY_RELEASE)
    usual = timetable.school_day_ends(date(2026, 11, 16))
    assert early is not None
    assert usual is not None
    assert early.astimezone(timetable.zone).hour == 11
    assert usual.astimezone(timetable.zone).hour == 14


def test_three_terms_hold_some_nine_hundred_rolls_of_150_people(demo: DarkroomFile):
    by_term = Counter(roll.term for roll in rolls.read(demo.conn, "1"))
    assert set(by_term) == {"25F", "26S", "26F"}
    assert 850 <= by_term.total() <= 1050
    assert 140 <= len(people.read_people(demo.conn, range(1, 9999))) <= 160


def test_rolls_are_in_every_place_that_an_act_leads_to(demo: DarkroomFile):
    found = {roll.place.kind for roll in rolls.read(demo.conn, "1")}
    assert found == PLACES


def test_every_reason_for_attention_is_there(demo: DarkroomFile, now: datetime):
    reasons = {why for each in in_need(demo, now).standings for why, _ in each.why}
    assert reasons == {
        "flip due",
        "touch check due",
        "ready",
        "left behind",
        "on the wrong rod",
        "in the wrong box",
        "missing",
        "loan overdue",
        "long in its box",
        "no contact sheet yet",
        "unknown roll",
    } | (reasons & {"long with its owner"})


def test_the_dryer_is_half_full_with_film_in_every_state(demo: DarkroomFile, now: datetime):
    hanging = see(demo, rolls.hanging(demo.conn), now).standings
    places = sum(rod.positions for rod in demo.room().rods)
    assert 0.4 <= len(hanging) / places <= 0.6
    states = Counter(each.state for each in hanging)
    assert min(states[state] for state in ("wet", "flip", "touch", "dry")) >= 2
    said = {each.outlook.by for each in hanging if each.outlook is not None}
    assert {"touch", "estimate"} <= said


def test_it_looks_the_same_as_of_its_moment_as_it_does_now(demo: DarkroomFile, now: datetime):
    hanging = rolls.hanging(demo.conn)
    then = see_as_of(demo, [roll.id for roll in hanging], now)
    assert [(each.roll, each.state) for each in then.standings] == [
        (each.roll, each.state) for each in see(demo, hanging, now).standings
    ]


def test_touch_checks_have_taught_the_dryer(demo: DarkroomFile):
    taught = learned_by(demo.conn, 1)
    assert taught.proven
    assert 7 <= taught.median <= 9
    checks = [check for roll in rolls.read(demo.conn, "1") for check in roll.checks]
    told = [check.dry for check in checks if check.source == "touch"]
    assert 0.15 <= told.count(False) / len(told) <= 0.5


def test_sweeps_were_finished_and_most_counts_were_right(demo: DarkroomFile):
    rods = [rod for _, counted in sweeps.finished(demo.conn, 500) for rod in counted]
    right = [rod for rod in rods if rod.counted == rod.expected]
    assert 0.8 <= len(right) / len(rods) < 1


def test_sleeves_wait_for_their_labels(demo: DarkroomFile):
    assert 5 <= len(queued_sleeves(demo.conn)) <= 60


def test_contact_sheets_have_picks_of_frames_that_are_there(demo: DarkroomFile):
    some = [roll for roll in rolls.read(demo.conn, "1") if roll.sheets and roll.sheets[0].picks]
    assert len(some) > 300
    assert all(max(roll.sheets[0].picks) <= (roll.frames or 0) for roll in some)


def test_a_long_roll_takes_two_sleeves(demo: DarkroomFile):
    pages = Counter(len(roll.pages) for roll in rolls.read(demo.conn, "sleeved_at IS NOT NULL"))
    assert set(pages) == {1, 2}


def test_it_all_happened_in_order_but_for_a_few_late_entries(demo: DarkroomFile):
    rows = demo.conn.execute("SELECT entered, happened FROM ledger ORDER BY id").fetchall()
    late = [row for row in rows if row["entered"] > row["happened"]]
    assert 1 <= len(late) <= 20
    entered = [row["entered"] for row in rows]
    backwards = sum(earlier > later for earlier, later in pairwise(entered))
    assert backwards == 0


def test_something_was_taken_back_and_its_numbers_stay_void(demo: DarkroomFile):
    void = [roll.id for roll in rolls.read(demo.conn, "place = 'void'")]
    assert void
    assert all(undone for number in void for _, undone in ledger.whole_story(demo.conn, number)[:1])


def test_names_are_plain_to_compare_and_of_many_scripts(demo: DarkroomFile):
    everyone = people.read_people(demo.conn, range(1, 9999)).values()
    names = [name for one in everyone for name in (one.given, one.family, one.called or "")]
    assert all(unicodedata.is_normalized("NFC", name) for name in names)
    scripts = {unicodedata.name(name[0]).split()[0] for name in names if name}
    assert scripts >= {"LATIN", "CJK", "CYRILLIC", "GREEK", "ARABIC", "DEVANAGARI", "HANGUL"}
    assert max(len(f"{one.given} {one.family}") for one in everyone) > 40


def test_twins_and_namesakes_in_one_class_are_told_apart(demo: DarkroomFile, now: datetime):
    seen = look_for(demo, "amar nwabugwu", now)
    assert {one.known_as for one in seen.people.values()} == {"Amara", "Amari"}
    noahs = people.with_words(demo.conn, ["noah", "winterbourne"])
    assert [one.known_as for one in noahs] == ["Red", "Blue"]
    assert len({one.school_id for one in noahs}) == 2


def test_films_and_papers_are_sizes_and_every_other_word_is_ours(demo: DarkroomFile):
    for roll in rolls.read(demo.conn, "place <> 'void'"):
        assert film_named(roll.film).text == roll.film
        assert {sheet.paper for sheet in roll.sheets} <= set(PAPERS)
    # What people were before a change is kept for undo, and is no word that somebody wrote.
    rows = demo.conn.execute(
        "SELECT text FROM notes WHERE id NOT IN"
        " (SELECT detail ->> 'listed' FROM ledger WHERE act = 'people')"
    )
    kept = {row["text"] for row in rows}
    clues = {"two people on a pier, first frames", "a dog in snow"}
    assert kept == {*NOTES, *clues, *REASONS, BORROWER}


def test_films_are_mostly_long_rolls_with_one_set_of_sheets(demo: DarkroomFile):
    films = Counter(roll.film for roll in rolls.read(demo.conn, "place <> 'void'"))
    assert films["135-36"] > films.total() / 2
    assert films["135-24"] > 50
    assert films["sheet-4x5"] == 1
    assert {"120-6x4.5", "120-6x6", "120-6x7"} <= set(films)


def test_nothing_is_settled_but_the_room_and_the_clock(demo: DarkroomFile):
    rows = demo.conn.execute("SELECT name FROM settings ORDER BY name").fetchall()
    assert [row["name"] for row in rows] == ["clock_stands", "founded", "room", "room_stamp"]
    assert settings.read(demo.conn, "clock_stands") == "2026-11-17T16:26:00Z"
