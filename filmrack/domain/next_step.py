"""The one next step of a roll, in words: what follows from where it is and what was done to it."""

from collections.abc import Callable
from datetime import datetime
from typing import TYPE_CHECKING, NamedTuple

from filmrack.domain.clock import clock
from filmrack.domain.outlook import Outlook
from filmrack.domain.roll import Roll
from filmrack.domain.room import Room

if TYPE_CHECKING:  # only film in the tank needs a place
    from filmrack.domain.places import Places


class Step(NamedTuple):
    """The next step of a roll: `act` is what Enter does (None: wait), `words` say it.

    `rod` is where to hang it; `says_when_dry` when the words say when it is likely dry.
    """

    act: str | None
    words: str
    rod: int | None = None
    says_when_dry: bool = False


def next_step(
    roll: Roll,
    room: Room,
    drying: Outlook | None,
    taken: "Callable[[], Places]",
    now: datetime,
) -> Step:
    """Return the one next step of a roll: `drying` is how it dries, where it hangs, and `taken`
    returns the places on the rods that are not free.
    """

    def at(moment: datetime) -> str:
        return clock(moment, room.timetable.zone, now)

    if drying is not None:
        return _on_the_rod(roll, room, drying, at)
    match roll.place.kind:
        case "tank":
            from filmrack.domain.places import best_place

            best = best_place(room, roll, taken())
            if best is None:
                return Step("hang", "hang it: every rod is full")
            return Step("hang", f"hang on rod {best.rod}", rod=best.rod)
        case "box" | "owner":
            return Step("sleeve", "cut and sleeve")
        case "sleeve" if not roll.sheets:
            return Step("contact", "make its contact sheet")
        case "sleeve":
            return Step("file", "file in its binder")
        case "binder" if not roll.sheets:
            return Step("contact", "make its contact sheet")
        case "binder" if room.in_last_week(roll.term, now):
            return Step(None, "hand it back, or keep it")
        case "out" if roll.loan is not None:
            from filmrack.domain.loans import next_words

            return Step("back", next_words(roll, room, now))
        case "missing":
            return Step("found", f"look for it: last seen {at(roll.seen_at)}, {roll.seen}")
        case _:
            return Step(None, "nothing more to do")


def _on_the_rod(roll: Roll, room: Room, drying: Outlook, at: Callable[[datetime], str]) -> Step:
    if drying.state == "flip":
        return Step("flip", "flip it now, end for end")
    if drying.state == "touch":
        return Step("touch", "probably dry: touch both ends, edge only, clean dry finger")
    if drying.state == "dry":
        box = room.box_of(roll.period)
        return Step("box", f"to box {box.number}, or with its owner" if box else "with its owner")
    if drying.flip_at is not None and not roll.flipped:
        return Step(None, f"wait, flip at {at(drying.flip_at)}")
    if drying.likely_at is not None:
        return Step(None, f"wait, likely dry at {at(drying.likely_at)}", says_when_dry=True)
    if drying.course.past_telling:
        return Step(None, "touch it again later, or leave it on the rod overnight")
    return Step("fan", "turn the dial again, for the fan stops before it is dry")
