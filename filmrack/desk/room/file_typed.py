"""A file that is named in the line by its path."""

from __future__ import annotations

from pathlib import Path

from filmrack.domain.refusal import Refused


def file_typed(text: str, most: int) -> bytes:
    """Return what is in the file that a typed path names, one byte more than `most` at most.

    A path may be in quotation marks or have its spaces marked, as terminals write one that is
    dropped on them. Raises Refused when it cannot be read.
    """
    said = text.strip()
    if len(said) > 1 and said[0] == said[-1] and said[0] in "'\"":
        said = said[1:-1]
    try:
        for name in (said, said.replace("\\ ", " ")):
            path = Path(name).expanduser()
            if path.is_file():
                with path.open("rb") as file:
                    return file.read(most + 1)
    except (OSError, RuntimeError) as error:  # RuntimeError: ~nobody has no home
        why = error.strerror if isinstance(error, OSError) else str(error)
        raise Refused(f"“{said[:100]}” was not read ({why}): type its whole path") from None
    raise Refused(f"there is no file “{said[:100]}”: type its whole path")
