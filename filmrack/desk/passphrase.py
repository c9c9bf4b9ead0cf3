"""The passphrase: asked for to unlock a desk, to set another one, and to do without one.

What is typed to any of these questions stands on no screen.
"""

from __future__ import annotations

from collections.abc import Callable

from filmrack.acts import locking
from filmrack.desk.notices import missing_words
from filmrack.desk.question import Question
from filmrack.desk.role import Role
from filmrack.desk.said import Said
from filmrack.desk.session import Session
from filmrack.domain.refusal import Refused


def ask_to_unlock(session: Session, role: Role) -> Said | Question:
    """Ask for the passphrase that makes this the teacher's desk, unless it is."""
    if role.teacher:
        words = "type “lock” for a student desk" if role.locks else "no passphrase is set"
        return Said("Teacher's desk", f"this is the teacher's desk already; {words}")

    def unlock(typed: str) -> Said:
        role.unlock(typed)
        missing = missing_words(session)
        words = "unlocked; type “lock” when you go" + (f". {missing}" if missing else "")
        return Said("Teacher's desk", words)

    return Question("the passphrase", unlock, verbatim=True, secret=True)


def ask_new_passphrase(session: Session, role: Role) -> Question:
    """Ask for a new passphrase twice, and for the one until now first where there is one."""
    if not locking.is_locked(session.file):
        return _ask_for_another(session, role, None)

    def go_on(old: str) -> Question:
        locking.unlock(session.file, old, session.now)
        return _ask_for_another(session, role, old)

    return _ask_for_the_old(go_on)


def ask_to_remove_passphrase(session: Session) -> Question:
    """Ask for the passphrase, and let every desk be the teacher's then.

    Raises Refused where there is none.
    """
    if not locking.is_locked(session.file):
        raise Refused("there is no passphrase to remove: every desk is the teacher's already")

    def remove(old: str) -> Said:
        locking.remove_passphrase(session.file, old, session.now)
        words = "every desk is the teacher's now"
        beyond = "the passphrase was taken away, and “passphrase” sets one"
        return Said("No passphrase", words, done=True, beyond_undo=beyond)

    return _ask_for_the_old(remove)


def _ask_for_the_old(then: Callable[[str], Said | Question]) -> Question:
    return Question("the passphrase until now", then, verbatim=True, secret=True)


def _ask_for_another(session: Session, role: Role, old: str | None) -> Question:
    """Ask for the new passphrase; `old` is the one until now, None where there is none."""

    def ask_once_more(new: str) -> Question:
        locking.refuse_unfit(new)
        return _ask_once_more(session, role, old, new)

    return Question(
        "a passphrase",
        ask_once_more,
        headline="A passphrase for the teacher's desk",
        words=f"{locking.SHORTEST} characters or more; three words are good. Keep it where you"
        " find it again: it cannot be read from the file",
        verbatim=True,
        secret=True,
    )


def _ask_once_more(session: Session, role: Role, old: str | None, new: str) -> Question:
    def set_it(again: str) -> Said:
        if again != new:
            raise Refused("that was not the same: type it again, or press Esc to begin anew")
        locking.set_passphrase(session.file, new, old, session.now)
        role.trust()
        idle = f"{session.file.room().rules.desk_idle_minutes:g} min"
        words = (
            "every desk starts as a student desk now; this one stays the teacher's until you type"
            f" “lock”, or leave it alone for {idle}"
        )
        beyond = "a passphrase was set, which “no passphrase” takes away"
        return Said("Passphrase set", words, done=True, beyond_undo=beyond)

    return Question("the same once more", set_it, verbatim=True, secret=True)
