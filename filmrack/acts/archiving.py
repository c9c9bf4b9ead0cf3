"""From box to binder: cutting and sleeving, contact sheets, filing."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from filmrack.acts.group import Hand, one_group, settled
from filmrack.domain.binder import refuse_other_binders
from filmrack.domain.contact import paper_named
from filmrack.domain.counted import frames_words
from filmrack.domain.cutting import Cut, cut_of
from filmrack.domain.picks import refuse_picks, refuse_unpicked
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Detail, Roll
from filmrack.domain.room import Binder
from filmrack.store import labelling
from filmrack.store.binders import know_binder
from filmrack.store.file import DarkroomFile


class Sleeved(NamedTuple):
    """A roll that is cut now and how, and how many labels wait with its own."""

    roll: Roll
    cut: Cut
    waiting: int


def sleeve(
    file: DarkroomFile,
    hand: Hand,
    number: int,
    page_name: str | None = None,
    frames: int | None = None,
) -> Sleeved:
    """Cut and sleeve a roll: its clip pair is free then, and its labels are queued.

    Without a page it is the one that the room uses for such film. `frames` counts the pictures on
    it, where they are not what the film says. Raises Refused when the roll is not where it can be
    cut, or has more frames than its film can.
    """
    with one_group(file, hand) as group:
        cut = cut_of(group.roll(number).film, group.room.materials, page_name, frames)
        detail = Detail(page_name=cut.page.name, pages=cut.strips, frames=cut.frames)
        group.append("sleeve", number, detail)
        labelling.queue_sleeves(group.conn, number, len(cut.sleeves), hand.at)
        sleeved = settled(group, [number])[0]
        return Sleeved(sleeved, cut, len(labelling.queued_sleeves(group.conn)))


def contact(
    file: DarkroomFile,
    hand: Hand,
    number: int,
    paper: str | None = None,
    picks: Sequence[int] = (),
) -> Roll:
    """Keep that a contact sheet was made, on which paper, and the frames picked on it.

    Without a paper it is the one that the room uses. Raises Refused before the roll is sleeved, for
    an unknown paper, and for frames it has not.
    """
    with one_group(file, hand) as group:
        materials = group.room.materials
        named = paper_named(paper or materials.paper, materials.more_papers)
        roll = group.roll(number)
        refuse_picks(roll, picks)
        group.append("contact", number, Detail(paper=named.name, picks=sorted(set(picks))))
        return settled(group, [number])[0]


def picks(file: DarkroomFile, hand: Hand, number: int, frames: Sequence[int]) -> Roll:
    """Keep frames that were picked on the last contact sheet of a roll, beside those it has.

    Raises Refused before a sheet was made, without a frame, for frames the roll has not, and where
    all of them are picked already.
    """
    with one_group(file, hand) as group:
        roll = group.roll(number)
        if not frames:
            raise Refused("which frames were picked is not said: write them as 4, 11")
        refuse_picks(roll, frames)
        new = sorted(set(frames) - set(roll.sheets[-1].picks if roll.sheets else ()))
        if not new:
            told = frames_words(sorted(set(frames)))
            raise Refused(f"{roll.number} has {told} picked already: pick others")
        group.append("picks", number, Detail(picks=new))
        return settled(group, [number])[0]


def unpick(file: DarkroomFile, hand: Hand, number: int, frames: Sequence[int]) -> Roll:
    """Keep that frames are picked no longer on any contact sheet of a roll.

    Raises Refused before a sheet was made, without a frame, and unless all of them are picked.
    """
    with one_group(file, hand) as group:
        roll = group.roll(number)
        refuse_unpicked(roll, frames)
        group.append("unpick", number, Detail(picks=sorted(set(frames))))
        return settled(group, [number])[0]


def file_in_binder(
    file: DarkroomFile, hand: Hand, numbers: Sequence[int], binder: int
) -> list[Roll]:
    """File sleeves in a binder of their term; its first roll says for which period it is made.

    Raises Refused for a roll that is not sleeved yet, and for a number that no binder has: none is
    filed then.
    """
    refuse_other_binders(binder)
    with one_group(file, hand) as group:
        for number in numbers:
            roll = group.roll(number)
            know_binder(group.conn, Binder(roll.term, binder, roll.period))
            group.append("file", number, Detail(binder=binder))
        return settled(group, numbers)
