"""What the line asks for where one word is missing."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from filmrack.desk.said import Said
from filmrack.domain.asking import code_in
from filmrack.domain.codes import spoken


class Question(NamedTuple):
    """One thing the line asks for; `answer` takes it and raises Refused when it cannot be meant.

    `headline` and `words` stand above the line until it is answered. A `verbatim` answer is taken
    as it is, even if it looks like a code; a `secret` one is not shown either. `done` tells that
    what was asked before has changed the file. `kind` is the kind of code that answers it; any
    other scan begins something new. `usual` is what Enter alone answers, `given` stands in the
    line, until something is typed in its place. `does` are the words for an Enter that is an answer
    without a word. `left` is what the desk says when Esc leaves the question, `wanted` what it says
    to Enter alone that answers nothing. `select` is a roll to show meanwhile. One `of_row` is about
    the selected row of its screen: it is let go when another is selected. A `bare` one has no
    answer but Enter. One that `undoes` takes “undo” for what was done while it was asked; that word
    lets any other go.
    """

    prompt: str
    answer: Callable[[str], Said | Question]
    headline: str = ""
    words: str = ""
    verbatim: bool = False
    secret: bool = False
    done: bool = False
    kind: str = ""
    usual: str = ""
    given: str = ""
    does: str = ""
    left: Said | None = None
    wanted: str = ""
    select: int | None = None
    of_row: bool = False
    bare: bool = False
    undoes: bool = False

    def answered_by(self, text: str) -> str | None:
        """Return the answer in a line, or None when something else was scanned instead."""
        code = None if self.verbatim else code_in(text)
        if code is None:
            return text
        if code.kind != self.kind:
            return None
        return code.body if code.kind == "X" else spoken(code)
