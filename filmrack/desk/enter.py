"""What Enter does with a roll, in the words that footer, card and answer all say."""

from __future__ import annotations

from typing import TYPE_CHECKING

from filmrack.desk.said import capital
from filmrack.domain.attention import Standing
from filmrack.domain.next_step import Step
from filmrack.domain.student_desk import may

if TYPE_CHECKING:
    from filmrack.desk.session import Session
    from filmrack.desk.view import View

ENTER = {
    "hang": "it hangs",
    "flip": "it is flipped",
    "touch": "say dry or tacky",
    "box": "it is in its box",
    "sleeve": "it is cut and sleeved",
    "contact": "contact sheet made",
    "paper": "say which paper",
    "file": "say which binder",
    "back": "end the loan",
    "found": "it is found",
    "fan": "the dial is turned",
}


def enter_words(step: Step, by: str) -> str:
    """Return what Enter does at a desk of this kind; empty where it does nothing."""
    if step.act is None or not may(by, step.act):
        return ""
    if step.rod is not None:
        return f"hung on rod {step.rod}"
    return ENTER.get(step.act, step.act)


def comes_words(standing: Standing) -> str:
    """Return what comes next for a roll, as sentences without their stop; of what hangs first
    whether it is dry, and what says so: `Dry by touch. To box 1, or with its owner`, `Not dry until
    about 9:41. Wait, flip at 9:20`.
    """
    dry, words = f"{standing.dry_words}{_who_says_dry(standing)}", standing.next.words
    if standing.next.says_when_dry:
        dry = "not dry yet"
    return ". ".join(capital(each) for each in (dry, words, _how_had(standing)) if each)


def _who_says_dry(standing: Standing) -> str:
    """Return whether a finger found dry film so, or only the minutes that it had say it."""
    if standing.outlook is None or standing.state != "dry":
        return ""
    return " by touch" if standing.outlook.course.found_dry is not None else " by the clock"


def _how_had(standing: Standing) -> str:
    """Return how a filed roll is had that nothing is left to do to; empty for any other."""
    filed = standing.roll.place.kind == "binder" and standing.next.act is None
    return "the teacher lends it to whoever wants it" if filed else ""


def how_to_go_on(session: Session, standing: Standing) -> str:
    """Return the word that goes on with a roll which Enter leaves alone; empty where none does.

    What is typed is done by a hand first, so that Enter, pressed twice, must not claim it.
    """
    roll, act = standing.roll, standing.next.act
    if act is None or not may(session.by, act):
        return ""
    if act == "found":
        return "Turned up? Type “found”"
    if act == "back":
        return "Here again? Type “end loan”"
    if act == "contact":
        return "Sheet made? Type “contact”"
    if act != "file":
        return ""
    from filmrack.store.binders import usual_binder  # the first screen shows nothing sleeved

    binder = usual_binder(session.file.conn, roll.term, roll.period)
    return f"In {session.binder(roll.term, binder)}? Type “file {binder}”"


def enter_does(
    view: View, standing: Standing | None, by: str, *, rests: bool, in_hand: bool = False
) -> str:
    """Return the act that Enter on an empty line does, or the screen's own words for it.

    `rests` when Enter leaves the roll alone; `in_hand` when a line holds the roll, which Enter goes
    on with also on a screen that selects none.
    """
    own = view.enter_does()
    if own is not None:
        return own
    shown = standing if (view.shows_card or in_hand) and not rests else None
    act = shown and view.act_of(shown, view.session.file.room())
    return act if act and may(by, "contact" if act == "paper" else act) else ""


def step_words(does: str, words: list[str]) -> str:
    """Return what the footer says of Enter: the act, with what it comes to where that is known."""
    if does == "sleeve" and words:
        return f"{words[0]}, sleeve"
    if does == "contact" and words:
        return f"contact sheet {words[0]}"
    return ENTER.get(does, does)
