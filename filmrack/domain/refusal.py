"""The one way in which Filmrack says no."""

from __future__ import annotations

from pathlib import Path


class Refused(Exception):
    """Something that cannot be meant or done; nothing was changed.

    The message is one sentence for a person: what was refused, why, and what to do.
    """


class FileTrouble(Exception):
    """The darkroom file itself cannot be used: missing, not ours, damaged, newer, not writable.

    The message is one sentence for a person: what is wrong with which file, and the way back.
    """


class NeedsBackup(FileTrouble):
    """A file that is missing or damaged, so that a backup is the way back.

    The message ends so that the backup can be named after it.
    """

    def __init__(self, path: Path, message: str) -> None:
        super().__init__(message)
        self.path = path
