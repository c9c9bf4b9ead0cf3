"""Day plans as people type them: classes with their times, or in another order at the same ones."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from itertools import pairwise

from filmrack.domain.refusal import Refused

_CLASS = re.compile(
    r"\s*(?P<who>[^,]*?)\s+(?P<h>[0-9]{1,2})[:.](?P<m>[0-9]{2})"
    r"\s*[-–]\s*(?P<h2>[0-9]{1,2})[:.](?P<m2>[0-9]{2})\s*(?:[,;]|(?=\s)|$)"
)
_GAPS = ("free", "lunch", "break", "recess", "assembly")
_NOBODY = ("none", "nobody", "nothing", "-")
_LONG_GAP = 20
"""Minutes between two classes from which on it is worth showing that the room is free (common
practice).
"""

Plan = Sequence[str]
"""Classes as the room file writes them: `Block C 08:00-08:50`."""


def plan_typed(text: str, now: Plan, plans: Mapping[str, Plan]) -> list[str]:
    """Return the plan that somebody typed, as the room file writes it.

    `1 8:00-8:50, 2 8:56-9:46, free 11:30-12:10, …`: what is free, or called lunch, a break, recess
    or assembly, is kept free and is the gap; another
    plan's name: the same as that one; `2 3 4 1`: these classes at the times of the plan as it is
    now, or of the first one that has any; `none`: nobody comes. Raises Refused for anything else,
    and for a class within what is kept free.
    """
    said = " ".join(text.split())
    if said.casefold() in _NOBODY:
        return []
    named = {name.casefold(): plan for name, plan in plans.items()}
    if said.casefold() in named:
        return list(named[said.casefold()])
    if re.search(r"[0-9][:.][0-9]{2}", said):
        return _with_times(said)
    return _in_order(said, now or next((plan for plan in plans.values() if plan), ()))


def plan_shown(plan: Sequence[object]) -> str:
    """Return a plan in a line, with the longer times between its classes when the room is free."""
    if not plan:
        return "nobody"
    words = [str(one) for one in plan]
    shown = words[:1]
    for earlier, later in pairwise(words):
        ends, starts = earlier.rpartition("-")[2], later.rpartition(" ")[2].partition("-")[0]
        if _minutes(starts) - _minutes(ends) >= _LONG_GAP:
            shown.append(f"(free {ends}-{starts})")
        shown.append(later)
    return ", ".join(shown).replace(", (", " (").replace("),", ")")


def _with_times(text: str) -> list[str]:
    classes: list[tuple[int, int, str]] = []
    gaps: list[tuple[int, int, str]] = []
    at = 0
    while text[at:].strip(" ,;"):
        found = _CLASS.match(text, at)
        if found is None or not found["who"]:
            raise Refused(
                f"“{text[at:].strip()[:30]}” is no class: type each with its times, as in"
                " 1 8:00-8:50"
            )
        starts, ends = (
            60 * int(found["h"]) + int(found["m"]),
            (60 * int(found["h2"]) + int(found["m2"])),
        )
        what = gaps if found["who"].casefold() in _GAPS else classes
        what.append((starts, ends, found["who"]))
        at = found.end()
    for first, last, gap in gaps:
        for starts, ends, who in classes:
            if starts < last and first < ends:
                raise Refused(
                    f"{gap} from {_clock(first)} to {_clock(last)} falls into {who}"
                    f" {_clock(starts)}-{_clock(ends)}: move one of the two"
                )
    return [f"{who} {_clock(starts)}-{_clock(ends)}" for starts, ends, who in sorted(classes)]


def _in_order(text: str, now: Plan) -> list[str]:
    parts = re.split(r"\s*[,;]\s*", text) if re.search("[,;]", text) else text.split()
    whose = [part for part in parts if part]
    times = [one.rpartition(" ")[2] for one in now]
    if not times:
        raise Refused("that plan has no times yet: type each class with its own, as in 1 8:00-8:50")
    if len(whose) > len(times):
        raise Refused(
            f"that plan has times for {len(times)} classes, not for {len(whose)}: type each class"
            " with its own, as in 1 8:00-8:50"
        )
    return [f"{who} {when}" for who, when in zip(whose, times, strict=False)]


def _minutes(clock: str) -> int:
    hours, _, minutes = clock.partition(":")
    return 60 * int(hours) + int(minutes) if hours.isdecimal() and minutes.isdecimal() else 0


def _clock(minutes: int) -> str:
    return f"{minutes // 60:02}:{minutes % 60:02}"
