"""Whole orders that are typed where the desk asks something: they are no answer to it."""

from __future__ import annotations

from filmrack.desk.archive.orders import (
    Order,
    by_whose_it_is,
    for_the_archive,
    of_a_clip,
    order_if_readable,
)
from filmrack.desk.clip_words import says_of_clip
from filmrack.desk.day_off_words import says_of_day_off
from filmrack.desk.halves import halves_of
from filmrack.desk.hit_search import Hit
from filmrack.desk.question import Question
from filmrack.desk.registry import CALLED, SCREENS, is_no_answer, is_undo, open_to
from filmrack.desk.said import Said
from filmrack.desk.session import Session
from filmrack.desk.terminal_words import labels_line
from filmrack.desk.verbs import verb_first
from filmrack.domain.asking import code_in
from filmrack.domain.names import folded, tokens
from filmrack.domain.refusal import Refused
from filmrack.store import people


def names_what_it_is_about(session: Session, text: str) -> bool:
    """Tell whether a line says what to do and to what, so that it can be no answer:
    `lend 26F-0142 Novak`, `17 flip`, `labels sleeves 0142`, `close term`.
    """
    if session.by == "teacher":
        order = order_if_readable(text)
        printed = labels_line(text) or says_of_day_off(session, text)
        if printed or (order is not None and _is_of_a_roll(session, order)):
            return True
    return says_of_clip(text) or _is_done_to_something(session, text)


def _is_of_a_roll(session: Session, order: Order) -> bool:
    """Tell whether an order is the archive's, and no text in which only the word “lend” stands."""
    if by_whose_it_is(order) and not people.with_words(session.file.conn, tokens(order.roll)):
        return False
    return for_the_archive(order)


def _is_done_to_something(session: Session, text: str) -> bool:
    try:
        if verb_first(text).verb not in ("", "find"):
            return True
        halves = halves_of(session, text)
    except Refused:
        return False
    does = [half for half in halves if isinstance(half, str) or half.right_clip is not None]
    return len(halves) > 1 and bool(does)


def refuse_order(asked: Question, text: str) -> None:
    """Raise Refused for an order where the very words that are typed would be kept."""
    order = order_if_readable(text)
    is_order = order is not None and order.roll and not (of_a_clip(order) or by_whose_it_is(order))
    if asked.verbatim and not asked.secret and (is_order or is_no_answer(text)):
        raise Refused(
            f"“{text[:40]}” is taken for no answer, for it is an order: press Esc to leave what"
            " is asked, then type it"
        )


def called_so(session: Session, text: str) -> Hit | None:
    """Return the screen or the command that is called just like a line, if this desk has it.

    Not so “undo”: at a question it means that question, and would reach for an act before it.
    """
    said = folded(text)
    for screen in SCREENS:
        if said in screen.names and open_to(screen, session.by):
            return Hit(screen=screen.id)
    for command in CALLED:
        if command.words != "undo" and said in command.names and open_to(command, session.by):
            return Hit(command=command.words)
    return None


def says_undo(text: str, chosen: Hit | None) -> bool:
    """Tell whether a line is undo: typed, scanned, or chosen from the list of hits."""
    is_chosen = chosen is not None and chosen.command == "undo"
    code = code_in(text)
    return is_undo(text) or is_chosen or (code is not None and code.body == "UNDO")


def answered(session: Session, asked: Question, text: str) -> Said | Question | None:
    """Return what a question says to a line; None where that is something else instead, a scan or
    an order, so that the question is let go.

    Raises Refused as the question does.
    """
    reply = asked.answered_by(text)
    if reply is None:
        return None
    if asked.verbatim:
        return asked.answer(reply)
    hit = called_so(session, text)
    if names_what_it_is_about(session, text):
        return None
    if asked.bare and text.casefold() not in ("", "y", "yes"):
        if hit is not None or order_if_readable(text) is not None:
            return None
        raise Refused(f"“{text[:30]}” does nothing here: {asked.prompt}")
    try:
        return asked.answer("" if asked.bare else reply)
    except Refused:
        if hit is None:
            raise
        return None


def left_unanswered(asked: Question) -> str:
    """Return that a question is not answered, with what was done while it was asked."""
    said = asked.headline and not asked.done  # else it tells what was done before
    words = f"“{asked.headline if said else asked.prompt}” is not answered"
    if asked.left is not None:
        words += f"; {asked.left.headline}: {asked.left.words}"
    return words
