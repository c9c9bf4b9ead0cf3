"""What a sweep asks before it does what would be costly if it was not meant."""

from __future__ import annotations

from collections.abc import Callable

from filmrack.desk.question import Question
from filmrack.desk.said import Said, capital
from filmrack.desk.sweep.rod_words import count_does, hangs, without_strays
from filmrack.desk.sweep.turn import Turn
from filmrack.domain.attention import Standing
from filmrack.domain.clip import clips_of
from filmrack.domain.names import folded
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll

OnAnswer = Callable[[], Said | Question]
"""What an answer does; it can lead to another question."""


def ask_of_not_dry(turn: Turn, tell: OnAnswer) -> Question:
    """Ask before film is boxed that is not known to be dry."""
    many = len(turn.hanging)
    them = "it" if many == 1 else "them"
    hang = f"{hangs(many)} here{without_strays(turn)}"
    return _one(
        tell,
        headline=f"rod {turn.rod.number}: {hang}, {turn.not_dry_words}",
        words=f"film that is not dry sticks in its box: Esc leaves {them} hanging",
        does=f"box {them} all the same",
        leave="leave the rod as it is",
    )


def ask_of_rest(
    turn: Turn,
    tell: OnAnswer,
    *,
    recount: Callable[[int], Said | Question],
    clip: OnAnswer | None = None,
) -> Question:
    """Ask before a count boxes what is left on a rod that is being scanned, and name it.

    What a hand counted before a scan may be one more than it means: another number goes to
    `recount`. `clip` takes the number for a clip instead, if somebody says so.
    """
    many = len(turn.hanging)
    does, hang = (
        ("box it", "does this one hang") if many == 1 else ("box them", f"do these {many} hang")
    )
    does = count_does(turn) if turn.not_dry else does
    clips = capital(clips_of(each.roll for each in turn.hanging))
    or_clip = f". For clip {many} type “clip {many}”" if clip else ""

    def other(said: str) -> Said | Question | None:
        if clip is not None and said in ("clip", f"clip {many}"):
            return clip()
        number = said.removeprefix("count ")
        if not number.isascii() or not number.isdecimal():
            return None
        return tell() if int(number) == many else recount(int(number))

    return _one(
        tell,
        headline=f"rod {turn.rod.number}: {hang} here still{without_strays(turn)}?",
        words=f"{clips}. Enter {does.replace('box', 'boxes', 1)}. Not so? Type how many do, or"
        f" press Esc and scan them{or_clip}",
        does=does,
        leave="box nothing",
        other=other,
    )


def ask_of_number(
    number: int,
    *,
    clip: OnAnswer,
    count: OnAnswer,
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
            f"“{text[:20]}” is no answer here: Enter for {words[likely]}, or type “{other}”"
        )

    return Question(
        f"Enter: {likely} {number}; or type “{other} {number}”",
        answer,
        headline=f"{number}: clip {number}, or {number} counted?",
        words=f"Enter: {words[likely]}. For {words[other]} type “{other} {number}”",
        does=f"{likely} {number}",
    )


def ask_of_wet(
    whose: str,
    wet: Standing,
    box: OnAnswer,
    *,
    here: int | None,
    other: Callable[[str], Said | Question | None],
) -> Question:
    """Ask before film goes to its box by a scan that is wet by the clock; what is scanned or typed
    next is taken for itself, by `other`. `here` is the rod where a hand has it.
    """
    roll = wet.roll
    noted = f"It is noted {roll.place.as_noted}. " if not roll.place.is_rod(here) else ""
    return _one(
        box,
        headline=f"{whose}: wet by the clock",
        words=f"{noted}Enter boxes it all the same, and it sticks there; Esc leaves it hanging",
        does="box it all the same",
        leave="leave it hanging",
        left=Said(whose, "hangs on"),
        other=other,
    )


def ask_of_missing(whose: str, roll: Roll, rod: int, miss: OnAnswer) -> Question:
    """Ask before a roll is missing that is not of the rod in hand: a count may have been meant."""
    return _one(
        miss,
        headline=f"{whose}: not on rod {rod}",
        words=f"It is noted {roll.place.as_noted}. Enter: it is missing all the same; Esc leaves it"
        " so",
        does="say that it is missing",
        leave="leave it so",
        left=Said(whose, "stays where it is noted"),
    )


def ask_of_unknown(clip: str, found: OnAnswer) -> Question:
    """Ask before a typed clip that no record explains becomes an unknown roll."""
    return _one(
        found,
        headline=f"clip {clip}: no record explains it",
        words=f"Enter keeps an unknown roll on it and boxes it. Wet? “{clip} wet”: it hangs on",
        does="keep an unknown roll",
        leave="keep none",
    )


def _one(
    do: OnAnswer,
    *,
    headline: str,
    words: str,
    does: str,
    leave: str,
    left: Said | None = None,
    other: Callable[[str], Said | Question | None] | None = None,
) -> Question:
    """Return a question that Enter alone says yes to; `other` takes words that say otherwise, and
    returns None for those that do not.
    """

    def answer(text: str) -> Said | Question:
        if not text.strip():
            return do()
        said = None if other is None else other(folded(text))
        if said is None:
            raise Refused(f"“{text[:20]}” is no answer here: Enter to {does}, Esc to {leave}")
        return said

    return Question(
        f"Enter: {does}; Esc: {leave}",
        answer,
        headline=headline,
        words=words,
        does=does,
        left=left,
    )
