"""Where whoever uses this machine keeps what is theirs."""

from __future__ import annotations

import os
from pathlib import Path


def data_folder() -> Path:
    """Return the folder of their darkroom file, label stock and colours, whether it exists or not.

    Imported when it is called: a file that is named needs no folder.
    """
    from platformdirs import user_data_path

    return user_data_path("filmrack", appauthor=False)


def usual_file() -> Path:
    """Return the darkroom file that is meant where none is named."""
    named = os.environ.get("FILMRACK_DB")
    return Path(named) if named else data_folder() / "darkroom.db"
