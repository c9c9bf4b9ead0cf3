"""The term that is being closed at this moment: one at a time, while the desk goes on."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime

from filmrack.desk.archive.term_words import Closing, close_term
from filmrack.desk.question import Question
from filmrack.desk.said import Said
from filmrack.desk.session import Session
from filmrack.domain.refusal import Refused


class TermClosing:
    """Asks whether to close a term, and closes it in a thread, since its file is copied first."""

    def __init__(
        self,
        session: Session,
        beside: Callable[[Callable[[], None]], object],
        tell: Callable[[Said, bool], object],
    ) -> None:
        """`beside` does work in a thread; `tell` takes what came of it, and whether nothing did."""
        self._session = session
        self._beside = beside
        self._tell = tell
        self._closing: Closing | None = None

    def ask(self, code: str) -> Said | Question:
        """Close a term, if it is said so. Raises Refused while another one is being closed."""
        if self._closing is not None:
            raise Refused(f"{self._session.being_done}: wait for it")
        return close_term(self._session, code, self._begin)

    def goes_on(self, now: datetime) -> str:
        """Return that a term is being closed; empty for none."""
        return self._closing.goes_on(now) if self._closing else ""

    def _begin(self, closing: Closing) -> None:
        self._closing = closing
        self._session.being_done = f"term {closing.code} is being closed"

        def work() -> None:
            said, refused = closing.done()
            self._closing, self._session.being_done = None, ""
            self._tell(said, refused)

        self._beside(work)
