"""Catch-up: the rows of a hang sheet typed in afterwards, one a line, each entered at once."""

from __future__ import annotations

import re
from datetime import date, timedelta

from filmrack.acts.catching_up import Caught, catch_up
from filmrack.desk.question import Question
from filmrack.desk.said import Said
from filmrack.desk.session import Session
from filmrack.domain.clock import whole_day
from filmrack.domain.days import read_whole_day
from filmrack.domain.hangsheet import SheetRow, read_sheet
from filmrack.domain.refusal import Refused
from filmrack.domain.yes_or_no import yes_or_no

_TIME = re.compile(r"\d{1,2}[:.h]\d\d([ap]m?)?|\d{4}|\d{1,2}\d\d[ap]m?", re.ASCII | re.IGNORECASE)
_ORDER = ("hung", "flipped", "taken")
_WORDS = {"hang": "hung", "flip": "flipped", "take": "taken", **{name: name for name in _ORDER}}


def begin(session: Session) -> Question:
    """Ask for the day of the sheet, and then for its rows until Escape."""
    return Question(
        "today, yesterday, or a date such as 2026-11-16",
        lambda text: _ask_fan(session, _day(session, text)),
        headline="Of which day is the hang sheet?",
        words="Each row is entered as a late entry, in its own place in time",
        verbatim=True,
    )


def row_typed(text: str) -> SheetRow:
    """Return the row that one line says, with separators as on the sheet or in words.

    >>> row_typed("10:12 17 mar flip 10:20 take 10:31")
    SheetRow(line=1, hung='10:12', clip='17', who='mar', flipped='10:20', taken='10:31')
    >>> row_typed("17 take 10:31")
    SheetRow(line=1, hung='', clip='17', who='', flipped='', taken='10:31')
    """
    if any(separator in text for separator in ",;\t"):
        rows = read_sheet([text])
        if not rows:
            raise Refused("that is no row: type the time, the clip and who, as on the sheet")
        return rows[0]
    told: dict[str, str] = {}
    clip, who, meant = "", [], None
    for word in text.split():
        if word.casefold() in _WORDS:
            meant = _WORDS[word.casefold()]
        elif _TIME.fullmatch(word):
            free = (one for one in _ORDER if _may_come_next(one, told))
            column = meant or next(free, "taken")
            told[column], meant = word, None
        elif not clip and word.isascii() and word.isdecimal():
            clip = word
        elif word.casefold() != "clip":
            who.append(word)
    return SheetRow(
        1, told.get("hung", ""), clip, " ".join(who), told.get("flipped", ""), told.get("taken", "")
    )


def _may_come_next(column: str, told: dict[str, str]) -> bool:
    """Tell whether a time without a word may be this column's: the sheet's order is kept."""
    return not any(later in told for later in _ORDER[_ORDER.index(column) :])


def _day(session: Session, text: str) -> date:
    today = session.file.room().timetable.local_date(session.now)
    typed = text.strip().casefold()
    if typed in ("today", "yesterday"):
        return today - timedelta(days=typed == "yesterday")
    day = read_whole_day(typed)
    if day is None:
        raise Refused(f"“{text[:20]}” is no day: write it as {whole_day(today)}, or today")
    return day


def _ask_fan(session: Session, day: date) -> Question:
    def answer(text: str) -> Question:
        ran = yes_or_no(text, "did the fan run that day?")
        return _ask_row(session, day, fan_ran=ran)

    return Question("yes or no", answer, headline="Did the fan run?", verbatim=True)


def _ask_row(session: Session, day: date, *, fan_ran: bool, told: Said | None = None) -> Question:
    def answer(text: str) -> Question:
        caught = catch_up(session.file, [row_typed(text)], day, session.hand(), fan_ran=fan_ran)
        return _ask_row(session, day, fan_ran=fan_ran, told=_said(session, caught))

    first = Said(
        f"Rows of {whole_day(day)}",
        "hung, clip, who, then when flipped and taken as far as they are known. Esc when done",
    )
    said = told or first
    return Question(
        "10:12 17 juniper flip 10:20 take 10:31",
        answer,
        headline=said.headline,
        words=said.words,
        verbatim=True,
        done=told is not None,
    )


def _said(session: Session, caught: Caught) -> Said:
    if caught.refused:
        raise Refused(caught.refused[0][1])
    roll = caught.taken[0][1]
    lost = f"; {len(caught.displaced)} missing since then" if caught.displaced else ""
    words = f"entered, {roll.place}{lost}. The next row, or Esc; undo takes it back after that"
    return Said(session.headline(roll), words)
