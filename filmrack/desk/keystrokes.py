"""What reaches the line: keys from a person or from a scanner, which is a keyboard that types a
code and then Enter, Tab, LF, CR LF or nothing.

Pure: time comes in with each key, in seconds of a clock that never goes back.
"""

from typing import NamedTuple

from filmrack.domain.codes import read

SETTLE = 0.3
"""Seconds after which a complete code counts without a terminator, and within which a further
terminator still belongs to the last one."""

HELD = 1.2
"""Seconds after a terminator within which an empty one may come from a key that is held down:
keyboards begin to repeat after a quarter of a second to a whole one (common practice)."""

SURE = 0.12
"""Seconds without a further terminator after which such a key was pressed, not held: a held one
repeats some thirty times a second, ten where it is slow (common practice)."""

AT_ONCE = 0.4
"""Seconds behind a line within which Enter alone belongs to that line still: a double press, or
the second end of a scanner that is slow. Where the line asks for Enter only SETTLE counts."""

TWICE = 1.0
"""Seconds within which the same code again is the same scan: a trigger held a moment too long."""

LONGEST = 500

TERMINATORS = frozenset({"enter", "tab", "ctrl+j", "ctrl+m"})


class Typed(NamedTuple):
    """What stands in the line, and the cursor in it; `touched` and `ended` are moments.

    `since` is where the text begins that was typed without a pause. `doubt` is a terminator of
    which the next moments tell whether it was pressed or held. `code` was submitted last, if that
    was a code. A text that was `given` and not typed is replaced by what is typed, until a key
    moves or edits in it.
    """

    text: str = ""
    cursor: int = 0
    touched: float = -10.0
    ended: float = -10.0
    since: int = 0
    doubt: str | None = None
    code: str = ""
    said: float = -10.0
    given: bool = False

    @property
    def meant(self) -> str:
        """Return the text; a whole code typed at once counts without what somebody left before."""
        burst = self.text[self.since :].strip()
        if self.since and read(self.text) is None and read(burst) is not None:
            return burst
        return self.text.strip()


class Submitted(NamedTuple):
    """A whole line; empty when a terminator stood alone, `key` tells which one, `soon` that it came
    right behind a line.
    """

    text: str
    key: str
    soon: bool = False


def terminator(typed: Typed, key: str, at: float) -> tuple[Typed, Submitted | None]:
    """Take Enter, Tab or LF: submit the line, or nothing when it belongs to the last submit.

    A held key repeats its terminator and is ignored as long as it is held; where that cannot be
    known yet, `settled` tells later.
    """
    passed = at - typed.ended
    if not typed.text and passed < HELD:
        doubt = None if passed < SETTLE else key
        return typed._replace(ended=at, doubt=doubt), None
    return _ended(typed, key, at)


def _ended(typed: Typed, key: str, at: float) -> tuple[Typed, Submitted | None]:
    """Submit a line, but no code that a scanner has read twice."""
    meant = typed.meant
    code = meant if read(meant) is not None else ""
    ended = Typed(ended=at, code=code, said=at if meant else typed.said)
    if code and code == typed.code and at - typed.ended < TWICE:
        return ended, None
    return ended, Submitted(meant, key, not meant and _is_soon(typed, at))


def _is_soon(typed: Typed, at: float) -> bool:
    return at - typed.said < AT_ONCE


def character(typed: Typed, text: str, at: float) -> Typed:
    """Take what was typed or pasted, at the cursor; line ends in a paste become spaces."""
    plain = " ".join(text.splitlines()) if len(text) > 1 else text
    if typed.given:
        typed = typed._replace(text="", cursor=0, since=0, given=False)
    room = LONGEST - len(typed.text)
    added = "".join(one for one in plain if one.isprintable())[:room]
    return typed._replace(
        text=typed.text[: typed.cursor] + added + typed.text[typed.cursor :],
        cursor=typed.cursor + len(added),
        touched=at,
        since=typed.cursor if at - typed.touched >= SETTLE else typed.since,
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
    return typed._replace(text=text, cursor=cursor, touched=at, since=0, given=False)


def settled(typed: Typed, at: float) -> tuple[Typed, Submitted | None]:
    """Submit what only time can tell: a complete code behind which nothing came, since some
    scanners end with nothing, and a terminator that was no held key.
    """
    if typed.doubt is not None and at - typed.ended >= SURE:
        return _pressed(typed, typed.doubt)
    if typed.text and at - typed.touched >= SETTLE and read(typed.meant) is not None:
        return _ended(typed, "nothing", at)
    return typed, None


def sure(typed: Typed) -> tuple[Typed, Submitted | None]:
    """Submit a terminator in doubt because another key came: who types on holds none down."""
    if typed.doubt is None:
        return typed, None
    return _pressed(typed, typed.doubt)


def _pressed(typed: Typed, key: str) -> tuple[Typed, Submitted]:
    return typed._replace(doubt=None), Submitted("", key, _is_soon(typed, typed.ended))
