"""Shelving: sleeves from before their roll was ever on the record, straight into a binder."""

from __future__ import annotations

import sqlite3

from filmrack.acts.group import Hand, one_group, settled
from filmrack.domain.asking import code_in
from filmrack.domain.binder import refuse_other_binders
from filmrack.domain.film import film_named, refuse_frames
from filmrack.domain.names import Person, clean, is_one_of, unquoted
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Detail, Roll
from filmrack.domain.room import Binder
from filmrack.store import labelling, people, rolls, search
from filmrack.store.binders import binder_period, know_binder
from filmrack.store.file import DarkroomFile

MOST_PAGES = 9
"""The pages of one roll that a code can tell apart."""


def shelve(
    file: DarkroomFile,
    hand: Hand,
    binder: int,
    *,
    owner: str = "",
    term: str | None = None,
    film: str | None = None,
    frames: int | None = None,
    pages: int = 1,
) -> Roll:
    """Give a sleeve that has no history its number, in a binder, with its labels queued.

    `owner` is whoever the sleeve says: a person where exactly one of that very name is known,
    else, and in quotes, kept as a note; empty for an unknown owner. `frames` are the pictures on
    it, `pages` the sleeve pages it fills. Without a term it is the one in force. Raises Refused
    for a term that is not there or closed, a binder that cannot be, and frames that the film
    cannot have.
    """
    refuse_other_binders(binder)
    as_written = unquoted(owner)
    written = clean(as_written or owner, "the owner")
    if not 1 <= pages <= MOST_PAGES:
        raise Refused(f"a roll fills 1 to {MOST_PAGES} sleeve pages, not {pages}: count them again")
    with one_group(file, hand) as group:
        code = group.room.term_meant(term, hand.at).code
        kind = film_named(film or group.room.materials.film)
        if frames is not None:
            refuse_frames(kind, frames)
        person = None if as_written else named(group.conn, written)
        period = _period(group.conn, code, binder, person)
        know_binder(group.conn, Binder(code, binder, period))
        number, serial = rolls.begin(group.conn, code, hand.at)
        detail = Detail(
            term=code,
            serial=serial,
            film=kind.text,
            binder=binder,
            period=period,
            person=person.number if person else None,
            # How an old sleeve was cut is not known, only that there are so many.
            pages=[[] for _ in range(pages)],
        )
        if frames is not None:
            detail["frames"] = frames
        if written and person is None:
            detail["clue"] = people.add_note(group.conn, written)
        group.append("shelve", number, detail)
        labelling.queue_sleeves(group.conn, number, pages, hand.at)
        return settled(group, [number])[0]


def named(conn: sqlite3.Connection, text: str) -> Person | None:
    """Return the one person whose very name, school id or code a text is, or None.

    Stricter than a search: the Mara of an old binder need not be the only Mara of today.
    """
    try:
        person = search.who(conn, text)
    except Refused:
        return None
    by_name = is_one_of(text, person.whole_names)
    code = code_in(text)
    by_number = text.casefold().startswith("person ") or (code is not None and code.kind == "P")
    return person if by_name or by_number or person.school_id == text.strip() else None


def _period(conn: sqlite3.Connection, term: str, binder: int, person: Person | None) -> int | None:
    """Return the period of its owner in that term, else of the binder."""
    own = people.period_of(conn, person.number, term) if person else None
    if own is not None:
        return own
    return binder_period(conn, term, binder)
