"""How long a strip still takes, from what its two ends have had: the model read forwards."""

from filmrack.domain.drying import SLOPE, Ends, needed


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


def total_unflipped(m: float, s: float = SLOPE) -> float:
    """Return the minutes that a roll needs when it is never flipped."""
    return needed(m, s) / (1 - s)


def total_flipped_at(flip: float, m: float, s: float = SLOPE) -> float:
    """Return the minutes that a fresh roll needs when it is flipped once, after `flip` minutes."""
    return remaining_flipped_in(flip, Ends(0.0, 0.0), m, s)
