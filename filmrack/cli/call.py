"""One call of the command line: which file, which moment, how to answer."""

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from typing import TYPE_CHECKING, NamedTuple, TypeVar

import click

from filmrack.domain.clock import read_moment
from filmrack.domain.refusal import FileTrouble
from filmrack.store.clock import now_in
from filmrack.store.file import DarkroomFile, open_file
from filmrack.store.trouble import against_a_rule, damage_in

if TYPE_CHECKING:  # a lookup in a file that is named needs neither
    from pathlib import Path

    from filmrack.acts.group import Hand

Command = TypeVar("Command", bound=Callable[..., object])

json_option: Callable[[Command], Command] = click.option(
    "--json", "as_json", is_flag=True, help="Print one JSON document instead of a table."
)


def no_desk(path: "Path") -> None:
    """Stand in where there is no desk, as in a test of a command."""
    raise NotImplementedError(f"no desk to open {path} at")


def machine_now() -> datetime:
    """Return the machine's time; the only clock that commands read."""
    return datetime.now(UTC).replace(microsecond=0)


class Call(NamedTuple):
    """What stands before the command: the file named, and the moment as it was typed."""

    db: str | None = None
    at_text: str | None = None
    open_desk: "Callable[[Path], None]" = no_desk
    """Opens the desk on a file; handed in, since commands and desk know nothing of each other."""
    machine: Callable[[], datetime] = machine_now
    """Tells the machine's time."""

    @property
    def path(self) -> "Path":
        """Return the darkroom file that is meant."""
        from pathlib import Path

        from filmrack.store.data_folder import usual_file

        return usual_file() if self.db is None else Path(self.db)

    @contextmanager
    def reading(self) -> Iterator[DarkroomFile]:
        """Open the file to look something up."""
        named = self.path if self.db is None else self.db
        with open_file(named, write=False) as file, file.reading():
            yield file

    @contextmanager
    def writing(self) -> Iterator[DarkroomFile]:
        """Open the file for an act."""
        with open_file(self.path, write=True) as file, damage_in(file.path):
            heed = _back_up_today(file, self.now(file))
            try:
                yield file
            except sqlite3.IntegrityError as error:
                raise against_a_rule(file.path, error) from error
            if heed is not None:
                click.echo(f"filmrack: {heed}", err=True)

    def now(self, file: DarkroomFile) -> datetime:
        """Return what time it is for this file."""
        return now_in(file.conn, self.machine())

    def then(self, file: DarkroomFile) -> datetime | None:
        """Return the moment that was named, or None. Raises Refused for what is no time."""
        if self.at_text is None:
            return None
        return read_moment(self.at_text, file.room().timetable.zone, self.now(file))

    def moment(self, file: DarkroomFile) -> datetime:
        """Return the moment that was named, or now."""
        return self.then(file) or self.now(file)

    def hand(self, file: DarkroomFile) -> "Hand":
        """Return the hand that acts: now, or at the moment that was named."""
        from filmrack.acts.group import Hand

        now = self.now(file)
        return Hand(self.then(file) or now, now)

    def hand_now(self, file: DarkroomFile) -> "Hand":
        """Return the hand that changes the room: from now on, whatever moment was named."""
        return self._replace(at_text=None).hand(file)


def _back_up_today(file: DarkroomFile, now: datetime) -> str | None:
    """Make the day's backup before its first act; return what is to be heeded of the file, if any.

    What stands in the way of a backup stops no act.
    """
    from filmrack.cli.output import harmless
    from filmrack.store.keeping import keep_daily
    from filmrack.store.shares import network_share

    try:
        made = keep_daily(file, now)
    except FileTrouble as trouble:
        return harmless(f"there is no backup of today: {trouble}")
    return network_share(file.path) if made else None  # said once a day
