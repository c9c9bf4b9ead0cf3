"""Where the files that come with Filmrack lie: the label stocks and designs, the demo school."""

from __future__ import annotations

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent


def shipped(name: str) -> Path:
    """Return the path of a shipped file or folder, such as `labels` or `demo.db`.

    An installed package carries them in its own `shipped` folder; a checkout has them at its
    root. The path is returned whether or not something stands there.
    """
    packaged = _PACKAGE / "shipped" / name
    return packaged if packaged.exists() else _PACKAGE.parent / name
