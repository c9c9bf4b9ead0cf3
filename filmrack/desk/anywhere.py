"""Lines read alike on every screen: another sweep, what to print, clips, days off, orders."""

from __future__ import annotations

import re
from collections.abc import Callable

from filmrack.desk.archive.orders import Order, for_the_archive, of_a_clip
from filmrack.desk.bare_numbers import is_no_serial, whose_number
from filmrack.desk.clip_words import say_of_clip, says_of_clip
from filmrack.desk.day_off_words import say_day_off, says_of_day_off
from filmrack.desk.done_to import clip_to_cut, cut_by_clip
from filmrack.desk.due_words import (
    asks_what_is_due,
    asks_who_left_film,
    told_what_is_due,
    told_who_left_film,
)
from filmrack.desk.places_typed import place_typed
from filmrack.desk.registry import screen_entry
from filmrack.desk.role import Role
from filmrack.desk.said import Said
from filmrack.desk.sentences import Sentences
from filmrack.desk.session import Session
from filmrack.desk.sweep.lines_typed import AGAIN
from filmrack.desk.terminal_words import labels_line
from filmrack.desk.wish import Outcome, Wish
from filmrack.domain.names import folded, tokens
from filmrack.domain.refusal import Refused
from filmrack.store import people, rolls, search

OWN_LABEL = frozenset(
    ("label", "print label", "print its label", "print the label", "sleeve label", "label it")
)
"""What is typed for the label of the roll in hand."""

_LABEL_OF_CLIP = re.compile(r"(?i)(?:print )?labels? (?:clip )?(\d{1,3})|(?:clip )?(\d{1,3}) label")


def read_anywhere(
    text: str, order: Order | None, sentences: Sentences, role: Role, on_card: int | None
) -> Callable[[], Outcome] | None:
    """Return what does a line that means the same on every screen; None for any other line.

    `order` is the line as the archive's order, if it is one; `on_card` the roll that a verb alone
    would be about. Nothing is done by asking.
    """
    session = sentences.session
    if text.casefold().split() == AGAIN.split() and role.shows(screen_entry("sweep")):
        return lambda: Wish("say", "sweep", text)
    printed = labels_line(text) if role.shows(screen_entry("labels")) else ""
    if printed:
        return lambda: Wish("say", "labels", printed)
    labelled = _LABEL_OF_CLIP.fullmatch(text) if role.shows(screen_entry("labels")) else None
    if labelled:
        return lambda: _label_of_clip(session, int(labelled[1] or labelled[2]))
    if asks_what_is_due(text):
        return lambda: told_what_is_due(session)
    if asks_who_left_film(text) and not people.with_words(session.file.conn, tokens(text), limit=1):
        sees_boxes = role.shows(screen_entry("boxes"))
        return lambda: told_who_left_film(session, sees_boxes=sees_boxes)
    place = place_typed(text, sentences, role)
    if place is not None:
        return lambda: _looked_at(place, sentences)
    if says_of_clip(text):
        return lambda: say_of_clip(session, text)
    if says_of_day_off(session, text):
        return lambda: say_day_off(session, text)
    to_cut = clip_to_cut(session, order)
    if order is not None and to_cut is not None:
        return lambda: cut_by_clip(sentences, order, to_cut, on_card)
    if order is not None and is_no_serial(order):
        return lambda: _refuse_number(session, order, text)
    if order is not None and for_the_archive(order):
        return lambda: _to_the_archive(text, order, sentences)
    return None


def is_own_label(text: str, role: Role) -> bool:
    """Tell whether a line asks for the label of the roll in hand, at a desk that prints."""
    said = folded(text)
    return said in OWN_LABEL and role.shows(screen_entry("labels"))


def own_label(session: Session, text: str, on_card: int | None) -> Wish:
    """Choose the labels of the roll on the card; “label” without one opens the screen Labels.

    Raises Refused where no roll is meant, and for one without a sleeve.
    """
    roll = None if on_card is None else rolls.by_id(session.file.conn, on_card)
    if roll is not None and roll.sleeved_at is not None:
        return Wish("say", "labels", f"sleeves {roll.number}")
    if text.casefold().strip() == "label":
        return Wish("go", "labels")
    if roll is None:
        raise Refused("the label of which roll? Select it, or type its number, as “label 26F-0142”")
    raise Refused(
        f"{roll.number} is not cut, so it has no sleeve yet and no label: cut it first, or type the"
        " number of another, as “label 26F-0142”"
    )


def _label_of_clip(session: Session, clip: int) -> Wish:
    """Choose the labels of the roll that a clip is on, or was just cut from.

    Raises Refused for one without a sleeve, and for a clip that is on none.
    """
    conn = session.file.conn
    roll = rolls.on_clip(conn, clip) or search.just_cut(conn, clip)
    if roll is None:
        raise Refused(
            f"clip {clip} is on no roll: type the number of the roll, as “label 26F-0142”"
        )
    return own_label(session, f"label {clip}", roll.id)


def _refuse_number(session: Session, order: Order, text: str) -> Wish:
    raise Refused(whose_number(session, order, text))


def _looked_at(place: Wish | Said, sentences: Sentences) -> Wish | Said:
    sentences.in_hand.clear()  # what was looked up before is not meant any more
    return place


def _to_the_archive(text: str, order: Order, sentences: Sentences) -> Wish:
    sentences.in_hand.clear()  # it is about no roll that was in hand before
    return Wish("say", "archive", text, stay=of_a_clip(order))
