"""Below the counts of a term: what the typed line would do, or whether the term can be closed."""

from __future__ import annotations

from collections.abc import Mapping

from rich.style import Style
from rich.text import Text

from filmrack.desk.archive.term_shown import TermShown
from filmrack.desk.archive.term_words import what_is_open, where_unsleeved, whether_it_closes
from filmrack.desk.ink import style, wrapped
from filmrack.desk.now import Now
from filmrack.desk.themes import Palette
from filmrack.domain.clock import day_words
from filmrack.domain.schooldays import Term
from filmrack.store.archive import WhichRolls


def status(
    now: Now,
    term: Term,
    shown: TermShown,
    places: Mapping[str, int],
    which: WhichRolls,
    *,
    width: int,
    palette: Palette,
) -> list[Text]:
    """Return whether a term can be closed, and what keeps it from that where somebody asked for
    it; where only what is not sleeved is shown, in how many places that is.

    `places` is how many rolls the term has in each kind of place, `which` says which are shown.
    """
    words, how = "", style(palette.quiet)
    if shown.closed is not None:
        local = now.room.timetable.local_date
        since = day_words(local(shown.closed), local(now.at))
        why = f" (“{shown.why}”)" if shown.why else ""
        how = style(palette.text)
        words = (
            f"Closed since {since}{why}, so nothing of it changes: “reopen term {term.code}” first."
        )
    elif which == "sleeve" and (unsleeved := where_unsleeved(places)):
        words = f"Not sleeved: {unsleeved}."
    elif what_is_open(places):
        words = f"{whether_it_closes(places)}." if shown.chosen else ""
    elif now.room.in_last_week(term.code, now.at):
        words = "Last week: “hand-back list” says which film its owners get for good."
    elif any(places.values()):
        words = f"{whether_it_closes(places)}."
    return _in_rows(words, how, width)


def foreseen(words: str, *, width: int, palette: Palette) -> list[Text]:
    """Return what a line would do, or what goes on."""
    return _in_rows(f"→ {words}", style(palette.text, bold=True), width)


def _in_rows(words: str, how: Style, width: int) -> list[Text]:
    """Return words in as many rows as they take, one of them at least."""
    return [Text(row.plain, style=how) for row in wrapped(words, width)] or [Text("")]
