"""The ledger of one roll, as it is read."""

from __future__ import annotations

from datetime import datetime

from filmrack.cli.output import iso, print_table, say
from filmrack.domain.clock import clock_or_dash
from filmrack.domain.roll import Entry
from filmrack.domain.story import act_in_words, particulars
from filmrack.store import ledger, people
from filmrack.store.borrowing import lent_to
from filmrack.store.file import DarkroomFile
from filmrack.store.standings import Seen


def story_json(file: DarkroomFile, roll: int, then: datetime | None) -> list[dict[str, object]]:
    """Return the ledger of a roll, newest first, undone entries marked."""
    zone = file.room().timetable.zone
    return [
        {
            "at": iso(entry.happened, zone),
            "act": entry.act,
            "detail": dict(entry.detail),
            "entered": iso(entry.entered, zone),
            "by": entry.by,
            "desk": entry.desk,
            "assumed": entry.assumed,
            "undone": undone,
        }
        for entry, undone in _told(file, roll, then)
    ]


def print_story(file: DarkroomFile, seen: Seen, now: datetime, then: datetime | None) -> None:
    """Print a roll's card and its ledger for a person."""
    room, standing = file.room(), seen.standings[0]
    roll, drying = standing.roll, standing.outlook
    say(f"{roll.number}  {seen.whose(roll)}")
    facts = [roll.film, f"clip {roll.clip}" if roll.clip else "", seen.where(roll, room, now)]
    say("  ".join(fact for fact in facts if fact))
    say(f"next: {standing.next.words}")
    if standing.left_behind:
        say("left behind")
    if drying is not None:
        times = (("flip", drying.flip_at), ("likely dry", drying.likely_at), ("dry", drying.dry_at))
        zone = room.timetable.zone
        say("  ".join(f"{name} {clock_or_dash(moment, zone, now)}" for name, moment in times))
        top, bottom = round(100 * drying.top_fraction), round(100 * drying.bottom_fraction)
        say(
            f"top end {top} %, bottom end {bottom} % of its time,"
            f" {drying.dryer_minutes:.1f} dryer minutes"
        )
    clue = roll.clue and people.read_note(file.conn, roll.clue)
    if clue:
        say(f"clue: {clue}")
    say("")
    print_table(
        [
            (
                clock_or_dash(entry.happened, room.timetable.zone, now),
                act_in_words(entry.act),
                _detail(file, entry),
                "undone" if undone else "assumed" if entry.assumed else "",
            )
            for entry, undone in _told(file, roll.id, then)
        ]
    )


def _told(file: DarkroomFile, roll: int, then: datetime | None) -> list[tuple[Entry, bool]]:
    story = ledger.whole_story(file.conn, roll)
    return [
        each
        for each in reversed(story)
        if each[0].act != "undo" and (then is None or each[0].happened <= then)
    ]


def _detail(file: DarkroomFile, entry: Entry) -> str:
    if entry.act == "lend":
        return f"to {lent_to(file.conn, entry)}, {particulars(entry)}"
    if "note" in entry.detail:
        return people.read_note(file.conn, entry.detail["note"])
    return particulars(entry)
