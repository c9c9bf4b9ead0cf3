"""What goes on a label: plain facts, known before a page is opened.

Each label has a `kind` (the name of its design), the `payload` of its symbol, and the `fields`
that its design may write. Nothing personal is in any payload.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import ClassVar, Protocol

from filmrack.domain import codes
from filmrack.domain.counted import listed
from filmrack.domain.refusal import Refused


class Label(Protocol):
    """Anything that can be printed on one label."""

    kind: ClassVar[str]

    @property
    def payload(self) -> str:
        """What the symbol carries."""

    def fields(self) -> Mapping[str, str]:
        """What a design may write, by name; an absent fact is empty."""


@dataclass(frozen=True, slots=True)
class ClipTag:
    """One tag of a clip pair: its number (1 to 999) and its side, A or B."""

    number: int
    side: str
    kind: ClassVar[str] = "clip"

    @property
    def payload(self) -> str:
        """The clip's code."""
        return _possible(
            lambda: codes.clip_code(self.number, self.side), f"clip {self.number} {self.side}"
        )

    def fields(self) -> Mapping[str, str]:
        """number, side, spoken, code."""
        return {
            "number": str(self.number),
            "side": self.side,
            "spoken": f"clip {self.number} {self.side}",
            "code": self.payload,
        }


def clip_pairs(numbers: Iterable[int]) -> tuple[ClipTag, ...]:
    """Return the tags of clips, A and B of a pair side by side."""
    return tuple(ClipTag(number, side) for number in numbers for side in "AB")


def named_clips(numbers: Sequence[int]) -> str:
    """Return clips as they stand in a sentence: `clip 7`, `clips 7, 18`; a dozen by name."""
    return f"clip{'s' if len(numbers) != 1 else ''} {listed([*map(str, numbers)], 12)}"


@dataclass(frozen=True, slots=True)
class SleeveLabel:
    """A sleeve: the code of its roll, or of its page where a roll takes several.

    `pages_text` such as "page 1 of 2"; `initials` only where the room says so.
    """

    code: str
    film: str
    term: str
    date: str
    pages_text: str = ""
    initials: str | None = None
    kind: ClassVar[str] = "sleeve"

    @property
    def payload(self) -> str:
        """The roll's or the page's code."""
        return _known(self.code, "RS").text

    def fields(self) -> Mapping[str, str]:
        """code (as people read it), film, term, date, pages, initials."""
        return {
            "code": codes.spoken(_known(self.code, "RS")),
            "film": self.film,
            "term": self.term,
            "date": self.date,
            "pages": self.pages_text,
            "initials": self.initials or "",
        }


@dataclass(frozen=True, slots=True)
class RodLabel:
    """A rod of the dryer, and the period it is given to."""

    number: int
    period: str = ""
    kind: ClassVar[str] = "rod"

    @property
    def payload(self) -> str:
        """The rod's code."""
        return _possible(lambda: codes.rod_code(self.number), f"rod {self.number}")

    def fields(self) -> Mapping[str, str]:
        """number, period, code."""
        return {"number": str(self.number), "period": self.period, "code": self.payload}


@dataclass(frozen=True, slots=True)
class BoxLabel:
    """The box of one period."""

    number: int
    period: str = ""
    kind: ClassVar[str] = "box"

    @property
    def payload(self) -> str:
        """The box's code."""
        return _possible(lambda: codes.box_code(self.number), f"box {self.number}")

    def fields(self) -> Mapping[str, str]:
        """number, period, code."""
        return {"number": str(self.number), "period": self.period, "code": self.payload}


@dataclass(frozen=True, slots=True)
class BinderLabel:
    """A binder of the archive: its term, its number in it, and what stands on its spine."""

    term: str
    number: int
    title: str = ""
    kind: ClassVar[str] = "binder"

    @property
    def payload(self) -> str:
        """The binder's code."""
        name = f"binder {self.term}-{self.number:02d}"
        return _possible(lambda: codes.binder_code(self.term, self.number), name)

    def fields(self) -> Mapping[str, str]:
        """term, number (two digits), title, code."""
        return {
            "term": self.term,
            "number": f"{self.number:02d}",
            "title": self.title,
            "code": self.payload,
        }


def _possible(code: Callable[[], str], name: str) -> str:
    """Return a code, or refuse a label for what can have none."""
    try:
        return code()
    except ValueError as trouble:
        raise Refused(
            f"there can be no label for {name} because its number or side has no code: "
            f"check what was asked for"
        ) from trouble


def _known(text: str, kinds: str) -> codes.Code:
    code = codes.read(text)
    if code is None or code.kind not in kinds:
        raise Refused(f"“{text}” is no code of a roll or a sleeve page: check how it was written")
    return code
