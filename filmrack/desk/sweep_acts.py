"""What is told to a sweep at the desk, and what the desk answers to it."""

from __future__ import annotations

from collections.abc import Sequence

from filmrack.acts import lending, scans, sweeping, undoing
from filmrack.desk.said import WRONG, Said, capital, headline
from filmrack.desk.session import Session
from filmrack.desk.sweep_course import SweepCourse, Turn
from filmrack.desk.sweep_lines import meant
from filmrack.desk.sweep_numbers import most
from filmrack.desk.sweep_ways import box_ahead, ways, which
from filmrack.domain.clip import clips_of
from filmrack.domain.counted import counted, listed
from filmrack.domain.names import Person
from filmrack.domain.outlook import how_damp
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.domain.student_desk import refuse_roll
from filmrack.store import people, rolls, sweeps
from filmrack.store.findings import findings


def count(session: Session, turn: Turn, counted: int) -> Said:
    """Tell the count of a rod: when it is what hangs there still, all of it goes to the boxes.

    A rod that is being scanned may be counted whole too: what hangs there still hangs on then.
    Raises Refused for more than can hang there: a clip's number was typed, most likely.
    """
    number, hanging = turn.rod.number, len(turn.hanging)
    if counted > most(turn.rod):
        raise Refused(
            f"{counted} rolls cannot hang on rod {number}, which has {turn.rod.positions}"
            f" positions: if you mean the clip, type clip {counted}"
        )
    swept = sweeping.sweep(session.file, session.hand(), counts={number: counted})
    if counted != hanging and turn.scanning and counted == turn.expected:
        stay = "hangs" if hanging == 1 else "hang"
        words = f"{turn.boxed} boxed, {hanging} {stay} on: “count {hanging}” boxes"
        words = f"{words} {'it' if hanging == 1 else 'them'} too" if hanging else "all is boxed"
        return Said(f"rod {number}: {counted} is right", f"{words}. {WRONG}", done=True)
    if counted != hanging and counted == hanging + turn.scanned:
        them = "it" if hanging == 1 else "them"
        words = (
            f"{turn.scanned} boxed. Scan what hangs there still, or “count {hanging}” boxes {them}"
        )
        return Said(f"rod {number}: {counted} counted", f"{words}. {WRONG}", done=True)
    if counted != hanging:
        whole = f"{counted}, not {hanging + turn.scanned}"
        words = f"scan what hangs there, clip by clip. {WRONG}"
        if not counted:
            gone, them = ("this one is", "it") if hanging == 1 else (f"these {hanging} are", "them")
            words = f"{gone} missing when you finish, unless you find and scan {them}. {WRONG}"
        return Said(f"rod {number}: {whole}", words, done=True)
    if not hanging:
        return Said(f"rod {number}: empty", f"as it should be. {WRONG}", done=True)
    boxed = rolls.by_ids(session.file.conn, swept.boxed)
    kept = rolls.by_ids(session.file.conn, swept.no_box)
    pairs = [(roll, roll.place.number) for roll in boxed] + [(roll, None) for roll in kept]
    owners = _owners(session, (*boxed, *kept))
    room = session.file.room()
    own = room.box_of(turn.rod.period)
    to = ways(pairs, owners, own=own.number if own else None)
    remarks = [clips_of(boxed)] if boxed else []
    remarks += [f"but {', '.join(to.elsewhere)}"] if to.others else []
    remarks += [to.staying] if to.nowhere else []
    remarks += _of_closed_terms(session, swept)
    what = f"rod {number}: {to.many} {to.most}" if boxed else f"rod {number}: none boxed"
    return Said(what, _sentences(remarks), done=True)


def leave(session: Session, rod: int) -> None:
    """Keep that a hand is through with a rod, whatever hangs there still."""
    sweeping.sweep(session.file, session.hand(), left=rod)


