"""What an answer is about: the rod or the box that was shown when the sweep asked."""

from __future__ import annotations

from collections.abc import Callable
from typing import ParamSpec

from filmrack.desk.question import Question
from filmrack.desk.said import Said
from filmrack.desk.sweep.place import SweepPlace

_Answer = ParamSpec("_Answer")


def as_asked(
    place: SweepPlace, do: Callable[_Answer, Said | Question]
) -> Callable[_Answer, Said | Question]:
    """Return what an answer does to what is shown now, where the question is asked.

    It does nothing where another rod or box is shown by the time of the answer, or where another
    desk has changed what is told of this one.
    """
    asked = place.shown

    def answer(*args: _Answer.args, **kwargs: _Answer.kwargs) -> Said | Question:
        now = place.shown
        if (now.rod, now.box) != (asked.rod, asked.box):
            return Said("nothing done", "another rod is shown now: go back and say it again")
        if now != asked:
            return changed_elsewhere(place)
        return do(*args, **kwargs)

    return answer


def changed_elsewhere(place: SweepPlace) -> Said:
    """Return what is said instead of an act where another desk has changed what it is about."""
    what = "the sweep" if place.rod is None else f"rod {place.rod}"
    return Said(what, "another desk changed it just now: look once more")
