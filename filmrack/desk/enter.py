"""What Enter does with a roll, in the words that footer, card and answer all say."""

from __future__ import annotations

from filmrack.domain.attention import Step
from filmrack.domain.student_desk import may

ENTER = {
    "hang": "it hangs",
    "flip": "it is flipped",
    "touch": "say dry or tacky",
    "box": "it is in its box",
    "sleeve": "it is cut and sleeved",
    "contact": "contact sheet made",
    "file": "say which binder",
    "back": "it is back",
    "found": "it is found",
    "fan": "the dial is turned",
}


def enter_words(step: Step, by: str) -> str:
    """Return what Enter does at a desk of this kind; empty where it does nothing."""
    if step.act is None or not may(by, step.act):
        return ""
    if step.act == "hang" and step.words.startswith("hang on"):
        return step.words.replace("hang", "hung", 1)
    return ENTER.get(step.act, step.act)
