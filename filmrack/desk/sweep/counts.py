"""What a count of a rod does, and what the desk answers to it."""

from __future__ import annotations

from filmrack.acts import sweeping
from filmrack.acts.sweep_boxing import Swept
from filmrack.desk.said import WRONG, Said
from filmrack.desk.session import Session
from filmrack.desk.sweep.boxing import not_dry_remarks, told_of_boxes
from filmrack.desk.sweep.numbers import most
from filmrack.desk.sweep.remarks import sentences
from filmrack.desk.sweep.rod_words import hangs
from filmrack.desk.sweep.turn import Turn
from filmrack.domain.refusal import Refused
from filmrack.store import rolls


def count(session: Session, turn: Turn, counted: int, *, not_dry_too: bool = False) -> Said:
    """Tell the count of a rod: when it is what hangs there still, all that is dry goes to the
    boxes, and with `not_dry_too` the rest too.

    A rod that is being scanned may be counted whole too: what hangs there still hangs on then.
    Raises Refused for more than can hang there: a clip's number was typed, most likely.
    """
    number = turn.rod.number
    if counted > most(turn.rod):
        raise Refused(
            f"{counted} rolls cannot hang on rod {number}, which has {turn.rod.positions}"
            f" positions: if you mean the clip, type “clip {counted}”"
        )
    swept = sweeping.sweep(
        session.file, session.hand(), counts={number: counted}, not_dry_too=not_dry_too
    )
    if counted != len(turn.hanging):
        what, words = _with_what_was_scanned(turn, counted) or _wrong(turn, counted)
        return Said(f"rod {number}: {what}", f"{words}. {WRONG}", done=True)
    if not turn.hanging:
        return Said(f"rod {number}: empty", f"as it should be. {WRONG}", done=True)
    return _right(session, turn, swept)


def _right(session: Session, turn: Turn, swept: Swept) -> Said:
    """Say where all went that was counted, and what of it hangs on."""
    rod, own = turn.rod.number, session.file.room().box_of(turn.rod.period)
    kept = rolls.by_ids(session.file.conn, swept.no_box)
    where, remarks = told_of_boxes(session, swept, kept, own=own.number if own else None)
    if not swept.hangs_on:
        return Said(f"rod {rod}: {where}", sentences(remarks + not_dry_remarks(turn)), done=True)
    on = f"{hangs(len(swept.hangs_on))} on ({turn.not_dry_words})"
    many = len(turn.hanging)
    hung = f"rod {rod}: {hangs(many)}, as {'it' if many == 1 else 'they'} should"
    return Said(hung, sentences([f"{where}, {on}", *remarks]), done=True)


def _with_what_was_scanned(turn: Turn, counted: int) -> tuple[str, str] | None:
    """Say what a count is that agrees with what was scanned before and hangs still together; None
    for one that does not.
    """
    still = len(turn.hanging)
    them = "it" if still == 1 else "them"
    if turn.scanning and counted == turn.expected:
        on = f"{turn.boxed} boxed, {hangs(still)} on: “box all” boxes {them} too"
        return f"{counted} is right", on if still else "all is boxed"
    if counted == still + turn.boxed:
        more = f"Scan what hangs there still, or “count {still}” boxes {them}"
        return f"{counted} counted", f"{turn.boxed} boxed. {more}"
    return None


def _wrong(turn: Turn, counted: int) -> tuple[str, str]:
    """Say what to do where another number hangs than should."""
    still = len(turn.hanging)
    # A hand counts what hangs there still; more than that is a count of all that hung.
    expected = still if counted <= still else still + turn.scanned
    what = f"{counted} counted, {expected} should hang"
    if counted:
        return what, _to_find(turn, expected - counted)
    gone, them = ("this one is", "it") if still == 1 else (f"these {still} are", "them")
    return what, f"{gone} missing when you finish, unless you find and scan {them}"


def _to_find(turn: Turn, short: int) -> str:
    """Return what to do where a count is wrong, by so many too few."""
    if short < 0 and not turn.hanging:
        return f"scan {'the clip that hangs' if short == -1 else f'the {-short} that hang'} there"
    if short < 0:
        some = "clip that is" if short == -1 else f"{-short} clips that are"
        return f"scan the {some} not listed here, the others need no scan"
    if not short:
        return "scan what hangs there, clip by clip"
    which, each = ("Which is", "") if short == 1 else (f"Which {short} are", " for each")
    words = f"{which} not there? Type “NN missing”{each}, or scan those that hang"
    return f"{words}. Is one there but still wet? “NN wet”" if turn.dry else words
