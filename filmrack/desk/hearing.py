"""What comes of what is typed and scanned."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from filmrack.desk.dispatch import Dispatch
from filmrack.desk.enter import how_to_go_on, step_words
from filmrack.desk.face import Face
from filmrack.desk.free_line import Judged
from filmrack.desk.hit_search import Hit
from filmrack.desk.notices import Notices
from filmrack.desk.others import with_others
from filmrack.desk.question import Question
from filmrack.desk.registry import is_undo
from filmrack.desk.role import Role
from filmrack.desk.said import Said, capital
from filmrack.desk.session import Session
from filmrack.desk.telling import Telling
from filmrack.desk.wish import Outcome, Wish
from filmrack.domain.names import Person
from filmrack.domain.refusal import Refused
from filmrack.store import rolls


class Hearing:
    """Hears the line and the screens, and sees to it that something comes of it.

    `own` is what only the app itself can do, by its word: colours, quit.
    """

    def __init__(
        self,
        session: Session,
        role: Role,
        notices: Notices,
        telling: Telling,
        own: Mapping[str, Callable[[], None]],
    ) -> None:
        self.session = session
        self.role = role
        self.telling = telling
        self.face: Face = telling.face
        self.dispatch = Dispatch(session, role, notices)
        self.own = own
        self._typed = False
        """Whether what is being done was begun by a line, and not by Enter on a selected roll."""

    def changed(self, text: str) -> None:
        """Look for a name while it is typed; a sentence waits for its end."""
        self.role.used()
        text = self.dispatch.plain(text)
        with self.telling.heeding():
            looked_for = text if self.dispatch.asks_for_hits(text, self.face.view) else ""
            self.face.look_for(looked_for, whose=self.dispatch.asks_whose(text))
            if looked_for and not self.face.hits.sure and self.dispatch.free.orders(text):
                self.face.look_for("", whose=False)  # it is about the roll that is seen below
            self.face.view.foresee("" if self.dispatch.question else text)

    def entered(self, text: str, judged: Judged, *, soon: bool = False) -> None:
        """Take a submitted line, and say what came of it; `soon` when Enter alone came right behind
        another line.
        """
        self.role.used()
        text = self.dispatch.plain(text)
        if not text and self.face.over == "help":  # what lies below it is not seen
            self.face.toggle_help()
            return
        if text:
            self.dispatch.free.aside = None
        if soon and not text and self._is_a_step():
            return
        doubt = self.face.hits.doubt if self.face.over == "hits" else ""
        if doubt:  # the list stays, to choose from
            self.dispatch.refused = text
            self.telling.refuse(doubt)
            return
        with self.telling.heeding():
            try:
                self._do(text, judged)
            except Refused as refused:
                self._refused(text, str(refused))

    def _do(self, text: str, judged: Judged) -> None:
        """Do what a line says, and say what came of it. Raises Refused as `Dispatch.entered`."""
        chosen = self.face.hits.entered if self.face.over == "hits" else None
        others = self.face.hits.others if chosen is not None else ""
        self.face.look_for("", whose=False)
        was = self.face.view.selected
        if self.dispatch.question is None:
            self._typed = bool(text)
        outcome = self.dispatch.entered(text, chosen, self.face.view, judged)
        self._typed = self._typed or bool(self.dispatch.unanswered)
        if chosen is not None and isinstance(outcome, Said):
            outcome = self._with_others(outcome, chosen, others)
        did = self._follow(outcome)
        if did is not None and (text or self._typed):
            self._rest_beside(did.select, None if self._typed else was)
        told = outcome if isinstance(outcome, Said) else did
        if told is not None and told.rests:
            self.face.view.resting = True

    def _refused(self, text: str, why: str) -> None:
        """Say why not. Whoever typed that did not mean what is selected: Enter once more is no
        order.
        """
        before = self.dispatch.unanswered
        self.telling.refuse(f"{before}; {why}" if before else why)
        if text:
            self.face.view.resting = True
            self.dispatch.refused = "" if is_undo(text) else text
            self.dispatch.sentences.in_hand.clear()

    def ask(self, question: Question) -> None:
        """Ask in the line."""
        self.dispatch.question = question
        self.telling.ask(question)

    def forget(self) -> None:
        """Forget what was begun in the line."""
        self.dispatch.question = None
        self.dispatch.sentences.in_hand.clear()
        if self.face.over == "hits":
            self.face.look_for("", whose=False)

    def tell_of_no_load(self, person: Person) -> None:
        """Say that the roll of somebody who was named is not loaded."""
        words = "nothing is loaded. If it should be, type the name again"
        self.telling.tell(Said(person.short, words))

    def _with_others(self, said: Said, chosen: Hit, others: str) -> Said:
        """Say of what was looked for that there is more of it."""
        if said.done or (chosen.standing is None and chosen.person is None):
            return said
        said = with_others(said, self.session, self.session.look(), chosen)
        return said.and_also(others)

    def _is_a_step(self) -> bool:
        """Tell whether Enter alone would do the next step of a roll, and answers nothing."""
        asked = self.dispatch.question is not None or bool(self.dispatch.sentences.in_hand.does)
        return not asked and self.face.view.enter_does() is None

    def _follow(self, outcome: Outcome) -> Said | None:
        """See to it that something comes of an outcome; return what was said of what was done."""
        match outcome:
            case Question():
                self.ask(outcome._replace(words=self._unanswered(outcome.words)))
            case Said():
                told = outcome._replace(words=self._unanswered(outcome.words))
                self.telling.tell(told, is_asked=bool(self.dispatch.sentences.in_hand.does))
                if outcome.done:
                    self.dispatch.refused = ""
                    self.dispatch.sentences.in_hand.remember_act(outcome.select)
                    self._rest(outcome.select)
                    return outcome
            case Wish("go"):
                self.turn_to(outcome.screen)
                if self.dispatch.unanswered:
                    self.telling.tell(Said("", self._unanswered("")))
            case Wish("say"):
                if not outcome.stay:
                    self.face.lead(outcome.screen)
                return self._follow(self.face.made(outcome.screen).take(outcome.line))
            case Wish("help"):
                self.face.toggle_help()
            case Wish(what):
                self.own[what]()
        return None

    def _unanswered(self, words: str) -> str:
        """Return what is said, behind the question that the line has left unanswered."""
        before = self.dispatch.unanswered
        return f"{before}. {capital(words)}".rstrip() if before else words

    def turn_to(self, screen: str) -> None:
        """Go to another screen; an answer stays behind, and what Enter was asked for, but not a
        sentence that is half said.
        """
        if screen != self.face.view.screen_id:
            self.dispatch.sentences.in_hand.acted = None
            if self.dispatch.sentences.in_hand.does:
                self.dispatch.sentences.in_hand.let_go()
        if screen != self.face.view.screen_id and self.dispatch.sentences.in_hand.first is None:
            self.telling.turn_away()
        self.face.go(screen)
        view, in_hand = self.face.view, self.dispatch.sentences.in_hand.roll
        self.dispatch.free.aside = None
        if in_hand is None:
            return
        view.turn_to(in_hand)
        roll = rolls.by_id(self.session.file.conn, in_hand)
        if view.shows_card and roll.place.kind in view.shows:
            return
        if view.shows_card:
            view.keep(in_hand)
        self.dispatch.free.aside = in_hand
        own = view.enter_does()
        enter = "leaves it as it is" if own is None else f"is not about it: {step_words(own, [])}"
        words = f"{roll.place}. On this screen Enter {enter}"
        self.telling.tell(Said(self.session.headline(roll), words))

    def _rest(self, roll: int | None) -> None:
        """Keep the roll selected that was taken down; Enter then does nothing to anyone, and the
        answer says the word that goes on with it.
        """
        if roll is None or self.dispatch.sentences.in_hand.roll is not None:
            return
        view = self.face.view
        if rolls.by_id(self.session.file.conn, roll).place.kind in view.rests_after:
            view.keep(roll)
            standing = self.session.elsewhere(roll, self.session.look())
            self.telling.add("" if standing is None else how_to_go_on(self.session, standing))
            self.telling.add(view.way_to_next())

    def _rest_beside(self, roll: int | None, was: int | None) -> None:
        """Let Enter rest where a line did something to another roll than the one selected, also
        where that one went away and the next stands there: the answer speaks of the first, so Enter
        once more would be meant for it. `was` is one that Enter itself went on from.
        """
        view = self.face.view
        if self.dispatch.sentences.in_hand.roll is None and (roll is None or roll != was):
            view.resting = view.resting or view.selected != roll
