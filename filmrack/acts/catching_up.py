"""Typing in a hang sheet after a day without power: late entries, one group a row."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import date, datetime
from typing import NamedTuple

from filmrack.acts.drying import assume_the_fan
from filmrack.acts.group import Group, Hand, one_group
from filmrack.acts.hanging import load_unknown, put_up
from filmrack.domain.clip import HIGHEST_CLIP
from filmrack.domain.hangsheet import SheetRow, time_on
from filmrack.domain.journey import fold, trail
from filmrack.domain.names import Person, tokens
from filmrack.domain.ranges import numbers_in
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.domain.story import act_in_words
from filmrack.store import ledger, people, rolls, search
from filmrack.store.file import DarkroomFile

_LONGEST_INITIALS = 3


class Caught(NamedTuple):
    """What a sheet brought: each row that was taken with its roll, each refused one with why."""

    taken: tuple[tuple[int, Roll], ...]
    refused: tuple[tuple[int, str], ...]
    displaced: tuple[int, ...]
    """Rolls that the record had in their place: missing since then."""


class _Told(NamedTuple):
    """A row that makes sense by itself."""

    row: SheetRow
    clip: int
    hung: datetime | None
    flipped: datetime | None
    taken: datetime | None

    @property
    def first(self) -> datetime:
        return min(each for each in (self.hung, self.flipped, self.taken) if each is not None)


def catch_up(
    file: DarkroomFile,
    rows: Iterable[SheetRow],
    day: date,
    hand: Hand,
    *,
    fan_ran: bool = False,
) -> Caught:
    """Enter the rows of one day's hang sheet, each as a group of its own, in the order of time.

    `hand` says who types at which desk and what time it is now. Who is typed by initials or by
    name; a clip that no roll is on and that nobody is named for carries an unknown roll. A row
    without a time adds to the roll on its clip. With `fan_ran` hanging assumes as always that
    the dial was turned; without, nothing is: the power was off. A row that cannot be meant, and
    one that the record tells already, is refused with its line and changes nothing; the others
    are taken. So a sheet that is typed again hangs, flips and takes nothing twice.
    """
    told: list[_Told] = []
    refused: list[tuple[int, str]] = []
    for row in rows:
        try:
            told.append(_read(file, row, day, hand))
        except Refused as why:
            refused.append((row.line, str(why)))
    taken: list[tuple[int, int]] = []
    displaced: list[int] = []
    for each in sorted(told, key=lambda each: (each.first, each.row.line)):
        try:
            with one_group(file, replace(hand, at=each.first)) as group:
                number = _enter(group, each, fan_ran=fan_ran)
                group.settle()
        except Refused as why:
            refused.append((each.row.line, str(why)))
        else:
            taken.append((each.row.line, number))
            displaced += group.displaced
    known = {roll.id: roll for roll in rolls.by_ids(file.conn, {number for _, number in taken})}
    return Caught(
        tuple((line, known[number]) for line, number in sorted(taken)),
        tuple(sorted(refused)),
        tuple(displaced),
    )


def _read(file: DarkroomFile, row: SheetRow, day: date, hand: Hand) -> _Told:
    clips = numbers_in(row.clip, "clip", HIGHEST_CLIP)
    if len(clips) != 1:
        raise Refused("which clip is not clear: write the one number on it")
    timetable = file.room().timetable
    hung, flipped, taken = (
        time_on(text, day, timetable) for text in (row.hung, row.flipped, row.taken)
    )
    times = [each for each in (hung, flipped, taken) if each is not None]
    if not times:
        raise Refused("nothing happened by this row: write when it was hung, flipped or taken")
    if times != sorted(times):
        raise Refused("its times run backwards: a roll is hung, then flipped, then taken")
    if times[-1] > hand.now:
        raise Refused("a time of it is still to come: check the day of the sheet")
    return _Told(row, clips[0], hung, flipped, taken)


def _enter(group: Group, told: _Told, *, fan_ran: bool) -> int:
    there = _on_clip_then(group, told.clip, told.first)
    person = _who(group, told.row.who, told.first)
    same = there is not None and (person is None or there.person == person.number)
    if told.hung is None:
        if there is None or not same:
            raise Refused(
                f"clip {told.clip} was on no such roll at {group.clock(told.first)}: write when it"
                " was hung"
            )
        number = there.id
    else:
        _refuse_hung_again(group, told, person)
        if there is not None and same and there.place.kind == "rod":
            raise Refused(
                f"{there.number} hangs on clip {told.clip} since {group.clock(there.since)} by the"
                " record: leave its time out to add the rest"
            )
        number = _hang(group, told, there if same else None, person, fan_ran=fan_ran)
    if told.flipped is not None:
        _append_once(group, "flip", number, told.flipped)
    if told.taken is not None:
        _append_once(group, "take", number, told.taken)
    return number


def _refuse_hung_again(group: Group, told: _Told, person: Person | None) -> None:
    """Refuse a hanging on the record, also of a roll that left its clip in the same minute."""
    for number in rolls.loose_since(group.conn, told.first):
        for entry, roll in trail(ledger.of_roll(group.conn, number, until=told.first)):
            if (entry.act, entry.happened, roll.clip) != ("hang", told.hung, told.clip):
                continue
            if person is None or roll.person == person.number:
                raise Refused(
                    f"{roll.number} was hung on clip {told.clip} at {group.clock(told.first)} by"
                    " the record: leave its time out to add the rest"
                )


def _append_once(group: Group, act: str, number: int, at: datetime) -> None:
    """A row typed twice must not turn a strip back again."""
    for entry in ledger.of_roll(group.conn, number):
        if (entry.act, entry.happened) == (act, at):
            known = rolls.by_id(group.conn, number).number
            raise Refused(
                f"{known} has its “{act_in_words(act)}” of {group.clock(at)} on the record already:"
                " leave it out"
            )
    group.append(act, number, at=at)


def _hang(
    group: Group, told: _Told, there: Roll | None, person: Person | None, *, fan_ran: bool
) -> int:
    if there is not None:
        number = there.id
    elif person is None:
        number = load_unknown(group, told.clip, None)
    else:
        number = None
    whose = person.number if person else None
    number, rod = put_up(group, told.taken, roll=number, person=whose, clip=told.clip)
    if fan_ran:
        assume_the_fan(group, rod)
    return number


def _on_clip_then(group: Group, clip: int, at: datetime) -> Roll | None:
    """Return the roll that a clip pair was on at a moment."""
    for number in rolls.loose_since(group.conn, at):
        state = fold(ledger.of_roll(group.conn, number, until=at))
        if state is not None and state.clip == clip and state.live:
            return state
    return None


def _who(group: Group, text: str, at: datetime) -> Person | None:
    """Return who is meant: by initials in the class of that time or the term, else by name."""
    typed = text.strip()
    if not typed:
        return None
    letters = "".join(tokens(typed.replace(".", "")))
    if letters and len(letters) <= _LONGEST_INITIALS and typed == typed.upper():
        found = _with_initials(group, letters, at)
        if len(found) == 1:
            return found[0]
        if found:
            choices = ", ".join(f"{person.full} (person {person.number})" for person in found[:8])
            raise Refused(f"“{typed}” can be {choices}: write the name, or “person” and the number")
    return search.who(group.conn, typed)


def _with_initials(group: Group, letters: str, at: datetime) -> list[Person]:
    room, conn = group.room, group.conn
    term, meeting = room.term_at(at), room.timetable.meeting_at(at)
    if term is None:
        return []
    in_class = [meeting.period] if meeting else []
    for periods in (in_class, [period.number for period in room.periods]):
        there = [each for period in periods for each in people.in_period(conn, term.code, period)]
        found = [each for each in there if "".join(tokens(each.initials)) == letters]
        if found:
            return found
    return []
