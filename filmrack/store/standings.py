"""How rolls stand, now or as of an earlier moment: one reading for every screen and command."""

import sqlite3
from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime
from functools import partial
from typing import NamedTuple

from filmrack.domain.asking import Part, parse
from filmrack.domain.attention import Dryers, Standing
from filmrack.domain.names import Person, called
from filmrack.domain.roll import Roll, owner_of
from filmrack.domain.room import Room
from filmrack.store import fan, people, rolls, search
from filmrack.store.file import DarkroomFile
from filmrack.store.lessons import dryers_for, learned_by
from filmrack.store.times import to_text

_PLACE_PARTS = frozenset({"clip", "rod", "box", "binder"})
_MOST = 500


class Seen(NamedTuple):
    """Rolls with how they stand, and the people whose they are."""

    standings: tuple[Standing, ...]
    people: dict[int, Person]
    said: Mapping[int, str] = {}
    """By roll, what is written on film of an unknown owner: a name kept as text, or a clue."""
    borrowers: Mapping[int, str] = {}
    """By roll, who has borrowed it."""

    def owner(self, roll: Roll) -> Person | None:
        """Return whose a roll is, or None for an unknown one."""
        return owner_of(roll, self.people)

    def whose(self, roll: Roll) -> str:
        """Return whose a roll is in full: a person, else “what is written on it”."""
        return called(self.owner(roll), self.said.get(roll.id))

    def place(self, roll: Roll) -> str:
        """Return where a roll is in few words: `box 3`, `borrowed by Olu Adeyemi`."""
        borrower = self.borrowers.get(roll.id)
        return f"borrowed by {borrower}" if borrower else str(roll.place)

    def where(self, roll: Roll, room: Room, now: datetime) -> str:
        """Return where a roll is, and if it is lent to whom and until when."""
        if roll.loan is None or roll.place.kind != "out":
            return str(roll.place)
        from filmrack.domain.loans import loan_words

        return loan_words(roll.loan, self.borrowers.get(roll.id, ""), room, now)


def see(file: DarkroomFile, some: Sequence[Roll], now: datetime) -> Seen:
    """Judge rolls as they are now."""
    room = file.room()
    return _judged(file.conn, some, room, dryers_for(file.conn, room, some), now)


def see_as_of(file: DarkroomFile, some: Iterable[int], then: datetime) -> Seen:
    """Judge rolls as they were; those that were not there yet are left out.

    What happened later, also when told earlier, is not known then; what was told later of that
    time is.
    """
    from filmrack.domain.journey import fold
    from filmrack.store import ledger

    room, conn = file.room(), file.conn
    folded = (fold(ledger.of_roll(conn, number, until=then)) for number in some)
    found = [roll for roll in folded if roll is not None]
    hung = [stay.hung for roll in found for stay in roll.stays]
    runs = fan.runs_as_of(conn, min(hung), then) if hung else {}
    learned = {dryer.number: learned_by(conn, dryer.number) for dryer in room.dryers}
    return _judged(conn, found, room, Dryers(runs, learned, {}, partial(_taken, room, found)), then)


def look_for(file: DarkroomFile, line: str, now: datetime, then: datetime | None = None) -> Seen:
    """Find rolls and judge them, now or as of a moment. Raises Refused as `parse` does."""
    if then is None:
        return see(file, search.find(file.conn, line), now)
    parts = parse(line)
    # A short number can be a clip's, and a clip had other rolls then.
    places = [part for part in parts if part.kind in _PLACE_PARTS or part.may_be_a_clip]
    others = [part for part in parts if part not in places]
    if others:
        numbers = [roll.id for roll in search.find_parts(file.conn, others, limit=_MOST)]
    else:
        known = search.find_parts(file.conn, places, limit=_MOST)
        numbers = sorted({*_there_at(file.conn, then), *(roll.id for roll in known)})
    seen = see_as_of(file, numbers, then)
    kept = tuple(each for each in seen.standings if all(_is_at(each.roll, part) for part in places))
    return seen._replace(standings=kept)


def in_need(file: DarkroomFile, now: datetime, then: datetime | None = None) -> Seen:
    """Return all that wants attention, most urgent first."""
    if then is None:
        seen = see(file, rolls.read(file.conn, _MAY_WANT_ATTENTION), now)
    else:
        seen = see_as_of(file, _there_at(file.conn, then), then)
    wanting = [each for each in seen.standings if each.why]
    wanting.sort(key=lambda each: each.urgency)
    return seen._replace(standings=tuple(wanting))


def _there_at(conn: sqlite3.Connection, then: datetime) -> list[int]:
    """Return the rolls that had begun at a moment and were not filed or gone before it."""
    text = to_text(then)
    rows = conn.execute(
        "SELECT id FROM rolls WHERE first_at <= ? AND place <> 'void'"
        " AND (filed_at IS NULL OR filed_at > ?) AND (gone_at IS NULL OR gone_at > ?)"
        " ORDER BY id",
        (text, text, text),
    ).fetchall()
    return [row[0] for row in rows]


# Two looks into two small indexes: with OR in one, SQLite reads every roll there ever was.
_MAY_WANT_ATTENTION = (
    f"id IN (SELECT id FROM rolls WHERE {rolls.LIVE}"
    " UNION SELECT id FROM rolls WHERE place IN ('sleeve', 'out', 'missing')) ORDER BY id"
)


def _taken(room: Room, some: Iterable[Roll]) -> set[tuple[int, int]]:
    from filmrack.domain.places import Hanging, taken_by

    return taken_by(
        room,
        [
            Hanging(roll.place.number or 0, roll.place.position or 0, roll.film)
            for roll in some
            if roll.place.kind == "rod"
        ],
    )


def _judged(
    conn: sqlite3.Connection, some: Sequence[Roll], room: Room, dryers: Dryers, now: datetime
) -> Seen:
    owners = people.read_people(conn, (roll.person for roll in some if roll.person is not None))
    standings = tuple(Standing(roll, room, dryers, now) for roll in some)
    return Seen(standings, owners, written_on(conn, some), _borrowers(conn, some))


def written_on(conn: sqlite3.Connection, some: Iterable[Roll]) -> dict[int, str]:
    """Return, by roll, what is written on film without an owner."""
    unowned = {roll.id: roll.clue for roll in some if roll.person is None and roll.clue}
    notes = people.read_notes(conn, unowned.values()) if unowned else {}
    return {roll: notes[clue] for roll, clue in unowned.items() if notes.get(clue)}


def _borrowers(conn: sqlite3.Connection, some: Sequence[Roll]) -> Mapping[int, str]:
    lent = [roll for roll in some if roll.loan is not None]
    if not lent:
        return {}
    from filmrack.store.borrowing import borrowers

    return borrowers(conn, lent)


def _is_at(roll: Roll, part: Part) -> bool:
    *term, value = part.value.split("-")
    number = int(value)
    match part.kind:
        case "binder":
            return roll.binder == number and term in ([], [roll.term])
        case "clip":
            return roll.clip == number
        case "number":
            return number in (roll.clip, roll.serial)
        case kind:
            return roll.place.kind == kind and roll.place.number == number
