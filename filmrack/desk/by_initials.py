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

    None for a line that is not one word of two or three letters.
    """
    nothing = Seen((), {})
    if len(words) != 1 or not _LEAST <= len(words[0]) <= _MOST or not words[0].isalpha():
        return nothing
    conn = session.file.conn
    live = [roll for roll in rolls.all_on_their_way(conn) if roll.live]
    owners = people.read_people(conn, (roll.person for roll in live if roll.person is not None))
    meant = {
        number for number, owner in owners.items() if "".join(tokens(owner.initials)) == words[0]
    }
    theirs = [roll for roll in live if roll.person in meant]
    return see(session.file, theirs, session.now) if theirs else nothing
