"""Changing the room under the rolls that are in it: whole or not at all.

Each change is on the ledger and can be taken back.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterable, Iterator, Sequence
from hashlib import sha256

from filmrack.acts.former import former, keep_former
from filmrack.acts.group import Hand, one_group
from filmrack.domain.counted import listed
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Detail, Entry, Roll
from filmrack.domain.room import Binder, Room
from filmrack.domain.roomchange import with_value
from filmrack.domain.roomcomments import up_to_date
from filmrack.domain.roomdifference import told_again
from filmrack.domain.roomfile import examine, refuse_problems
from filmrack.domain.roomtext import room_text
from filmrack.domain.schooldays import DayOff
from filmrack.domain.student_desk import refuse_act
from filmrack.store import rolls, terms
from filmrack.store.binders import forget_binder
from filmrack.store.file import DarkroomFile
from filmrack.store.room import bump_stamp, keep_room_file, kept_room_file, read_room
from filmrack.store.room_writing import write_room

NAMED = 5
"""Rolls that a refusal names before it counts the rest."""


def refit(file: DarkroomFile, hand: Hand, room: Room, text: str | None = None) -> None:
    """Give the file another room, and `text`, the room file it comes from, with its comments.

    Binders that the room does not name stay: they are made as they fill. Raises Refused, naming
    the rolls, when the change would leave some without their rod, position, box, period or term;
    nothing is changed then.
    """
    change_room(file, hand, lambda _: room, text, binders_stay=True)


def change_room(
    file: DarkroomFile,
    hand: Hand,
    change: Callable[[Room], Room],
    text: str | None = None,
    *,
    binders_stay: bool = False,
) -> Room:
    """Change the room as it is now, and return what it is then; refused as `refit` refuses.

    A binder that the changed room has no more is removed, unless there are sleeves in it or
    `binders_stay`.
    """
    with one_group(file, hand) as group:
        conn, before = group.conn, group.room
        # Also a change that comes to nothing is refused to a student's hand.
        refuse_act(hand.by, "room", {})
        after = change(before)
        if text is not None:
            keep_room_file(conn, text)
        if room_text(after) != room_text(before):
            _refit(conn, before, after, binders_stay=binders_stay)
            # In a note, since a period may be called by somebody's name.
            note = keep_former(conn, room_text(before))
            told = Detail(room_before=note, room_after=_fingerprint(read_room(conn)))
            group.append("room", None, told)
    return after


def take_back(conn: sqlite3.Connection, entry: Entry) -> list[str]:
    """Give the file the room it had before a change that is taken back; return what is another
    now, each in words.

    Raises Refused when the room was changed again since, when rolls would be stranded, and when
    the former room said a name that was wiped.
    """
    now = read_room(conn)
    if _fingerprint(now) != entry.detail["room_after"]:
        raise Refused(
            "that change of the room stays because the room was changed again since: change it"
            " back on the screen Room"
        )
    kept = former(conn, entry.detail["room_before"], of="the room")
    before = examine(kept.encode()).room
    assert before is not None
    _refit(conn, now, before)
    return told_again(before, now)


def add_days_off(file: DarkroomFile, hand: Hand, found: Iterable[DayOff]) -> list[DayOff]:
    """Add days off to the room's; return those that were not among them yet."""
    new: list[DayOff] = []

    def more(room: Room) -> Room:
        before = room.timetable.days.days_off
        known = {(off.first, off.last) for off in before}
        new.extend(off for off in found if (off.first, off.last) not in known)
        # As a room file would have it: there a binder is of no period that the room has no more.
        return with_value(room, ("days_off",), [off._asdict() for off in (*before, *new)])

    if found := list(found):
        change_room(file, hand, more)
    return new


def export_room(file: DarkroomFile) -> str:
    """Return the room file of a darkroom file, with the comments of the one last applied."""
    return up_to_date(kept_room_file(file.conn), read_room(file.conn))


def _fingerprint(room: Room) -> str:
    return sha256(room_text(room).encode()).hexdigest()


