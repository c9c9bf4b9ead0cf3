from __future__ import annotations

import json
from datetime import date, time
from functools import reduce

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from filmrack.domain.contact import Paper
from filmrack.domain.dayplan import Slot
from filmrack.domain.default_room import default_room
from filmrack.domain.refusal import Refused
from filmrack.domain.room import Binder, Box, Dryer, Period, Rod, Room
from filmrack.domain.roomfile import MOST_BYTES, examine, read_room_file
from filmrack.domain.roomrules import Materials, Rules
from filmrack.domain.roomtext import room_text
from filmrack.domain.schooldays import DayOff, OneOff, Rotation, SchoolDays, Term
from filmrack.domain.timetable import Timetable, zone_named
from tests.domain.rooms import rooms

ROOM = default_room("America/Chicago", date(2026, 11, 17))
TEXT = room_text(ROOM)
BLOCKS = Room(
    name="Room “12”",
    zone="Europe/Berlin",
    period_word="block",
    periods=(Period(1, "Block A"), Period(2, "Block \\ B"), Period(7, "3")),
    dryers=(Dryer(1, "Old"), Dryer(2, "Tall", 2150, 1.25)),
    rods=(Rod(2, 1, 12, 1), Rod(5, 1, 4, None, 80, "right"), Rod(1, 2, 9, 7)),
    boxes=(Box(1, 7), Box(4, 1)),
    binders=(Binder("26F", 1, 2), Binder("26F", 2)),
    timetable=Timetable(
        zone_named("Europe/Berlin"),
        {
            "A": (Slot(1, time(8), time(9, 5)), Slot(7, time(9, 5), time(10))),
            "B": (),
            "Day 3": (Slot(2, time(23), time(23, 59)),),
            "short": (Slot(1, time(8), time(8, 30)),),
        },
        SchoolDays(
            ("mon", "tue", "sat"),
            (
                Term("26F", date(2026, 8, 1), date(2026, 12, 20)),
                Term("27S", date(2027, 1, 7), date(2027, 6, 30)),
            ),
            (DayOff("Fête", date(2026, 11, 2), date(2026, 11, 3)),),
            (
                OneOff(date(2026, 12, 1), "Early", "short", keeps_letter=True),
                OneOff(date(2026, 12, 2), "Snow", ()),
                OneOff(date(2026, 12, 5), "Fair", (Slot(2, time(10), time(11)),)),
            ),
            Rotation(("A", "B", "Day 3"), date(2026, 8, 3)),
        ),
    ),
    rules=Rules(2.5, 41, 10, "next_class", 0, 3, 4, 9),
    materials=Materials(
        "120-6x6",
        "6x6",
        "13x18cm",
        ("8x5", "9x5"),
        (Paper("13x18cm", 127.5, 178),),
        page_120="5x3",
        page_sheet="1x1",
    ),
    initials_on_sleeves=True,
)


def problems(text: str | bytes) -> dict[str, str]:
    reading = examine(text if isinstance(text, bytes) else text.encode())
    assert (reading.room is None) == bool(reading.problems)
    return {problem.key: problem.advice for problem in reading.problems}


def changed(*changes: tuple[str, str]) -> dict[str, str]:
    for old, _ in changes:
        assert old in TEXT
    return problems(reduce(lambda text, change: text.replace(*change, 1), changes, TEXT))


@pytest.mark.parametrize("room", [ROOM, BLOCKS], ids=["the first room", "a room of blocks"])
def test_a_room_that_was_written_is_read_back_equal(room: Room):
    reading = examine(room_text(room).encode())
    assert reading.problems == ()
    assert reading.room == room


def test_a_room_file_with_mistakes_is_refused_by_the_first_of_them():
    assert read_room_file(b"\xef\xbb\xbf" + TEXT.encode()) == (ROOM, TEXT)
    with pytest.raises(Refused, match=r"wrong at zone: .* \(1 more"):
        read_room_file(TEXT.replace("America", "Amerika").replace("-08:50", "", 1).encode())


@pytest.mark.parametrize(
    ("data", "why"),
    [
        (
            TEXT.replace("loan_school_days", "loan_days").encode(),
            "rules.loan_days: there is no such key, write loan_school_days instead",
        ),
        (
            TEXT.replace("[labels]", "[labels]\nrods = []").encode(),
            "labels.rods: write this key further up, above the first line in square brackets",
        ),
        (
            TEXT.replace(
                "one_offs = []",
                'one_offs = [{ day = 2026-11-20, name = "Fair", plan = "mon" },'
                ' { day = 2026-11-20, name = "Play", plan = "mon" }]',
            ).encode(),
            "one_offs: Fri 20 Nov 2026 cannot be both Fair and Play because a day has one plan:"
            " keep one of the two",
        ),
        (TEXT.encode("utf-16"), "its text: save it as UTF-8"),
        (b" " * (MOST_BYTES + 1), "its size: choose a room file, which has at most 500 kB"),
    ],
    ids=["an unknown key", "a key too far down", "a day twice", "other letters", "too long"],
)
def test_what_cannot_just_be_given_is_refused_with_what_to_do_instead(data: bytes, why: str):
    with pytest.raises(Refused) as refused:
        read_room_file(data)
    assert str(refused.value) == f"the room file is wrong at {why}"