def box_dry(session: Session, turn: Turn) -> Said:
    """Box all that is dry on a rod as if each was scanned, and leave what is wet.

    Raises Refused where nothing wet hangs beside, or nothing dry, and where a count says that not
    all of it is there.
    """
    number, room = turn.rod.number, session.file.room()
    if turn.right or not turn.hanging:
        raise Refused(f"nothing hangs on rod {number} any more: type “undo” if that is wrong")
    if not turn.not_dry:
        raise Refused(f"all of rod {number} is dry: press Enter, or type how many you count")
    boxes = {each.roll: box_ahead(room, turn.rod, each.roll) for each in turn.dry}
    if not boxes:
        raise Refused(
            f"nothing on rod {number} is sure to be dry ({turn.damp}): scan what you take down"
        )
    told = turn.count.counted if turn.count else None
    if told is not None and told - turn.boxed != len(turn.hanging):
        raise Refused(
            f"you counted {told} on rod {number}, and {turn.boxed + len(turn.hanging)} should hang,"
            " so it is not clear which are there: scan them one by one"
        )
    at = [scans.Scan(each.id, each.clip, number, None) for each, box in boxes.items() if box]
    swept = sweeping.sweep(session.file, session.hand(), scans=at)
    boxed = rolls.by_ids(session.file.conn, swept.boxed)
    pairs: list[tuple[Roll, int | None]] = [(roll, roll.place.number) for roll in boxed]
    pairs += [(each, None) for each, box in boxes.items() if box is None]
    to = ways(pairs, _owners(session, [roll for roll, _ in pairs]), own=None)
    hangs = "hangs" if turn.not_dry == 1 else "hang"
    remarks = [clips_of(boxed), f"{turn.damp} {hangs} on"]
    remarks += [f"{', '.join(to.elsewhere)}"] if to.others else []
    remarks += [to.staying] if to.nowhere else []
    remarks += _of_closed_terms(session, swept)
    return Said(f"rod {number}: {to.many} {to.most}", _sentences(remarks), done=True)


def scan(
    session: Session, course: SweepCourse, text: str, *, rod: int | None, box: int | None
) -> Said:
    """Box one roll that was scanned, at a rod or, without one, in a box.

    Raises Refused for what is no roll and no clip, for a roll that has no box, and on a helper's
    desk for one in the archive.
    """
    line, words = meant(text), text
    if line is not None and line.box is not None:  # `61 box 4`: for a roll without a box of its own
        words, box = line.value, line.box
    scanned = scans.scanned(session.file, words, box=box)
    before = None if scanned.roll is None else rolls.by_id(session.file.conn, scanned.roll)
    if before is not None:
        refuse_roll(session.by, before)
    hanging = next(
        (s for turn in course.turns for s in turn.hanging if s.roll.id == scanned.roll), None
    )
    on_rod = None if rod is None else _found_on(course, rod, before)
    at = scans.Scan(scanned.roll, scanned.clip, on_rod, box)
    swept = sweeping.sweep(session.file, session.hand(), scans=[at])
    if swept.no_term:
        words = "no record explains it, and no term is open to number it in: put it aside, open the"
        return Said(f"clip {scanned.clip}", f"{words} next term, and scan it again")
    if not swept.found:
        assert before is not None
        return Said(_headline(session, before), f"was found before, and is in {before.place}")
    roll = rolls.by_id(session.file.conn, swept.found[0])
    remarks = []
    if swept.unknown:
        remarks.append("no record explains it")
    elif swept.wrong_place and before is not None and not before.place.is_rod(on_rod):
        remarks.append(f"found in the wrong place: noted at {before.place}")
    if hanging is not None and hanging.state != "dry":
        back = f" and type “{roll.clip} tacky”" if roll.clip else ""
        remarks.append(f"{how_damp(hanging.state)}: touch both ends. If tacky, hang it again{back}")
    remarks += _of_closed_terms(session, swept)
    return Said(f"{_headline(session, roll)}, {roll.place}", _sentences(remarks), done=True)


def _sentences(remarks: list[str]) -> str:
    return ". ".join([*map(capital, remarks), WRONG])


def _of_closed_terms(session: Session, swept: sweeping.Swept) -> list[str]:
    some = rolls.by_ids(session.file.conn, swept.closed_term)
    if not some:
        return []
    owners = _owners(session, some)
    listed = ", ".join(which(roll, owners) for roll in some)
    codes = sorted({roll.term for roll in some})
    closed = (
        f"term {codes[0]}, which is" if len(codes) == 1 else f"terms {', '.join(codes)}, which are"
    )
    verb = "is" if len(some) == 1 else "are"
    return [f"{listed} {verb} of {closed} closed: reopen it before you cut and sleeve"]


def _found_on(course: SweepCourse, rod: int, roll: Roll | None) -> int:
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


