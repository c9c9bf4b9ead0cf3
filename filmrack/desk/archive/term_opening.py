"""Opening a term at the desk, also one from before this room kept a record."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from filmrack.acts import terms
from filmrack.desk.question import Question
from filmrack.desk.said import Said
from filmrack.desk.session import Session
from filmrack.domain.clock import span_words
from filmrack.domain.days import read_whole_day
from filmrack.domain.refusal import Refused
from filmrack.domain.termcode import term_code, usual_term


def open_term(session: Session, text: str) -> Said | Question:
    """Open a term by its code, which is asked for where it is not said.

    Raises Refused for what is no code of a term, and for one that is open already.
    """
    if not text.strip():
        prompt = "which term? Two digits of its year and a letter, such as 27S"
        wanted = "which term is opened was not said: type its code, as 27S, or press Esc"
        return Question(prompt, lambda typed: open_term(session, typed), wanted=wanted)
    code = term_code(text)
    if code in {term.code for term in session.file.room().terms}:
        raise Refused(f"term {code} is there already: its days are changed in Room, with “terms”")
    words = f"open: “shelve {code}-01” takes its old sleeves"
    return ask_to_open(session, code, lambda: Said(f"Term {code}", words, done=True))


def ask_to_open(session: Session, text: str, then: Callable[[], Said | Question]) -> Question:
    """Ask for one Enter to open a term with its usual days, or for its first and last day.

    `then` is what goes on when it is open. Raises Refused for what is no code of a term.
    """
    code = term_code(text)
    room = session.file.room()
    usual = usual_term(code, room.timetable.local_date(session.now))

    def answer(typed: str) -> Said | Question:
        first, last = _days(typed) if typed.strip() else (None, None)
        terms.open_term(session.file, session.hand(), code, starts=first, ends=last)
        return then()

    known = ", ".join(term.code for term in room.terms) or "none yet"
    if usual is None:
        prompt = "its first and last day: 2024-09-02 to 2025-01-17; Esc leaves it"
        wanted = f"when term {code} is was not said: type its first and last day, or press Esc"
        when = "only the school knows when it is"
        return Question(
            prompt, answer, f"Open term {code}?", f"{_not_here(known)}; {when}", wanted=wanted
        )
    return Question(
        "Enter, or first and last day: 2024-09-02 to 2025-01-17; Esc leaves it",
        answer,
        headline=f"Open term {code}, {span_words(usual.starts, usual.ends)}?",
        words=f"{_not_here(known)}. Opening it lets its film be kept here, and changes no other",
        does=f"open term {code}",
    )


def _not_here(known: str) -> str:
    return f"it is not here yet (this room has {known})"


def _days(typed: str) -> tuple[date, date]:
    """Return two days as `2024-09-02 to 2025-01-17`. Raises Refused for anything else."""
    first, _, last = typed.casefold().replace(" until ", " to ").partition(" to ")
    starts, ends = read_whole_day(first), read_whole_day(last)
    if starts is None or ends is None:
        raise Refused(
            f"“{typed[:40]}” is no first and last day: type both with their year, as 2024-09-02 to"
            " 2025-01-17"
        )
    return starts, ends
