"""What the screen Room tells: today, what the dryer has taught, the file, the student desk."""

from __future__ import annotations

from collections.abc import Iterator

from filmrack.acts.locking import is_locked
from filmrack.desk.now import Now
from filmrack.desk.said import capital
from filmrack.desk.session import Session
from filmrack.domain.clock import time_words
from filmrack.domain.counted import counted
from filmrack.domain.course import DryingRules
from filmrack.domain.learning import Learned
from filmrack.domain.room import Room
from filmrack.domain.timetable import Meeting
from filmrack.domain.touch import TimedCheck
from filmrack.store.lessons import learned_by
from filmrack.store.lessons_told import checks_told, lessons_told
from filmrack.store.shares import network_share

NOT_SET = "When to flip and when film is dry is learned from touches and cannot be set."
"""Said where somebody looks for a rule of it."""

Told = tuple[str, str]
"""A name and what is said of it; without a name it is a sentence."""


def today(now: Now) -> Iterator[Told]:
    """Tell which classes meet today."""
    timetable = now.room.timetable
    day = timetable.local_date(now.at)
    meetings = timetable.meetings_on(day)
    if not meetings:
        yield "", "No class meets today."
    for meeting in meetings:
        yield _name(now.room, meeting.period), _hours(now, meeting)
    letter = timetable.days.letter(day)
    if letter is not None:
        yield "day letter", letter
    week = timetable.days.week(day)
    if week is not None:
        yield "week", week
    yield "time zone", now.room.zone


def _hours(now: Now, meeting: Meeting) -> str:
    zone = now.room.timetable.zone
    starts, ends = meeting.starts.astimezone(zone), meeting.ends.astimezone(zone)
    is_on = " now" if meeting.starts <= now.at < meeting.ends else ""
    return f"{time_words(starts)} to {time_words(ends)}{is_on}"


def taught(session: Session, room: Room) -> Iterator[Told]:
    """Tell what touch checks have taught of each dryer, and what is wanted."""
    yield "", f"{NOT_SET} For another time touch film and tell what you felt."
    for dryer in room.dryers:
        conn = session.file.conn
        learned, told = learned_by(conn, dryer.number), lessons_told(conn, dryer.number)
        name = f"{dryer.name}: " if len(room.dryers) > 1 else ""
        yield "", f"{name}Half the rolls need {learned.median:.0f} fan minutes, flipped halfway."
        if told.checks:
            yield (
                "",
                (
                    f"{counted(told.checks, 'touch check')} on {counted(told.rolls, 'roll')},"
                    f" {told.tacky} of them tacky."
                ),
            )
        else:
            yield "", "No touch check yet: this is what most dryers do, until yours says more."
        if learned.proven:
            yield "", "That is enough to say “dry” by estimate. A touch beats every estimate."
            continue
        wanted = [
            counted(number, what)
            for number, what in (
                (told.rolls_wanted, "more checked roll"),
                (told.tacky_wanted, "more tacky result"),
            )
            if number
        ]
        minutes = DryingRules().unproven_minutes
        yield (
            "",
            (
                f"Wanted before “dry” is said by estimate: {' and '.join(wanted) or 'a few more'}."
                f" Until then a touch says so, or {minutes:g} fan minutes."
            ),
        )


def records(session: Session, room: Room) -> Iterator[tuple[Learned, list[list[TimedCheck]]]]:
    """Return what each dryer has taught, with the checks of its rolls."""
    conn = session.file.conn
    for dryer in room.dryers:
        yield learned_by(conn, dryer.number), checks_told(conn, dryer.number)


def file(session: Session) -> Iterator[Told]:
    """Tell where the darkroom file lies, and how it is kept."""
    yield "lies at", str(session.path)
    shared = network_share(session.path)
    if shared is not None:
        yield "", f"{capital(shared)}."
    yield "backups", "one a day in the folder “backups” beside it, read back; kept for three years"
    yield "backup", "type “backup”: one more beside it. Keep one on another disk"
    yield "catch up", "type “catch up”: rows of a hang sheet, after a day without power"
    yield "as a text", "“filmrack room export FILE”; edited, “filmrack room apply FILE” takes it"


def student_desk(session: Session) -> Iterator[Told]:
    """Tell whether there is a passphrase, and what it protects against."""
    if is_locked(session.file):
        yield "passphrase", "set; “lock” leaves a student desk, “teacher” unlocks it"
        yield "", "Type “passphrase” for another one, “no passphrase” to do without."
    else:
        yield "passphrase", "none: every desk is the teacher's. Type “passphrase” to set one"
    yield (
        "",
        (
            "A student desk loads, hangs, flips, touches, finds and takes. It keeps accident and"
            " curiosity away from the archive, the settings and full names."
        ),
    )
    yield (
        "",
        (
            "It does not keep anybody from the command line or the file itself: that is for the"
            " machine's own accounts."
        ),
    )


def _name(room: Room, period: int | None) -> str:
    found = room.period(period)
    return found.name if found else f"{room.period_word} {period}"
