"""The file under an open desk: still the one that was opened?"""

from __future__ import annotations

from pathlib import Path

from filmrack.domain.refusal import FileTrouble


class OpenedFile:
    """Remembers which file was opened, by device and inode.

    What is written to a file that was moved away or exchanged would be lost with it.
    """

    def __init__(self, path: Path) -> None:
        self.path = path
        self._opened = self._there()

    def refuse_another(self) -> None:
        """Raise FileTrouble when the file is gone, or another one lies in its place."""
        there = self._there()
        if there == self._opened:
            return
        what = "is gone" if there is None else "is another file now"
        raise FileTrouble(
            f"{self.path} {what}, so nothing is written any more: put the right one in place and"
            " open the desk again"
        )

    def _there(self) -> tuple[int, int] | None:
        try:
            found = self.path.stat()
        except OSError:
            return None
        return found.st_dev, found.st_ino
