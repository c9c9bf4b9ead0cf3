"""Codes: a kind letter, a body of fixed shape, two check digits.

The check digits are ISO/IEC 7064 MOD 97-10 over everything before them, letters counting
A = 10 … Z = 35.

>>> roll_code("26F", 142)
'R26F014209'
>>> read("r26f-0142-o9")
Code(kind='R', body='26F0142', text='R26F014209')
>>> read("R26F014290") is None
True
>>> spoken(read("R26F014209"))
'26F-0142-09'
"""

import re
from typing import NamedTuple

TERM = r"[0-9]{2}[A-HJ-KM-NP-Z]"
"""The code of a term: no letter that is read as a digit."""

ACTIONS = ("FLIP", "DRY", "TACKY", "TAKE", "BOX", "UNDO", "FAN", "FANOFF")

SHAPES = {
    "R": rf"({TERM})(\d{{4,9}})",
    "S": rf"({TERM})(\d{{4,9}})(\d)",
    "C": r"(\d{3})([AB])",
    "D": r"(\d\d)",
    "B": r"(\d\d)",
    "A": rf"({TERM})(\d\d)",
    "P": r"(\d{4})",
    "X": f"({'|'.join(ACTIONS)})",
}
"""The body of each kind: roll, sleeve page, clip, rod, box, binder, person, action.

As text, so that of eight patterns a lookup compiles the one that it meets.
"""

_LOOKALIKES = str.maketrans("OIL", "011")


class Code(NamedTuple):
    """A code whose check digits and shape hold; `text` is what its symbol carries."""

    kind: str
    body: str
    text: str

    @property
    def parts(self) -> tuple[str, ...]:
        """The body cut at its joints: term and serial of a roll, number and side of a clip …"""
        match = re.fullmatch(SHAPES[self.kind], self.body)
        assert match is not None
        return match.groups()


def check_digits(text: str) -> str:
    """Return the two ISO/IEC 7064 MOD 97-10 check digits of capitals and digits."""
    number = int("".join(str(int(character, 36)) for character in text))
    return f"{98 - number * 100 % 97:02d}"


def seal(kind: str, body: str) -> str:
    """Return the payload of a code: kind, body and check digits.

    Raises ValueError when the body does not have the shape of its kind.
    """
    if not re.fullmatch(SHAPES[kind], body):
        raise ValueError(f"{body!r} is no body of a {kind} code")
    return kind + body + check_digits(kind + body)


def roll_code(term: str, serial: int) -> str:
    """Return the payload of a roll: `R26F014209`.

    Raises ValueError as `seal` does.
    """
    return seal("R", f"{term}{serial:04d}")


def page_code(term: str, serial: int, page: int) -> str:
    """Return the payload of one page of a roll that needs several: `S26F0142270`.

    Raises ValueError as `seal` does.
    """
    return seal("S", f"{term}{serial:04d}{page}")


def clip_code(number: int, side: str) -> str:
    """Return the payload of one tag of a clip pair: `C017A70`.

    Raises ValueError as `seal` does.
    """
    return seal("C", f"{number:03d}{side}")


def rod_code(number: int) -> str:
    """Return the payload of a rod: `D0369`.

    Raises ValueError as `seal` does.
    """
    return seal("D", f"{number:02d}")


def box_code(number: int) -> str:
    """Return the payload of a period's box: `B0387`.

    Raises ValueError as `seal` does.
    """
    return seal("B", f"{number:02d}")


def binder_code(term: str, number: int) -> str:
    """Return the payload of a binder: `A26F0391`.

    Raises ValueError as `seal` does.
    """
    return seal("A", f"{term}{number:02d}")


def person_code(number: int) -> str:
    """Return the payload of a person: `P023188`.

    Raises ValueError as `seal` does.
    """
    return seal("P", f"{number:04d}")


def action_code(word: str) -> str:
    """Return the payload of an action on the bench card: `XFLIP51`.

    Raises ValueError as `seal` does.
    """
    return seal("X", word)


def compact(text: str) -> str:
    """Return what was typed or scanned in capitals, without spaces, hyphens and slashes."""
    return "".join(text.replace("-", " ").replace("/", " ").split()).upper()


def read(text: str) -> Code | None:
    """Return the code that was typed or scanned, or None when it is not one of ours.

    Case, spaces, hyphens and a slash are ignored; O is read as 0, I and L as 1.
    """
    code = _shaped(text)
    if code is None or check_digits(code.kind + code.body) != code.text[-2:]:
        return None
    return code


def looks_like_code(text: str) -> bool:
    """Tell whether a text has the shape of a code, whatever its check digits say."""
    return _shaped(text) is not None


def _shaped(text: str) -> Code | None:
    """Return a text as the code whose shape it has, its check digits not looked at yet."""
    squeezed = compact(text)
    kind, rest = squeezed[:1], squeezed[1:]
    if kind not in SHAPES or not squeezed.isascii():
        return None
    if kind != "X":
        rest = rest.translate(_LOOKALIKES)
    body, check = rest[:-2], rest[-2:]
    if not check.isdigit() or not re.fullmatch(SHAPES[kind], body):
        return None
    return Code(kind, body, kind + rest)


def spoken(code: Code) -> str:
    """Return a code as people read it: `26F-0142-09`, `clip 17 A`, `rod 3`."""
    parts, check = code.parts, code.text[-2:]
    match code.kind:
        case "R":
            return f"{parts[0]}-{parts[1]}-{check}"
        case "S":
            return f"{parts[0]}-{parts[1]}/{parts[2]}-{check}"
        case "C":
            return f"clip {int(parts[0])} {parts[1]}"
        case "D":
            return f"rod {int(parts[0])}"
        case "B":
            return f"box {int(parts[0])}"
        case "A":
            return f"binder {parts[0]}-{parts[1]}"
        case "P":
            return f"person {int(parts[0])}"
        case _:
            return "FAN OFF" if code.body == "FANOFF" else code.body
