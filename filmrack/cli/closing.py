"""The end of a term: what has become of its rolls, closing and reopening it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import datetime
from typing import TYPE_CHECKING

import click

from filmrack.cli.call import Call, json_option
from filmrack.cli.output import iso, print_json, print_table, say
from filmrack.domain.counted import counted
from filmrack.domain.loans import due_words
from filmrack.domain.names import Person, called
from filmrack.domain.roll import Roll
from filmrack.domain.room import Room
from filmrack.store import people, terms
from filmrack.store.borrowing import borrowers
from filmrack.store.file import DarkroomFile

if TYPE_CHECKING:  # closing and reopening need no report
    from filmrack.domain.termreport import RollsOfOne, TermReport

_OWED = {
    "no_contact": "no contact sheet",
    "not_filed": "not filed",
    "out": "borrowed",
    "missing": "missing",
    "unclaimed": "without an owner",
}


@click.command()
@click.argument("code")
@json_option
@click.pass_obj
def report(call: Call, *, code: str, as_json: bool) -> None:
    """Say where each roll of a term is, and what is still owed.

    Closing it takes that all is done, or a reason.
    """
    from filmrack.acts.closing import report_on
    from filmrack.domain.termcode import term_code

    with call.reading() as file:
        room, then = file.room(), call.then(file)
        found = report_on(file, code, then)
        term = term_code(code)
        closed = terms.closed(file.conn).get(term)
        named = [*found.open_rolls, *found.no_contact]
        owners = people.read_people(file.conn, (roll.person for roll in named if roll.person))
        lent = loans_in_words(file, found.out, then or call.now(file))
    if as_json:
        print_json(
            {
                "term": term,
                "closed": iso(closed, room.timetable.zone),
                "rolls": found.rolls,
                "places": found.places,
                "unaccounted": groups_json(found.unaccounted, owners),
                "owed": {name: [roll.number for roll in some] for name, some in found.owed.items()},
            }
        )
        return
    say(f"term {term}: {counted(found.rolls, 'roll')}" + (", closed" if closed else ""))
    _print_places(found, owners, room, lent)
    _print_owed(found, owners, room, lent)


def _print_places(
    found: TermReport, owners: dict[int, Person], room: Room, lent: Mapping[int, str]
) -> None:
    """Print how many rolls are where, and which of them keep the term from closing."""
    from filmrack.domain.termreport import IN_WORDS

    print_table([(f"{number:>6}", IN_WORDS[kind]) for kind, number in found.places.items()])
    if found.without_sheet:
        say(f"of these {found.rolls}: {found.without_sheet}")
    if found.unaccounted:
        say(f"not put away yet: {counted(len(found.open_rolls), 'roll')}")
        print_table(group_rows(found.unaccounted, owners, room, lent))
    else:
        say("every roll is accounted for")


def _print_owed(
    found: TermReport, owners: dict[int, Person], room: Room, lent: Mapping[int, str]
) -> None:
    """Print which rolls owe what, and how to say whose one without an owner is."""
    from filmrack.domain.termreport import by_period_and_person

    for name, some in found.owed.items():
        words = _OWED[name]
        if name == "no_contact" and some:
            say(f"{words}:")
            print_table(group_rows(by_period_and_person(some), owners, room, lent))
        elif name == "out" and lent:
            say(f"{words}:")
            print_table([(roll.number, lent[roll.id]) for roll in some])
        elif some:
            say(f"{words}: {' '.join(roll.number for roll in some)}")
    if found.unclaimed:
        say(f"“filmrack claim {found.unclaimed[0].number} WHO” says whose it is")


@click.command()
@click.argument("code")
@click.option("--leave-open", "why", default="", metavar="WHY", help="Why rolls may be left.")
@json_option
@click.pass_obj
def close(call: Call, *, code: str, why: str, as_json: bool) -> None:
    """Close a term: its rolls are only read from then on. A copy of the file is made first."""
    from filmrack.acts.closing import close_term

    with call.writing() as file:
        closed = close_term(file, call.hand(file), code, why)
    left = [roll.number for roll in closed.left_open]
    if as_json:
        print_json({"term": closed.code, "backup": str(closed.backup.file), "left_open": left})
        return
    say(f"term {closed.code} is closed; “filmrack term reopen {closed.code}” if not")
    say(f"the file as it was before: {closed.backup.file}")
    if left:
        say(f"left open: {' '.join(left)}")


@click.command()
@click.argument("code")
@json_option
@click.pass_obj
def reopen(call: Call, *, code: str, as_json: bool) -> None:
    """Reopen a closed term, so that its rolls can be changed again."""
    from filmrack.acts.closing import reopen_term

    with call.writing() as file:
        term = reopen_term(file, call.hand(file), code)
    if as_json:
        print_json({"term": term, "closed": None})
    else:
        say(f"term {term} is open again")


def groups_json(groups: Iterable[RollsOfOne], owners: dict[int, Person]) -> list[dict[str, object]]:
    """Return rolls by period and person."""
    return [
        {
            "period": period,
            "person": person,
            "who": owners[person].full if person in owners else None,
            "rolls": [roll.number for roll in rolls],
        }
        for period, person, rolls in groups
    ]


def loans_in_words(file: DarkroomFile, out: Iterable[Roll], now: datetime) -> dict[int, str]:
    """Return who has each borrowed roll and until when: `Olu Adeyemi, due Fri 4 Dec`."""
    room, some = file.room(), list(out)
    names = borrowers(file.conn, some)
    return {
        roll.id: f"{names[roll.id]}, {due_words(roll.loan, room, now)}"
        for roll in some
        if roll.loan is not None
    }


def group_rows(
    groups: Iterable[RollsOfOne], owners: dict[int, Person], room: Room, lent: Mapping[int, str]
) -> list[tuple[str, str, str]]:
    """Return rolls by period and person, each with where it is; `lent` are loans in words."""
    rows = []
    for number, person, rolls in sorted(groups, key=lambda group: _by_name(group, owners)):
        period = room.period(number)
        who = called(owners.get(person or 0))
        for roll in rolls:
            where = f"{roll.place}"
            if roll.id in lent:
                where += f" by {lent[roll.id]}"
            rows.append((period.name if period else "-", who, f"{roll.number}  {where}"))
    return rows


def _by_name(group: RollsOfOne, owners: dict[int, Person]) -> tuple[bool, int, bool, str, str]:
    period, person, _ = group
    owner = owners.get(person or 0)
    names = (owner.family, owner.known_as) if owner else ("", "")
    return (period is None, period or 0, owner is None, *names)
