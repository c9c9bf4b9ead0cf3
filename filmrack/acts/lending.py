"""What happens to film beside the usual way: lent, lost and found, handed back, thrown away."""

from __future__ import annotations

from collections.abc import Sequence

from filmrack.acts.group import Group, Hand, one_group, settled
from filmrack.acts.turning_up import hangs_again
from filmrack.domain.loans import LoanLine, due_back, read_due, refuse_a_part, refuse_no_name
from filmrack.domain.names import clean, tokens
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Detail, Roll
from filmrack.store import people
from filmrack.store.borrowing import borrower_meant, called_within, guests_like
from filmrack.store.file import DarkroomFile


class NearGuest(Refused):
    """A name that is nearly that of a guest with film on loan: whose it is must be said first."""

    def __init__(self, who: str, guest: str) -> None:
        super().__init__(
            f"“{who[:40]}” is nearly {guest}, who has film on loan, and nothing is lent yet: type"
            f" “{guest}” if it is theirs, or add --guest for somebody else"
        )
        self.guest = guest


def lend(
    file: DarkroomFile,
    hand: Hand,
    number: int,
    until: str | None = None,
    *,
    to: int | str,
) -> Roll:
    """Lend a sleeve until a day, as `read_due` takes it: to a person by number, a guest by name.

    Without a date it is due by the room's rule, in so many school days. Raises Refused for a person
    who is not there and for no name, for a date that is none or lies before the lending, and for a
    sleeve that is not at hand.
    """
    with one_group(file, hand) as group:
        _lend(group, number, until, to)
        return settled(group, [number])[0]


def lend_as_said(
    file: DarkroomFile, hand: Hand, number: int, said: LoanLine, until: str | None = None
) -> Roll:
    """Lend a sleeve to whom a line means, a person of the school or a guest, until its day.

    A guest who has film on loan is called as then. Raises Refused as `lend` and `borrower_meant`
    do, and unless it was quoted NearGuest for a name that is nearly such a guest's, and Refused for
    one that may be no guest's at all. `until` goes before the day of the line.
    """
    day = until or (said.until.isoformat() if said.until else None)
    with one_group(file, hand) as group:
        whom = borrower_meant(group.conn, said)
        if not isinstance(whom, str):
            _lend(group, number, day, whom.number)
            return settled(group, [number])[0]
        alike = [] if said.quoted else guests_like(group.conn, whom)
        same = next((guest for guest in alike if tokens(guest) == tokens(whom)), None)
        _lend(group, number, day, same or whom)
        # Behind the act, so that one which cannot be done at all says that first.
        if same is None and not said.quoted:
            refuse_a_part(whom)
        if alike and same is None:
            raise NearGuest(whom, alike[0])
        if same is None and not said.quoted:
            refuse_no_name(whom)
            if person := called_within(group.conn, whom):
                raise Refused(
                    f"“{whom[:40]}” is nobody here, but {person.full} is called so in part, and"
                    " nothing is lent yet: type more of the name, or a guest's in “quotes”"
                )
        return settled(group, [number])[0]


def back(file: DarkroomFile, hand: Hand, numbers: Sequence[int]) -> list[Roll]:
    """End the loan of sleeves: they are in their binder again, where they have one.

    Raises Refused when one of them is not lent: no loan is ended then.
    """
    return _each(file, hand, "back", numbers)


def release(file: DarkroomFile, hand: Hand, numbers: Sequence[int]) -> list[Roll]:
    """Hand rolls back to their owners for good.

    Raises Refused when one of them is gone already: none is handed back then.
    """
    return _each(file, hand, "release", numbers)


def missing(file: DarkroomFile, hand: Hand, numbers: Sequence[int]) -> list[Roll]:
    """Keep that rolls are not where they should be; where they were last seen stays known.

    Raises Refused when one of them is missing already, or thrown away: none is kept so then.
    """
    return _each(file, hand, "missing", numbers)


def found(file: DarkroomFile, hand: Hand, number: int, *, box: int | None = None) -> Roll:
    """Keep that a missing roll turned up, or one that had been handed back.

    A sleeve is at hand then. What hung before and is not dry by the record hangs again. What else
    is not sleeved yet goes to a box, of its own period where none is named, and without one it is
    with its owner. Raises Refused for a box that is not there, and as `hangs_again` does.
    """
    with one_group(file, hand) as group:
        detail = Detail()
        roll = group.roll(number)
        if box is not None:
            group.room.box_meant(box)
        elif place := hangs_again(group, roll):
            detail = Detail(rod=place.rod, position=place.position)
            group.append("found", number, detail)
            return settled(group, [number])[0]
        own = group.room.box_of(roll.period)
        into = box if box is not None else own.number if own else None
        if into is not None and roll.sleeved_at is None:
            detail["box"] = into
        group.append("found", number, detail)
        return settled(group, [number])[0]


def discard(file: DarkroomFile, hand: Hand, number: int, why: str = "") -> Roll:
    """Keep that film was thrown away. Raises Refused without a reason before it is filed."""
    reason = clean(why, "the reason")
    with one_group(file, hand) as group:
        roll = group.roll(number)
        if not reason and roll.filed_at is None:
            raise Refused(
                f"{roll.number} was never filed: say why it is thrown away, such as “blank film”"
            )
        detail = Detail(note=people.add_note(group.conn, reason)) if reason else None
        group.append("discard", number, detail)
        return settled(group, [number])[0]


def _each(file: DarkroomFile, hand: Hand, act: str, numbers: Sequence[int]) -> list[Roll]:
    with one_group(file, hand) as group:
        for number in dict.fromkeys(numbers):
            group.append(act, number)
        return settled(group, numbers)


def _lend(group: Group, number: int, until: str | None, to: int | str) -> None:
    detail = Detail(until=_due(group, until))
    if isinstance(to, str):
        kept = clean(to, "the borrower's name")
        if not kept:
            raise Refused("who borrows it is not said: name a person")
        detail["note"] = people.add_note(group.conn, kept)
    else:
        detail["person"] = people.person_meant(group.conn, to).number
    group.append("lend", number, detail)


def _due(group: Group, until: str | None) -> str:
    if until is None:
        return due_back(group.room, group.hand.at).isoformat()
    timetable = group.room.timetable
    return read_due(until, timetable.local_date(group.hand.at), timetable.days).isoformat()
