"""People on the screen Room: who is in which period, a new one, a roster from a file."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial

from filmrack.acts import people as acts
from filmrack.acts import wiping
from filmrack.acts.rostering import Rostered, take_roster
from filmrack.desk.question import Question
from filmrack.desk.room_calendar import file_typed
from filmrack.desk.room_row import Changing, Place, Row, value_row
from filmrack.desk.said import Said
from filmrack.domain.headings import IN_WORDS
from filmrack.domain.names import Person, clean, tokens
from filmrack.domain.refusal import Refused
from filmrack.domain.roomfields import Field
from filmrack.domain.roster import MOST_BYTES, Mapping, Roster, read_roster
from filmrack.domain.roster import Row as Line
from filmrack.domain.yes_or_no import yes_or_no
from filmrack.store import people, roster, terms

_NAMES = (
    Field("called", "called", "text", ask="the name they go by", missing="as given"),
    Field("given", "given name", "text"),
    Field("family", "family name", "text"),
)
_PERIOD = Field("period", "period", "period", ask="for this term; their rolls stay as they are")
_REFUSED = 3
"""Lines of a roster that are named before the rest is counted."""


def rows(changing: Changing) -> Iterator[Row]:
    """Return the terms, and everybody of the term in force by period, each to be opened."""
    room, conn = changing.room, changing.session.file.conn
    closed, in_force = terms.closed(conn), room.term_at(changing.session.now)
    for term in reversed(room.terms):
        mark = " now" if term == in_force else ", closed" if term.code in closed else ""
        yield Row(f"term {term.code}", f"{_count(terms.enrolled(conn, term.code))}{mark}")
    yield Row("add a person …", "", "add a person", partial(_ask_person, changing, ()))
    yield Row(
        "take in a roster …",
        "a CSV file, by its path",
        "take in a roster",
        partial(_ask_file, changing),
    )
    if in_force is None:
        return
    if not terms.enrolled(conn, in_force.code):
        yield Row("", "Nobody is enrolled yet: a roster takes in everybody at once.")
    for period in room.periods:
        known = people.in_period(conn, in_force.code, period.number)
        if known:
            yield Row(f"{period.name}, {_count(len(known))}", heading=True)
        for person in known:
            yield _person_row(person)
    gone = [one.person for one in roster.everyone(conn, in_force.code) if one.left and one.period]
    if gone:
        yield Row("Have left", heading=True)
    for person in gone:
        yield _person_row(person)


def row_of(text: str, listed: list[Row]) -> int | None:
    """Return the first row whose name begins, in each word typed, with that word."""
    words = tokens(text)
    for nth, row in enumerate(listed):
        said = tokens(f"{row.name} {row.words}")
        is_person = row.does == _OPEN
        if words and is_person and all(any(s.startswith(w) for s in said) for w in words):
            return nth
    return None


def person_rows(changing: Changing, place: Place) -> Iterator[Row]:
    """Return the rows of one person. Raises Refused when there is none."""
    session = changing.session
    number = int(place.entry[1])
    known = people.person_meant(session.file.conn, number)
    term = changing.room.term_at(session.now)
    yield Row(f"{known.full}, person {number}", heading=True)
    values = {"called": known.called, "given": known.given, "family": known.family}
    for field in _NAMES:
        take = partial(_rename, changing, known, field)
        yield value_row(field, values[field.key], take, f"{known.full}, {field.name}")
    in_term = None
    if term is not None:
        in_term = people.period_of(session.file.conn, number, term.code)
        found = changing.room.period(in_term)
        yield value_row(
            _PERIOD, found.name if found else None, partial(_move, changing, known), known.full
        )
    left = roster.has_left(session.file.conn, number)
    yield Row("school id", known.school_id or "none")
    leave: Callable[[], Said] = partial(_leave, changing, known, back=left)
    words = "they are here again" if left else "their rolls stay theirs; found no more"
    yield Row("is back" if left else "has left", words, "keep that", leave)
    wipe = partial(_ask_to_wipe, changing, known)
    yield Row("remove names …", "for good, from notes and backups too", "ask once more", wipe)


_OPEN = "open them"


def _person_row(person: Person) -> Row:
    place = Place("people", ("person", str(person.number)))
    called = f" (given {person.given})" if person.called else ""
    return Row(person.full, f"person {person.number}{called}", _OPEN, lambda: place)


def _rename(changing: Changing, known: Person, field: Field, text: str) -> Said:
    _refuse_students(changing)
    new = "" if field.missing and text.strip().casefold() == field.missing else text
    named = acts.rename(changing.session.file, known.number, **{field.key: new})
    return Said(named.full, f"is the name from now on; it was {known.full}", done=True)


def _ask_to_wipe(changing: Changing, known: Person) -> Question:
    """Ask for the family name before names go for good: one Enter is too little for that."""
    _refuse_students(changing)

    def wipe(text: str) -> Said:
        if clean(text, "the name").casefold() != known.family.casefold():
            raise Refused(
                f"{text[:40]!r} is not {known.family}, so nothing was removed: Esc leaves"
            )
        session = changing.session
        done = wiping.wipe(session.file, [known.number], session.now)
        left = f". A name may still be in {len(done.left)} backups" if done.left else ""
        return Said("Names removed", f"{wiping.gone_words(done)}{left}", done=True)

    first = wiping.first_the_room(wiping.room_says(changing.session.file, [known]))
    return Question(
        f"type {known.family} to remove the names of person {known.number} for good",
        wipe,
        headline=f"Remove {known.full}?",
        words="; ".join(
            filter(None, ("it cannot be taken back; their rolls and the ledger stay", first))
        ),
        verbatim=True,
    )


def _move(changing: Changing, known: Person, text: str) -> Said:
    _refuse_students(changing)
    session = changing.session
    found = changing.room.period_named(str(changing.read(_PERIOD, text)))
    assert found is not None
    acts.move(session.file, known.number, found.number, session.now)
    return Said(known.full, f"is in {found.name} from now on", done=True)


def _leave(changing: Changing, known: Person, *, back: bool) -> Said:
    _refuse_students(changing)
    session = changing.session
    if back:
        acts.come_back(session.file, known.number)
        return Said(known.full, "is here again", done=True)
    acts.leave(session.file, known.number, session.now)
    return Said(known.full, "has left. If not: is back, in the same place", done=True)


_ASKED = (
    ("given name", "as the school writes it", ""),
    ("family name", "Enter alone: none", "-"),
    ("called", "the name they go by. Enter alone: as given", "-"),
    ("school id", "tells two of one name apart. Enter alone: none", "-"),
    ("period", "which class they are in", ""),
)


def _ask_person(changing: Changing, so_far: tuple[str, ...]) -> Question:
    what, words, usual = _ASKED[len(so_far)]
    whose = f"{so_far[0]}: " if so_far else "A new person: "

    def answer(text: str) -> Said | Question:
        said = "" if text.strip() == "-" else clean(text, f"the {what}")
        if what == "period":
            return _add(changing, (*so_far, str(changing.read(_PERIOD, text))))
        return _ask_person(changing, (*so_far, said))

    return Question(
        what,
        answer,
        headline=f"{whose}{what}?",
        words=words,
        verbatim=True,
        usual=usual,
    )


def _add(changing: Changing, said: tuple[str, ...]) -> Said:
    _refuse_students(changing)
    given, family, called, school_id, period = said
    line = Line(1, given, family, called or None, school_id or None, period)
    one = Roster(Mapping("typed", "", (), ()), (line,), ())
    done = take_roster(changing.session.file, one, changing.session.now)
    if done.refused:
        raise Refused(done.refused[0][1])
    words = f"is in {period}" if done.added else f"was known already, and is in {period}"
    return Said(f"{called or given} {family}".strip(), words, done=True)


def _ask_file(changing: Changing) -> Question:
    def answer(text: str) -> Question:
        _refuse_students(changing)
        read = read_roster(file_typed(text, MOST_BYTES), changing.room.period_word)
        return _ask_whether(changing, read)

    return Question(
        "the path of a file such as ~/Downloads/period3.csv",
        answer,
        headline="Which roster?",
        words="CSV with a heading above each column. How it is read is shown before anything is"
        " written",
        verbatim=True,
    )


def _ask_whether(changing: Changing, read: Roster) -> Question:
    session = changing.session
    would = take_roster(session.file, read, session.now, write=False)

    def answer(text: str) -> Said:
        if not yes_or_no(text):
            return Said("The roster", "nothing was changed")
        done = take_roster(session.file, read, session.now)
        return Said(f"Roster of {done.term}", _told(done), done=True)

    return Question(
        "yes or no",
        answer,
        headline=f"Is it read rightly, for term {would.term}?",
        words=f"{_mapping_told(read.mapping)}. It would be: {_told(would)}",
        verbatim=True,
    )


def _mapping_told(mapping: Mapping) -> str:
    """Return how a roster was read, in one sentence."""
    used = ", ".join(f"{heading} is the {IN_WORDS[what]}" for heading, what in mapping.columns)
    unused = f"; not used: {', '.join(mapping.not_used)}" if mapping.not_used else ""
    return f"{used}{unused} ({mapping.encoding}, {mapping.separator})"


def _told(done: Rostered) -> str:
    refused = "; ".join(f"line {line}: {why}" for line, why in done.refused[:_REFUSED])
    more = len(done.refused) - _REFUSED
    told = f"{done.added} added, {done.updated} changed, {done.unchanged} as before"
    if not done.refused:
        return f"{told}, none refused"
    return f"{told}, {len(done.refused)} refused: {refused}{f'; {more} more' if more > 0 else ''}"


def _refuse_students(changing: Changing) -> None:
    if changing.session.by != "teacher":
        raise Refused("people and rosters are the teacher's: ask the teacher, who types “teacher”")


def _count(number: int) -> str:
    return "1 person" if number == 1 else f"{number} people"
