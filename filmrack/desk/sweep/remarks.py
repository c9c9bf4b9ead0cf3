"""What goes with every answer of the sweep: whose roll, of which term, and how it is taken back."""

from __future__ import annotations

from collections.abc import Sequence

from filmrack.acts.sweep_boxing import Swept
from filmrack.desk.said import WRONG, capital
from filmrack.desk.session import Session
from filmrack.desk.sweep.ways import which
from filmrack.domain.names import Person
from filmrack.domain.roll import Roll
from filmrack.store import people, rolls


def sentences(remarks: list[str]) -> str:
    """Return remarks as sentences, and how what was done is taken back behind them."""
    return ". ".join([*map(capital, remarks), WRONG])


def owners_of(session: Session, some: Sequence[Roll]) -> dict[int, Person]:
    """Return the owners of some rolls, also of those that do not hang."""
    return people.read_people(session.file.conn, (roll.person for roll in some if roll.person))


def of_closed_terms(session: Session, swept: Swept) -> list[str]:
    """Return which of what was boxed is of a closed term, and what comes before it is cut."""
    some = rolls.by_ids(session.file.conn, swept.closed_term)
    if not some:
        return []
    owners = owners_of(session, some)
    listed = ", ".join(which(roll, owners) for roll in some)
    codes = sorted({roll.term for roll in some})
    closed = (
        f"term {codes[0]}, which is" if len(codes) == 1 else f"terms {', '.join(codes)}, which are"
    )
    verb = "is" if len(some) == 1 else "are"
    return [f"{listed} {verb} of {closed} closed: reopen it before you cut and sleeve"]
