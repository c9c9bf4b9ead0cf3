"""What a sweep sees hanging and leaves there: film that is scanned where the question is what hangs
on a rod, and that is not dry; film that was hung and not told, for the record has it in the tank;
and what a finger finds wet there that no record explains.
"""

from __future__ import annotations

from filmrack.acts.drying import assume_the_fan
from filmrack.acts.group import Group
from filmrack.acts.hanging import load_unknown
from filmrack.acts.placing import choose
from filmrack.acts.scans import Scan
from filmrack.acts.sweep_boxing import Swept
from filmrack.domain.roll import Detail


def see_roll(group: Group, swept: Swept, scan: Scan) -> None:
    """Keep that a roll hangs on a rod and stays there; one from another rod or from anywhere else
    hangs there from now, and so does an unknown roll on a clip that no record explains.

    Raises Refused for a rod that the room has not, RodFull where one from elsewhere has no free
    position, and for an unknown roll while no term is open.
    """
    assert scan.rod is not None
    group.room.rod_meant(scan.rod)
    if scan.roll is None:
        _hang_unknown(group, swept, scan)
        return
    roll = group.roll(scan.roll)
    seen = Detail(sweep=swept.sweep, rod=scan.rod)
    hung = roll.place.kind == "rod"
    if roll.place.is_rod(scan.rod):
        group.append("seen", roll.id, seen, at_hand=True)
        return
    place = choose(group, roll, scan.rod, None)
    seen["position"] = place.position
    if scan.wet and not hung:
        seen["tacky"] = True
    group.append("move" if hung else "hang", roll.id, seen, at_hand=True)
    dryer_of = group.room.dryer_of
    if roll.place.rod is None or dryer_of(roll.place.rod) != dryer_of(scan.rod):
        # Another dryer has a fan of its own.
        swept.dial_hours = assume_the_fan(group, scan.rod) or swept.dial_hours
    swept.wrong_place.append(roll.id)
    swept.strayed[roll.id] = scan.rod


def _hang_unknown(group: Group, swept: Swept, scan: Scan) -> None:
    assert scan.clip is not None
    number = load_unknown(group, scan.clip, scan.rod)
    place = choose(group, group.roll(number), scan.rod, None)
    found = Detail(sweep=swept.sweep, rod=place.rod, position=place.position)
    if scan.wet:
        found["tacky"] = True
    group.append("hang", number, found)
    swept.unknown.append(number)
