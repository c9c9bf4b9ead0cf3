"""Sweeping the dryer: count a rod first, scan only where the count is wrong.

Nothing is boxed that was neither counted nor scanned, and a rod is looked through only when it
was. A sweep can be left and taken up again, here or at another desk. What is in the hand comes
first: film of a closed term goes to its box like any other, and is named.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from filmrack.acts.fetching import put_in_box
from filmrack.acts.group import Group, Hand, one_group
from filmrack.acts.hanging import load_unknown
from filmrack.acts.scans import Scan
from filmrack.domain.attention import Standing
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Detail, Roll
from filmrack.domain.sweep import OpenCount, RodCount
from filmrack.store import ledger, rolls, sweeps
from filmrack.store.file import DarkroomFile
from filmrack.store.lessons import dryers_for
from filmrack.store.open_counts import open_counts
from filmrack.store.unseen import unseen


@dataclass(slots=True)
class Swept:
    """What a step of the sweep did, and how the sweep stands. Rolls are their numbers."""

    sweep: int
    boxed: list[int] = field(default_factory=list)
    wrong_place: list[int] = field(default_factory=list)
    missing: list[int] = field(default_factory=list)
    unknown: list[int] = field(default_factory=list)
    closed_term: list[int] = field(default_factory=list)
    """What went to a box though its term is closed: it is not cut before the term is reopened."""
    no_box: list[int] = field(default_factory=list)
    """What was counted and hangs still, since it has no box of its own."""
    hangs_on: list[int] = field(default_factory=list)
    """What was counted and hangs still, since it is not dry by the clock."""
    no_term: list[int] = field(default_factory=list)
    """Clips with a roll that no record explains and that gets no number while no term is open."""
    rods: dict[int, RodCount] = field(default_factory=dict)
    hanging: dict[int, list[Roll]] = field(default_factory=dict)
    """What hangs still, by rod, of the rods that are swept."""
    open: tuple[OpenCount, ...] = ()
    """Counts that nobody had explained when it was finished."""
    finished: bool = False
    clips: dict[int, int] = field(default_factory=dict)
    """Unknown rolls by the clip on which they were found."""


def sweep(
    file: DarkroomFile,
    hand: Hand,
    *,
    period: int | None = None,
    counts: Mapping[int, int] | None = None,
    scans: Sequence[Scan] = (),
    missing: Sequence[int] = (),
    damp_too: bool = False,
    left: int | None = None,
    finish: bool = False,
) -> Swept:
    """Begin or take up a sweep; tell counts, scans and rolls that are missing by a person's word,
    and a rod that is `left` as it is now; with `finish`, name what is missing by what was told.

    Of a rod whose count is right all that is dry is boxed, each roll in its own period's box; what
    has none is left where it hangs, as is what is damp by the clock unless `damp_too`.

    Raises Refused for a rod that the room has not, a count that cannot be, a roll that is missing
    already, a period that has no rod, and a rod that is left before anything was told of it;
    nothing is done then.
    """
    with one_group(file, hand) as group:
        going = _take_up(group, period)
        swept = Swept(going.id)
        for rod, counted in (counts or {}).items():
            _count(group, swept, rod, counted, damp_too=damp_too)
        for scan in scans:
            _scan(group, swept, scan)
        for number in missing:
            _miss(group, swept, group.roll(number))
        if left is not None:
            _leave(group, swept, left)
        if finish:
            _finish(group, swept)
        group.refold_sweep(swept.sweep)
        group.settle()
        swept.rods = sweeps.counts(group.conn, swept.sweep)
        for rod in _rods(group, going.period):
            swept.hanging[rod] = rolls.on_rod(group.conn, rod)
        return swept


def miss_after(file: DarkroomFile, hand: Hand, number: int, roll: int) -> Roll:
    """Keep that a roll is missing that a finished sweep, of this number, had in a box or on a rod.

    Raises Refused for one that is missing already.
    """
    with one_group(file, hand) as group:
        swept = Swept(number)
        _miss(group, swept, group.roll(roll))
        group.refold_sweep(number)
        group.settle()
        return group.roll(roll)


def _take_up(group: Group, period: int | None) -> sweeps.Sweep:
    """One sweep goes on at a time, at whichever desk; its period is the one it began with."""
    going = sweeps.going_on(group.conn)
    if going is None:
        _rods(group, period)
        going = sweeps.begin(group.conn, group.hand.at, period)
        begun = Detail(sweep=going.id)
        if period is not None:
            begun["period"] = period
        group.append("sweep", None, begun)
    return going


def _rods(group: Group, period: int | None) -> list[int]:
    room = group.room
    chosen = room.rods if period is None else room.rods_of(period)
    if not chosen:
        raise Refused(f"no rod is given to {room.period_word} {period}: sweep the whole dryer")
    return [rod.number for rod in chosen]


def _count(group: Group, swept: Swept, rod: int, counted: int, *, damp_too: bool) -> None:
    group.room.rod_meant(rod)
    if not 0 <= counted <= 999:
        raise Refused(f"nobody can count {counted} rolls on rod {rod}: count them again")
    waiting = [roll for roll in rolls.on_rod(group.conn, rod) if roll.id not in swept.boxed]
    if counted != len(waiting):
        _tell_count(group, swept, rod, len(waiting), counted)
        return
    standings = () if damp_too else _standings(group, waiting)
    damp = [each.roll.id for each in standings if each.state != "dry"]
    known = sweeps.counts(group.conn, swept.sweep).get(rod)
    # What hangs on was counted behind the scans of this rod: with them it is all that was there.
    before = known.matched if damp and known is not None else 0
    whole = counted if known is None else max(counted, min(counted + before, known.expected))
    _tell_count(group, swept, rod, len(waiting), whole)
    swept.hangs_on += damp
    for roll in waiting:
        if roll.id in damp:
            continue
        if group.room.box_for(roll.period, roll.place.rod) is None:
            swept.no_box.append(roll.id)
            continue
        _box(group, swept, roll.id, Detail(sweep=swept.sweep, rod=rod, matched=True))


def _box(group: Group, swept: Swept, number: int, found: Detail, *, box: int | None = None) -> None:
    if group.is_closed(group.roll(number).term):
        swept.closed_term.append(number)
    put_in_box(group, number, box=box, by_count=True, found=found)
    swept.boxed.append(number)


def _miss(group: Group, swept: Swept, roll: Roll) -> None:
    detail = Detail(sweep=swept.sweep)
    rod = roll.place.rod
    if rod is not None:
        detail["rod"] = rod
    group.append("missing", roll.id, detail, at_hand=True)
    swept.missing.append(roll.id)


def _tell_count(group: Group, swept: Swept, rod: int, expected: int, counted: int | None) -> None:
    detail = Detail(sweep=swept.sweep, rod=rod, expected=expected, counted=counted)
    group.append("count", None, detail)
    swept.rods[rod] = RodCount(rod, expected, counted, 0, 0)


def _leave(group: Group, swept: Swept, rod: int) -> None:
    """A rod whose strips were looked at is through, whatever hangs there still."""
    known = sweeps.counts(group.conn, swept.sweep).get(rod, swept.rods.get(rod))
    if known is None:
        raise Refused(f"rod {rod} was neither counted nor scanned: look at what hangs there first")
    told = Detail(sweep=swept.sweep, rod=rod, expected=known.expected, counted=known.counted)
    told["left"] = True
    group.append("count", None, told)


def _scan(group: Group, swept: Swept, scan: Scan) -> None:
    if scan.rod is not None:
        group.room.rod_meant(scan.rod)
    number, roll = scan.roll, None
    if number is None:
        assert scan.clip is not None
        if scan.clip in swept.clips or scan.clip in swept.no_term:  # both tags of a pair
            return
        if not _term_open(group):
            swept.no_term.append(scan.clip)
            return
        number = swept.clips[scan.clip] = load_unknown(group, scan.clip, scan.rod)
        swept.unknown.append(number)
    else:
        roll = group.roll(number)
        if number in swept.boxed or _found_there(group, swept, roll, scan.box):
            return
    rod = scan.rod
    if rod is None and scan.box is None and roll is not None:
        rod = roll.place.rod  # what lay in a box says nothing of the rod it should hang on
    found = Detail(sweep=swept.sweep)
    if rod is not None:
        _begin_scanning(group, swept, rod)
        found["rod"] = rod
        if roll is not None and roll.place.rod == rod:
            found["matched"] = True
    if roll is not None and not _as_recorded(roll, scan):
        swept.wrong_place.append(number)
    _box(group, swept, number, found, box=scan.box)


def _term_open(group: Group) -> bool:
    term = group.room.term_at(group.hand.at)
    return term is not None and not group.is_closed(term.code)


def _found_there(group: Group, swept: Swept, roll: Roll, box: int | None) -> bool:
    """Tell whether this sweep put a roll in its box before: the other tag of its clip, mostly."""
    if roll.place.kind != "box" or box not in (None, roll.place.number):
        return False
    told = ledger.of_sweep(group.conn, swept.sweep)
    return any(entry.act == "box" and entry.roll == roll.id for entry in told)


def _as_recorded(roll: Roll, scan: Scan) -> bool:
    if scan.box is not None:
        return roll.place.kind == "box" and roll.place.number == scan.box
    return roll.place.kind == "rod" and scan.rod in (None, roll.place.number)


def _begin_scanning(group: Group, swept: Swept, rod: int) -> None:
    """A rod that is scanned without a count is expected to hold what the record has there."""
    known = sweeps.counts(group.conn, swept.sweep)
    if rod not in known and rod not in swept.rods:
        _tell_count(group, swept, rod, len(rolls.on_rod(group.conn, rod)), None)


def _standings(group: Group, hung: Sequence[Roll]) -> list[Standing]:
    dryers = dryers_for(group.conn, group.room, hung)
    return [Standing(roll, group.room, dryers, group.hand.at) for roll in hung]


def _finish(group: Group, swept: Swept) -> None:
    """Name what should hang on the rods that were looked through, dry, and was not seen."""
    sweeps.refold(group.conn, swept.sweep)
    told = (*swept.boxed, *swept.missing)  # in this very step, and not written yet
    hung = [roll for roll in rolls.hanging(group.conn) if roll.id not in told]
    hanging = _standings(group, hung)
    given_up = unseen(group.conn, swept.sweep, hanging).missing
    swept.open = open_counts(group.conn, swept.sweep, hanging, given_up)
    for roll in given_up:
        _miss(group, swept, roll)
    end = Detail(sweep=swept.sweep, finished=True)
    if swept.open:
        end["open"] = [[each.rod, each.off] for each in swept.open]
    group.append("sweep", None, end)
    swept.finished = True
