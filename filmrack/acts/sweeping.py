"""Sweeping the dryer: count a rod first, scan only where the count is wrong.

Nothing is boxed that was neither counted nor scanned, and a rod is looked through only when it
was. A sweep can be left and taken up again, here or at another desk. What is in the hand comes
first: film of a closed term goes to its box like any other, and is named.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from filmrack.acts.group import Group, Hand, one_group
from filmrack.acts.scans import Scan
from filmrack.acts.sweep_boxing import Swept, count_rod, scan_roll, standings_of
from filmrack.acts.sweep_seeing import see_roll
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Detail, Roll
from filmrack.store import rolls, sweeps
from filmrack.store.file import DarkroomFile
from filmrack.store.open_counts import open_counts
from filmrack.store.unseen import unseen


def sweep(
    file: DarkroomFile,
    hand: Hand,
    *,
    period: int | None = None,
    counts: Mapping[int, int] | None = None,
    scans: Sequence[Scan] = (),
    hangs_on: Sequence[Scan] = (),
    missing: Sequence[int] = (),
    not_dry_too: bool = False,
    left: int | None = None,
    finish: bool = False,
) -> Swept:
    """Begin a sweep, or take up the one that goes on, and keep what a hand tells of it.

    - `period`: of a sweep that begins, whose rods it goes over; else it goes over all of them.
    - `counts`: by rod, how many hang there. Where that is right, all that is dry by the clock is
      boxed, each roll in its own period's box, and with `not_dry_too` what is not. What has
      no box of its own hangs on.
    - `scans`: what goes to its box one by one.
    - `hangs_on`: what was scanned on a rod and stays there, since it is not dry or was hung and not
      told; on a clip that no record explains an unknown roll.
    - `missing`: rolls that are missing by a person's word.
    - `left`: a rod where a hand is through, whatever hangs there still.
    - `finish`: it is over, and what was looked for in vain is missing.

    Raises Refused for a rod that the room has not, a count that cannot be, a roll that is missing
    already, a period that has no rod, and a rod that is left before anything was told of it;
    nothing is done then.
    """
    with one_group(file, hand) as group:
        going = _take_up(group, period)
        swept = Swept(going.id)
        for rod, counted in (counts or {}).items():
            count_rod(group, swept, rod, counted, not_dry_too=not_dry_too)
        for scan in hangs_on:  # first, so that it is expected on a rod whose turn comes now
            see_roll(group, swept, scan)
        for scan in scans:
            scan_roll(group, swept, scan)
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


def _miss(group: Group, swept: Swept, roll: Roll) -> None:
    detail = Detail(sweep=swept.sweep)
    rod = roll.place.rod
    if rod is not None:
        detail["rod"] = rod
    group.append("missing", roll.id, detail, at_hand=True)
    swept.missing.append(roll.id)


def _leave(group: Group, swept: Swept, rod: int) -> None:
    """Keep that a hand is through with a rod: its last count once more, which now says `left`.

    Raises Refused for a rod of which nothing was told.
    """
    known = sweeps.counts(group.conn, swept.sweep).get(rod, swept.rods.get(rod))
    if known is None:
        raise Refused(f"rod {rod} was neither counted nor scanned: look at what hangs there first")
    told = Detail(sweep=swept.sweep, rod=rod, expected=known.expected, counted=known.counted)
    told["left"] = True
    if known.agreed is not None:
        told["agreed"] = known.agreed
    group.append("count", None, told)


def _finish(group: Group, swept: Swept) -> None:
    """Name what should hang on the rods that were looked through, dry, and was not seen."""
    sweeps.refold(group.conn, swept.sweep)
    told = (*swept.boxed, *swept.missing)  # in this very step, and not written yet
    hung = [roll for roll in rolls.hanging(group.conn) if roll.id not in told]
    hanging = standings_of(group, hung)
    given_up = unseen(group.conn, swept.sweep, hanging).missing
    swept.open = open_counts(group.conn, swept.sweep, hanging, given_up)
    for roll in given_up:
        _miss(group, swept, roll)
    end = Detail(sweep=swept.sweep, finished=True)
    if swept.open:
        end["open"] = [[each.rod, each.off] for each in swept.open]
    group.append("sweep", None, end)
    swept.finished = True
