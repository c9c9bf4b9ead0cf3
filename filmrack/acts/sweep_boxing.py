"""What a sweep boxes: what a right count says hangs on a rod, and what is scanned one by one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from filmrack.acts.fetching import put_in_box
from filmrack.acts.group import Group
from filmrack.acts.hanging import load_unknown
from filmrack.acts.scans import Scan
from filmrack.domain.attention import Standing
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Detail, Roll
from filmrack.domain.sweep import OpenCount, RodCount
from filmrack.store import ledger, rolls, sweeps
from filmrack.store.lessons import dryers_for
from filmrack.store.unseen import hung_by


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
    strayed: dict[int, int] = field(default_factory=dict)
    """The rods of what hangs from this very step on where the record had it not, by roll."""
    dial_hours: float | None = None
    """When the dial is to be turned for what hangs from now on, and assumed to be; in hours."""
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


def count_rod(group: Group, swept: Swept, rod: int, counted: int, *, not_dry_too: bool) -> None:
    """Tell a count; where it is right, box what is dry, and with `not_dry_too` the rest.

    Raises Refused for a rod that the room has not and a count that cannot be.
    """
    group.room.rod_meant(rod)
    if not 0 <= counted <= 999:
        raise Refused(f"nobody can count {counted} rolls on rod {rod}: count them again")
    waiting = [roll for roll in rolls.on_rod(group.conn, rod) if roll.id not in swept.boxed]
    _tell_count(group, swept, rod, waiting, counted)
    if counted != len(waiting):
        return
    standings = () if not_dry_too else standings_of(group, waiting)
    not_dry = [each.roll.id for each in standings if each.state != "dry"]
    swept.hangs_on += not_dry
    for roll in waiting:
        if roll.id in not_dry:
            continue
        if group.room.box_for(roll.period, roll.place.rod) is None:
            swept.no_box.append(roll.id)
            continue
        _box(group, swept, roll.id, Detail(sweep=swept.sweep, rod=rod, matched=True))


def _tell_count(
    group: Group, swept: Swept, rod: int, waiting: Sequence[Roll], counted: int
) -> None:
    """Keep a count of a rod where `waiting` hangs still by the record.

    Behind scans a hand counts what hangs there still. It is kept as a count of all that hung there
    when the rod's turn came: with what was found there since, and without what was hung there
    since. More than hangs there still is such a count already. `agreed` tells whether it is right,
    counted the one way or the other.
    """
    known = sweeps.counts(group.conn, swept.sweep).get(rod)
    detail = Detail(sweep=swept.sweep, rod=rod, expected=len(waiting), counted=counted)
    if known is not None:
        still = len(hung_by(waiting, sweeps.turns(group.conn, swept.sweep)[rod]))
        hung_since, found = len(waiting) - still, known.matched + known.extra
        if counted <= len(waiting):
            detail["counted"] = max(0, counted - hung_since) + found
        if not counted and waiting:
            detail["empty"] = True
        all_its_own = not known.extra and counted == known.expected == found + still
        detail["agreed"] = counted == len(waiting) or all_its_own
    _keep_count(group, swept, detail)


def _box(group: Group, swept: Swept, number: int, found: Detail, *, box: int | None = None) -> None:
    if group.is_closed(group.roll(number).term):
        swept.closed_term.append(number)
    put_in_box(group, number, box=box, by_count=True, found=found)
    swept.boxed.append(number)


def scan_roll(group: Group, swept: Swept, scan: Scan) -> None:
    """Box what was scanned, wherever the record has it; what no record explains is an unknown roll.

    What this sweep has boxed before is left alone, for a clip has two tags and both get scanned.
    Raises Refused for a rod that the room has not.
    """
    if scan.rod is not None:
        group.room.rod_meant(scan.rod)
    roll = None if scan.roll is None else group.roll(scan.roll)
    if roll is None:
        number = _unknown(group, swept, scan)
        if number is None:
            return
    else:
        number = roll.id
        if number in swept.boxed or _found_before(group, swept, roll, scan.box):
            return
    rod = _rod_of(scan, roll)
    found = Detail(sweep=swept.sweep)
    if rod is not None:
        _begin_scanning(group, swept, rod)
        found["rod"] = rod
        if roll is not None and roll.place.rod == rod:
            found["matched"] = True
    if roll is not None and not _as_recorded(roll, scan):
        swept.wrong_place.append(number)
    _box(group, swept, number, found, box=scan.box)


def _rod_of(scan: Scan, roll: Roll | None) -> int | None:
    """Return the rod that a scan tells of: the one that was said, else where the roll hangs by the
    record. What lies in a box tells of no rod.
    """
    if scan.rod is not None or scan.box is not None or roll is None:
        return scan.rod
    return roll.place.rod


def _unknown(group: Group, swept: Swept, scan: Scan) -> int | None:
    """Keep an unknown roll on a clip that no record explains; None for one that was scanned before,
    and while no term is open to number it in.
    """
    assert scan.clip is not None
    if scan.clip in swept.clips or scan.clip in swept.no_term:
        return None
    if not _term_open(group):
        swept.no_term.append(scan.clip)
        return None
    number = swept.clips[scan.clip] = load_unknown(group, scan.clip, scan.rod)
    swept.unknown.append(number)
    return number


def _term_open(group: Group) -> bool:
    term = group.room.term_at(group.hand.at)
    return term is not None and not group.is_closed(term.code)


def _found_before(group: Group, swept: Swept, roll: Roll, box: int | None) -> bool:
    """Tell whether this sweep put a roll in its box in a step before."""
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
        expected = len(rolls.on_rod(group.conn, rod))
        expected += sum(strayed == rod for strayed in swept.strayed.values())
        _keep_count(
            group, swept, Detail(sweep=swept.sweep, rod=rod, expected=expected, counted=None)
        )


def standings_of(group: Group, hung: Sequence[Roll]) -> list[Standing]:
    """Return how rolls stand at the moment of the step."""
    dryers = dryers_for(group.conn, group.room, hung)
    return [Standing(roll, group.room, dryers, group.hand.at) for roll in hung]


def _keep_count(group: Group, swept: Swept, detail: Detail) -> None:
    group.append("count", None, detail)
    rod, expected, counted = detail["rod"], detail["expected"], detail["counted"]
    swept.rods[rod] = RodCount(rod, expected, counted, 0, 0)
