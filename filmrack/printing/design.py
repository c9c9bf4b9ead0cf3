"""Label designs: which words stand on a label of each kind, and which of them is the largest."""

from __future__ import annotations

import string
from collections.abc import Mapping
from pathlib import Path
from typing import NamedTuple

from filmrack.domain.refusal import Refused
from filmrack.printing import written

JOINT = " · "


class Design(NamedTuple):
    """The headline, as large as the label allows, and the small lines under it.

    Each is a text with names of fields in braces, such as `{number} {side}`. The headline is
    written no larger than the text `room_for` would be.
    """

    kind: str
    headline: str
    lines: tuple[str, ...]
    room_for: str = ""


def design(kind: str, own: Path | None = None) -> Design:
    """Return the design of a kind of label; a file in the `design` folder of `own` wins.

    Raises Refused for a kind without a design and for a file that is wrong, such as one that
    leaves out the code: no error correction survives a scratch through the symbol's corners.
    """
    path = written.find("design", kind, own)
    root = written.table(
        written.read_toml(path), f"{kind} design", {"headline", "lines"}, {"room_for"}
    )
    headline = written.words(root["headline"], f"{kind} design headline")
    lines = written.several(root["lines"], f"{kind} design lines", written.words, least=0)
    if "code" not in {name for text in (headline, *lines) for name in _names(text, kind)}:
        raise Refused(
            f"the {kind} design leaves out {{code}}, which has to stand beside the symbol for the "
            f"day it is scratched: add it to the lines"
        )
    if "room_for" not in root:
        return Design(kind, headline, lines)
    return Design(kind, headline, lines, written.words(root["room_for"], f"{kind} room_for"))


def fill(text: str, fields: Mapping[str, str], kind: str) -> str:
    """Return a design's text with its fields filled in.

    Parts between ` · ` whose fields are all empty are left out with their joint.
    Raises Refused for a field that this kind of label does not have.
    """
    parts = []
    for part in text.split(JOINT):
        used = _names(part, kind)
        if unknown := [name for name in used if name not in fields]:
            raise Refused(
                f"the {kind} design asks for {{{unknown[0]}}}, which a {kind} label does not have: "
                f"use {', '.join(sorted(fields))}"
            )
        if not used or any(fields[name] for name in used):
            parts.append(part.format_map(dict(fields)).strip())
    return JOINT.join(part for part in parts if part)


def _names(text: str, kind: str) -> list[str]:
    try:
        found = list(string.Formatter().parse(text))
    except ValueError as trouble:
        raise Refused(f"the {kind} design has a stray brace in “{text}”: remove it") from trouble
    for _, name, spec, conversion in found:
        if name is not None and (spec or conversion or not name.isidentifier()):
            raise Refused(
                f"the {kind} design has {{{name}}} in “{text}”: write a field's bare name"
            )
    return [name for _, name, _, _ in found if name is not None]
