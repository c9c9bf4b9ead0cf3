"""Several clips in one line: the scans of one rod or box, done together or not at all."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from filmrack.acts import scans, sweeping
from filmrack.acts.sweep_boxing import Swept
from filmrack.desk.said import Said, dial
from filmrack.desk.session import Session
from filmrack.desk.sweep.boxing import told_of_boxes
from filmrack.desk.sweep.course import SweepCourse
from filmrack.desk.sweep.remarks import owners_of, sentences
from filmrack.desk.sweep.rod_words import hangs
from filmrack.desk.sweep.scans import astray, found_on, one_not_dry
from filmrack.desk.sweep.ways import which
from filmrack.domain.clip import clips_of
from filmrack.domain.counted import listed
from filmrack.domain.outlook import how_not_dry
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.domain.student_desk import refuse_roll
from filmrack.store import rolls

_NAMED = 6


class _Line(NamedTuple):
    """What the clips of a line are, and whatever speaks against taking them together."""

    boxed: dict[int, tuple[Roll, scans.Scan]]
    seen: dict[int, tuple[Roll, scans.Scan]]
    to_touch: list[Roll]
    doubts: dict[str, list[str]]
    """What has to be asked of some, with the clips that it is asked of."""

    @property
    def all(self) -> dict[int, tuple[Roll, scans.Scan]]:
        """Return what is taken of it, by the rolls' numbers."""
        return {**self.boxed, **self.seen}

    @property
    def rods(self) -> set[int]:
        """Return the rods on which its clips were found so far."""
        return {scan.rod for _, scan in self.all.values() if scan.rod is not None}


def scan_several(
    session: Session, course: SweepCourse, rod_of: Mapping[str, int | None], *, box: int | None
) -> Said:
    """Box the clips of a line, each found on its rod or all in a box, in one act; where a count did
    not agree, what is not dry is seen and hangs on, and so does what was hung and not told.

    Raises Refused, with nothing done, where one of them alone would be asked about or refused.
    """
    line = _read(session, course, rod_of, box=box)
    if line.doubts:
        why = "; ".join(f"{why}: {listed(clips, _NAMED)}" for why, clips in line.doubts.items())
        raise Refused(
            f"nothing was done with these {len(rod_of)}, for of some it has to be asked ({why}):"
            " type those one by one, and the others in one line"
        )
    swept = sweeping.sweep(
        session.file,
        session.hand(),
        scans=[scan for _, scan in line.boxed.values()],
        hangs_on=[scan for _, scan in line.seen.values()],
    )
    return _told(session, line, swept, box=box)


def _read(
    session: Session, course: SweepCourse, rod_of: Mapping[str, int | None], *, box: int | None
) -> _Line:
    line, room = _Line({}, {}, [], {}), session.file.room()
    for clip, rod in rod_of.items():
        scanned = scans.scanned(session.file, clip, box=box)
        if scanned.roll is None:
            line.doubts.setdefault("on no roll", []).append(f"clip {clip}")
            continue
        roll = rolls.by_id(session.file.conn, scanned.roll)
        refuse_roll(session.by, roll)
        on = rod if rod is None or rod in line.rods else found_on(course, rod, roll)
        scan = scanned._replace(rod=on)
        not_dry = None if box is not None else one_not_dry(session, clip)
        turn, whose = course.turn(on), which(roll, owners_of(session, [roll]))
        asks = not_dry is not None and turn is not None and turn.asks_what_hangs
        if asks or (roll.last_in_tank and box is None):
            line.seen[roll.id] = roll, scan
        elif not_dry is not None and not_dry.state == "wet":
            line.doubts.setdefault(how_not_dry(not_dry.state), []).append(whose)
        elif box is None and room.box_for(roll.period, roll.place.rod) is None:
            line.doubts.setdefault(f"no box of its own, “{clip} box 4”", []).append(whose)
        else:
            line.boxed[roll.id] = roll, scan
            line.to_touch.extend([roll] if not_dry is not None else [])
    return line


def _told(session: Session, line: _Line, swept: Swept, *, box: int | None) -> Said:
    """Say where all of a line went, what of it hangs on, and what was noted wrongly."""
    where, remarks = told_of_boxes(session, swept, (), own=None)
    owners = owners_of(session, [roll for roll, _ in line.all.values()])
    again = [roll for number, (roll, _) in line.boxed.items() if number not in swept.boxed]
    if again:
        remarks.append(f"{clips_of(again)} {'was' if len(again) == 1 else 'were'} found before")
    for number in swept.wrong_place:
        was, scan = line.all[number]
        now = rolls.by_id(session.file.conn, number)
        remarks.append(f"{which(was, owners)} {astray(was, now, rod=scan.rod, box=box)}")
    if line.seen:
        kept = clips_of(roll for roll, _ in line.seen.values())
        remarks.append(f"not dry, so left hanging: {kept}{dial(swept.dial_hours)}")
    if line.to_touch:
        tacky = next((f": “{roll.clip} tacky”" for roll in line.to_touch if roll.clip), "")
        remarks.append(
            f"{clips_of(line.to_touch)} {how_not_dry('touch')}: touch both ends. If tacky, hang it"
            f" again and type so{tacky}"
        )
    on = f", {hangs(len(line.seen))} on" if line.seen else ""
    rods = ", ".join(f"rod {rod}" for rod in sorted(line.rods))
    place = f"box {box}" if box is not None else rods
    return Said(f"{place}: {where}{on}", sentences(remarks), done=True)
