"""Words that answers have in common: what was let go, what can follow, what something costs."""

from __future__ import annotations

from datetime import datetime

from filmrack.desk.enter import comes_words, enter_words, how_to_go_on
from filmrack.desk.halves import Half
from filmrack.desk.said import Said
from filmrack.desk.session import Session
from filmrack.domain.attention import Standing
from filmrack.domain.clock import clock
from filmrack.domain.names import Person, folded
from filmrack.domain.outlook import how_not_dry
from filmrack.domain.roll import Roll
from filmrack.domain.student_desk import may

HANGS_ALREADY = "hangs already. Elsewhere: type its rod, as “rod 3”. A new roll: “load”, name, clip"

NOT_TAKEN_BACK = ("sleeve",)
"""Next steps that no undo takes back in the world: film that is cut stays cut."""

NOT_BY_LOOKING = ("back",)
"""Next steps that Enter does not do to a roll which was but looked at: it is lent, so whoever names
it mostly asks who has it. Its sleeve that is scanned is in the hand.
"""


def nothing_done_to(first: Half | None, instead: Half) -> str:
    """Return that a second clip cancels the first; empty where there was none."""
    if first is None or not first.clip_meant:
        return ""
    if instead.clip_meant == first.clip_meant:
        return ""
    return f"nothing was done to {clip_of(first)}. Now {clip_of(instead)}: "


def not_loaded(person: Person) -> str:
    """Return that nothing came of a load."""
    return f"{person.short}'s roll was not loaded"


def clip_of(half: Half) -> str:
    """Return the clip or the roll that is meant, as people say it."""
    meant = half.clip_meant
    return f"clip {meant}" if len(meant) <= 3 else meant


def what_can_follow(session: Session, roll: Roll, *, rests: bool = False) -> str:
    """Return what Enter does with a roll, and the words that can follow it where it is.

    `rests` when Enter leaves it alone.
    """
    closed = session.closed_words(roll)
    if closed:
        return closed
    standing = session.standing(roll)
    does, comes = enter_words(standing.next, session.by), comes_words(standing)
    if rests and does and standing.next.act == "sleeve":
        taken = "Taken along? Type “take”. " if roll.place.kind == "box" else ""
        return f"{taken}Is it cut and sleeved? Type “sleeve”"
    does = "" if rests else does
    type_ = f"Enter: {does}. Or type" if does else "Type"
    match roll.place.kind:
        case "rod":
            by_enter = standing.next.act if does else None
            left = [w for w in ("flip", "dry", "tacky", "take", "box") if w != by_enter]
            return f"{comes}. {type_} {', '.join(f'“{word}”' for word in left)}"
        case "box":
            return f"{type_} “take” if you take it along, or “tacky” if it sticks: it hangs again"
        case "owner":
            boxes = "“box” if it is in its box again, or " if may(session.by, "box") else ""
            return f"{type_} {boxes}“tacky” if it sticks: it hangs again"
        case "tank":
            return f"{type_} its rod"
        case _:
            if does:
                return f"Enter: {does}"
            filed = comes if roll.place.kind == "binder" else ""
            return (rests and how_to_go_on(session, standing)) or filed or "nothing more to do"


def where(session: Session, roll: Roll) -> str:
    """Return where a roll is; of a missing one where it was seen last, at a teacher's desk of a
    lent one who has it, and until when.
    """
    if roll.place.kind == "missing":
        return f"missing, last seen {roll.seen}"
    if roll.place.kind != "out" or session.by != "teacher":
        return str(roll.place)
    from filmrack.desk.archive.lending_words import (
        lent_words,  # few rolls that are looked for are lent
    )

    return lent_words(session, roll)


def comes_next(session: Session, roll: Roll) -> str:
    """Return what comes next for a roll that hangs, and when, as the end of a sentence."""
    standing = session.standing(roll)
    return "" if standing.outlook is None else f": {standing.next.words}"


def come_back(session: Session, roll: Roll) -> str:
    """Return what comes next for a roll that is not dry yet, and when that is likely, as the end of
    a sentence.
    """
    words, standing = comes_next(session, roll), session.standing(roll)
    likely = None if standing.outlook is None else standing.outlook.likely_at
    if likely is None or standing.next.says_when_dry:
        return words
    return f"{words}, likely dry at {_clock(session, likely)}"


