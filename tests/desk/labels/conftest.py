"""The documents that tests print to."""

from __future__ import annotations

from pathlib import Path

import pytest


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return the documents of whoever is at the desk."""
    documents = tmp_path / "home" / "Documents"
    documents.mkdir(parents=True)
    monkeypatch.setenv("HOME", str(documents.parent))
    for name in ("XDG_DOCUMENTS_DIR", "XDG_CONFIG_HOME", "XDG_DATA_HOME"):
        monkeypatch.delenv(name, raising=False)
    return documents
