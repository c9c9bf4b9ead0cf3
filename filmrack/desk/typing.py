"""What reaches the line: keys from a person or from a scanner, which is a keyboard that types a
code and then Enter, Tab, LF, CR LF or nothing.

Pure: time comes in with each key, in seconds of a clock that never goes back.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from filmrack.domain.codes import read

SETTLE = 0.3
"""Seconds after which a complete code counts without a terminator, and within which a further
terminator still belongs to the last one."""

LONGEST = 500

TERMINATORS = frozenset({"enter", "tab", "ctrl+j", "ctrl+m"})


@dataclass(frozen=True, slots=True)
class Typed:
    """What stands in the line, and the cursor in it; `touched` and `ended` are moments."""

    text: str = ""
    cursor: int = 0
    touched: float = -1.0
    ended: float = -1.0


@dataclass(frozen=True, slots=True)
class Submitted:
    """A whole line; empty when a terminator stood alone, `key` tells which one."""

    text: str
    key: str


def terminator(typed: Typed, key: str, at: float) -> tuple[Typed, Submitted | None]:
    """Take Enter, Tab or LF: submit the line, or nothing when it belongs to the last submit.

    A held key repeats its terminator and is ignored as long as it is held.
    """
    if not typed.text and at - typed.ended < SETTLE:
        return replace(typed, ended=at), None
    return Typed(ended=at), Submitted(typed.text.strip(), key)


def character(typed: Typed, text: str, at: float) -> Typed:
    """Take what was typed or pasted, at the cursor; line ends in a paste become spaces."""
    plain = " ".join(text.split("\n")) if len(text) > 1 else text
    room = LONGEST - len(typed.text)
    added = "".join(one for one in plain if one.isprintable())[:room]
    return replace(
        typed,
        text=typed.text[: typed.cursor] + added + typed.text[typed.cursor :],
        cursor=typed.cursor + len(added),
        touched=at,
    )


def edited(typed: Typed, key: str, at: float) -> Typed:
    """Take a key that edits or moves in the text."""
    text, cursor = typed.text, typed.cursor
    match key:
        case "backspace" if cursor:
            text, cursor = text[: cursor - 1] + text[cursor:], cursor - 1
        case "delete":
            text = text[:cursor] + text[cursor + 1 :]
        case "ctrl+u":
            text, cursor = "", 0
        case "ctrl+w":
            kept = text[:cursor].rstrip()
            kept = kept[: kept.rfind(" ") + 1]
            text, cursor = kept + text[cursor:], len(kept)
        case "left":
            cursor = max(0, cursor - 1)
        case "right":
            cursor = min(len(text), cursor + 1)
        case "home":
            cursor = 0
        case "end":
            cursor = len(text)
    return replace(typed, text=text, cursor=cursor, touched=at)


def settled(typed: Typed, at: float) -> tuple[Typed, Submitted | None]:
    """Submit a complete code behind which nothing came: some scanners end with nothing."""
    if typed.text and at - typed.touched >= SETTLE and read(typed.text) is not None:
        return Typed(ended=at), Submitted(typed.text.strip(), "nothing")
    return typed, None