def found_words(session: Session, before: Roll, there: Roll) -> str:
    """Return where a roll is that turned up, and how to say otherwise of film that hung."""
    named, hung = there.clip or there.number, before.seen
    if there.place.kind == "rod":
        felt = there.checks[-1:]
        how = how_not_dry(session.standing(there).state)
        if felt and not felt[0].dry:
            how = "not dry to a finger"
        taken = "" if there.place == hung else f", for {hung} is taken"
        return (
            f"found, {how}, so it hangs again on {there.place}{taken}. In its box?"
            f" Type “{named} box”. On another rod? “{named} rod {_another(session, there)}”"
        )
    if there.place.kind == "box" and hung.rod is not None:
        return (
            f"found, dry by the record, so it goes to {there.place}. Is it still hanging? Type"
            f" “{named} rod {hung.rod}”"
        )
    return f"found, {there.place}"


def _another(session: Session, there: Roll) -> int:
    """Return the number of another rod than a roll hangs on, as an example."""
    rods = [rod.number for rod in session.file.room().rods if not there.place.is_rod(rod.number)]
    return rods[0] if rods else 3


def not_dry(session: Session, roll: Roll) -> str:
    """Return what to heed when a hanging roll is taken down, as the end of a sentence."""
    state = session.standing(roll).state
    if state in (None, "dry"):
        return ""
    how, last = how_not_dry(state), roll.checks[-1:]
    named = roll.clip or roll.number
    if last and not last[0].dry:
        felt = f"not dry to a finger at {_clock(session, last[0].at)}"
        return f", {felt}: let it dry before it is cut; back on a rod, type “{named} hang”"
    return f", {how}: if it is tacky, type “{named} tacky”"


def _clock(session: Session, moment: datetime) -> str:
    return clock(moment, session.file.room().timetable.zone, session.now)


def left_alone(session: Session, standing: Standing, then: str) -> Said | None:
    """Return why Enter leaves a roll alone, where a typed word goes on with it; else None. `then`
    is how another one is come to.
    """
    words = how_to_go_on(session, standing)
    if not words:
        return None
    whom, then = session.headline(standing.roll), f". {then}" if then else ""
    return Said(whom, f"Enter leaves it as it is. {words}{then}", about=standing.roll.id)


def hung_again(roll: Roll, whose: str) -> str:
    """Return what to ask before a roll hangs that is in no tank: its clip may carry another."""
    then = "Enter: that one hangs again. A new roll: type whose it is"
    return f"{_noted_on_it(roll, whose)}. {then}"


def cost_of_clip(roll: Roll, whose: str, person: Person, free: str, by: str) -> str:
    """Return what it costs to give a clip that is in use to another roll of a person; `free` ends
    it with clips that cost nothing. Where the wrong name was told of that very roll, it costs
    nothing to claim it, at a desk that may.
    """
    theirs, lost = f"{person.short}'s", f"{whose}'s roll"
    if roll.person is None:
        lost = "the unknown roll"
    elif roll.person == person.number:
        theirs, lost = f"a new roll of {theirs}", "that one"
    else:
        at_hand = roll.place.kind in ("tank", "rod", "box")
        if at_hand and may(by, "claim"):
            free += f". Is that very roll {theirs}? “{roll.clip} claim {folded(person.given)}”"
    return (
        f"{_noted_on_it(roll, whose)}. Enter: clip {roll.clip} is {theirs}, and {lost}"
        f" {without_clip(roll)}. Or scan another clip{free}"
    )


def reclipped(roll: Roll, other: Roll, whose: str, does: str) -> str:
    """Return the question whether a roll is on a clip that another one has by the record."""
    theirs = without_clip(other) if other.place.kind == "owner" else f"is on clip {roll.clip} then"
    return f"{_noted_on_it(other, whose)}. Enter: {does}; that roll {theirs}. Esc leaves both"


def wrong_clip(roll: Roll) -> str:
    """Return how another clip is said of a roll, as the end of a sentence."""
    return f"Wrong clip? Type “{roll.clip} clip” and the right one"


def whose_new(roll: Roll, whose: str) -> Said:
    """Return the question whose new roll a clip carries that has one by the record."""
    words = f"{_noted_on_it(roll, whose)}, which then {without_clip(roll)}. Type or scan whose"
    return Said(f"Whose new roll is on clip {roll.clip}?", f"{words}; Esc leaves all as it is")


def _noted_on_it(roll: Roll, whose: str) -> str:
    theirs = f"{whose}'s roll" if roll.person is not None else "an unknown roll"
    return f"clip {roll.clip} is noted on {theirs} {roll.number} ({roll.place})"


def without_clip(roll: Roll) -> str:
    """Return what becomes of a roll whose clip carries another."""
    if roll.place.kind == "owner":
        return "stays with its owner, without a clip"
    return "stays missing, without a clip" if roll.place.kind == "missing" else "is marked missing"
