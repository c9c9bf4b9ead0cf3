"""Rolls on their way by their owner's initials, which are all that a narrow map shows of a name."""

from __future__ import annotations

from filmrack.desk.session import Session
from filmrack.domain.names import tokens
from filmrack.store import people, rolls
from filmrack.store.standings import Seen, see

_LEAST, _MOST = 2, 3
"""How many letters initials have."""


def seen_by_initials(session: Session, words: list[str]) -> Seen:
    """Return the rolls on their way of everybody whose initials a line is, as the map writes them.

    None for a line that is not two or three letters, in one word or each by itself.
    """
    nothing, letters = Seen((), {}), "".join(words)
    in_one = len(words) == 1 or len(words) == len(letters)
    if not in_one or not _LEAST <= len(letters) <= _MOST or not letters.isalpha():
        return nothing
    conn = session.file.conn
    live = [roll for roll in rolls.all_on_their_way(conn) if roll.live]
    owners = people.read_people(conn, (roll.person for roll in live if roll.person is not None))
    meant = {
        number for number, owner in owners.items() if "".join(tokens(owner.initials)) == letters
    }
    theirs = [roll for roll in live if roll.person in meant]
    return see(session.file, theirs, session.now) if theirs else nothing
