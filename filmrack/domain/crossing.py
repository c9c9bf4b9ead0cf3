"""Where a value that only rises comes to 0: how chances of dry become minutes and moments."""

import math
from collections.abc import Callable

SHORTEST, LONGEST = 0.1, 600.0
"""The least and the most minutes that are reckoned with."""


def minutes_until(
    value: Callable[[float], float], least: float = SHORTEST, most: float = LONGEST
) -> float:
    """Return the minutes, from `least` to `most`, from which a value is 0 or above.

    They are sought by their logarithms, along which needs are spread nearly normally: half as many
    looks as by the minutes themselves.
    """
    low = math.log(least)
    found = crossing(lambda ln: value(math.exp(ln)), low, math.log(most), to=1e-6)
    if found is None:
        return most
    return least if found == low else math.exp(found)


def crossing(
    value: Callable[[float], float], low: float, high: float, to: float = 1e-4
) -> float | None:
    """Return where a value comes to 0 or above, within `to`; once there, it must stay there.

    Returns `low` when it is there already, None when it has not come there by `high`. Parabolas
    through the last three values where these are safe, else halves: T. R. Chandrupatla, A new
    hybrid quadratic/bisection algorithm for finding the zero of a nonlinear function without using
    derivatives, Adv. Eng. Software 28 (1997) 145-149.
    """
    newest, across = (low, value(low)), (high, value(high))
    if newest[1] >= 0:
        return low
    if across[1] < 0:
        return None
    share = 0.5
    while (width := abs(across[0] - newest[0])) > to:
        share = min(max(share, 0.5 * to / width), 1 - 0.5 * to / width)
        x = newest[0] + share * (across[0] - newest[0])
        before, newest = newest, (x, value(x))
        if (newest[1] >= 0) != (before[1] >= 0):
            before, across = across, before
        share = _next_share(newest, across, before)
    return max(newest, across)[0]


def _next_share(
    newest: tuple[float, float], across: tuple[float, float], before: tuple[float, float]
) -> float:
    """Return how far from the newest place towards the one across to look next."""
    (a, fa), (b, fb), (c, fc) = newest, across, before
    xi, phi = (a - b) / (c - b), (fa - fb) / (fc - fb)
    if phi * phi >= xi or (1 - phi) * (1 - phi) >= 1 - xi:
        return 0.5
    return fa / (fb - fa) * fc / (fb - fc) + (c - a) / (b - a) * fa / (fc - fa) * fb / (fc - fb)
