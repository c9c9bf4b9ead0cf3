"""Days off against the examples that RFC 5545 prints, with what it says of each."""

from __future__ import annotations

from datetime import date, timedelta

from filmrack.domain.calendarfile import days_off_in
from filmrack.domain.schooldays import DayOff

# RFC 5545 section 3.6.1: "used to represent a multi-day event scheduled from June 28th, 2007 to
# July 8th, 2007 inclusively".
MANY_DAYS = """\
BEGIN:VEVENT
UID:20070423T123432Z-541111@example.com
DTSTAMP:20070423T123432Z
DTSTART;VALUE=DATE:20070628
DTEND;VALUE=DATE:20070709
SUMMARY:Festival International de Jazz de Montreal
TRANSP:TRANSPARENT
END:VEVENT
"""

# RFC 5545 section 3.6.1: "an annual anniversary"; it takes one day, as no end is given.
EVERY_YEAR = """\
BEGIN:VEVENT
UID:19970901T130000Z-123403@example.com
DTSTAMP:19970901T130000Z
DTSTART;VALUE=DATE:19971102
SUMMARY:Our Blissful Anniversary
TRANSP:TRANSPARENT
CLASS:CONFIDENTIAL
CATEGORIES:ANNIVERSARY,PERSONAL,SPECIAL OCCASION
RRULE:FREQ=YEARLY
END:VEVENT
"""

# RFC 5545 section 3.6.1: "a meeting", which has times and so is no whole day.
MEETING = """\
BEGIN:VEVENT
UID:19970901T130000Z-123401@example.com
DTSTAMP:19970901T130000Z
DTSTART:19970903T163000Z
DTEND:19970903T190000Z
SUMMARY:Annual Employee Review
CLASS:PRIVATE
CATEGORIES:BUSINESS,HUMAN RESOURCES
END:VEVENT
"""


def calendar(*events: str) -> bytes:
    text = "BEGIN:VCALENDAR\nVERSION:2.0\nPRODID:-//example//EN\n"
    return (text + "".join(events) + "END:VCALENDAR\n").replace("\n", "\r\n").encode()


def days(rule: str, start: str = "19970902", until: date = date(2009, 12, 31)) -> list[date]:
    event = MANY_DAYS.replace("20070628", start).replace("DTEND;VALUE=DATE:20070709", rule)
    found = days_off_in(calendar(event), date(1990, 1, 1), until)
    assert all(off.first == off.last for off in found)
    return [off.first for off in found]


def test_an_event_of_many_days_ends_the_day_before_its_end():
    found = days_off_in(calendar(MANY_DAYS, MEETING), date(2007, 1, 1), date(2007, 12, 31))
    name = "Festival International de Jazz de Montreal"
    assert found == [DayOff(name, date(2007, 6, 28), date(2007, 7, 8))]


def test_an_anniversary_comes_every_year_and_takes_its_day():
    found = days_off_in(calendar(EVERY_YEAR), date(1990, 1, 1), date(2000, 6, 30))
    assert [off.first for off in found] == [date(year, 11, 2) for year in (1997, 1998, 1999)]
    assert all(off.last == off.first for off in found)


def test_daily_for_ten_occurrences():
    # RFC 5545 section 3.8.5.3: FREQ=DAILY;COUNT=10 from 1997-09-02 is September 2 to 11.
    assert days("RRULE:FREQ=DAILY;COUNT=10") == [date(1997, 9, day) for day in range(2, 12)]


def test_monthly_on_the_first_friday_for_ten_occurrences():
    # RFC 5545 section 3.8.5.3, from 1997-09-05.
    assert days("RRULE:FREQ=MONTHLY;COUNT=10;BYDAY=1FR", "19970905") == [
        *(date(1997, month, day) for month, day in ((9, 5), (10, 3), (11, 7), (12, 5))),
        *(
            date(1998, month, day)
            for month, day in ((1, 2), (2, 6), (3, 6), (4, 3), (5, 1), (6, 5))
        ),
    ]


def test_every_friday_the_13th_without_the_first_day():
    # RFC 5545 section 3.8.5.3, from 1997-09-02, which the EXDATE takes out.
    rule = "EXDATE;VALUE=DATE:19970902\nRRULE:FREQ=MONTHLY;BYDAY=FR;BYMONTHDAY=13"
    assert days(rule, until=date(2000, 12, 31)) == [
        date(1998, 2, 13),
        date(1998, 3, 13),
        date(1998, 11, 13),
        date(1999, 8, 13),
        date(2000, 10, 13),
    ]


def test_election_day_every_four_years():
    # RFC 5545 section 3.8.5.3: "the first Tuesday after a Monday in November", from 1996-11-05.
    rule = "RRULE:FREQ=YEARLY;INTERVAL=4;BYMONTH=11;BYDAY=TU;BYMONTHDAY=2,3,4,5,6,7,8"
    assert days(rule, "19961105", date(2005, 1, 1)) == [
        date(1996, 11, 5),
        date(2000, 11, 7),
        date(2004, 11, 2),
    ]


def test_a_rule_with_an_end_includes_it():
    # RFC 5545 section 3.8.5.3: daily until December 24 ends with December 23 at 09:00; by dates
    # UNTIL is inclusive (section 3.3.10).
    found = days("RRULE:FREQ=DAILY;UNTIL=19971224")
    assert (found[0], found[-1]) == (date(1997, 9, 2), date(1997, 12, 24))
    assert len(found) == (date(1997, 12, 24) - date(1997, 9, 2)) // timedelta(days=1) + 1
