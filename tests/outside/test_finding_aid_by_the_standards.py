"""The finding aid of a closed term against two content standards for archives, both from memory."""

from __future__ import annotations

from datetime import date

from filmrack.domain.default_room import default_room
from filmrack.domain.finding_aid import ELEMENTS, finding_aid
from filmrack.domain.schooldays import Term

# ISAD(G), 2nd edition, introduction I.12: the elements essential for international exchange.
ISAD_ESSENTIAL = {
    "reference code",  # 3.1.1
    "title",  # 3.1.2
    "creator",  # 3.2.1
    "dates",  # 3.1.3
    "extent",  # 3.1.5
    "level of description",  # 3.1.4
}

# DACS, part I, chapter 1: single-level minimum. Left out of it here: the repository's name (2.2),
# which is the school and is in the title, and languages (4.5), of which photographs have none.
DACS_MINIMUM = {
    "reference code",  # 2.1
    "title",  # 2.3
    "dates",  # 2.4
    "extent",  # 2.5
    "creator",  # 2.6, if known
    "scope and content",  # 3.1
    "conditions governing access",  # 4.1
}


def test_a_finding_aid_has_what_both_standards_ask_for_at_the_least() -> None:
    assert set(ELEMENTS) == ISAD_ESSENTIAL | DACS_MINIMUM


def test_every_element_of_a_term_says_something() -> None:
    room = default_room("America/Chicago", date(2026, 11, 17))
    term = Term("26F", date(2026, 8, 24), date(2026, 12, 18))
    (head,) = finding_aid(room, term, [], {})
    assert len(head) == len(ELEMENTS)
    assert all(head)


def test_a_span_of_dates_is_written_with_a_slash() -> None:
    # ISO 8601: a time interval by its start and its end, with a solidus between them.
    room = default_room("America/Chicago", date(2026, 11, 17))
    (head,) = finding_aid(room, Term("26F", date(2026, 8, 24), date(2026, 12, 18)), [], {})
    assert head.dates == "2026-08-24/2026-12-18"
