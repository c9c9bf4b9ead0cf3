from __future__ import annotations

import doctest

from filmrack.domain import counted


def test_the_examples_in_the_module_hold():
    assert doctest.testmod(counted).failed == 0
