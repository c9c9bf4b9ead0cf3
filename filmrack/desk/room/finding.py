"""What a typed line means of the rows that stand on the screen Room: `loan`, `loan 15`, `add`."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from filmrack.desk.archive.orders import order_if_readable
from filmrack.desk.day_off_words import says_of_day_off
from filmrack.desk.halves import TYPED_WORDS
from filmrack.desk.room.row import RoomPlace, RoomRow
from filmrack.desk.room.sections import SECTIONS, RowsFor, rows_at
from filmrack.desk.session import Session
from filmrack.desk.whole_orders import called_so, names_what_it_is_about
from filmrack.domain.asking import code_in
from filmrack.domain.counted import listed
from filmrack.domain.names import tokens
from filmrack.domain.refusal import Refused
from filmrack.store import people

_OF_FILM = ("rod", "box", "binder", "clip", "person")
"""What stands with a number in a sentence about film: `rod 3` there is no row."""

_CHANGES = ("rename", "change", "set")
_LEAST_LETTERS = 3
_NAMED = 4


class NamedRow(NamedTuple):
    """A row by what it is called, and where it stands: the `nth` of a section or of one entry."""

    section: int
    entry: tuple[str, ...]
    nth: int
    row: RoomRow
    words: tuple[str, ...]


class Found(NamedTuple):
    """The rows that a line can mean, and what stands behind their name in it."""

    rows: Sequence[NamedRow]
    rest: str = ""


def named_rows(page: RowsFor) -> list[NamedRow]:
    """Return the rows of all sections that do something, but for people."""
    some = [
        named
        for nth, section in enumerate(SECTIONS)
        if not section.only_tells
        for named in named_rows_of(nth, (), rows_at(RoomPlace(section.id), page))
    ]
    return [named for named in some if named.row.name and not named.row.is_person]


def named_rows_of(section: int, entry: tuple[str, ...], rows: Iterable[RoomRow]) -> list[NamedRow]:
    """Return the rows of one place that ask something or open an entry, and do nothing at once."""
    return [
        NamedRow(section, entry, nth, row, _words(row.name))
        for nth, row in enumerate(rows)
        if row.enter is not None and (not entry or row.field is not None)
    ]


def found(session: Session, text: str, known: Sequence[NamedRow]) -> Found | None:
    """Return which rows a line means; None for a line that means something else.

    Rows called just so come before a value behind a row's name, that before rows that begin so.
    Somebody who is called like a part of a row's word comes before the row. No row at all for a
    line that can only be about one, such as `add Lena`.
    """
    if code_in(text) is not None or says_of_day_off(session, text):
        return None
    typed = text.split()
    verb = typed[0].casefold() if typed else ""
    changes = len(typed) > 1 and verb in _CHANGES
    is_of_a_row = changes or verb == "add"
    if changes:
        del typed[0]
    said = _words(" ".join(typed))
    if not said:
        return None
    if not changes:
        known = [named for named in known if named.words[0] not in _OF_FILM]
        if called_so(session, text) is not None or names_what_it_is_about(session, text):
            return None
    same = [named for named in known if named.words == said]
    if same:
        return Found(same)
    if not changes and (verb in TYPED_WORDS or order_if_readable(text) is not None):
        return None
    behind = _with_a_value(session, typed, known, sure=is_of_a_row)
    if behind is not None:
        return behind
    begun = [named for named in known if named.words[: len(said)] == said]
    if begun or is_of_a_row:
        return Found(begun)
    return _by_its_beginning(session, text, known)


def _with_a_value(
    session: Session, typed: Sequence[str], known: Sequence[NamedRow], *, sure: bool
) -> Found | None:
    """Return the rows whose name a line begins with, and what stands behind it; unless a row is
    surely meant, none where that is somebody.
    """
    for many in range(len(typed) - 1, 0, -1):
        name, rest = _words(" ".join(typed[:many])), " ".join(typed[many:])
        begins = [named for named in known if named.words == name]
        if begins and (sure or not _is_somebody(session, rest)):
            return Found(begins, rest)
    return None


def _by_its_beginning(session: Session, text: str, known: Sequence[NamedRow]) -> Found | None:
    """Return the rows whose name begins with letters that begin nobody's."""
    letters = " ".join(_words(text))
    begun = [named for named in known if " ".join(named.words).startswith(letters)]
    is_meant = begun and len(letters) >= _LEAST_LETTERS and not _is_somebody(session, text)
    return Found(begun) if is_meant else None


def the_one(text: str, meant: Found, here: RoomPlace) -> NamedRow:
    """Return the row that is meant; among several one that stands where somebody looks.

    Raises Refused for none, and for several.
    """
    some = meant.rows
    if len(some) > 1:
        near = [one for one in some if (SECTIONS[one.section].id, one.entry) == here]
        some = near if len(near) == 1 else some
    if len(some) == 1:
        return some[0]
    if some:
        names = listed(list(dict.fromkeys(one.row.name.rstrip(" …") for one in some)), _NAMED)
        raise Refused(f"“{text[:40]}” can be several rows: type one of them whole: {names}")
    if text.casefold().startswith("add"):
        raise Refused(
            f"“{text[:40]}” says not what is to be added: type “add a person”, “add clips” or what"
            " else stands as “add …” in a section, and the rest is asked"
        )
    raise Refused(
        f"no row begins as “{text[:40]}” does: open its section, as “periods” or “people”, select"
        " the row, and press Enter"
    )


def can_be_a_name(session: Session, text: str) -> bool:
    """Tell whether a line can be a new name of something, for it is nothing else here."""
    means = called_so(session, text) or code_in(text) or order_if_readable(text)
    if means or names_what_it_is_about(session, text) or says_of_day_off(session, text):
        return False
    words = text.casefold().split()
    plain = bool(words) and words[0].isalpha() and words[0] not in (*TYPED_WORDS, *_OF_FILM)
    return plain and len(text) >= _LEAST_LETTERS and not _is_somebody(session, text)


def _is_somebody(session: Session, text: str) -> bool:
    words = tokens(text)
    return bool(words and people.with_words(session.file.conn, words, limit=1))


def _words(name: str) -> tuple[str, ...]:
    return tuple(word for word in tokens(name) if word not in ("a", "an"))
