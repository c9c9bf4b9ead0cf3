"""What checked rolls teach, summed at once; the file keeps such sums roll by roll."""

from __future__ import annotations

from collections.abc import Sequence

from filmrack.domain.learning import (
    COUNTED_ROLLS,
    CheckedRoll,
    Learned,
    found_dry,
    guard,
    tacky,
)
from filmrack.domain.posterior import Posterior


def learn(rolls: Sequence[CheckedRoll]) -> Learned:
    """Return what checked rolls, oldest first, have taught; the last 60 count."""
    counted = rolls[-COUNTED_ROLLS:]
    found = [m for roll in counted if (m := found_dry(roll.checks)) is not None]
    return Learned(
        Posterior.of([roll.evidence for roll in counted]),
        *guard(len(counted), sum(tacky(roll.checks) for roll in counted), found),
    )
