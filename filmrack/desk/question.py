"""What the line asks for where one word is missing."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from filmrack.desk.said import Said
from filmrack.domain.asking import code_in
from filmrack.domain.codes import spoken


class Question(NamedTuple):
    """One thing the line asks for, until it is answered, left by Esc, or let go for a line."""

    prompt: str
    """What stands in the empty line."""
    answer: Callable[[str], Said | Question]
    """Takes what was typed. Raises Refused when it cannot be meant."""
    headline: str = ""
    """What stands in large letters above the line until it is answered."""
    words: str = ""
    """What stands below that."""
    verbatim: bool = False
    """Whether the answer is taken as it is, even if it looks like a code."""
    secret: bool = False
    """Whether what is typed is not shown."""
    done: bool = False
    """Whether what was asked before it has changed the file."""
    kind: str = ""
    """The kind of code that answers it; any other scan begins something new."""
    usual: str = ""
    """What Enter alone answers."""
    given: str = ""
    """What stands in the line to begin with, until something is typed in its place."""
    does: str = ""
    """What Enter does, where it is an answer without a word."""
    left: Said | None = None
    """What the desk says when Esc leaves it."""
    wanted: str = ""
    """What the desk says to Enter alone that answers nothing."""
    select: int | None = None
    """A roll to show meanwhile."""
    of_row: bool = False
    """Whether it is about the selected row of its screen: let go when another is selected."""
    bare: bool = False
    """Whether it has no answer but Enter."""
    undoes: bool = False
    """Whether “undo” takes back what was done while it was asked; else that word lets it go."""

    def answered_by(self, text: str) -> str | None:
        """Return the answer in a line, or None when something else was scanned instead."""
        code = None if self.verbatim else code_in(text)
        if code is None:
            return text
        if code.kind != self.kind:
            return None
        return code.body if code.kind == "X" else spoken(code)
