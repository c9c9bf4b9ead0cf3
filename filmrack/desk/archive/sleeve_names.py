"""What is typed for whose an old sleeve is: a name, nobody, the end, or what is no name at all."""

from __future__ import annotations

import re

from filmrack.acts import shelving
from filmrack.desk import verbs
from filmrack.desk.anywhere import OWN_LABEL
from filmrack.desk.archive import orders as archive_orders
from filmrack.desk.halves import TYPED_WORDS
from filmrack.desk.registry import COMMANDS, SCREENS, is_no_answer
from filmrack.desk.session import Session
from filmrack.domain.asking import parse
from filmrack.domain.names import folded
from filmrack.domain.refusal import Refused
from filmrack.store import search

_NOBODY = frozenset({"nobody", "nobody knows", "no owner", "unknown"})
"""What is typed for a sleeve whose owner is not known; the first of them is shown."""

_ENDS = frozenset(
    {"esc", "escape", "done", "finish", "finished", "end", "stop", "exit", "cancel", "that's all"}
)
"""What is typed to end it, as words on the screen have it."""

_PERHAPS_ENDS = frozenset({"back", "close", "closed", "go back", "leave", "no", "none", "ok"})
"""Words that may be meant so, or be somebody's name."""

_LIKE_A_NUMBER = re.compile(r"\s*(\d\d[A-Za-z])[- ]?(\d{3,})(?!\d)", re.ASCII)
"""The beginning of a roll's number; its check digits may be misread or left out."""

AS_WRITTEN = "in “quotes” to keep it as the sleeve says"


def says_nobody(text: str) -> bool:
    """Tell whether a line says that the owner of a sleeve is not known."""
    return _said(text) in _NOBODY


def says_end(text: str) -> bool:
    """Tell whether a line ends the shelving, if it is nobody's name."""
    return _said(text) in _ENDS


def refuse_number(session: Session, text: str) -> None:
    """Raise Refused for what looks like a roll's number: nobody is called so."""
    like = _LIKE_A_NUMBER.match(text)
    terms = {term.code for term in session.file.room().terms}
    if like is None or like[1].upper() not in terms:
        return
    number = f"{like[1].upper()}-{int(like[2]):04d}"
    try:
        known = search.which(session.file.conn, number)
    except Refused:
        raise Refused(
            f"{text[:20]} looks like a roll's number and is nobody's name: type whose the"
            f" sleeve is, or the same {AS_WRITTEN}"
        ) from None
    where = str(known.place)
    if known.place.kind == "binder" and known.binder is not None:
        where = session.binder(known.term, known.binder)
    raise Refused(
        f"{known.number} is a roll that is kept already ({where}), and no name: to"
        f" file it press Esc and type “{number} file”, else type whose the sleeve is"
    )


def refuse_order(session: Session, text: str) -> None:
    """Raise Refused for several words that begin with an order, as “file all”: that is what is
    wanted, rather than a name. One word alone is asked about, see `what_else`.
    """
    first, _, behind = text.strip().partition(" ")
    if not behind or shelving.named(session.file.conn, text) is not None:
        return
    is_verb = first.casefold() in verbs.ANSWER_TO_VERB_ALONE or is_no_answer(first)
    if is_verb or archive_orders.begins_with_a_verb(text):
        raise Refused(
            f"“{text.strip()[:40]}” is taken for no name, for the desk itself has the word"
            f" “{first}”: type whose the sleeve is, or the same {AS_WRITTEN}; Esc ends the shelving"
        )


def what_else(session: Session, word: str) -> str:
    """Return what a word means at this desk if it is nobody's name: an order, a screen, a number;
    empty for a name.
    """
    said = _said(word)
    if not said or shelving.named(session.file.conn, word) is not None:
        return ""
    if said in _PERHAPS_ENDS:
        return "a word for going back"
    if said in {name for screen in SCREENS for name in screen.names}:
        return "the name of a screen"
    commands = {name for command in COMMANDS for name in command.names}
    try:
        ordered = archive_orders.read_order(word) is not None or bool(verbs.verb_first(word).verb)
        kinds = {part.kind for part in parse(word)}
    except Refused:
        return "like a code"
    words = {*commands, *TYPED_WORDS, *verbs.ANSWER_TO_VERB_ALONE, *OWN_LABEL}
    if ordered or said in words:
        return "an order"
    return "" if "name" in kinds else "a number or a place"


def _said(text: str) -> str:
    return folded(text.replace("’", "'"))
