"""What the examples in the house's docstrings show is what comes."""

from __future__ import annotations

import doctest
import importlib
from pathlib import Path

import pytest

import filmrack

HOUSE = Path(filmrack.__file__).parent
WITH_EXAMPLES = sorted(
    ".".join(("filmrack", *path.relative_to(HOUSE).with_suffix("").parts))
    for path in HOUSE.rglob("*.py")
    if ">>> " in path.read_text("utf-8")
)


@pytest.mark.parametrize("name", WITH_EXAMPLES)
def test_the_examples_in_a_module_hold(name: str) -> None:
    results = doctest.testmod(importlib.import_module(name))
    assert results.attempted > 0
    assert results.failed == 0
