"""People on the screen Room: who is in which period, and what can be said of one."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial

from filmrack.acts import people as acts
from filmrack.acts import wiping
from filmrack.desk.question import Question
from filmrack.desk.room.changing import Changing, refuse_code
from filmrack.desk.room.new_person import NOT_YOURS, PERIOD, ask_person
from filmrack.desk.room.roster import ask_roster
from filmrack.desk.room.row import RoomPlace, RoomRow
from filmrack.desk.room.value_row import in_its_words, value_row
from filmrack.desk.said import WRONG, Said
from filmrack.domain.names import Person, clean, tokens
from filmrack.domain.refusal import Refused
from filmrack.domain.roomfields import Field
from filmrack.store import people, roster, terms

_NAMES = (
    Field("called", "called", "text", ask="the name they go by", missing="as given"),
    Field("given", "given name", "text"),
    Field("family", "family name", "text"),
)


def rows(changing: Changing) -> Iterator[RoomRow]:
    """Return the terms, and everybody of the term in force by period, each to be opened."""
    room, conn = changing.room, changing.session.file.conn
    closed, in_force = terms.closed(conn), room.term_at(changing.session.now)
    for term in reversed(room.terms):
        mark = " now" if term == in_force else ", closed" if term.code in closed else ""
        yield RoomRow(f"term {term.code}", f"{_count(terms.enrolled(conn, term.code))}{mark}")
    yield RoomRow("add a person …", "", "add a person", partial(ask_person, changing))
    yield RoomRow(
        "take in a roster …",
        "a CSV file, by its path",
        "take in a roster",
        partial(ask_roster, changing),
    )
    if in_force is None:
        return
    if not terms.enrolled(conn, in_force.code):
        yield RoomRow("", "Nobody is enrolled yet: a roster takes in everybody at once.")
    for period in room.periods:
        known = people.in_period(conn, in_force.code, period.number)
        if known:
            yield RoomRow(f"{period.name}, {_count(len(known))}", heading=True)
        for person in known:
            yield _person_row(person)
    gone = [one.person for one in roster.everyone(conn, in_force.code) if one.left and one.period]
    if gone:
        yield RoomRow("Have left", heading=True)
    for person in gone:
        yield _person_row(person)


def row_of(text: str, listed: list[RoomRow]) -> int | None:
    """Return the first row of somebody in whom each word that is typed begins some name."""
    words = tokens(text)
    for nth, row in enumerate(listed):
        names = tokens(f"{row.name} {row.words}") if row.is_person else []
        if words and all(any(name.startswith(word) for name in names) for word in words):
            return nth
    return None


def person_rows(changing: Changing, number: int) -> Iterator[RoomRow]:
    """Return the rows of one person. Raises Refused when there is none."""
    session = changing.session
    known = people.person_meant(session.file.conn, number)
    term = changing.room.term_at(session.now)
    yield RoomRow(f"{known.full}, person {number}", heading=True)
    values = {"called": known.called, "given": known.given, "family": known.family}
    for field in _NAMES:
        take, said = partial(_rename, changing, known, field), partial(_name_typed, field)
        title = f"{known.full}, {field.name}"
        yield value_row(field, values[field.key], take, said, title=title)
    in_term = None
    if term is not None:
        in_term = people.period_of(session.file.conn, number, term.code)
        found = changing.room.period(in_term)
        now = found.name if found else None
        move, trial = partial(_move, changing, known), partial(changing.read, PERIOD)
        field = in_its_words(PERIOD, changing.room)
        yield value_row(field, now, move, trial, title=known.full)
    left = roster.has_left(session.file.conn, number)
    yield RoomRow("school id", known.school_id or "none")
    leave: Callable[[], Said] = partial(_leave, changing, known, back=left)
    words = "they are here again" if left else "their rolls stay theirs; found no more"
    yield RoomRow("is back" if left else "has left", words, "keep that", leave)
    wipe = partial(_ask_to_wipe, changing, known)
    yield RoomRow("wipe names …", "for good, from notes and backups too", "ask once more", wipe)


def _person_row(person: Person) -> RoomRow:
    place = RoomPlace("people", ("person", str(person.number)))
    called = f" (given {person.given})" if person.called else ""
    words = f"person {person.number}{called}"
    return RoomRow(person.full, words, "open them", lambda: place, is_person=True)


def _name_typed(field: Field, text: str) -> str | None:
    """Return the name that is typed; None for “as given”. Raises Refused for what is none."""
    refuse_code(text)
    if field.missing and text.strip().casefold() == field.missing:
        return None
    name = clean(text, f"the {field.name}")
    if not name and not field.missing:
        raise Refused(f"the {field.name} is missing: type it, or press Esc")
    return name or None


def _rename(changing: Changing, known: Person, field: Field, text: str) -> Said:
    changing.session.refuse_students(NOT_YOURS)
    new = _name_typed(field, text) or ""
    named = acts.rename(
        changing.session.file, changing.session.hand(), known.number, **{field.key: new}
    )
    if named == known:
        return Said(named.full, "is the name, as it was")
    words = "is the name from now on"
    if named.full != known.full:
        words += f"; it was {known.full}"
    return Said(named.full, f"{words}. {WRONG}", done=True)


def _ask_to_wipe(changing: Changing, known: Person) -> Question:
    """Ask for the family name before names go for good: one Enter is too little for that."""
    changing.session.refuse_students(NOT_YOURS)

    def wipe(text: str) -> Said:
        if clean(text, "the name").casefold() != known.family.casefold():
            raise Refused(f"“{text[:40]}” is not {known.family}, so nothing was wiped: Esc leaves")
        session = changing.session
        done = wiping.wipe(session.file, [known.number], session.now)
        left = f". A name may still be in {len(done.left)} backups" if done.left else ""
        wiped = f"the names of person {known.number} were wiped for good, and stay so"
        return Said("Names wiped", f"{wiping.gone_words(done)}{left}", done=True, beyond_undo=wiped)

    first = wiping.first_the_room(wiping.room_says(changing.session.file, [known]))
    return Question(
        f"type {known.family} to wipe the names of person {known.number} for good",
        wipe,
        headline=f"Wipe the names of {known.full}?",
        words="; ".join(
            filter(None, ("it cannot be taken back; their rolls and the ledger stay", first))
        ),
        verbatim=True,
    )


def _move(changing: Changing, known: Person, text: str) -> Said:
    changing.session.refuse_students(NOT_YOURS)
    session = changing.session
    found = changing.room.period_named(str(changing.read(PERIOD, text)))
    assert found is not None
    acts.move(session.file, session.hand(), known.number, found.number)
    return Said(known.full, f"is in {found.name} from now on. {WRONG}", done=True)


def _leave(changing: Changing, known: Person, *, back: bool) -> Said:
    changing.session.refuse_students(NOT_YOURS)
    session = changing.session
    if back:
        acts.come_back(session.file, session.hand(), known.number)
        return Said(known.full, f"is here again. {WRONG}", done=True)
    acts.leave(session.file, session.hand(), known.number)
    return Said(known.full, f"has left. {WRONG}", done=True)


def _count(number: int) -> str:
    return "1 person" if number == 1 else f"{number} people"
