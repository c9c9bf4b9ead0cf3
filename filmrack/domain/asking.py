"""What somebody looks for, in one line: names, numbers, clips and places mixed.

>>> [(part.kind, part.value) for part in parse("okafor 26f")]
[('name', 'okafor'), ('term', '26F')]
>>> [(part.kind, part.value) for part in parse("box 3 mara")]
[('box', '3'), ('name', 'mara')]
>>> [(part.kind, part.value) for part in parse("26F-0142-09")]
[('roll', '26F-0142')]
>>> [(part.kind, part.value) for part in parse("26F-0142/2 26f-03")]
[('roll', '26F-0142'), ('binder', '26F-03')]
"""

import re
from typing import NamedTuple

from filmrack.domain.codes import TERM, Code, looks_like_code, read
from filmrack.domain.names import tokens
from filmrack.domain.refusal import Refused

LONGEST_LINE = 500

_PLACES = ("clip", "rod", "box", "binder", "person")
_TERM = f"(?i){TERM}"
_NUMBER = rf"(?i)({TERM})-?(\d{{4,}})(?:/\d)?"
_BINDER = rf"(?i)({TERM})-(\d\d)"
_SLEEVE = r"(\d{4,})/\d"
_KIND_OF = {"C": "clip", "D": "rod", "B": "box", "P": "person", "A": "binder"}


class Part(NamedTuple):
    """One thing that is asked for.

    `kind` is roll (value `26F-0142`), clip, rod, box, binder, person, term, number (a clip's or a
    roll's, not said which) or name (folded).
    """

    kind: str
    value: str

    @property
    def may_be_a_clip(self) -> bool:
        """Tell whether it is a number that a clip pair can have: up to three digits."""
        return self.kind == "number" and len(self.value) <= 3


def parse(line: str) -> list[Part]:
    """Return what a line asks for.

    Raises Refused for a code that is none of ours, such as a web address or a misread symbol.
    """
    if len(line) > LONGEST_LINE:
        raise Refused(f"that line has {len(line)} characters: look for a name or a number")
    whole = code_in(line)
    if whole is not None:
        return [_of_code(whole)]
    parts: list[Part] = []
    words = line.split()
    while words:
        word = words.pop(0)
        kind = word.casefold()
        if kind == "binder" and words and re.fullmatch(_BINDER, words[0]):
            continue  # its spine says which
        if kind not in _PLACES or not words or not words[0].isdecimal() or len(words[0]) > 9:
            parts.extend(_of_word(word))
            continue
        parts.append(Part(kind, str(int(words.pop(0)))))
        if kind == "clip" and words and words[0].casefold() in ("a", "b"):
            words.pop(0)  # both tags of a pair mean the same roll
    return parts


def code_in(text: str) -> Code | None:
    """Return the code that a whole line is, also a roll's number or a sleeve's
    typed without its letter.

    Raises Refused for what a scanner can only have read from a symbol that is not ours.
    """
    squeezed = text.strip()
    code = _code_of(squeezed)
    if code is not None:
        return code
    if "://" in squeezed or squeezed.casefold().startswith(("www.", "mailto:", "wifi:")):
        raise Refused(
            "that is not one of our codes but some other symbol: scan a clip's, a roll's or a"
            " person's, or type the name"
        )
    if looks_like_code(squeezed) and any(character.isdigit() for character in squeezed[:4]):
        raise Refused(
            f"{squeezed[:20]} is not one of our codes, its check digits do not fit: scan it again,"
            " or type the number beside it"
        )
    return None


def _of_code(code: Code) -> Part:
    if code.kind == "X":
        raise Refused(f"{code.body} is an action: scan the roll it is meant for first")
    if code.kind in ("R", "S"):
        term, serial = code.parts[:2]
        return Part("roll", f"{term}-{serial}")
    if code.kind == "A":
        return Part("binder", f"{code.parts[0]}-{code.parts[1]}")
    return Part(_KIND_OF[code.kind], str(int(code.parts[0])))


def _code_of(text: str) -> Code | None:
    """Return a code, also a roll's number or a sleeve's that is typed without its letter."""
    code = read(text)
    if code is not None or not text[:1].isdigit():
        return code
    return read(("S" if "/" in text else "R") + text)


def _of_word(word: str) -> list[Part]:
    code = _code_of(word)
    if code is not None:
        return [_of_code(code)]
    if not word[0].isdecimal():
        return [Part("name", folded) for folded in tokens(word)]
    number = re.fullmatch(_NUMBER, word)
    if number:
        return [Part("roll", f"{number[1].upper()}-{int(number[2]):04d}")]
    if re.fullmatch(_BINDER, word):
        return [Part("binder", word.upper())]
    if re.fullmatch(_TERM, word):
        return [Part("term", word.upper())]
    sleeve = re.fullmatch(_SLEEVE, word)
    if sleeve and word.isascii():
        return [Part("number", sleeve[1])]
    if word.isascii() and word.isdecimal():
        return [Part("number", word)]
    return [Part("name", folded) for folded in tokens(word)]
