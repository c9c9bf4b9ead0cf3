"""How a strip dries in a cabinet that blows from the top, and what turning it over does.

A point at height z (0 the top, 1 the bottom) dries at rate 1 − s·z, with slope s = 0.5 unless
the cabinet has taught another. The rate is linear in z, so the wettest point is always an end.
A roll that needs M minutes when flipped exactly halfway needs D = M(1 − s/2) at its slower end.
The model is our own, the smallest that knows the slow end; it agrees with common practice
("5 to 10 minutes, flip halfway"): at M = 7 the top is dry at 5.3 min, a flipped roll at 7, one
never flipped at 10.5.

All minutes are effective minutes (see dryer).

>>> dryer_minutes(5, 2)
6.0
"""

from typing import NamedTuple

SLOPE = 0.5
"""The slope of the air in a cabinet that has taught nothing yet, and of every shown number."""


class Ends(NamedTuple):
    """Something at the two ends of a strip, as it hangs."""

    top: float
    bottom: float


def ends(a: float, b: float, *, flipped: bool, s: float = SLOPE) -> Ends:
    """Return the minutes had by each end, in minutes at the top of the dryer.

    `a` and `b` are minutes hung the first way up and flipped; `flipped` is how it hangs now.
    """
    first, second = a + (1 - s) * b, (1 - s) * a + b
    return Ends(second, first) if flipped else Ends(first, second)


def needed(m: float, s: float = SLOPE) -> float:
    """Return D, the minutes that each end needs, of a roll that needs `m` flipped halfway."""
    return m * (1 - s / 2)


def dryer_minutes(a: float, b: float, s: float = SLOPE) -> float:
    """Return the dryer minutes of a roll: the time at its wetter end, as if flipped halfway.

    A roll that needs M is dry when this reaches M. It is time, not water lost.
    """
    return (a + b - s * max(a, b)) / (1 - s / 2)


def dry_fraction(had: float, m: float, s: float = SLOPE) -> float:
    """Return how far (0 to 1) a point with minutes `had` is on its way, of a roll needing `m`."""
    return min(1.0, had / needed(m, s))
