"""Numbers as people order them.

>>> numbers_in("1-3, 17", "clip", 999)
[1, 2, 3, 17]
>>> numbers_in("clip 5 C017A70", "clip", 999)
[5, 17]
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from itertools import groupby

from filmrack.domain.asking import code_in
from filmrack.domain.refusal import Refused

_KINDS = {"clip": "C", "rod": "D", "box": "B"}
_RANGE = re.compile(r"(\d{1,9})(?:-(\d{1,9}))?", re.ASCII)


def numbers_in(text: str, what: str, most: int) -> list[int]:
    """Return the numbers from 1 to `most` that a line names, each once, in the order given.

    A range is written as 1-60, several are parted by commas or spaces; codes of clips, rods and
    boxes count as their number. Raises Refused for anything else.
    """
    found: dict[int, None] = {}
    for word in re.sub(r"\s*[-–]\s*", "-", text.replace(",", " ")).split():
        if word.casefold() != what:
            found.update(dict.fromkeys(_numbers(word, what, most)))
    return list(found)


def _numbers(word: str, what: str, most: int) -> range:
    code = code_in(word)
    if code is not None and code.kind == _KINDS.get(what):
        number = int(code.parts[0])
        return range(number, number + 1)
    match = _RANGE.fullmatch(word)
    if match is None:
        raise Refused(f"“{word[:40]}” is no {what}: write its number, or a range such as 1-6")
    first, last = int(match[1]), int(match[2] or match[1])
    if last < first:
        raise Refused(f"{word} runs backwards: write it as {last}-{first}")
    if not (first >= 1 and last <= most):
        raise Refused(f"there is no {what} {word}: they are numbered from 1 to {most}")
    return range(first, last + 1)


def ranges_of(numbers: Iterable[int]) -> str:
    """Return numbers in few words.

    >>> ranges_of([1, 2, 3, 7, 9, 10])
    '1-3, 7, 9-10'
    """
    told = []
    for _, run in groupby(enumerate(sorted(numbers)), lambda pair: pair[1] - pair[0]):
        found = [number for _, number in run]
        told.append(str(found[0]) if len(found) == 1 else f"{found[0]}-{found[-1]}")
    return ", ".join(told)
