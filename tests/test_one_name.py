"""One thing, one name: of two words that people could read for it, the house uses one."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

import filmrack

HOUSE = Path(filmrack.__file__).parent
TYPED = (
    *(
        "undo",
        "sweep",
        "reopen",
        "view",
        "print",
        "term",
        "day off",
        "flip",
        "tacky",
        "take",
        "box",
    ),
    *("found", "contact", "file", "lend", "yes", "no", "d", "t", r"from \d", r"\d+"),
)
"""Words that a line of the desk begins with, and answers to its questions."""
_QUOTES = "what is typed in “quotes”"
SECOND_NAMES = {
    r"\b(esc|Escape)\b": ("Esc", "press Escape"),
    r"\benter (is|takes|makes|goes|to be)\b|\benter:": ("Enter", "enter takes it down"),
    r"(?i)\bpupils?\b": ("student", "Pupils hang it"),
    r"(?i)\bdamp (film|and)\b|\bis damp\b": ("not dry", "clip 17 is damp"),
    r"\b(how many|which) places?\b|\bplaces are counted\b": ("position", "which place is free"),
    r"\w’\w": ("the straight apostrophe", "the roll’s clip"),
    rf"(?i)\b(?:type|say) (?:(?:{'|'.join(TYPED)})\b|clip $)": (_QUOTES, "wrong? Type undo"),
    r"(?i)\b(?:who|with frames): (?:term|contact)\b": (_QUOTES, "to say who: term 26F"),
}
"""Patterns of a second name, each with the one that is used, and with a sentence that is caught."""

# Words that are typed and understood, and not said.
UNDERSTOOD = {"domain/headings.py", "desk/archive/sleeve_names.py"}


def said(source: str) -> Iterator[str]:
    """Yield the texts of a module that can be sentences: of more than a word, and no docstrings."""
    tree = ast.parse(source)
    for node in ast.walk(tree):
        for child in ast.iter_child_nodes(node):
            if isinstance(child, ast.Constant) and not isinstance(node, ast.Expr):
                text = child.value
                if isinstance(text, str) and " " in text.strip():
                    yield text


@pytest.fixture(scope="module")
def sentences() -> list[tuple[str, str]]:
    """Return each text of the house with the module in which it stands."""
    modules = {path.relative_to(HOUSE).as_posix(): path for path in sorted(HOUSE.rglob("*.py"))}
    return [
        (name, text)
        for name, path in modules.items()
        if name not in UNDERSTOOD
        for text in said(path.read_text("utf-8"))
    ]


@pytest.mark.parametrize("second", SECOND_NAMES)
def test_what_people_read_has_no_second_name(second: str, sentences: list[tuple[str, str]]) -> None:
    first, _ = SECOND_NAMES[second]
    found = [(name, text) for name, text in sentences if re.search(second, text)]
    assert found == [], f"say {first}"


def test_what_somebody_typed_is_quoted_in_one_way() -> None:
    quoted = {
        name
        for path in sorted(HOUSE.rglob("*.py"))
        if re.search(r"Refused\(\s*f\"[^\"]*!r\}", path.read_text("utf-8"))
        and (name := path.relative_to(HOUSE).as_posix()) != "printing/written.py"  # values of TOML
    }
    assert quoted == set(), "say “it”, as all others do"


def test_sentences_of_a_module_are_read_and_its_docstrings_and_single_words_are_not() -> None:
    source = 'def f(x):\n    """Escape ends."""\n    return f"press Escape, {x}", "esc"\n'
    assert [*said(source)] == ["press Escape, "]


@pytest.mark.parametrize("second", SECOND_NAMES)
def test_a_second_name_would_be_found(second: str) -> None:
    _, wrong = SECOND_NAMES[second]
    (text,) = said(f'no = f"{wrong}, {{x}}"\n')
    assert re.search(second, text)
