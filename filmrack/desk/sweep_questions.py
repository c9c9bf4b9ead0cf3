"""What a sweep asks before it does what would be costly if it was not meant."""

from __future__ import annotations

from collections.abc import Callable

from filmrack.desk.question import Question
from filmrack.desk.said import Said
from filmrack.desk.sweep_course import Turn
from filmrack.domain.refusal import Refused


def ask_of_wet(turn: Turn, tell: Callable[[], Said]) -> Question:
    """Ask before a count boxes film that is not dry by the record."""
    many, wet = len(turn.hanging), turn.not_dry
    them = "it" if many == 1 else "them"
    whole = "it is" if many == 1 else f"{wet} of {many} {'is' if wet == 1 else 'are'}"
    return _one(
        tell,
        headline=f"rod {turn.rod.number}: {whole} not dry by the record",
        words=f"damp film sticks in its box: esc leaves {them} hanging. Scan what you take down",
        does=f"box {them} all the same",
        leave="leave the rod as it is",
    )


def ask_of_unknown(clip: str, found: Callable[[], Said], *, counting: bool) -> Question:
    """Ask before a typed clip that no record explains becomes an unknown roll.

    With `counting` it can have been meant as a count.
    """
    count = f". If you counted, esc and type “count {clip}”" if counting else ""
    return _one(
        found,
        headline=f"clip {clip}: no record explains it",
        words=f"Enter keeps an unknown roll on it and boxes it{count}",
        does="keep an unknown roll",
        leave="keep none",
    )


def _one(do: Callable[[], Said], *, headline: str, words: str, does: str, leave: str) -> Question:
    """Return a question that Enter alone says yes to."""

    def answer(text: str) -> Said:
        if text.strip():
            raise Refused(f"{text[:20]!r} is no answer here: Enter to {does}, Esc to {leave}")
        return do()

    return Question(
        f"Enter: {does}; esc: {leave}", answer, headline=headline, words=words, does=does
    )
