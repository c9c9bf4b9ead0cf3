"""Strips of a rod that go to their boxes together by a word, and how it is said where they went."""

from __future__ import annotations

from collections.abc import Sequence

from filmrack.acts import scans, sweeping
from filmrack.acts.sweep_boxing import Swept
from filmrack.desk.said import Said
from filmrack.desk.session import Session
from filmrack.desk.sweep.remarks import of_closed_terms, owners_of, sentences
from filmrack.desk.sweep.rod_words import hangs
from filmrack.desk.sweep.turn import Turn
from filmrack.desk.sweep.ways import box_ahead, ways
from filmrack.domain.attention import Standing
from filmrack.domain.clip import clips_of
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.store import rolls


def box_dry(session: Session, turn: Turn) -> Said:
    """Box all that is dry on a rod as if each was scanned, and leave what is wet.

    Raises Refused where nothing wet hangs beside, or nothing dry, and where a count says that not
    all of it is there.
    """
    number = turn.rod.number
    if not turn.hanging:
        raise Refused(f"nothing hangs on rod {number} any more: type “undo” if that is wrong")
    if not turn.not_dry and not turn.right:
        raise Refused(f"all of rod {number} is dry: press Enter, or type how many you count")
    if not turn.dry:
        raise Refused(
            f"nothing on rod {number} is sure to be dry ({turn.not_dry_words}): scan what you take"
            " down"
        )
    _refuse_unclear(turn)
    where, remarks = box_one_by_one(session, turn, turn.dry)
    remarks += [f"{hangs(turn.not_dry)} on ({turn.not_dry_words})"] if turn.not_dry else []
    return Said(f"rod {number}: {where}", sentences(remarks), done=True)


def box_the_rest(session: Session, turn: Turn) -> Said:
    """Box all that hangs on a rod still, dry or not, behind what was told of it.

    Raises Refused where a count says that not all of it is there.
    """
    _refuse_unclear(turn)
    where, remarks = box_one_by_one(session, turn, turn.hanging)
    return Said(
        f"rod {turn.rod.number}: {where}", sentences(remarks + not_dry_remarks(turn)), done=True
    )


def not_dry_remarks(turn: Turn) -> list[str]:
    """Return what is said where all of a rod was boxed and some of it was not dry."""
    return ["boxed though not dry, so it sticks there"] if turn.not_dry else []


def _refuse_unclear(turn: Turn) -> None:
    if turn.unclear:
        raise Refused(
            f"you counted {turn.counted} on rod {turn.rod.number}, and"
            f" {turn.boxed + len(turn.hanging)} should hang, so it is not clear which are there:"
            " scan them one by one, or type which is missing"
        )


def box_one_by_one(
    session: Session, turn: Turn, some: Sequence[Standing], *, missing: Sequence[int] = ()
) -> tuple[str, list[str]]:
    """Box some of what hangs on a rod as if each was scanned, and keep what is missing beside them.

    Return what `told_of_boxes` does.
    """
    room = session.file.room()
    boxes = {each.roll: box_ahead(room, turn.rod, each.roll) for each in some}
    at = [scans.Scan(r.id, r.clip, turn.rod.number, None) for r, box in boxes.items() if box]
    swept = sweeping.sweep(session.file, session.hand(), scans=at, missing=missing)
    kept = [roll for roll, box in boxes.items() if box is None]
    return told_of_boxes(session, swept, kept, own=None)


def told_of_boxes(
    session: Session, swept: Swept, kept: Sequence[Roll], *, own: int | None
) -> tuple[str, list[str]]:
    """Return where most rolls went, as `3 to box 2`, and what else there is to say: who went to
    another box, and what was `kept` for want of one. `own` is the rod's own box, if another is to
    be told apart from it.
    """
    boxed = rolls.by_ids(session.file.conn, swept.boxed)
    pairs: list[tuple[Roll, int | None]] = [(roll, roll.place.number) for roll in boxed]
    pairs += [(roll, None) for roll in kept]
    to = ways(pairs, owners_of(session, (*boxed, *kept)), own=own)
    remarks = [clips_of(boxed)] if boxed else []
    remarks += [f"but {', '.join(to.elsewhere)}"] if to.others else []
    remarks += [to.staying] if to.nowhere else []
    where = f"{to.many} {to.most}" if boxed else "none boxed"
    return where, remarks + of_closed_terms(session, swept)
