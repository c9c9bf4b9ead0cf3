"""What a sweep asks before it does what would be costly if it was not meant."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from filmrack.desk.question import Question
from filmrack.desk.said import Said, capital
from filmrack.desk.sweep_course import Turn
from filmrack.desk.sweep_numbers import without
from filmrack.domain.clip import clips_of
from filmrack.domain.names import folded
from filmrack.domain.refusal import Refused

Answer = Callable[[], Said | Question]
"""What an answer does; it can lead to another question."""


def ask_of_wet(turn: Turn, tell: Answer) -> Question:
    """Ask before a count boxes film that is not known to be dry."""
    many = len(turn.hanging)
    them, hang = ("it", "1 hangs") if many == 1 else ("them", f"{many} hang")
    return _one(
        tell,
        headline=f"rod {turn.rod.number}: {hang} here{without(turn)}, {turn.damp}",
        words=f"damp film sticks in its box: esc leaves {them} hanging. Scan what you take down",
        does=f"box {them} all the same",
        leave="leave the rod as it is",
    )


def ask_of_rest(turn: Turn, tell: Answer, clip: Answer | None = None) -> Question:
    """Ask before a count boxes what is left on a rod that is being scanned, and name it.

    What a hand counted before a scan may be one more than it means. `clip` takes the number for a
    clip instead, if somebody says so.
    """
    many = len(turn.hanging)
    them, hang = ("it", "does this one hang") if many == 1 else ("them", f"do these {many} hang")
    clips = capital(clips_of(each.roll for each in turn.hanging))
    or_clip = f". For clip {many} type “clip {many}”" if clip else ""
    return _one(
        tell,
        headline=f"rod {turn.rod.number}: {hang} here still{without(turn)}?",
        words=f"{clips}. Enter boxes {them}. If one is not there press Esc, and scan the others"
        f"{or_clip}",
        does=f"box {them}",
        leave="box nothing",
        others={} if clip is None else dict.fromkeys(("clip", f"clip {many}"), clip),
    )


def ask_of_number(
    number: int,
    *,
    clip: Answer,
    count: Answer,
    counted: str,
    likely: str,
) -> Question:
    """Ask whether a bare number is a clip or a count, where it can be both.

    `counted` says what the count would do; `likely`, clip or count, is what Enter is.
    """
    other = "count" if likely == "clip" else "clip"
    does = {"clip": clip, "count": count}
    words = {"clip": f"clip {number}", "count": f"{number} counted{counted}"}

    def answer(text: str) -> Said | Question:
        said = text.casefold().split() or [likely]
        if said in ([said[0]], [said[0], str(number)]) and said[0] in does:
            return does[said[0]]()
        raise Refused(
            f"{text[:20]!r} is no answer here: Enter for {words[likely]}, or type “{other}”"
        )

    return Question(
        f"Enter: {likely} {number}; or type “{other} {number}”",
        answer,
        headline=f"{number}: clip {number}, or {number} counted?",
        words=f"Enter: {words[likely]}. For {words[other]} type “{other} {number}”",
        does=f"{likely} {number}",
    )


def ask_of_unknown(clip: str, found: Answer) -> Question:
    """Ask before a typed clip that no record explains becomes an unknown roll."""
    return _one(
        found,
        headline=f"clip {clip}: no record explains it",
        words="Enter keeps an unknown roll on it and boxes it",
        does="keep an unknown roll",
        leave="keep none",
    )


def _one(
    do: Answer,
    *,
    headline: str,
    words: str,
    does: str,
    leave: str,
    others: Mapping[str, Answer] | None = None,
) -> Question:
    """Return a question that Enter alone says yes to; `others` are words that say otherwise."""

    def answer(text: str) -> Said | Question:
        other = (others or {}).get(folded(text))
        if other is not None:
            return other()
        if text.strip():
            raise Refused(f"{text[:20]!r} is no answer here: Enter to {does}, Esc to {leave}")
        return do()

    return Question(
        f"Enter: {does}; esc: {leave}", answer, headline=headline, words=words, does=does
    )
