"""What labels and pages say of a roll, a period and a day."""

from __future__ import annotations

import re
from collections.abc import Iterable

from filmrack.domain.clock import printed_day
from filmrack.domain.codes import page_code, read, roll_code, spoken
from filmrack.domain.names import Person
from filmrack.domain.roll import Roll
from filmrack.domain.room import Room
from filmrack.printing import lettering
from filmrack.store import people
from filmrack.store.file import DarkroomFile


def sleeve_codes(roll: Roll) -> list[str]:
    """Return the code of each sleeve page: the roll's own where one page is enough."""
    if len(roll.pages) < 2:
        return [roll_code(roll.term, roll.serial)]
    pages = range(1, len(roll.pages) + 1)
    return [page_code(roll.term, roll.serial, page) for page in pages]


def sleeve_numbers(roll: Roll) -> list[str]:
    """Return the number of each sleeve page, as people read it."""
    return [as_read(code) for code in sleeve_codes(roll)]


def as_read(code: str) -> str:
    """Return one of our codes as people read it: `26F-0142-09`."""
    known = read(code)
    assert known is not None
    return spoken(known)


def dated(roll: Roll, room: Room) -> str:
    """Return the day on which a roll was developed: `14 Oct 2026`; as shelved, where unknown."""
    return printed_day(room.timetable.local_date(roll.hung_at or roll.first_at))


def period_title(room: Room, number: int | None) -> str:
    """Return a period as a heading says it: `Period 3`, `Block C`; empty for none."""
    period = room.period(number)
    if period is None:
        return ""
    # A name of one letter or of figures alone says nothing without the room's word.
    if re.search(r"[^\W\d_]{2}", period.name):
        return period.name
    return f"{room.period_word.capitalize()} {period.name}"


def owners_initials(file: DarkroomFile, rolls: Iterable[Roll]) -> dict[int, str]:
    """Return initials by roll, where the room says that they may stand beside film."""
    if not file.room().initials_on_sleeves:
        return {}
    known = list(rolls)
    owners = owners_of(file, known)
    return {
        roll.id: printed_initials(owners[roll.person]) for roll in known if roll.person in owners
    }


def printed_name(person: Person) -> tuple[str, str]:
    """Return the name and the family's initial that a list prints of somebody, as far as the font
    writes them: the name they go by, else the given one, else their number. One name keeps no list
    from being printed.
    """
    for name in (person.known_as, person.given):
        if name and lettering.can_write(name):
            initial = person.family[:1]
            return name, initial if lettering.can_write(initial) else ""
    return f"person {person.number}", ""


def printed_initials(person: Person) -> str:
    """Return somebody's initials; empty where the font cannot write them."""
    return person.initials if lettering.can_write(person.initials) else ""


def printed_borrower(name: str) -> str:
    """Return who has borrowed a roll; only that it is lent where the font cannot write the name."""
    return name if lettering.can_write(name) else "lent"


def owners_of(file: DarkroomFile, rolls: Iterable[Roll]) -> dict[int | None, Person]:
    """Return the owners of rolls by their numbers."""
    numbers = (roll.person for roll in rolls if roll.person is not None)
    return dict(people.read_people(file.conn, numbers).items())
