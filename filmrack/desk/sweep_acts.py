"""What is told to a sweep at the desk, and what the desk answers to it."""

from __future__ import annotations

from filmrack.acts import sweeping, undoing
from filmrack.desk.course import Course, Turn
from filmrack.desk.ink import short_name
from filmrack.desk.said import Said
from filmrack.desk.session import Session
from filmrack.domain.asking import parse
from filmrack.domain.codes import read
from filmrack.domain.counted import counted
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.store import people, rolls

UNDO = "undo"
WRONG = "Wrong? Type undo"


def meant(text: str) -> tuple[str, str] | None:
    """Return what a line is to a sweep, as a kind and its value; None if it is not for it.

    Kinds are undo, count, rod, box, number (a count's or a clip's), clip and roll.
    """
    words = text.split()
    folded = [word.casefold() for word in words]
    code = read(text)
    if folded == [UNDO] or (code is not None and (code.kind, code.body) == ("X", "UNDO")):
        return UNDO, ""
    if len(folded) == 2 and folded[0] == "count" and words[1].isascii() and words[1].isdecimal():
        return ("count", words[1]) if len(words[1]) <= 3 else None
    try:
        parts = parse(text)
    except Refused:
        return None
    kinds = [part.kind for part in parts]
    things = ("number", "clip", "roll")
    if len(parts) == 1 and kinds[0] in (*things, "rod", "box"):
        kind = "roll" if kinds[0] == "number" and len(parts[0].value) > 3 else kinds[0]
        return kind, parts[0].value
    if len(parts) == 2 and kinds[0] in things and kinds[1] == "box":
        return "roll", parts[0].value
    return None


def count(session: Session, turn: Turn, counted: int) -> Said:
    """Tell the count of a rod: when it is right, all of it goes to the boxes.

    Raises Refused for more than can hang there: a clip's number was typed, most likely.
    """
    number, hanging = turn.rod.number, len(turn.hanging)
    if counted > 2 * turn.rod.positions:
        raise Refused(
            f"{counted} rolls cannot hang on rod {number}, which has {turn.rod.positions}"
            f" positions: if you mean the clip, type clip {counted}"
        )
    swept = sweeping.sweep(session.file, session.hand(), counts={number: counted})
    if counted != hanging:
        words = f"scan what hangs there, clip by clip. {WRONG}"
        return Said(f"rod {number}: {counted}, not {hanging}", words, done=True)
    if not hanging:
        return Said(f"rod {number}: empty", f"as it should be. {WRONG}", done=True)
    boxed = rolls.by_ids(session.file.conn, swept.boxed)
    numbers = [roll.place.number for roll in boxed]
    most = max(numbers, key=numbers.count)
    others = [
        f"{_which(session, roll)} to box {roll.place.number}"
        for roll in boxed
        if roll.place.number != most
    ]
    words = f"but {', '.join(others)}. {WRONG}" if others else WRONG
    return Said(f"rod {number}: {numbers.count(most)} to box {most}", words, done=True)


def scan(session: Session, course: Course, text: str, *, rod: int | None, box: int | None) -> Said:
    """Box one roll that was scanned, at a rod or, without one, in a box.

    Raises Refused for what is no roll and no clip, and for a roll that has no box.
    """
    parts, words = parse(text), text
    if len(parts) == 2:  # `61 box 4`: for a roll that has no period, and so no box of its own
        words, box = parts[0].value, int(parts[1].value)
        if parts[0].kind == "clip":
            words = f"clip {words}"
    scanned = sweeping.scanned(session.file, words, box=box)
    before = None if scanned.roll is None else rolls.by_id(session.file.conn, scanned.roll)
    hanging = next(
        (s for turn in course.turns for s in turn.hanging if s.roll.id == scanned.roll), None
    )
    on_rod = None if rod is None else _found_on(course, rod, before)
    at = sweeping.Scan(scanned.roll, scanned.clip, on_rod, box)
    swept = sweeping.sweep(session.file, session.hand(), scans=[at])
    if not swept.found:
        assert before is not None
        headline = f"{before.clip or before.number} → {_whose(session, before)}"
        return Said(headline, f"was found before, and is in {before.place}")
    roll = rolls.by_id(session.file.conn, swept.found[0])
    remarks = []
    if swept.unknown:
        remarks.append("no record explains it")
    elif swept.wrong_place and before is not None and not _there(before, on_rod):
        remarks.append(f"found in the wrong place: by the record {before.place}")
    if hanging is not None and hanging.state != "dry":
        remarks.append("not dry by the record: touch both ends")
    headline = f"{roll.clip or roll.number} → {_whose(session, roll)}, {roll.place}"
    return Said(headline, _sentences(remarks), done=True)


def _sentences(remarks: list[str]) -> str:
    return ". ".join([*(remark[:1].upper() + remark[1:] for remark in remarks), WRONG])


def _found_on(course: Course, rod: int, roll: Roll | None) -> int:
    """Return the rod on which a scan was made: the one whose turn it is.

    As long as nothing is told of that one, what is still looked for on a rod that was scanned
    belongs there: the hand was not through with it.
    """
    turn = course.turn(rod)
    if turn is not None and turn.count is None and roll is not None and roll.place.kind == "rod":
        recorded = course.turn(roll.place.number)
        if recorded is not None and recorded.scanning:
            return recorded.rod.number
    return rod


def _there(roll: Roll, rod: int | None) -> bool:
    return roll.place.kind == "rod" and roll.place.number == rod


def undo(session: Session) -> Said:
    """Take back the last act of this desk."""
    undone = undoing.undo(session.file, session.hand())
    many = len(undone.rolls)
    what = f"{counted(many, 'roll')} as before" if many else "the last count"
    return Said("taken back", f"{what}. Again goes one further back", done=True)


def finish(session: Session, course: Course) -> Said:
    """Finish the sweep: what was looked for in vain is missing. Raises Refused if none goes on."""
    if course.number is None:
        raise Refused("nothing was counted or scanned yet: go to a rod and count it")
    swept = sweeping.sweep(session.file, session.hand(), finish=True)
    missing = rolls.by_ids(session.file.conn, swept.missing)
    names = ", ".join(_which(session, roll) for roll in missing[:3])
    more = f" and {len(missing) - 3} more" if len(missing) > 3 else ""
    words = f"missing: {names}{more}" if missing else "nothing is missing"
    headline = f"swept: {len(course.boxed)} to the boxes"
    return Said(headline, f"{words}. {WRONG}", done=True)


def print_slips(session: Session) -> Said:
    """Print a slip for each box of the sweep, to a PDF beside the darkroom file."""
    from filmrack.acts import labelling

    local = session.now.astimezone(session.file.room().timetable.zone)
    out = session.path.with_name(f"sweep-slips-{local:%Y-%m-%d-%H%M}.pdf")
    order = labelling.order(session.file, "sweepslip", [], session.now)
    labelling.print_order(session.file, order, out)
    pages = len(order.pages)
    headline = f"{pages} slip{'s' if pages != 1 else ''} to print"
    return Said(headline, f"{out}: one to lie in each box", done=True)


def _which(session: Session, roll: Roll) -> str:
    what = f"clip {roll.clip}" if roll.clip else roll.number
    return f"{what} ({_whose(session, roll)})"


def _whose(session: Session, roll: Roll) -> str:
    if roll.person is None:
        return "unknown roll"
    return short_name(people.read_people(session.file.conn, [roll.person])[roll.person])
