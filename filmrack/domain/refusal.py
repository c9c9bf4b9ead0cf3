"""The one way in which Filmrack says no."""

from __future__ import annotations

from os import PathLike
from typing import TYPE_CHECKING

if TYPE_CHECKING:  # whoever finds a roll has no trouble, and does not wait for it
    from pathlib import Path


class Refused(Exception):
    """Something that cannot be meant or done; nothing was changed.

    The message is one sentence for a person: what was refused, why, and what to do.
    """


class Hopeless(Refused):
    """What is refused for how things stand, so that no other answer to the same question helps."""


class FileTrouble(Exception):
    """The darkroom file itself cannot be used: missing, not ours, damaged, newer, not writable.

    The message is one sentence for a person: what is wrong with which file, and the way back.
    """


class NeedsBackup(FileTrouble):
    """A file that is missing or damaged, so that a backup is the way back.

    The message ends with the newest backup as the way back, so that it can be named behind that.
    With `other_way` it ends with another thing to do, behind which the backup can be offered.
    """

    def __init__(self, path: str | PathLike[str], message: str, *, other_way: bool = False) -> None:
        super().__init__(message)
        self.other_way = other_way
        self._named = path

    @property
    def path(self) -> Path:
        """Return which file it is."""
        from pathlib import Path

        return Path(self._named)
