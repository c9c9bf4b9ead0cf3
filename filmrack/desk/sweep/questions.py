"""What a sweep asks before it does what would be costly if it was not meant."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from filmrack.desk.question import Question
from filmrack.desk.said import Said, capital
from filmrack.desk.sweep.course import Turn
from filmrack.desk.sweep.numbers import count_words, without
from filmrack.desk.sweep.ways import hangs
from filmrack.domain.clip import clips_of
from filmrack.domain.names import folded
from filmrack.domain.refusal import Refused

Answer = Callable[[], Said | Question]
"""What an answer does; it can lead to another question."""


def ask_of_damp(turn: Turn, tell: Answer) -> Question:
    """Ask before film is boxed that is not known to be dry."""
    many = len(turn.hanging)
    them = "it" if many == 1 else "them"
    return _one(
        tell,
        headline=f"rod {turn.rod.number}: {hangs(many)} here{without(turn)}, {turn.damp}",
        words=f"damp film sticks in its box: esc leaves {them} hanging",
        does=f"box {them} all the same",
        leave="leave the rod as it is",
    )


def ask_of_rest(turn: Turn, tell: Answer, clip: Answer | None = None) -> Question:
    """Ask before a count boxes what is left on a rod that is being scanned, and name it.

    What a hand counted before a scan may be one more than it means. `clip` takes the number for a
    clip instead, if somebody says so.
    """
    many = len(turn.hanging)
    does, hang = (
        ("box it", "does this one hang") if many == 1 else ("box them", f"do these {many} hang")
    )
    does = count_words(turn) if turn.not_dry else does
    clips = capital(clips_of(each.roll for each in turn.hanging))
    or_clip = f". For clip {many} type “clip {many}”" if clip else ""
    return _one(
        tell,
        headline=f"rod {turn.rod.number}: {hang} here still{without(turn)}?",
        words=f"{clips}. Enter {does.replace('box', 'boxes', 1)}. If one is not there press Esc,"
        f" and scan the others{or_clip}",
        does=does,
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