def test_every_rule_of_the_room_is_in_its_file():
    for key in ("process_minutes", "dial_hours", "loan_school_days", "keep_names_years"):
        assert f"{key} = " in TEXT


def test_little_need_be_written():
    text = """
    zone = "Europe/Berlin"
    periods = [{ number = 1 }]
    dryers = [{ number = 1 }]
    rods = [{ number = 1, positions = 8, period = 1 }]
    terms = [{ code = "26F", starts = 2026-08-01, ends = "2026-12-20" }]
    days_off = [{ first = 2026-11-02 }]
    """
    room = examine(text.encode()).room
    assert room is not None
    assert room.rods == (Rod(1, 1, 8, 1),)
    assert room.timetable.days.days_off == (
        DayOff("No school", date(2026, 11, 2), date(2026, 11, 2)),
    )
    assert room.rules == Rules()


def test_entries_may_stand_in_any_order():
    turned = BLOCKS._replace(periods=BLOCKS.periods[::-1], rods=BLOCKS.rods[::-1])
    assert examine(room_text(turned).encode()).room == BLOCKS


def test_every_mistake_is_named_by_its_key():
    found = changed(
        ('positions = 10, period = "3"', 'positions = 100, period = "9"'),
        ('"2 08:56-09:46"', '"2 08:56"'),
        ("ends = 2026-12-31", "ends = 2026-06-30"),
        ("process_minutes = 35", 'process_minutes = "long"'),
        ("initials_on_sleeves = false", "initials_on_sleeves = 0"),
    )
    assert found == {
        "rods[3].positions": "give a whole number from 1 to 99",
        "rods[3].period": "give one of the periods: "
        + ", ".join(f'"Period {number}"' for number in range(1, 7)),
        "timetable.plans.mon[2]": 'give a period and its times, as in "1 08:00-08:50"',
        "terms[1].ends": "give a day from 2026-07-01 on",
        "rules.process_minutes": "give a number from 1 to 600",
        "labels.initials_on_sleeves": "give true or false",
    }


@pytest.mark.parametrize(
    ("old", "new", "key", "advice"),
    [
        ("process_minutes", "proces_minutes", "rules.proces_minutes", "process_minutes"),
        ("[labels]", "[labels]\nrods = []", "labels.rods", "further up"),
        ('zone = "America/Chicago"', 'zone = "Chicago"', "zone", "America/Chicago"),
        ('zone = "America/Chicago"', 'zone = "../../etc/passwd"', "zone", "time zone"),
        ('zone = "America/Chicago"', "", "zone", "quotation marks"),
        ("number = 2, name", "number = 1, name", "periods[2].number", "no other has"),
        ('2, name = "Period 2"', '2, name = "Period 1"', "periods[2].name", "no other has"),
        ("number = 2, dryer", "number = 1, dryer", "rods[2].number", "no other has"),
        ("number = 2, dryer = 1", "number = 2, dryer = 4", "rods[2].dryer", "dryer: 1"),
        ("positions = 10", "positions = true", "rods[1].positions", "whole number"),
        ("positions = 10", "positions = 1e400", "rods[1].positions", "whole number"),
        ("dial_hours = 1", "dial_hours = nan", "dryers[1].dial_hours", "0.05 to 24"),
        ('2, period = "2"', '2, period = "1"', "boxes[2].period", "no other has"),
        ('code = "26F"', 'code = "26O"', "terms[1].code", "26F"),
        ("2026-07-01", "2026-07-01T08:00:00Z", "terms[1].starts", "2026-11-26"),
        ("2026-07-01", "0001-01-01", "terms[1].starts", "1990"),
        ("mon = [", "monday = [", "timetable.plans.monday", "weekday"),
        ("1 08:00-08:50", "1 08:00-07:50", "timetable.plans.mon[1]", "after 08:00"),
        ("1 08:00-08:50", "1 08:00-09:50", "timetable.plans.mon", "move one of the two"),
        ("1 08:00-08:50", "1 28:00-29:50", "timetable.plans.mon[1]", "23:59"),
        ("1 08:00-08:50", "9 08:00-08:50", "timetable.plans.mon[1]", "Period 1, Period 2"),
        ('"fri"]', '"fry"]', "timetable.weekdays", "fri"),
        ('"thu", "fri"]', '"thu"]', "timetable.plans", "fri"),
        ("days_off = []", "days_off = 3", "days_off", "a list"),
        ("days_off = []", "days_off = [3]", "days_off[1]", "braces"),
        (
            "one_offs = []",
            'one_offs = [{ day = 2026-09-09, name = "x", plan = "none" }]',
            "timetable.plans",
            "none",
        ),
        ('page = "7x5"', 'page = "A5"', "materials.page", "7x5"),
        ('page_120 = "4x3"', 'page_120 = "B5"', "materials.page_120", "4x3"),
        ('paper = "8x10in"', 'paper = "napkin"', "materials.paper", "8x10in"),
        ("more_pages = []", 'more_pages = ["8x5", "big"]', "materials.more_pages[2]", "8x5"),
        ('left_behind = "day_end"', 'left_behind = "never"', "rules.left_behind", "next_class"),
        ("# letters", "letters", "timetable.first_letter_on", "a date"),
        ('name = "Darkroom"', 'name = "a\\u202eb"', "name", "1 to 40"),
        ('name = "Darkroom"', 'name = ""', "name", "1 to 40"),
        ('name = "Darkroom"', '"[/x]\\n" = 1', '"[/x]"', "no such key"),
    ],
)
def test_a_mistake_says_what_to_do(old: str, new: str, key: str, advice: str):
    found = changed((old, new))
    assert key in found
    assert advice in found[key]


