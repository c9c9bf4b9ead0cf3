"""Which rows of a roster are people already known, who is new, and what changes."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from filmrack.domain.names import Person
from filmrack.domain.roster import RosterLine


class Known(NamedTuple):
    """A person of the darkroom file, and the period they are in this term.

    `name_stands`: the person has asked for this name, so a roster does not change it back.
    """

    person: Person
    period: int | None = None
    left: bool = False
    name_stands: bool = False


@dataclass(frozen=True, slots=True)
class Enrolling:
    """What a roster does to the people of a term; nothing is written yet."""

    added: list[Known] = field(default_factory=list)
    updated: list[Known] = field(default_factory=list)
    unchanged: list[Known] = field(default_factory=list)
    refused: list[tuple[int, str]] = field(default_factory=list)
    absent: list[Known] = field(default_factory=list)
    """Who is in one of the roster's periods and not on it; nobody while a line is refused."""


PeriodOf = Callable[[str], int | None]
"""Return the number of a period as somebody wrote it, or None for none of the room's."""


def enrolling(
    rows: Sequence[RosterLine],
    known: Iterable[Known],
    period_of: PeriodOf,
    default: int | None = None,
) -> Enrolling:
    """Return whom a roster adds, changes and leaves as they are.

    People are told apart by the school's id; where a row or a person has none, by the exact name.
    A period that a row does not name is the default; without one the person keeps theirs.
    """
    done = Enrolling()
    everyone = list(known)
    by_id = {one.person.school_id: one for one in everyone if one.person.school_id}
    readable = list(_readable(rows, period_of, default, done.refused))
    matched = {by_id[row.school_id].person.number for row, _ in readable if row.school_id in by_id}
    by_name: dict[tuple[str, str], list[Known]] = {}
    for one in everyone:
        if one.person.number not in matched:
            by_name.setdefault((one.person.given, one.person.family), []).append(one)
    for row, period in readable:
        namesakes = by_name.get((row.given, row.family), [])
        by_school = by_id.get(row.school_id) if row.school_id else None
        meant = [by_school] if by_school else _meant(namesakes, row, period)
        if len(meant) > 1:
            many = f"{len(meant)} people are called {row.given} {row.family}".rstrip()
            why = f"{many}: give the school id of the one who is meant"
            done.refused.append((row.line, why))
        elif not meant:
            person = Person(0, row.given, row.family, row.called, row.school_id)
            done.added.append(Known(person, period))
        else:
            old = meant[0]
            if old in namesakes:  # another row of that name means somebody else
                namesakes.remove(old)
            new = _changed(old, row, period)
            (done.unchanged if new == old else done.updated).append(new)
    done.refused.sort()
    if not done.refused:
        here = {one.person.number for one in (*done.updated, *done.unchanged)}
        periods = {period for _, period in readable if period is not None}
        done.absent.extend(
            one
            for one in everyone
            if one.person.number not in here and one.period in periods and not one.left
        )
    return done


def _readable(
    rows: Sequence[RosterLine],
    period_of: PeriodOf,
    default: int | None,
    refused: list[tuple[int, str]],
) -> Iterable[tuple[RosterLine, int | None]]:
    """Yield each row with its period; refuse what names no period, or a person a second time."""
    ids: dict[str, int] = {}
    names: dict[tuple[str, str], tuple[int, bool]] = {}
    for row in rows:
        period = default
        if row.period is not None:
            period = period_of(row.period)
            if period is None:
                refused.append(
                    (row.line, f"there is no period “{row.period}”: write one that the room has")
                )
                continue
        name = (row.given, row.family)
        earlier = ids.get(row.school_id) if row.school_id else None
        if earlier is None and name in names:
            line, without_id = names[name]
            if without_id or not row.school_id:
                earlier = line
        if earlier is not None:
            refused.append(
                (
                    row.line,
                    f"line {earlier} has this person already: take one out, or give each of two"
                    " people a school id of their own",
                )
            )
            continue
        if row.school_id:
            ids[row.school_id] = row.line
        names.setdefault(name, (row.line, not row.school_id))
        yield row, period


def _meant(candidates: Sequence[Known], row: RosterLine, period: int | None) -> list[Known]:
    """Return who may be meant by a row whose school id, if any, is not known."""
    fitting = [one for one in candidates if not row.school_id or not one.person.school_id]
    for narrower in (
        [one for one in fitting if not one.left],
        [one for one in fitting if not one.left and one.period == period],
    ):
        if len(fitting) > 1 and narrower:
            fitting = narrower
    return fitting


def _changed(old: Known, row: RosterLine, period: int | None) -> Known:
    person = old.person
    if not old.name_stands:
        person = person._replace(given=row.given, family=row.family)
    person = person._replace(
        called=row.called or person.called,
        school_id=row.school_id or person.school_id,
    )
    return old._replace(person=person, period=period or old.period, left=False)
