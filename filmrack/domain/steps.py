"""What each act does to the state of a roll, once the journey has found it possible.

Every step takes the state before and the entry, and returns the state after; none looks at a
clock or refuses anything.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime

from filmrack.domain.roll import ContactSheet, Entry, Loan, Place, Roll, Stay, TouchCheck


def _come_to(roll: Roll, place: Place, at: datetime) -> Roll:
    """Return the roll at a place, seen there; what hung hangs no longer."""
    return _unhung(roll, at)._replace(place=place, since=at, seen=place, seen_at=at)


def _unhung(roll: Roll, at: datetime) -> Roll:
    if not roll.stays or roll.stays[-1].until is not None:
        return roll
    return roll._replace(stays=(*roll.stays[:-1], roll.stays[-1]._replace(until=at)))


def _found_dry(roll: Roll, entry: Entry) -> Roll:
    """A single roll taken down by hand counts as found dry; a rod boxed by count does not.

    Of a roll that was found dry before it says nothing new: one finger counts once.
    """
    if roll.place.kind != "rod" or entry.detail.get("by_count") or entry.assumed:
        return roll
    if roll.checks and roll.checks[-1].dry:
        return roll
    return roll._replace(checks=(*roll.checks, TouchCheck(entry.happened, True, entry.act)))


def _hang(roll: Roll, entry: Entry) -> Roll:
    detail, at = entry.detail, entry.happened
    place = Place("rod", detail["rod"], detail["position"])
    checks = roll.checks
    if detail.get("tacky"):
        # Put back as tacky: the hand that took it down found it not dry after all.
        if checks and checks[-1].source in ("box", "take"):
            at_check, checks = checks[-1].at, checks[:-1]
        else:
            at_check = roll.stays[-1].until or at if roll.stays else at
        checks = (*checks, TouchCheck(at_check, False, "hang"))
    clip = detail.get("clip", roll.clip)
    stay = Stay(detail["rod"], at, None, roll.flipped)
    return _come_to(roll, place, at)._replace(
        clip=clip,
        hung_at=(roll.hung_at or at) if detail.get("tacky") else at,
        stays=(*roll.stays, stay),
        checks=checks,
        sent=detail.get("sent", False),
    )


def _flip(roll: Roll, entry: Entry) -> Roll:
    last = roll.stays[-1]
    turned = Stay(last.rod, entry.happened, None, not last.flipped)
    return _unhung(roll, entry.happened)._replace(
        stays=(*roll.stays[:-1], last._replace(until=entry.happened), turned),
        seen_at=entry.happened,
    )


def _touch(roll: Roll, entry: Entry) -> Roll:
    check = TouchCheck(entry.happened, entry.detail["dry"])
    return roll._replace(checks=(*roll.checks, check), seen_at=entry.happened)


def _move(roll: Roll, entry: Entry) -> Roll:
    detail, at, last = entry.detail, entry.happened, roll.stays[-1]
    place = Place("rod", detail["rod"], detail["position"])
    stay = Stay(detail["rod"], at, None, last.flipped)
    return _come_to(roll, place, at)._replace(
        clip=detail.get("clip", roll.clip),
        stays=(*roll.stays[:-1], last._replace(until=at), stay),
        sent=detail.get("sent", False),
    )


def _seen(roll: Roll, entry: Entry) -> Roll:
    return roll._replace(seen=roll.place, seen_at=entry.happened)


def _box(roll: Roll, entry: Entry) -> Roll:
    boxed = _found_dry(roll, entry)
    return _come_to(boxed, Place("box", entry.detail["box"]), entry.happened)


def _take(roll: Roll, entry: Entry) -> Roll:
    return _come_to(_found_dry(roll, entry), Place("owner"), entry.happened)


def _sleeve(roll: Roll, entry: Entry) -> Roll:
    """The clip pair comes off with the cut."""
    detail = entry.detail
    return _come_to(roll, Place("sleeve"), entry.happened)._replace(
        clip=None,
        sleeved_at=entry.happened,
        frames=detail.get("frames", roll.frames),
        page_name=detail["page_name"],
        pages=tuple(tuple(page) for page in detail["pages"]),
    )


def _contact(roll: Roll, entry: Entry) -> Roll:
    detail = entry.detail
    sheet = ContactSheet(entry.happened, detail["paper"], tuple(detail.get("picks", ())))
    return roll._replace(sheets=(*roll.sheets, sheet))


def _picks(roll: Roll, entry: Entry) -> Roll:
    """The frames are chosen on the sheet that was made last, beside those chosen before."""
    *others, last = roll.sheets
    picks = tuple(sorted({*last.picks, *entry.detail["picks"]}))
    return roll._replace(sheets=(*others, last._replace(picks=picks)))


def _unpick(roll: Roll, entry: Entry) -> Roll:
    """The frames are chosen no longer, on whichever of its sheets they were."""
    wrong = set(entry.detail["picks"])
    left = (
        sheet._replace(picks=tuple(frame for frame in sheet.picks if frame not in wrong))
        for sheet in roll.sheets
    )
    return roll._replace(sheets=tuple(left))


def _file(roll: Roll, entry: Entry) -> Roll:
    binder = entry.detail["binder"]
    filed = _come_to(roll, Place("binder", binder), entry.happened)
    return filed._replace(filed_at=entry.happened, binder=binder, loan=None)


def _lend(roll: Roll, entry: Entry) -> Roll:
    detail = entry.detail
    loan = Loan(entry.happened, detail["until"], detail.get("person"), detail.get("note"))
    return _come_to(roll, Place("out"), entry.happened)._replace(loan=loan)


def _back(roll: Roll, entry: Entry) -> Roll:
    place = Place("sleeve") if roll.binder is None else Place("binder", roll.binder)
    return _come_to(roll, place, entry.happened)._replace(loan=None)


def _missing(roll: Roll, entry: Entry) -> Roll:
    """A roll that is missing already can still lose its clip to another."""
    gone = roll
    if roll.place.kind != "missing":
        gone = _unhung(roll, entry.happened)._replace(
            place=Place("missing"), since=entry.happened, loan=None
        )
    return gone._replace(clip=None) if entry.detail.get("gave_up") == "clip" else gone


def _unclip(roll: Roll, _: Entry) -> Roll:
    return roll._replace(clip=None)


def _reclip(roll: Roll, entry: Entry) -> Roll:
    return roll._replace(clip=entry.detail["clip"])


def _found(roll: Roll, entry: Entry) -> Roll:
    if roll.sleeved_at is not None:
        return _come_to(roll, Place("sleeve"), entry.happened)
    if "position" in entry.detail:
        rod = entry.detail["rod"]
        hung = _come_to(roll, Place("rod", rod, entry.detail["position"]), entry.happened)
        stay = Stay(rod, entry.happened, None, roll.flipped)
        return hung._replace(stays=(*roll.stays, stay))
    box = entry.detail.get("box")
    place = Place("owner") if box is None else Place("box", box)
    return _come_to(roll, place, entry.happened)


def _release(roll: Roll, entry: Entry) -> Roll:
    back = _come_to(roll, Place("handed_back"), entry.happened)
    return back._replace(clip=None, loan=None)


def _discard(roll: Roll, entry: Entry) -> Roll:
    gone = _come_to(roll, Place("discarded"), entry.happened)
    return gone._replace(clip=None, loan=None)


def _claim(roll: Roll, entry: Entry) -> Roll:
    detail = entry.detail
    return roll._replace(person=detail["person"], period=detail.get("period", roll.period))


def _note(roll: Roll, _: Entry) -> Roll:
    return roll


STEPS: dict[str, Callable[[Roll, Entry], Roll]] = {
    "hang": _hang,
    "flip": _flip,
    "touch": _touch,
    "move": _move,
    "seen": _seen,
    "box": _box,
    "take": _take,
    "sleeve": _sleeve,
    "contact": _contact,
    "picks": _picks,
    "unpick": _unpick,
    "file": _file,
    "lend": _lend,
    "back": _back,
    "missing": _missing,
    "unclip": _unclip,
    "reclip": _reclip,
    "found": _found,
    "release": _release,
    "discard": _discard,
    "claim": _claim,
    "swap": _claim,
    "note": _note,
}
"""The step of each act; what begins a roll has none."""