@pytest.mark.parametrize("key", ["letters", "weeks"])
@pytest.mark.parametrize(
    "letters",
    [["A", "A"], ["the thirteenth"], [f"L{nth}" for nth in range(31)], ["A", "[B]"], []],
    ids=["one twice", "one too long", "too many", "a sign", "none"],
)
def test_day_letters_that_cannot_be_say_how_many_and_how_long_they_are(
    key: str, letters: list[str]
):
    first, what = ("first_letter_on", "day") if key == "letters" else ("first_week_on", "week")
    written = f"[timetable]\n{key} = {json.dumps(letters)}\n{first} = 2026-08-24"
    assert problems(f"{written}\nplans = {{}}")[f"timetable.{key}"] == (
        f"give 1 to 30 {what} letters, each once and of at most 12 letters or figures, as in"
        ' ["A", "B"]'
    )


def test_a_slip_in_the_writing_is_named_by_its_line():
    assert list(changed(("period_word = ", "period_word "))) == ["line 10"]


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"\xff\xfe",
        b"x" * (MOST_BYTES + 1),
        b"x = " + b"[" * 5000,
        b"x = " + b"9" * 5000,
        b"x = 2026-02-30",
        b"rods = [[]]\nperiods = {}\ntimetable = 3",
        b"[timetable]\nplans = [1]\nletters = [1]",
        b'[timetable.plans]\n"" = 1\n"[" = []',
        b'zone = "\\u0000"',
        b'zone = "Europe"',
    ],
)
def test_what_is_no_room_file_has_problems_and_no_room(data: bytes):
    for key, advice in problems(data).items():
        assert key.isprintable()
        assert advice.isprintable()
    assert problems(data)


values = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-5, 200)
    | st.sampled_from(["nan", "inf", "2026-09-01", "0001-01-01", "08:00:00", '"mon"', '"26F"'])
    | st.text(max_size=6).map(lambda text: '"' + text.encode("unicode_escape").decode() + '"'),
    lambda inner: st.lists(inner, max_size=3).map(lambda some: f"[{', '.join(map(str, some))}]"),
    max_leaves=4,
)


@given(st.binary(max_size=200))
@settings(max_examples=100)
def test_no_bytes_do_more_than_be_named_as_mistakes(data: bytes):
    assert problems(data)


@given(st.data())
@settings(max_examples=150)
def test_no_value_anywhere_does_more_than_be_named_as_a_mistake(data: st.DataObject):
    lines = room_text(BLOCKS).splitlines()
    number = data.draw(
        st.sampled_from([n for n, line in enumerate(lines) if " = " in line and line[0] != "#"])
    )
    start, *rest = lines[number].split(" = ")
    keys = data.draw(st.integers(0, len(rest) - 1))
    shown = str(data.draw(values)).replace("True", "true").replace("None", "[]")
    rest[keys] = shown + rest[keys][rest[keys].find(",") :] * (keys < len(rest) - 1)
    lines[number] = " = ".join([start, *rest])
    reading = examine("\n".join(lines).encode())
    if reading.room is not None:
        assert examine(room_text(reading.room).encode()).room == reading.room
    for problem in reading.problems:
        assert str(problem).isprintable()


@given(rooms())
@settings(max_examples=60)
def test_every_room_comes_back_from_its_file(room: Room):
    reading = examine(room_text(room).encode())
    assert reading.problems == ()
    assert reading.room == room
