"""What is asked in the line, and whether a submitted line answers it."""

from __future__ import annotations

from filmrack.desk.enter import enter_does
from filmrack.desk.free_line import FreeLine, Judged
from filmrack.desk.halves import without_it
from filmrack.desk.hit_search import Hit
from filmrack.desk.notices import Notices
from filmrack.desk.plain_questions import asked_about
from filmrack.desk.question import Question
from filmrack.desk.registry import is_undo
from filmrack.desk.replies import NOT_BY_LOOKING, not_loaded
from filmrack.desk.role import Role
from filmrack.desk.said import Said, capital
from filmrack.desk.sentences import Sentences
from filmrack.desk.session import Session
from filmrack.desk.taking_back import next_undo
from filmrack.desk.terminal_words import without_program
from filmrack.desk.view import View
from filmrack.desk.whole_orders import (
    answered,
    called_so,
    left_unanswered,
    refuse_order,
    says_undo,
)
from filmrack.desk.wish import Outcome
from filmrack.domain.asking import code_in
from filmrack.domain.attention import Standing
from filmrack.domain.codes import spoken
from filmrack.domain.refusal import Hopeless, Refused
from filmrack.domain.yes_or_no import plainly


class Dispatch:
    """Keeps the question that is asked, and what the last line left unanswered or undone; what
    answers nothing is a free line.
    """

    def __init__(self, session: Session, role: Role, notices: Notices) -> None:
        self.session = session
        self.sentences = Sentences(session)
        self.free = FreeLine(session, role, notices, self.sentences)
        self.question: Question | None = None
        self.unanswered = ""
        """What the last line has left unanswered, for it was an order or a scan instead."""
        self.refused = ""
        """The last line, where it was refused and has done nothing."""

    def plain(self, text: str) -> str:
        """Return a line without the program's name and without “it is”, unless it answers."""
        return without_it(without_program(text)) if self.question is None else text

    def asks_for_hits(self, text: str, view: View) -> bool:
        """Tell whether what is being typed is looked for as a name."""
        return self.question is None and self.free.asks_for_hits(text, view)

    def asks_whose(self, text: str) -> bool:
        """Tell whether a name that is typed says whose a clip is: none in a question does."""
        return self.sentences.in_hand.wants_person and not asked_about(text)

    def answered_plainly(self, text: str) -> bool | None:
        """Return whether a line is a plain yes or a plain no to what Enter would do; None where
        nothing is asked that Enter answers, or where the very words would be kept.
        """
        asked = self.question
        does = self.sentences.in_hand.does if asked is None else asked.does
        return plainly(text) if does and (asked is None or not asked.verbatim) else None

    def entered(self, text: str, chosen: Hit | None, view: View, judged: Judged) -> Outcome:
        """Take a submitted line. Raises Refused for what cannot be meant."""
        asked, self.unanswered = self.question, ""
        guarded = self._nothing_to_undo(text, chosen)
        if guarded is not None:
            return guarded
        if asked is None:
            return self._unasked(text, chosen, view, judged)
        text = text or asked.usual
        if not text and not asked.does:
            if asked.wanted:
                raise Refused(asked.wanted)
            return None
        refuse_order(asked, text)
        answer = None if self._begins_anew(text, asked) else self._answer(asked, text)
        if answer is None:
            self.question, self.unanswered = None, left_unanswered(asked)
            self.sentences.let_go_for(text)
            meant = chosen or called_so(self.session, text)
            return self.free.take(text, meant, view, judged)
        self.question = None
        return answer._replace(of_row=asked.of_row) if isinstance(answer, Question) else answer

    def _answer(self, asked: Question, text: str) -> Said | Question | None:
        """Return what a question says to a line; one that no answer can help is let go."""
        try:
            return answered(self.session, asked, text)
        except Hopeless:
            self.question = None
            raise

    def _unasked(self, text: str, chosen: Hit | None, view: View, judged: Judged) -> Outcome:
        """Take a line where nothing is asked; one that leaves a load unfinished says so."""
        let_go = self.sentences.let_go_for(text)
        loading = self.sentences.in_hand.loading if text and not is_undo(text) else None
        try:
            outcome = self.free.take(text, chosen, view, judged)
        except Refused:
            self.unanswered = let_go if loading is None else not_loaded(loading)
            raise
        if outcome is None and not text and self.refused:
            return self._at_rest_behind_refusal(view, judged(self.free.on_card(view)))
        self.unanswered = let_go
        claims = "claim" in text.casefold().split()  # what was to be loaded is that very roll
        if loading is not None and not claims and not self.sentences.in_hand.loads_for(loading):
            self.unanswered = not_loaded(loading)
        return outcome

    def enter_does(self, view: View, standing: Standing | None) -> str:
        """Return the act that Enter on an empty line does, or the screen's own words for it."""
        if self.question is not None:
            usual = self.question.usual
            return self.question.does or (f"answer {usual}" if usual else "answer")
        if self.sentences.in_hand.does:
            return self.sentences.in_hand.does
        if self.sentences.in_hand.waits and view.enter_does() is None:
            return ""
        closed = standing is not None and bool(self.session.closed_words(standing.roll))
        return enter_does(
            view,
            standing,
            self.session.by,
            rests=closed or self.free.rests(view, standing),
            in_hand=self.sentences.in_hand.roll is not None,
        )

    def rests(self, view: View, standing: Standing | None) -> bool:
        """Tell whether Enter leaves a roll alone that it would do something to, were it selected
        anew.
        """
        in_hand = self.sentences.in_hand
        if self.question is not None or in_hand.does or in_hand.waits or standing is None:
            return False
        closed = bool(self.session.closed_words(standing.roll))
        would = enter_does(view, standing, self.session.by, rests=closed)
        rests = self.free.rests(view, standing)
        return bool(would) and rests and not self.enter_does(view, standing)

    def typed_word(self, view: View, standing: Standing | None) -> str:
        """Return the word that ends the loan of a roll on the card, which Enter leaves alone; empty
        for any other roll, and while something is asked.
        """
        if self.question is not None or self.sentences.in_hand.does or standing is None:
            return ""
        lent = view.shows_card and standing.next.act in NOT_BY_LOOKING
        if not lent or self.session.closed_words(standing.roll):
            return ""
        return "" if self.enter_does(view, standing) else "end loan"

    def _at_rest_behind_refusal(self, view: View, standing: Standing | None) -> Said | None:
        """Say that Enter leaves a roll alone behind a line that was refused, and how to go on."""
        if standing is None or not self.rests(view, standing):
            return None
        roll = standing.roll
        words = f"Enter leaves it as it is, for “{_as_named(self.refused)}” did nothing. Type"
        words += f" “{roll.clip or roll.number}” to go on with it, or select with the arrows"
        return Said(self.session.headline(roll), words, about=roll.id)

    def _nothing_to_undo(self, text: str, chosen: Hit | None) -> Said | None:
        """Return that an undo right behind a question or a refused line is about that one, and
        takes back no older act; None for an undo that is meant, and for any other line.
        """
        asked, refused = self.question, self.refused
        if text:
            self.refused = ""
        if not says_undo(text, chosen):
            return None
        if asked is not None:
            if asked.secret or asked.undoes or not is_undo(text):
                return None
            self.question, why = None, left_unanswered(asked)
            return Said("", f"{why}. {capital(next_undo(self.session))}")
        if not refused or self.session.being_done or self.session.beyond_undo:
            return None  # the latter two speak of themselves
        return Said(f"“{_as_named(refused)}” did nothing", capital(next_undo(self.session)))

    def _begins_anew(self, text: str, asked: Question) -> bool:
        """Tell whether a typed line begins with a clip where only a word is an answer."""
        return asked.kind == "X" and text[:1].isdecimal() and self.sentences.understands(text)


def _as_named(line: str) -> str:
    """Return a refused line as it is named: a code by what it means."""
    scanned = code_in(line)
    return line[:40] if scanned is None else spoken(scanned)
