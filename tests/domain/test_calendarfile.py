from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from filmrack.domain.calendarfile import MOST_BYTES, days_off_in
from filmrack.domain.refusal import Refused
from filmrack.domain.schooldays import DayOff

FIRST, LAST = date(2026, 8, 1), date(2027, 6, 30)


def calendar(*events: str) -> bytes:
    whole = "".join(f"BEGIN:VEVENT\r\nUID:1@x\r\n{event}\r\nEND:VEVENT\r\n" for event in events)
    return f"BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:x\r\n{whole}END:VCALENDAR\r\n".encode()


def days_off(*events: str, words: str = "") -> list[DayOff]:
    return days_off_in(calendar(*events), FIRST, LAST, words)


def test_only_the_days_asked_for_are_taken():
    assert days_off(
        "DTSTART;VALUE=DATE:20260728\r\nDTEND;VALUE=DATE:20260804\r\nSUMMARY:Summer",
        "DTSTART;VALUE=DATE:20270701\r\nSUMMARY:Later",
    ) == [DayOff("Summer", date(2026, 8, 1), date(2026, 8, 3))]


def test_a_length_may_be_given_instead_of_an_end():
    (off,) = days_off("DTSTART;VALUE=DATE:20261126\r\nDURATION:P2D\r\nSUMMARY:Break")
    assert off == DayOff("Break", date(2026, 11, 26), date(2026, 11, 27))


def test_events_can_be_chosen_by_a_word_of_their_name():
    events = (
        "DTSTART;VALUE=DATE:20261126\r\nSUMMARY:NO SCHOOL – Thanksgiving",
        "DTSTART;VALUE=DATE:20261127\r\nSUMMARY:Spirit day",
    )
    assert [off.first.day for off in days_off(*events, words="no school")] == [26]


def test_cancelled_events_and_those_with_times_are_no_days_off():
    assert not days_off(
        "DTSTART;VALUE=DATE:20261126\r\nSTATUS:CANCELLED",
        "DTSTART:20261126T180000Z\r\nSUMMARY:Parents' evening",
    )


def test_a_name_that_cannot_be_shown_is_no_school():
    (off,) = days_off("DTSTART;VALUE=DATE:20261126\r\nSUMMARY:a\u202eb")
    assert off.name == "No school"


@pytest.mark.parametrize(
    "rule",
    [
        "FREQ=SECONDLY",
        "FREQ=DAILY;INTERVAL=0",
        "FREQ=DAILY;INTERVAL=-1",
        "FREQ=DAILY;INTERVAL=00",
        "FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=30",
        "FREQ=DAILY;BYMONTH=2;BYMONTHDAY=30;COUNT=9",
        "FREQ=DAILY;COUNT=99999999999999999999999",
        "FREQ=DAILY;COUNT=-3",
        "FREQ=YEARLY;BYHOUR=1,2,3;BYMINUTE=1,2,3;BYSECOND=1",
        "FREQ=WEEKLY;BYDAY=XX",
        "FREQ=YEARLY;BYEASTER=0",
        "UNTIL=20261231",
    ],
)
def test_an_odd_rule_does_no_more_than_give_days(rule: str):
    found = days_off(f"DTSTART;VALUE=DATE:20261126\r\nRRULE:{rule}")
    assert all(FIRST <= off.first <= off.last <= LAST for off in found)


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"not a calendar",
        b"\xff\xfe\x00",
        b"BEGIN:VCALENDAR\r\nEND:VCALENDAR\r\n",
        b"x" * (MOST_BYTES + 1),
        calendar(*["DTSTART;VALUE=DATE:20261126\r\nRRULE:FREQ=DAILY"] * 201),
    ],
)
def test_what_is_no_calendar_is_refused(data: bytes):
    with pytest.raises(Refused):
        days_off_in(data, FIRST, LAST)


def test_a_file_far_too_long_for_a_calendar_is_another_one():
    with pytest.raises(Refused, match=r"more than 5 MB: choose the right file$"):
        days_off_in(b"x" * (MOST_BYTES + 1), FIRST, LAST)


@given(
    st.binary(max_size=80)
    | st.lists(
        st.tuples(
            st.sampled_from(
                ["DTSTART;VALUE=DATE", "DTSTART", "DTEND;VALUE=DATE", "RRULE", "EXDATE", "DURATION"]
            ),
            st.sampled_from(["20261126", "FREQ=DAILY", "99991231", "P9999999D", "-P1D", "2026"])
            | st.text(max_size=8),
        ),
        max_size=6,
    ).map(lambda lines: calendar("\r\n".join(f"{key}:{value}" for key, value in lines)))
)
@settings(max_examples=150, deadline=None)
def test_no_bytes_do_more_than_be_refused(data: bytes):
    try:
        found = days_off_in(data, FIRST, LAST)
    except Refused:
        return
    assert all(FIRST <= off.first <= off.last <= LAST for off in found)
