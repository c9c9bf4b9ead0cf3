"""Whose desk this is: the teacher's, or a student desk in a room with a passphrase.

Every screen, command, step and hit asks here; the acts themselves ask `domain.student_desk` with
the hand that this desk has.
"""

from __future__ import annotations

from datetime import datetime, timedelta

from filmrack.desk.registry import SCREENS, ScreenEntry, open_to
from filmrack.desk.session import Session
from filmrack.domain import student_desk
from filmrack.domain.refusal import Refused
from filmrack.store import settings


class Role:
    """Keeps the desk's hand to what it may do; locks again when nobody touches it."""

    def __init__(self, session: Session) -> None:
        self._session = session
        self._unlocked = False
        self._used = session.now
        self.settle()

    @property
    def teacher(self) -> bool:
        """Tell whether this is the teacher's desk."""
        return self._session.by == "teacher"

    @property
    def locks(self) -> bool:
        """Tell whether the room has a passphrase."""
        return settings.read(self._session.file.conn, settings.PASSPHRASE) is not None

    def settle(self) -> None:
        """Take up what the room says now: a passphrase, whether helpers sweep."""
        session = self._session
        if self._unlocked or not self.locks:
            session.by = "teacher"
        elif session.file.room().rules.helpers_sweep:
            session.by = "helper desk"
        else:
            session.by = "student desk"

    def used(self) -> None:
        """Remember that somebody is at the desk."""
        self._used = self._session.now

    def idle(self, now: datetime) -> bool:
        """Lock a desk that nobody touched for the room's minutes; tell whether it locked now."""
        was_teacher = self.teacher
        if self._unlocked and self.left_alone(now):
            self._unlocked = False
        self.settle()
        return was_teacher and not self.teacher

    def left_alone(self, now: datetime) -> bool:
        """Tell whether nobody touched the desk for the room's minutes."""
        minutes = self._session.file.room().rules.desk_idle_minutes
        return now - self._used >= timedelta(minutes=minutes)

    def unlock(self, text: str) -> None:
        """Make it the teacher's desk. Raises Refused for a wrong passphrase."""
        from filmrack.acts import locking  # a desk begins locked, or is never

        locking.unlock(self._session.file, text, self._session.now)
        self.trust()

    def trust(self) -> None:
        """Make it the teacher's desk for who has just proven to know the passphrase."""
        self._unlocked = True
        self.used()
        self.settle()

    def lock(self) -> None:
        """Make it a student desk. Raises Refused in a room without a passphrase."""
        if not self.locks:
            raise Refused(
                "there is no passphrase to lock this desk with: type “passphrase” to set one"
            )
        self._unlocked = False
        self.settle()

    def shows(self, screen: ScreenEntry) -> bool:
        """Tell whether this desk shows a screen."""
        return open_to(screen, self._session.by)

    def screen_after(self, screen: ScreenEntry, step: int = 1) -> ScreenEntry:
        """Return the screen that Tab goes to from one, of those that this desk shows."""
        shown = [entry for entry in SCREENS if self.shows(entry)]
        return shown[(shown.index(screen) + step) % len(shown)]

    def _does(self, act: str) -> bool:
        """Tell whether this desk does a roll's next step."""
        return student_desk.may(self._session.by, act)

    def refuse_step(self, act: str | None) -> None:
        """Raise Refused for a next step that this desk does not do."""
        if act == "box" and not self._does(act):
            raise Refused(
                "boxing is not for a student desk: type “take” if you take it along, else leave it"
            )
        if act is not None and not self._does(act):
            raise Refused("that step is not for a student desk: ask the teacher")

    def refuse_leaving(self) -> None:
        """Raise Refused for leaving a student desk."""
        if not self.teacher:
            raise Refused(
                "a student desk is not left: the teacher types “teacher” and the passphrase first"
            )
