"""The small words of a typed sentence: `61 is clip 62`, `move 61 62`, `17 load mara`.

Words that only join are nobody's name, and a verb is never left out while the rest is done.
"""

from __future__ import annotations

from filmrack.desk.free_clips import with_free_clip
from filmrack.desk.session import Session
from filmrack.desk.verbs import WANTED
from filmrack.domain.asking import Part, parse
from filmrack.domain.refusal import Refused
from filmrack.domain.student_desk import refuse_act
from filmrack.store import people

_JOINS = frozenset(
    {"are", "at", "be", "clip", "has", "hangs", "in", "is", "it", "its", "no", "not", "now"}
    | {"on", "really", "rod", "the", "to", "was", "wrong"}
)
_BETWEEN = {
    **{verb: verb for verb in ("load", "hang", "move", "reclip", "touch", "claim", "show", "find")},
    **{"loaded": "load", "hung": "hang", "moved": "move"},
}
"""Verbs that may stand behind what they are done to, with something behind them."""

_ROLLS = ("number", "clip", "roll")


def verb_between(session: Session, words: list[str]) -> tuple[str, list[str]]:
    """Return the verb of `17 load mara`, and the words without it; empty where somebody is called
    so, or where there is no roll that it could be done to.
    """
    nth = next((n for n, word in enumerate(words) if n and word.casefold() in _BETWEEN), None)
    if nth is None:
        return "", words
    parts = parse(" ".join(words))
    names = [part.value for part in parts if part.kind == "name"]
    is_name = bool(people.with_words(session.file.conn, names, limit=1))
    if is_name or not any(part.kind in _ROLLS for part in parts):
        return "", words
    return _BETWEEN[words[nth].casefold()], [*words[:nth], *words[nth + 1 :]]


def without_joins(parts: list[Part]) -> tuple[list[Part], list[str]]:
    """Return what is named in a sentence, and the words that only join it."""
    joins = [part.value for part in parts if part.kind == "name" and part.value in _JOINS]
    return [p for p in parts if p.kind != "name" or p.value not in _JOINS], joins


def says_right_clip(verb: str, parts: list[Part], joins: list[str]) -> bool:
    """Tell whether a sentence says that a roll is on another clip: `61 clip 62`, `61 is 62`."""
    if len(parts) != 2 or parts[0].kind not in _ROLLS:
        return False
    second = parts[1]
    said = verb in ("move", "reclip") or (not verb and (joins or second.kind == "clip"))
    return bool(said) and (second.kind == "clip" or second.may_be_a_clip)


def refuse_half_understood(
    session: Session, verb: str, parts: list[Part], joins: list[str], action: str | None
) -> None:
    """Raise Refused where a verb does not go with the rest, or a joining word joins nothing."""
    kinds = [part.kind for part in parts]
    match verb:
        case "claim":
            refuse_act(session.by, "claim", {})
            fits = "name" in kinds or "person" in kinds
        case "move":
            fits = "rod" in kinds or len(parts) == 1
        case "touch":
            fits = action in ("DRY", "TACKY", "WET") or (len(parts) == 1 and action is None)
        case "reclip":
            fits = False
        case "show" | "find":
            fits = len(parts) == 1 and action is None
        case _:
            fits = True
    if not fits:
        raise Refused(with_free_clip(session, WANTED[verb]))
    if joins and len(parts) == 1 and not verb and action is None and kinds[0] in _ROLLS:
        said = parts[0].value
        right = with_free_clip(session, f"{said} clip {{free}}")
        raise Refused(
            f"“{' '.join(joins)}” is not understood by itself: if clip {said} is wrong, type the"
            f" right one behind it, as “{right}”; else a rod or what was done, as “{said} rod 3”"
        )
