"""What a sweep sees hanging and leaves there: film that is scanned where the question is what hangs
on a rod, and that is not dry.
"""

from __future__ import annotations

from filmrack.acts.drying import assume_the_fan
from filmrack.acts.group import Group
from filmrack.acts.placing import choose
from filmrack.acts.scans import Scan
from filmrack.acts.sweep_boxing import Swept
from filmrack.domain.roll import Detail


def see_roll(group: Group, swept: Swept, scan: Scan) -> None:
    """Keep that a roll hangs on a rod and stays there; one from another rod hangs there from now.

    Raises Refused for a rod that the room has not, and RodFull where one from another rod has no
    free position.
    """
    assert scan.roll is not None
    assert scan.rod is not None
    group.room.rod_meant(scan.rod)
    roll = group.roll(scan.roll)
    seen = Detail(sweep=swept.sweep, rod=scan.rod)
    if roll.place.is_rod(scan.rod):
        group.append("seen", roll.id, seen, at_hand=True)
        return
    place = choose(group, roll, scan.rod, None)
    seen["position"] = place.position
    group.append("move", roll.id, seen, at_hand=True)
    dryer_of = group.room.dryer_of
    if roll.place.number is None or dryer_of(roll.place.number) != dryer_of(scan.rod):
        assume_the_fan(group, scan.rod)  # another dryer has a fan of its own
    swept.wrong_place.append(roll.id)
