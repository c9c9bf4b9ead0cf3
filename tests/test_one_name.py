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
SECOND_NAMES = {
    r"\b(esc|Escape)\b": "Esc",
    r"\benter (is|takes|makes|goes|to be)\b|\benter:": "Enter",
    r"(?i)\bpupils?\b": "student",
    r"(?i)\bdamp (film|and)\b|\bis damp\b": "not dry",
    r"\b(how many|which) places?\b|\bplaces are counted\b": "position",
    r"\w’\w": "the straight apostrophe",
    rf"(?i)\b(?:type|say) (?:(?:{'|'.join(TYPED)})\b|clip $)": "what is typed in “quotes”",
    r"(?i)\b(?:who|with frames): (?:term|contact)\b": "what is typed in “quotes”",
}
"""Patterns of a second name, each with the one that is used."""

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


@pytest.mark.parametrize(("second", "first"), SECOND_NAMES.items())
def test_what_people_read_has_no_second_name(
    second: str, first: str, sentences: list[tuple[str, str]]
) -> None:
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


def test_a_second_name_would_be_found() -> None:
    source = 'def f(x):\n    """Escape ends."""\n    return f"press Escape, {x}", "esc"\n'
    assert [*said(source)] == ["press Escape, "]
