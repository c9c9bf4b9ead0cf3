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
>>> total_flipped_at(2, 7.5), total_unflipped(7.5)
(9.25, 11.25)
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


def remaining(at: Ends, m: float, s: float = SLOPE) -> float:
    """Return the minutes that a roll still needs if it is left as it hangs."""
    d = needed(m, s)
    return max(0.0, d - at.top, (d - at.bottom) / (1 - s))


def remaining_flipped_in(wait: float, at: Ends, m: float, s: float = SLOPE) -> float:
    """Return the minutes that a roll still needs, from now, if it is flipped in `wait` minutes."""
    if remaining(at, m, s) <= wait:
        return remaining(at, m, s)
    turned = Ends(at.bottom + (1 - s) * wait, at.top + wait)
    return wait + remaining(turned, m, s)


def best_flip(at: Ends, m: float, s: float = SLOPE) -> float | None:
    """Return in how many minutes a flip helps most, 0 for now, None when none helps."""
    if s == 0:
        return None
    wait = max(0.0, (s * needed(m, s) - at.top + (1 - s) * at.bottom) / (s * (2 - s)))
    helps = remaining_flipped_in(wait, at, m, s) < remaining(at, m, s)
    return wait if helps else None


def total_unflipped(m: float, s: float = SLOPE) -> float:
    """Return the minutes that a roll needs when it is never flipped."""
    return needed(m, s) / (1 - s)


def total_flipped_at(flip: float, m: float, s: float = SLOPE) -> float:
    """Return the minutes that a fresh roll needs when it is flipped once, after `flip` minutes."""
    return remaining_flipped_in(flip, Ends(0.0, 0.0), m, s)
