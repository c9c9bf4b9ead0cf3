"""What a room is, in words: the sections that the screen Room shows."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from filmrack.acts.locking import is_locked
from filmrack.desk.session import Now, Session
from filmrack.domain.counted import counted
from filmrack.domain.course import DryingRules
from filmrack.domain.learning import Learned
from filmrack.domain.room import Room, Rules
from filmrack.domain.timetable import Meeting
from filmrack.domain.touch import Check
from filmrack.store import clips, terms
from filmrack.store.lessons import learned_by
from filmrack.store.lessons_told import checks_told, lessons_told
from filmrack.store.shares import network_share


class Section(NamedTuple):
    """A title and its rows: a name and what is said of it; a row without a name is a sentence.

    `records` are what dryers have taught, each with the checks of its rolls, drawn below.
    """

    title: str
    rows: tuple[tuple[str, str], ...]
    records: tuple[tuple[Learned, list[list[Check]]], ...] = ()


def sections(session: Session, now: Now) -> list[Section]:
    """Return all that the screen says, in its order."""
    room = now.room
    return [
        Section("Today", tuple(_today(now))),
        Section("Dryers and rods", tuple(_dryers(room))),
        Section(
            "What the dryer has taught",
            tuple(_taught(session, room)),
            tuple(_records(session, room)),
        ),
        Section("People, clips, boxes", tuple(_people(session, now))),
        Section("This file", tuple(_file(session))),
        Section("Student desk", tuple(_student_desk(session))),
        Section("Rules", tuple(_rules(room.rules))),
    ]


def _today(now: Now) -> Iterator[tuple[str, str]]:
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
    yield "time zone", now.room.zone


def _hours(now: Now, meeting: Meeting) -> str:
    zone = now.room.timetable.zone
    starts, ends = meeting.starts.astimezone(zone), meeting.ends.astimezone(zone)
    is_on = " now" if meeting.starts <= now.at < meeting.ends else ""
    return f"{starts:%H:%M} to {ends:%H:%M}{is_on}"


def _dryers(room: Room) -> Iterator[tuple[str, str]]:
    for dryer in room.dryers:
        yield dryer.name, f"dial {dryer.dial_hours:g} h, {dryer.clear_height_mm} mm clear height"
        for rod in room.rods:
            if rod.dryer == dryer.number:
                whose = _name(room, rod.period) if rod.period is not None else "for anyone"
                yield f"rod {rod.number}", f"{whose}, {rod.positions} from the {rod.counted_from}"


def _taught(session: Session, room: Room) -> Iterator[tuple[str, str]]:
    for dryer in room.dryers:
        conn = session.file.conn
        learned, told = learned_by(conn, dryer.number), lessons_told(conn, dryer.number)
        name = f"{dryer.name}: " if len(room.dryers) > 1 else ""
        yield "", f"{name}Half the rolls need {learned.median:.1f} fan minutes, flipped halfway."
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


def _records(session: Session, room: Room) -> Iterator[tuple[Learned, list[list[Check]]]]:
    conn = session.file.conn
    for dryer in room.dryers:
        yield learned_by(conn, dryer.number), checks_told(conn, dryer.number)


def _people(session: Session, now: Now) -> Iterator[tuple[str, str]]:
    room, conn = now.room, session.file.conn
    closed = terms.closed(conn)
    in_force = room.term_at(now.at)
    for term in reversed(room.terms):
        marks = " now" if term == in_force else ", closed" if term.code in closed else ""
        people = counted(terms.enrolled(conn, term.code), "person", "people")
        yield f"term {term.code}", f"{people}, {term.starts} to {term.ends}{marks}"
    if in_force is None or not terms.enrolled(conn, in_force.code):
        yield "", "Nobody is enrolled yet: “filmrack roster FILE.csv” takes a roster in."
    known, used = clips.all_clips(conn), clips.in_use(conn)
    if known:
        retired = sum(clip.retired for clip in known)
        gone = f", {retired} retired" if retired else ""
        yield "clip pairs", f"{len(used)} of {len(known)} on a roll now{gone}"
    else:
        yield "", "No clip is known yet: print tags with “filmrack labels clips”, then load a roll."
    yield "boxes", ", ".join(f"{box.number} {_name(room, box.period)}" for box in room.boxes)


def _file(session: Session) -> Iterator[tuple[str, str]]:
    yield "lies at", str(session.path)
    shared = network_share(session.path)
    if shared is not None:
        yield "", f"{shared[:1].upper()}{shared[1:]}."
    yield "backups", "one a day in the folder “backups” beside it, read back; kept for three years"
    yield "backup", "type “backup”: one more beside it. Keep one on another disk"
    yield "catch up", "type “catch up”: rows of a hang sheet, after a day without power"
    yield "to change", "“filmrack room export FILE”, edit it, then “filmrack room apply FILE”"


def _student_desk(session: Session) -> Iterator[tuple[str, str]]:
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


def _rules(rules: Rules) -> Iterator[tuple[str, str]]:
    behind = {"day_end": "the end of the day", "next_class": "the owner's next class"}
    yield "left behind", f"after {behind[rules.left_behind]}"
    yield "process", f"{rules.process_minutes:g} min from the first pour to hanging"
    yield "lag", f"{rules.drying_lag_minutes:g} min between the last fetch and the bell"
    yield "overnight", f"{rules.overnight_hours:g} h on the rod is dry"
    yield "in a box", f"{rules.box_school_days} school days, then it is named"
    yield "contact sheet", f"within {rules.contact_school_days} school days"
    yield "a loan", f"{rules.loan_school_days} school days"
    yield "names", f"kept {counted(rules.keep_names_years, 'year')}"
    yield "idle desk", f"locks after {rules.desk_idle_minutes:g} min"
    yield "helpers", "may sweep at a student desk" if rules.helpers_sweep else "do not sweep"


def _name(room: Room, period: int | None) -> str:
    found = room.period(period)
    return found.name if found else f"{room.period_word} {period}"
