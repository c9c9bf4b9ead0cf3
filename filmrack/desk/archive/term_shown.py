"""Which term the archive shows, and whether it is closed."""

from __future__ import annotations

from datetime import datetime

from filmrack.desk.session import Session
from filmrack.domain.room import Room
from filmrack.domain.schooldays import Term
from filmrack.store import terms


class TermShown:
    """The term in force, unless somebody turned to another one."""

    def __init__(self, session: Session) -> None:
        self._session = session
        self._code: str | None = None
        """The term that was turned to; None for the one in force."""
        self.chosen = False
        """Whether somebody asked for that term, not just for its rolls."""
        self.closed: datetime | None = None
        """Since when it is only read; None while it is open."""
        self.why = ""
        """Why it was closed with rolls left; empty where it was not."""
        self._looked: tuple[int, str] | None = None

    @property
    def turned(self) -> bool:
        """Tell whether there is something to turn back from."""
        return self._code is not None or self.chosen

    @property
    def asked_for(self) -> str:
        """Return the other term that somebody turned to; empty for the one in force."""
        return (self._code or "") if self.chosen else ""

    @property
    def way_back(self) -> str:
        """Return what is typed for the term in force, before other hints; empty where it shows."""
        force = self._session.term_in_force
        return f"{force.casefold()} goes back; " if self._code and force else ""

    def of(self, room: Room) -> Term | None:
        """Return the term; before the first one begins that one, None where there is none."""
        shown = next((term for term in room.terms if term.code == self._code), None)
        return shown or room.term_at(self._session.now) or (room.terms[0] if room.terms else None)

    def look(self, term: Term) -> None:
        """Read whether the term is closed, and why."""
        looked = self._session.stamp, term.code
        if self._looked == looked:
            return
        conn, self._looked = self._session.file.conn, looked
        self.closed = terms.closed(conn).get(term.code)
        self.why = terms.why_closed(conn, term.code) if self.closed else ""

    def turn_to(self, code: str, *, chosen: bool) -> None:
        """Show another term, or the one in force by its code."""
        stays_chosen = self.chosen and code == self._code
        self._code = None if code == self._session.term_in_force else code
        self.chosen = chosen or stays_chosen

    def turn_back(self) -> None:
        """Show the term in force again."""
        self._code, self.chosen = None, False
