"""The day's backup at the desk: made beside the desk's own work, so that nobody waits for it."""

from __future__ import annotations

from datetime import date, datetime
from pathlib import Path

from filmrack.desk.session import Session
from filmrack.domain.refusal import FileTrouble
from filmrack.store.clock import is_demo
from filmrack.store.file import open_file
from filmrack.store.keeping import keep_daily, kept_today


class Daily:
    """Remembers on which day this desk has looked after the backup: it tries once a day."""

    def __init__(self, session: Session) -> None:
        self._session = session
        self._tried: date | None = None

    def due(self) -> bool:
        """Tell, once a day, whether the file has no backup of this day; not by a doubted clock."""
        session = self._session
        today = session.now.date()
        if self._tried == today or session.clock_doubt() is not None:
            return False
        self._tried = today
        return not is_demo(session.file.conn) and not kept_today(session.file, session.now)


def make(path: Path, now: datetime) -> str | None:
    """Make the day's backup through a connection of its own; return why not, or None."""
    try:
        with open_file(path, write=False) as file:
            keep_daily(file, now)
    except FileTrouble as trouble:
        return str(trouble)
    return None
