"""Names of people: as they are kept, shown and looked for."""

from collections.abc import Iterable
from typing import NamedTuple

from filmrack.domain.refusal import Refused

LONGEST = 120

_HARMLESS_FORMAT = frozenset("\u200c\u200d")  # joiners that some scripts and emoji need
_FOLDS = str.maketrans(
    {"ß": "ss", "æ": "ae", "œ": "oe", "ø": "o", "đ": "d", "ð": "d", "ł": "l", "þ": "th", "ı": "i"}
)


class Person(NamedTuple):
    """A student; `called` is the name they go by, where it is not the given one."""

    number: int
    given: str
    family: str
    called: str | None = None
    school_id: str | None = None

    @property
    def known_as(self) -> str:
        """Return the given name or the one they go by."""
        return self.called or self.given

    @property
    def full(self) -> str:
        """Return the name as a teacher reads it: `Mara Okafor`; the number where it was wiped."""
        return f"{self.known_as} {self.family}".strip() or f"person {self.number}"

    @property
    def short(self) -> str:
        """Return the name as a student desk shows it: `Mara O.`."""
        if not self.family:
            return self.known_as or self.full
        return f"{self.known_as} {self.family[:1]}.".strip()

    @property
    def initials(self) -> str:
        """Return `MO`."""
        return self.known_as[:1] + self.family[:1]

    @property
    def whole_names(self) -> tuple[str, str]:
        """Return the two names they are called by in full: `Mara Okafor`, `Margaret Okafor`."""
        return f"{self.known_as} {self.family}", f"{self.given} {self.family}"

    @property
    def single_names(self) -> tuple[str, str, str]:
        """Return each name they are called by alone: `Mara`, `Margaret`, `Okafor`."""
        return self.known_as, self.given, self.family


QUOTES = "\"“”„'‘’"


def unquoted(text: str) -> str | None:
    """Return what stands in quotes, which is kept as it is whoever is called so; None without.

    >>> unquoted("“art office”"), unquoted("'tis mine")
    ('art office', None)
    """
    typed = text.strip()
    if len(typed) < len('"a"') or typed[0] not in QUOTES or typed[-1] not in QUOTES:
        return None
    return typed[1:-1].strip() or None


def called(owner: Person | None, said: str | None = None) -> str:
    """Return whose film is, as a teacher reads it; without an owner what is written on it."""
    if owner is not None:
        return owner.full
    return f"“{said}”" if said else "unknown roll"


def clean(text: str, what: str) -> str:
    """Return typed text in NFC with single spaces.

    Raises Refused for control and direction characters and for text over 120 characters: they can
    be meant in no name and would garble a screen or a label.
    """
    import unicodedata

    tidy = " ".join(unicodedata.normalize("NFC", text).split())
    for character in tidy:
        if steers(character) or unicodedata.category(character) in ("Co", "Cn"):
            raise Refused(
                f"{what} holds the character U+{ord(character):04X}, which cannot be shown:"
                " type it without"
            )
    if len(tidy) > LONGEST:
        raise Refused(f"{what} has {len(tidy)} characters, more than {LONGEST}: shorten it")
    return tidy


def steers(character: str) -> bool:
    """Tell whether a character would steer a terminal or turn its writing round."""
    import unicodedata

    category = unicodedata.category(character)
    if category == "Cf":
        return character not in _HARMLESS_FORMAT
    return category in ("Cc", "Cs", "Zl", "Zp")


def harmless(text: str, *, kept: str = "") -> str:
    """Return a text of the same length without characters that would steer a terminal.

    `kept` are some that may: the line ends of a text that is printed whole.
    """
    if text.isprintable():
        return text
    return "".join("\ufffd" if c not in kept and steers(c) else c for c in text)


def folded(text: str) -> str:
    """Return a line as it is compared: in small letters, with one space between words.

    >>> folded("  Close  Term ")
    'close term'
    """
    return " ".join(text.casefold().split())


def tokens(text: str) -> list[str]:
    """Return the words of a text folded for looking up: no case, no accents, no signs."""
    plain = text.casefold() if text.isascii() else _without_accents(text)
    letters = (
        character if character.isalnum() else " " for character in plain if character not in "'’ʼ`"
    )
    return "".join(letters).split()


def begin_names(words: Iterable[str], names: str) -> bool:
    """Tell whether each of some folded words begins one of somebody's names.

    >>> begin_names(["nov"], "Ms Novak"), begin_names(["ms", "vak"], "Ms Novak")
    (True, False)
    """
    there = tokens(names)
    return all(any(name.startswith(word) for name in there) for word in words)


def is_one_of(text: str, names: Iterable[str]) -> bool:
    """Tell whether a text is one of some names, in whatever order its words stand.

    >>> is_one_of("Okafor, Mara", Person(1, "Margaret", "Okafor", "Mara").whole_names)
    True
    """
    words = sorted(tokens(text))
    return any(sorted(tokens(name)) == words for name in names)


def only_by_family(person: Person, words: list[str]) -> int:
    """Return how many of some folded words begin the family name alone: who is called so comes
    before them.

    >>> only_by_family(Person(1, "Juniper", "Marsh"), ["mar"])
    1
    >>> only_by_family(Person(2, "Marigold", "Finch"), ["mar"])
    0
    """
    first, last = tokens(f"{person.given} {person.called or ''}"), tokens(person.family)
    return sum(
        any(name.startswith(word) for name in last)
        and not any(name.startswith(word) for name in first)
        for word in words
    )


def _without_accents(text: str) -> str:
    import unicodedata

    plain = unicodedata.normalize("NFKD", text).casefold().translate(_FOLDS)
    decomposed = unicodedata.normalize("NFKD", plain)
    return "".join(character for character in decomposed if not unicodedata.combining(character))