def _refit(conn: sqlite3.Connection, now: Room, room: Room, *, binders_stay: bool = False) -> None:
    refuse_problems(room)
    gone = [] if binders_stay else _binders_gone(now, room)
    obstacles = [*_obstacles(conn, now, room), *_in_binders(conn, gone)]
    if obstacles:
        raise Refused("the room stays as it is: " + "; ".join(obstacles))
    write_room(conn, room)
    for binder in gone:
        forget_binder(conn, binder)
    bump_stamp(conn)


def _obstacles(conn: sqlite3.Connection, now: Room, then: Room) -> Iterator[str]:
    yield from _under_rods(conn, now, then)
    kept_boxes = {box.number for box in then.boxes}
    for box in now.boxes:
        if box.number not in kept_boxes:
            inside = rolls.in_box(conn, box.number)
            if inside:
                yield f"box {box.number} cannot go while {_named(inside)} in it, sleeve these first"
    kept_periods = {period.number for period in then.periods}
    for period in now.periods:
        if period.number not in kept_periods:
            theirs = rolls.to_sleeve_of(conn, period.number)
            if theirs:
                yield (
                    f"{period.name} cannot go while {_named(theirs)} not"
                    " sleeved yet, sleeve these first"
                )
    yield from _in_terms(conn, now, then)


def _under_rods(conn: sqlite3.Connection, now: Room, then: Room) -> Iterator[str]:
    for rod in now.rods:
        kept = then.rod(rod.number)
        positions = 0 if kept is None else kept.positions
        if positions < rod.positions:
            there = rolls.on_rod(conn, rod.number)
            beyond = [roll for roll in there if (roll.place.position or 0) > positions]
            if beyond:
                change = "go" if kept is None else f"have only {positions} positions"
                yield (
                    f"rod {rod.number} cannot {change} while {_named(beyond)} there,"
                    " move or take these down first"
                )


def _in_terms(conn: sqlite3.Connection, now: Room, then: Room) -> Iterator[str]:
    kept = {term.code: term for term in then.terms}
    closed = terms.closed(conn)
    for term in now.terms:
        if kept.get(term.code) == term:
            continue
        if term.code in closed:
            yield f"term {term.code} is closed and keeps its dates, reopen it first"
        elif term.code not in kept:
            if theirs := rolls.of_term(conn, term.code, void=True):
                yield (
                    f"term {term.code} cannot go while {_named(theirs)} numbered in it, keep the"
                    " term"
                )
            elif enrolled := terms.enrolled(conn, term.code):
                who = "1 person is" if enrolled == 1 else f"{enrolled} people are"
                yield f"term {term.code} cannot go while {who} enrolled in it, keep the term"


def _binders_gone(now: Room, then: Room) -> list[Binder]:
    """Return the binders that a room has no more, of terms that it has: others go with theirs."""
    terms_kept = {term.code for term in then.terms}
    kept = {(binder.term, binder.number) for binder in then.binders}
    return [
        each
        for each in now.binders
        if each.term in terms_kept and (each.term, each.number) not in kept
    ]


def _in_binders(conn: sqlite3.Connection, gone: Iterable[Binder]) -> Iterator[str]:
    for term, number, _ in gone:
        inside = rolls.of_binder(conn, term, number)
        if inside:
            yield (
                f"binder {term}-{number:02d} cannot go while {_named(inside)} filed in it, file"
                " these in another one first"
            )
        elif left := rolls.ever_of_binder(conn, term, number):
            yield (
                f"binder {term}-{number:02d} cannot go because it is on the record of"
                f" {listed([roll.number for roll in left], NAMED)}, leave it empty"
            )


def _named(found: Sequence[Roll]) -> str:
    """Return `26F-0142-09 is`, or `26F-0142-09, 26F-0143-06 and 31 more are`."""
    numbers = listed([roll.number for roll in found], NAMED)
    return f"{numbers} {'is' if len(found) == 1 else 'are'}"
