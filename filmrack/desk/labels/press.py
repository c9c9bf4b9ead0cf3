"""Printing beside the line: in a thread of its own, with a connection of its own."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from threading import Event
from typing import NamedTuple

from filmrack.acts import labelling
from filmrack.acts.new_files import free_name
from filmrack.desk.labels.choice import Choice
from filmrack.desk.session import Session
from filmrack.printing import Printed
from filmrack.store import rolls
from filmrack.store.clock import is_demo
from filmrack.store.data_folder import data_folder
from filmrack.store.file import open_file


class Printout(NamedTuple):
    """What was printed, and the file that it is in."""

    choice: Choice
    path: Path
    printed: Printed


class Press:
    """One print at a time: how far it is, and how it is stopped."""

    def __init__(self) -> None:
        self.running = False
        self.done = 0
        self.total = 0
        self._stop = Event()

    def begin(self) -> None:
        """Say that a print begins."""
        self.running, self.done, self.total = True, 0, 0
        self._stop.clear()

    def stop(self) -> None:
        """Ask a running print to end; nothing is written then."""
        self._stop.set()

    def run(self, db: Path, choice: Choice, moment: datetime, folder: Path) -> Printout:
        """Print a choice to a new PDF in a folder; called in the thread.

        Raises Refused and FileTrouble as printing does, also when it was stopped.
        """
        path = free_name(folder, choice.kind)
        with open_file(db, write=True) as file:
            asked = choice.asked.split()
            ordered = labelling.order(file, choice.kind, asked, moment)
            setup = labelling.PrintSetup(
                choice.stock or "",
                choice.dpi,
                choice.start if ordered.on_labels else None,
                own=data_folder(),
            )
            printed = labelling.print_order(file, ordered, path, setup, self._progress)
            # What waited in the queue waits no more: again it is asked for by its numbers.
            if choice.is_the_queue:
                found = rolls.by_ids(file.conn, {roll for roll, _ in ordered.wanted.queued})
                choice = choice._replace(asked=" ".join(roll.number for roll in found))
        return Printout(choice, path, printed)

    def _progress(self, done: int, total: int) -> bool:
        self.done, self.total = done, total
        return not self._stop.is_set()


def print_folder(session: Session) -> Path:
    """Return where prints go: the documents of whoever is at the desk, else their home.

    Those of the demo lie beside its file and leave nothing else behind.
    """
    from platformdirs import user_documents_path

    if is_demo(session.file.conn):
        return session.path.parent.absolute()
    documents = user_documents_path()
    return documents if documents.is_dir() else Path.home()
