"""Which labels are wanted, read from the darkroom file."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from datetime import datetime
from typing import NamedTuple

from filmrack.acts.inscriptions import dated, owners_initials, period_title, sleeve_codes
from filmrack.domain.asking import code_in
from filmrack.domain.binder import HIGHEST_BINDER
from filmrack.domain.clip import HIGHEST_CLIP
from filmrack.domain.codes import TERM
from filmrack.domain.ranges import numbers_in
from filmrack.domain.refusal import Refused
from filmrack.domain.room import HIGHEST_NUMBER
from filmrack.printing import BinderLabel, BoxLabel, Label, RodLabel, SleeveLabel, clip_pairs
from filmrack.store import labelling, rolls, search
from filmrack.store.binders import binders_of
from filmrack.store.file import DarkroomFile

_BINDER = re.compile(rf"({TERM})-(\d{{1,2}})", re.IGNORECASE)


class Wanted(NamedTuple):
    """Labels to print, the clips that they make known, and what they take off the queue."""

    labels: tuple[Label, ...]
    clips: tuple[int, ...] = ()
    queued: tuple[tuple[int, int], ...] = ()
    """Each roll with the number of a sleeve page."""


def labels_wanted(file: DarkroomFile, kind: str, asked: Sequence[str], moment: datetime) -> Wanted:
    """Return the labels of a kind that were asked for; see LABEL_KINDS.

    Without anything asked: all rods, all boxes, the term's binders, the sleeves that wait. Raises
    Refused when there is nothing to print, or what was asked for is not there.
    """
    return LABEL_KINDS[kind](file, " ".join(asked).strip(), moment)


def _clips(_file: DarkroomFile, asked: str, _moment: datetime) -> Wanted:
    numbers = numbers_in(asked, "clip", HIGHEST_CLIP)
    if not numbers:
        raise Refused("which clips is not said: name their numbers, such as 1-60")
    return Wanted(clip_pairs(numbers), clips=tuple(numbers))


def _sleeves(file: DarkroomFile, asked: str, _moment: datetime) -> Wanted:
    if not asked:
        queued = labelling.queued_sleeves(file.conn)
        if not queued:
            raise Refused("no sleeve waits for its label: name the rolls to print some again")
        return Wanted(tuple(_sleeve_labels(file, queued)), queued=tuple(queued))
    wanted: dict[tuple[int, int], None] = {}
    for roll in search.which_all(file.conn, asked.replace(",", " ").split()):
        if roll.sleeved_at is None:
            raise Refused(f"{roll.number} is not sleeved yet ({roll.place}): sleeve it first")
        wanted.update(dict.fromkeys((roll.id, page + 1) for page in range(len(sleeve_codes(roll)))))
    return Wanted(tuple(_sleeve_labels(file, list(wanted))), queued=tuple(wanted))


def _sleeve_labels(file: DarkroomFile, wanted: Sequence[tuple[int, int]]) -> Iterable[SleeveLabel]:
    room = file.room()
    known = {roll.id: roll for roll in rolls.by_ids(file.conn, {roll for roll, _ in wanted})}
    initials = owners_initials(file, known.values())
    for number, page in wanted:
        roll = known[number]
        codes = sleeve_codes(roll)
        yield SleeveLabel(
            codes[page - 1],
            roll.film,
            roll.term,
            dated(roll, room),
            f"page {page} of {len(codes)}" if len(codes) > 1 else "",
            initials.get(roll.id),
        )


def _rods(file: DarkroomFile, asked: str, _moment: datetime) -> Wanted:
    room = file.room()
    named = [room.rod_meant(number) for number in numbers_in(asked, "rod", HIGHEST_NUMBER)]
    wanted = named or room.rods
    return Wanted(tuple(RodLabel(rod.number, period_title(room, rod.period)) for rod in wanted))


def _boxes(file: DarkroomFile, asked: str, _moment: datetime) -> Wanted:
    room = file.room()
    named = [room.box_meant(number) for number in numbers_in(asked, "box", HIGHEST_NUMBER)]
    wanted = named or room.boxes
    return Wanted(tuple(BoxLabel(box.number, period_title(room, box.period)) for box in wanted))


def _binders(file: DarkroomFile, asked: str, moment: datetime) -> Wanted:
    room = file.room()
    titles: dict[tuple[str, int], str] = {}
    wanted = binders_asked(file, asked, moment)
    for term in {term for term, _ in wanted}:
        for binder in binders_of(file.conn, term):
            titles[term, binder.number] = period_title(room, binder.period)
    return Wanted(tuple(BinderLabel(*binder, titles.get(binder, "")) for binder in wanted))


def binders_asked(file: DarkroomFile, asked: str, moment: datetime) -> list[tuple[str, int]]:
    """Return binders as (term, number): by code, as `26F-03`, or by numbers of the term in force.

    Nothing asked: all of the term in force. Raises Refused for a term that is not there.
    """
    room = file.room()
    named: dict[tuple[str, int], None] = {}
    numbers: list[str] = []
    for word in asked.replace(",", " ").split():
        code = code_in(word)
        match = _BINDER.fullmatch(word)
        if code is not None and code.kind == "A":
            named[code.parts[0], int(code.parts[1])] = None
        elif match:
            named[match[1].upper(), int(match[2])] = None
        else:
            numbers.append(word)
    for term, number in named:
        if term not in {known.code for known in room.terms} or number == 0:
            raise Refused(f"there is no binder {term}-{number:02d}: check its term and its number")
    plain = numbers_in(" ".join(numbers), "binder", HIGHEST_BINDER)
    if plain or not named:
        term = room.term_meant(None, moment).code
        if not plain:
            plain = [binder.number for binder in binders_of(file.conn, term)]
        if not plain:
            raise Refused(f"term {term} has no binder yet: name the number of the first one")
        named.update(dict.fromkeys((term, number) for number in plain))
    return list(named)


LABEL_KINDS: dict[str, Callable[[DarkroomFile, str, datetime], Wanted]] = {
    "clips": _clips,
    "sleeves": _sleeves,
    "rods": _rods,
    "boxes": _boxes,
    "binders": _binders,
}
"""What can be printed on labels."""
