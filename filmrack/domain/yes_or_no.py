"""Yes or no, as people type it."""

from __future__ import annotations

from filmrack.domain.refusal import Refused

_ANSWERS = {"y": True, "yes": True, "true": True, "n": False, "no": False, "false": False}


def yes_or_no(text: str, instead: str = "type one of them") -> bool:
    """Return whether a text says yes. Raises Refused for neither; `instead` is what to do then.

    >>> yes_or_no("Yes"), yes_or_no(" n ")
    (True, False)
    """
    answer = plainly(text)
    if answer is None:
        raise Refused(f"“{text[:30]}” is neither yes nor no: {instead}")
    return answer


def plainly(text: str) -> bool | None:
    """Return whether a text says yes or no and nothing else; None for any other."""
    return _ANSWERS.get(text.strip().casefold())
