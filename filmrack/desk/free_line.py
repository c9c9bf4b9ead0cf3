"""What a line leads to that answers no question: a sentence, a hit, a word, or the next step."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeGuard

from filmrack.desk.anywhere import is_own_label, own_label, read_anywhere
from filmrack.desk.archive.one_by_one import is_for_many, refuse_many
from filmrack.desk.archive.order_examples import select_or_name
from filmrack.desk.archive.orders import (
    Order,
    begins_with_a_clip,
    for_the_archive,
    names_a_binder,
    order_if_readable,
)
from filmrack.desk.bare_numbers import whose_number
from filmrack.desk.chosen_hits import ChosenHits
from filmrack.desk.done_to import clip_to_cut, do_to, names_somebody, roll_alone
from filmrack.desk.hit_search import Hit, one_letter
from filmrack.desk.next_step import next_step
from filmrack.desk.notices import Notices
from filmrack.desk.plain_questions import asked_about, is_itself
from filmrack.desk.replies import NOT_BY_LOOKING, left_alone
from filmrack.desk.rod_place import rod_moved_to
from filmrack.desk.role import Role
from filmrack.desk.said import Said
from filmrack.desk.sentences import Sentences
from filmrack.desk.session import Session
from filmrack.desk.teachers_words import is_the_teachers, refuse_the_teachers
from filmrack.desk.terminal_words import instead
from filmrack.desk.verbs import NOT_DRY
from filmrack.desk.view import View
from filmrack.desk.wish import Outcome, Wish
from filmrack.domain.attention import Standing
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.store import labelling, rolls

_MAY_BE_ALONE = (
    *("flip", "dry", "tacky", "take", "box", "hang", "touch", "move", "missing"),
    *("still tacky", *NOT_DRY),
)
"""Verbs that are about the roll on the card when nothing is named with them."""

_ASKING = ("touch", "move", "missing")
"""Those of them that want one thing more, which the line asks for, and be it an Enter."""

Judged = Callable[[int | None], Standing | None]
"""Returns how a roll stands, or None for none that this desk may show."""


class FreeLine:
    """Decides what a line is that answers no question, for the screen that is shown and the roll in
    hand.
    """

    def __init__(
        self, session: Session, role: Role, notices: Notices, sentences: Sentences
    ) -> None:
        self.session = session
        self.role = role
        self.sentences = sentences
        self.in_hand = sentences.in_hand
        self.chosen_hits = ChosenHits(session, role, notices, sentences)
        self.aside: int | None = None
        """A roll in hand that the screen which was turned to does not show: Enter leaves it."""

    def take(self, text: str, chosen: Hit | None, view: View, judged: Judged) -> Outcome:
        """Return what a line that answers nothing comes to; `chosen` is the hit that Enter means.

        It is asked in turn whose the line is: the screen's that is shown, every screen's, the
        archive's about the roll on the card, a sentence, at last a name. The first one takes it.
        Raises Refused for what cannot be meant.
        """
        if not text:
            if chosen is None:
                return self._empty(view, judged)
            return self.chosen_hits.take(chosen, "", view)
        if is_itself(asked_about(text)):
            return self._asked_of_it(view, judged)
        text = view.reads(text)
        if self.role.teacher:
            refuse_many(self.session, text)
        if is_own_label(text, self.role):
            return own_label(self.session, text, self._labelled(view))
        loads = self.in_hand.waits_for_clip  # a clip is the sentence's then
        order = self._order(text)
        if self._is_of_another(order, view):
            return self._of_the_selected(text, order, view)
        own = view.take(text) if self._is_the_views(text, view) and not loads else None
        if own is not None:
            self.in_hand.clear()  # Enter and card are about what the screen marks now
            self.in_hand.named = None
            return own
        do = read_anywhere(text, order, self.sentences, self.role, self._shown(view))
        if do is not None:
            return do()
        if order is not None and names_a_binder(order):
            return self._of_the_selected(text, order, view)
        text = self._with_clip_moved(text, view, judged)
        alone = self._alone(text, view, judged)
        if alone is not None:
            return do_to(self.sentences, *alone)
        if self.sentences.understands(text):
            return self._where_enter_does_it(self.sentences.say(text), view)
        if chosen is None and one_letter(text):
            raise Refused(f"{text} alone could be many: type one more letter, or choose one")
        if chosen is None and order is not None:
            return self._of_the_selected(text, order, view)
        if chosen is None:
            refuse_the_teachers(text, self.session.by)
            return instead(self.session, text)
        return self.chosen_hits.take(chosen, text, view)

    def asks_for_hits(self, text: str, view: View) -> bool:
        """Tell whether what is being typed is looked for as a name."""
        read = (
            _is_read(text, view)
            or self._is_the_views(text, view)
            or is_itself(asked_about(text))
            or is_own_label(text, self.role)
            or (self.role.teacher and is_for_many(self.session, text))
            or self._reads_anywhere(text)
            or self.sentences.understands(text)
        )
        return bool(text) and not read

    def orders(self, text: str) -> bool:
        """Tell whether a line that is nobody's name says what to do: with the selected roll, or
        at the teacher's desk.
        """
        return self._order(text) is not None or is_the_teachers(text, self.session.by)

    def on_card(self, view: View) -> int | None:
        """Return the roll that the card is of: the one that is asked about, else the selected."""
        if self.in_hand.asks_of_clip:
            first = self.in_hand.first
            return first.roll.id if first is not None and first.roll is not None else None
        return self.in_hand.roll or view.selected

    def rests(self, view: View, standing: Standing | None) -> bool:
        """Tell whether Enter leaves the roll on the card alone, which stands so."""
        in_hand = self.in_hand.roll
        if in_hand is not None:
            return in_hand == self.aside
        if view.resting or standing is None:
            return view.resting
        return standing.next.act in NOT_BY_LOOKING and view.chosen != standing.roll.id

    def _meant(self, view: View) -> int | None:
        """Return the roll that a verb alone is about: the one that was acted on a moment ago, else
        the one on the card.
        """
        acted_on = None if self.in_hand.roll is not None else self.in_hand.just_acted_on()
        return self.on_card(view) if acted_on is None else acted_on

    def _shown(self, view: View) -> int | None:
        """Return the roll that a verb alone is about, also on a screen without a card: the one that
        it shows by its number, or that was acted on a moment ago.
        """
        acted_on = self.in_hand.just_acted_on()
        return self._meant(view) if view.shows_card else view.about() or acted_on

    def _reads_anywhere(self, text: str) -> bool:
        order = self._order(text)
        return read_anywhere(text, order, self.sentences, self.role, None) is not None

    def _labelled(self, view: View) -> int | None:
        """Return the roll whose labels are meant: one that was acted on a moment ago as long as its
        labels wait, else the one on the card.
        """
        meant = self._meant(view)
        waits = meant is not None and labelling.queued_of(self.session.file.conn, meant) > 0
        return meant if waits else self.on_card(view)

    def _is_of_another(self, order: Order | None, view: View) -> TypeGuard[Order]:
        """Tell whether an order without its roll is about another one than is selected by now."""
        if order is None or for_the_archive(order) or begins_with_a_clip(order):
            return False
        return view.shows_card and self._meant(view) != self.on_card(view)

    def _is_the_views(self, text: str, view: View) -> bool:
        """Tell whether a line is meant for the screen that is shown, not for whom it names."""
        to_cut = clip_to_cut(self.session, self._order(text))
        return view.takes(text) and not names_somebody(self.session, text) and to_cut is None

    def _order(self, text: str) -> Order | None:
        """Return the order that a teacher's line is, if it is one of the archive's."""
        by_name = not self.role.teacher or names_somebody(self.session, text)
        return None if by_name else order_if_readable(text)

    def _of_the_selected(self, text: str, order: Order, view: View) -> Wish:
        """Do what is said to the roll on the card, or that a screen without one is about.

        Raises Refused where none is, and where a number behind the verb could be a clip's.
        """
        if begins_with_a_clip(order):
            raise Refused(whose_number(self.session, order, text))
        shown = self._shown(view)
        if shown is None:
            raise Refused(select_or_name(order, text, self.session.term_in_force))
        roll = rolls.by_id(self.session.file.conn, shown)
        self.in_hand.clear()  # card and selection are about that roll from now on
        return Wish("say", "archive", f"{roll.number} {text}", stay=True)

    def _asked_of_it(self, view: View, judged: Judged) -> Said:
        """Show the roll that a question without a name is about: `can I take it`.

        Raises Refused where none is on a card or was just named.
        """
        shown = self._meant(view) if view.shows_card else self.in_hand.just_named()
        standing = judged(shown)
        if standing is None:
            raise Refused("that names no roll: type its clip, or three letters of a name")
        return self.sentences.asked(standing.roll)

    def _with_clip_moved(self, text: str, view: View, judged: Judged) -> str:
        """Return `17 rod 5` for `move it to rod 5`, where a roll is on the card; else the line."""
        rod = rod_moved_to(text)
        standing = judged(self._meant(view)) if rod and view.shows_card else None
        return text if standing is None else f"{standing.roll.clip or standing.roll.number} {rod}"

    def _alone(self, text: str, view: View, judged: Judged) -> tuple[Roll, str] | None:
        """Return the roll and the verb of a line that names only one of the two, if it is so.

        A verb alone is about the roll on the card. A code is about what was scanned before it.
        """
        if not self.sentences.understands(text):
            return None
        verb = text.casefold()
        in_hand, asks = self.in_hand, verb in _ASKING
        meant = in_hand.first is None or (asks and in_hand.roll is not None)
        # A screen without a card has the roll that was looked for a moment ago, if any was.
        about = self._meant(view) if view.shows_card else in_hand.just_named()
        if verb in _MAY_BE_ALONE and meant and (view.shows_card or about is not None):
            standing = judged(about)
            if standing is None:
                return None
            if asks or not in_hand.hold_again(standing.roll):
                return standing.roll, verb
        return roll_alone(self.sentences, text)

    def _where_enter_does_it(self, said: Said, view: View) -> Said:
        """Return an answer so that its roll is shown on a screen where Enter is about it: some
        screens have an Enter of their own.
        """
        elsewhere = self.in_hand.roll is not None and view.enter_does() is not None
        return said._replace(go=True) if elsewhere else said

    def _empty(self, view: View, judged: Judged) -> Outcome:
        own = None if self.in_hand.does else view.enter()
        if own is not None:
            self.in_hand.clear()
            self.in_hand.named = None
            return own
        said = self.sentences.enter()
        if said is not None:
            return self._where_enter_does_it(said, view)
        selected = view.selected if view.shows_card else None
        standing = judged(self.in_hand.roll or selected)
        if standing is None:
            return None
        if self.rests(view, standing):
            return left_alone(self.session, standing, view.way_to_next())
        self.role.refuse_step(standing.next.act)
        why_not = self.session.closed_words(standing.roll)
        if why_not:
            raise Refused(f"{standing.roll.number} stays as it is: {why_not}")
        self.in_hand.clear()
        return next_step(self.session, standing)


def _is_read(text: str, view: View) -> bool:
    """Tell whether a screen reads a line in its own way, or has to ask what is meant."""
    try:
        return view.reads(text) != text
    except Refused:
        return True
