"""Sleeves and terms that tests of the archive begin with."""

from __future__ import annotations

from datetime import date
from functools import partial

from stdnum.iso7064 import mod_97_10

from filmrack.acts import archiving, shelving
from filmrack.acts.terms import open_term
from filmrack.desk.archive.view import ArchiveView
from filmrack.desk.view import View
from filmrack.store import terms
from tests.conftest import MARA, School
from tests.desk.at_desk import AtDesk, opened_on

archive = partial(opened_on, "archive")


def sleeved(school: School, person: int, clip: int, *, contact: bool = False) -> int:
    roll = school.sleeved(person, clip)
    if contact:
        archiving.contact(school.file, school.hand(), roll)
    return roll


def filed(school: School, person: int = MARA, clip: int = 17) -> int:
    roll = sleeved(school, person, clip)
    archiving.file_in_binder(school.file, school.hand(), [roll], 2)
    return roll


def scan_of(school: School, roll: int) -> str:
    """Return what a scanner reads from a sleeve; check digits by python-stdnum."""
    there = school.roll(roll)
    body = f"R{there.term}{there.serial:04d}"
    return body + mod_97_10.calc_check_digits(body)


def older(school: School) -> None:
    """Give the school an earlier term."""
    first, last = date(2026, 1, 6), date(2026, 6, 5)
    open_term(school.file, school.hand(), "26S", starts=first, ends=last)


def in_last_term(school: School, owner: str) -> int:
    """Give the school an earlier term with somebody's sleeve in it."""
    older(school)
    return shelving.shelve(school.file, school.hand(), 3, owner=owner, term="26S").id


def closed(school: School) -> bool:
    return "26F" in terms.closed(school.file.conn)


async def drawn_anew(desk: AtDesk) -> None:
    desk.app.query_one(ArchiveView).post_message(View.Laid())
    await desk.pilot.pause()
