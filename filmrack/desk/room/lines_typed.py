"""What a typed line does on the screen Room: opens a section; finds, changes, removes a row."""

from __future__ import annotations

from filmrack.desk.question import Question
from filmrack.desk.room.changing import Changing, is_value
from filmrack.desk.room.finding import (
    Found,
    NamedRow,
    can_be_a_name,
    found,
    named_rows,
    named_rows_of,
    the_one,
)
from filmrack.desk.room.looking import Looking
from filmrack.desk.room.people import row_of
from filmrack.desk.room.row import RoomPlace
from filmrack.desk.room.sections import rows_at, section_called
from filmrack.desk.room.value_row import is_name
from filmrack.desk.said import Said
from filmrack.domain.refusal import Refused


class RoomLines:
    """Tells which lines are meant for the screen, and does what they say."""

    def __init__(self, changing: Changing, looking: Looking) -> None:
        self._changing = changing
        self._session = changing.session
        self._looking = looking
        self._named: list[NamedRow] = []
        """The rows of every section by what they are called."""
        self._named_for: tuple[object, ...] = ()
        """The state of the file that they were read at, and its room."""

    def takes(self, text: str) -> bool:
        """Take a section's title, what a row is called, a value, `remove`, a name among People."""
        row = self._looking.row
        return (
            section_called(text, self._changing.room) is not None
            or (row is not None and _says_remove(text))
            or self._is_value(text)
            or self._person(text) is not None
            or self._found(text) is not None
            or self._is_new_name(text)
        )

    def take(self, text: str) -> Said | Question | None:
        """Go to a section, ask whether a value is meant for the selected row, or remove what it is
        of. Raises Refused for what cannot be meant.
        """
        looking, row = self._looking, self._looking.row
        section = section_called(text, self._changing.room)
        if section is not None:
            looking.go_to(section)
            looking.go_in()
            return Said("")
        if row is not None and _says_remove(text):
            if row.remove is None:
                raise Refused("nothing is removed by that: select a row of a list first")
            return row.remove()
        if row is not None and row.take is not None and self._is_value(text):
            return looking.follow(row.take(text))
        person = self._person(text)
        if person is not None:
            looking.select(person)
            return Said("")
        meant = self._found(text)
        if meant is not None:
            return self._take_at(the_one(text, meant, looking.place), meant.rest)
        if row is not None and row.take is not None:
            return looking.follow(row.take(text))
        return Said("")

    def _is_value(self, text: str) -> bool:
        """Tell whether a line is surely a new value of the selected row."""
        row = self._looking.row
        return (
            row is not None and row.field is not None and is_value(self._changing, row.field, text)
        )

    def _is_new_name(self, text: str) -> bool:
        """Tell whether a line can be how the selected row's thing is to be called."""
        row = self._looking.row
        return row is not None and is_name(row.field) and can_be_a_name(self._session, text)

    def _person(self, text: str) -> int | None:
        """Return the row of the person who is meant, while people are looked at."""
        on_people = self._looking.place == RoomPlace("people")
        return row_of(text, self._looking.rows) if on_people else None

    def _found(self, text: str) -> Found | None:
        """Return the rows that a line means, of what is shown or of any section."""
        looking, page = self._looking, self._looking.page
        if page is None:
            return None
        known = (self._session.stamp, page.now.room)
        if self._named_for != known:
            self._named_for, self._named = known, named_rows(page)
        here = named_rows_of(looking.section, looking.entry, looking.rows) if looking.entry else []
        return found(self._session, text, [*here, *self._named])

    def _take_at(self, named: NamedRow, rest: str) -> Said | Question:
        """Select a row and ask for it, with what was typed behind its name as its value; of a row
        that opens an entry that is sought among the entry's own.
        """
        looking, row = self._looking, named.row
        looking.go_to_row(named.section, named.entry, named.nth)
        if rest and row.take is not None:
            return looking.follow(row.take(rest))
        assert row.enter is not None
        reply = row.enter()
        if rest and isinstance(reply, Question):
            reply = reply._replace(given=rest)
        said = looking.follow(reply)
        if not rest or isinstance(reply, Said | Question) or looking.page is None:
            return said
        within = named_rows_of(looking.section, looking.entry, rows_at(looking.place, looking.page))
        meant = found(self._session, rest, within)
        if meant is not None and meant.rows:
            return self._take_at(the_one(rest, meant, looking.place), meant.rest)
        name = next((one for one in within if is_name(one.row.field)), None)
        if name is None:
            raise Refused(f"select what of it “{rest[:30]}” is: then press Enter, and type it")
        return self._take_at(name, rest)


def _says_remove(text: str) -> bool:
    return text.casefold() == "remove"
