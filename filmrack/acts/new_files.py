"""Files that people ask for: written anew, and never over one that is there."""

from __future__ import annotations

from pathlib import Path

from filmrack.domain.refusal import Refused
from filmrack.store.trouble import already_there


def free_name(folder: Path, name: str) -> Path:
    """Return `clips.pdf`, or the first of `clips-2.pdf` … that does not exist in a folder."""
    path, nth = folder / f"{name}.pdf", 1
    while path.exists() or path.is_symlink():
        nth += 1
        path = folder / f"{name}-{nth}.pdf"
    return path


def write_new(out: Path, content: bytes) -> None:
    """Write a new file, whole or not at all.

    Raises Refused over anything that exists, and where it cannot be written.
    """
    try:
        with out.open("xb") as opened:
            try:
                opened.write(content)
            except BaseException:
                out.unlink(missing_ok=True)
                raise
    except FileExistsError:
        raise already_there(out) from None
    except OSError as trouble:
        raise Refused(
            f"{out} cannot be written ({trouble.strerror or trouble}): name another file"
        ) from trouble