def undo(session: Session, course: SweepCourse) -> Said:
    """Take back the last act of this desk."""
    undone = undoing.undo(session.file, session.hand())
    many = len(undone.rolls)
    what = f"{counted(many, 'roll')} as before" if many else "the last count"
    counts = sweeps.counts(session.file.conn, course.number or 0)
    for turn in course.turns:
        now = counts.get(turn.rod.number)
        if turn.count is not None and turn.count.left and now is not None and not now.left:
            what = f"rod {turn.rod.number} is not through"
    what = listed(undone.settings, 2) or what
    return Said("taken back", f"{what}. Again goes one further back", done=True)


def finish(session: Session, course: SweepCourse) -> Said:
    """Finish the sweep: what was looked for in vain is missing. Raises Refused if none goes on."""
    if course.number is None:
        raise Refused("nothing was counted or scanned yet: go to a rod and count it")
    swept = sweeping.sweep(session.file, session.hand(), finish=True)
    missing = findings(session.file.conn, swept.sweep).missing
    owners = _owners(session, missing)
    names = listed([which(roll, owners) for roll in missing], 3)
    words = f"missing: {names}" if missing else "nothing is missing"
    return Said(f"swept: {len(course.boxed)} to the boxes", f"{words}. {WRONG}", done=True)


def which_is_missing(session: Session, turn: Turn | None, words: str) -> Roll:
    """Return the roll that is said to be missing; without words, the one that is looked for.

    Raises Refused for what is no roll, and where it is not one alone that is looked for.
    """
    if words:
        scanned = scans.scanned(session.file, words)
        if scanned.roll is None:
            raise Refused(f"clip {scanned.clip} is on no roll, so nothing is missing with it")
        roll = rolls.by_id(session.file.conn, scanned.roll)
        refuse_roll(session.by, roll)
        return roll
    looked_for = turn.unseen if turn is not None and turn.scanning else ()
    if len(looked_for) != 1:
        raise Refused(
            "which roll is missing is not said: type its clip, as in “6 missing”, or count what"
            " hangs and scan it, and the rest is missing when you finish"
        )
    return looked_for[0].roll


def miss(session: Session, course: SweepCourse, roll: Roll) -> Said:
    """Keep that a roll is missing: by the sweep, if that had it in hand or passed it.

    Raises Refused for one that is so already.
    """
    if not course.finished:
        sweeping.sweep(session.file, session.hand(), missing=[roll.id])
    elif course.number is not None and roll.place.kind in ("rod", "box"):
        sweeping.miss_after(session.file, session.hand(), course.number, roll.id)
    else:
        lending.missing(session.file, session.hand(), [roll.id])
    now = rolls.by_id(session.file.conn, roll.id)
    words = f"missing, last seen {now.seen}. {WRONG}"
    return Said(_headline(session, roll), words, done=True)


def look_up(session: Session, text: str) -> Said:
    """Say whose a clip or roll is and where, after the sweep; Enter does nothing to it here.

    Raises Refused for what is no clip and no roll.
    """
    scanned = scans.scanned(session.file, text)
    if scanned.roll is None:
        return Said(f"clip {scanned.clip}", "it is on no roll")
    roll = rolls.by_id(session.file.conn, scanned.roll)
    refuse_roll(session.by, roll)
    seen = f", last seen {roll.seen}" if roll.place.kind == "missing" else ""
    return Said(_headline(session, roll), f"{roll.place}{seen}")


def print_slips(session: Session) -> Said:
    """Print a slip for each box of the sweep, to a new PDF where all prints go.

    Raises Refused where the sweep boxed nothing and nothing is missing.
    """
    from filmrack.acts import labelling
    from filmrack.acts.new_files import free_name
    from filmrack.desk.press import print_folder

    local = session.now.astimezone(session.file.room().timetable.zone)
    out = free_name(print_folder(session), f"sweep-slips-{local:%Y-%m-%d-%H%M}")
    order = labelling.order(session.file, "sweepslip", [], session.now)
    labelling.print_order(session.file, order, out)
    words = f"{out}: print it, one to lie in each box, with what is missing from it"
    return Said(f"{counted(len(order.pages), 'slip')} saved as a PDF", words)


def _headline(session: Session, roll: Roll) -> str:
    return headline(roll, session.owner(roll))


def _owners(session: Session, some: Sequence[Roll]) -> dict[int, Person]:
    return people.read_people(session.file.conn, (roll.person for roll in some if roll.person))
