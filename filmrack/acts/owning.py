"""Whose a roll is, and what is worth knowing about it."""

from __future__ import annotations

from filmrack.acts.group import Hand, one_group, settled
from filmrack.domain.names import clean
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Detail, Roll
from filmrack.store import people
from filmrack.store.file import DarkroomFile


def claim(file: DarkroomFile, hand: Hand, number: int, person: int) -> Roll:
    """Say whose a roll is, that had no owner or the wrong one; its period follows its owner.

    Raises Refused for a roll of a closed term.
    """
    with one_group(file, hand) as group:
        roll = group.roll(number)
        period = people.period_of(group.conn, person, roll.term)
        detail = Detail(person=person)
        if period is not None:
            detail["period"] = period
        group.append("claim", number, detail)
        return settled(group, [number])[0]


def swap(file: DarkroomFile, hand: Hand, one: int, other: int) -> list[Roll]:
    """Exchange the owners of two rolls that were mixed up. Raises Refused for one and the same."""
    if one == other:
        raise Refused("a roll cannot be swapped with itself: name two rolls")
    with one_group(file, hand) as group:
        first, second = group.roll(one), group.roll(other)
        for roll, owned in ((first, second), (second, first)):
            detail = Detail(person=owned.person, period=owned.period, other=owned.id)
            group.append("swap", roll.id, detail)
        return settled(group, [one, other])


def note(file: DarkroomFile, hand: Hand, number: int, text: str) -> Roll:
    """Keep a note with a roll. Raises Refused for an empty one."""
    kept = clean(text, "the note")
    if not kept:
        raise Refused("the note is empty: write what is worth knowing")
    with one_group(file, hand) as group:
        group.append("note", number, Detail(note=people.add_note(group.conn, kept)))
        return settled(group, [number])[0]
