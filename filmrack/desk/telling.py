"""What the desk says above the line, how long it says it, and the roll that goes with it."""

from __future__ import annotations

from contextlib import AbstractContextManager
from datetime import datetime, timedelta
from typing import TYPE_CHECKING

from filmrack.desk.face import FIRST, Face
from filmrack.desk.registry import screen_entry
from filmrack.desk.role import Role
from filmrack.desk.said import Said
from filmrack.desk.session import Session
from filmrack.desk.trouble import Troubles
from filmrack.store import rolls

if TYPE_CHECKING:
    from filmrack.desk.question import Question

_ANSWER_TIME = timedelta(seconds=12)
_SHOWN_ON = {"tank": "dryer", "rod": "dryer", "box": "boxes", "owner": "boxes"}


class Telling:
    """Tells what came of a line or of time; an answer fades, a question and a trouble stay."""

    def __init__(self, session: Session, role: Role, face: Face, troubles: Troubles) -> None:
        self.session = session
        self.role = role
        self.face = face
        self._troubles = troubles
        self._answered: datetime | None = None
        self.about: int | None = None
        """The roll that the answer speaks of; None for a question."""

    def tell(self, said: Said, *, refused: bool = False, is_asked: bool = False) -> None:
        """Say what was done or refused, and show the roll that it was done to; one that the line
        asks about (`is_asked`) only on the card, where the screen has one.
        """
        if said.done:
            self.session.acted()
            self.session.did(said.select)
            self.session.beyond_undo = said.beyond_undo
        self._answered = self.session.now
        self.about = said.about if said.select is None else said.select
        self.face.answer.tell(said.headline, said.all_words(), refused=refused)
        if said.go and said.rod is not None:
            self.face.lead("dryer")
        if said.select is not None:
            if said.done and self.face.view.stays:
                self.add(self.face.view.acted_on(said.select))
            elif is_asked and self.face.view.shows_card:
                self.face.view.keep(said.select)
                self.face.view.turn_to(said.select)
            elif self.face.view.shows_card or said.go:
                self._show_roll(said.select)
                self._tell_of_own_enter(said)

    def _tell_of_own_enter(self, said: Said) -> None:
        """Say what Enter does on the screen that shows a roll, where not its usual next step."""
        view = self.face.view
        own = view.enter_does() if said.enter and view.selected == said.select else None
        if own:
            self.face.answer.tell(said.headline, said.all_words(f"Enter: {own}"))

    def add(self, words: str) -> None:
        """Say one sentence more behind what was just said."""
        answer = self.face.answer
        if words:
            answer.tell(answer.headline, f"{answer.words}. {words}")

    def refuse(self, why: str) -> None:
        """Say why not."""
        self.tell(Said("", why), refused=True)

    def ask(self, question: Question) -> None:
        """Say what a question says; it stands above the line until it is answered."""
        if question.done:
            self.session.acted()
        self.say_what_is_asked(question)
        if question.select is not None and self.face.view.shows_card:
            self._show_roll(question.select)
        if question.given:
            self.face.line.begin_from(question.given)

    def say_what_is_asked(self, question: Question) -> None:
        """Say what a question asks, again where a refused reply had taken its place."""
        self._answered = self.about = None
        how = ". Typing replaces it, ← and → move in it, Esc goes back" if question.given else ""
        self.face.answer.tell(question.headline, f"{question.words}{how}")

    def hush(self) -> None:
        """Take back what was said."""
        self._answered = self.about = None
        self.face.answer.tell("")

    def turn_away(self) -> None:
        """Take back an answer that belongs to the screen which is left."""
        if self._answered is not None:
            self.hush()

    def faded(self, now: datetime) -> bool:
        """Tell whether an answer has stood long enough."""
        return self._answered is not None and now - self._answered > _ANSWER_TIME

    def heeding(self) -> AbstractContextManager[None]:
        """Say what is wrong with the file, where something is, and go on."""
        return self._troubles.passed_to(self._tell_of_the_file)

    def _tell_of_the_file(self, words: str) -> None:
        self._answered = self.about = None
        self.face.answer.tell("The file", words, refused=True)

    def _show_roll(self, roll: int) -> None:
        """Show a roll on the screen where it is, if this desk has that screen."""
        kind = rolls.by_id(self.session.file.conn, roll).place.kind
        wanted = _SHOWN_ON.get(kind, "archive")
        self.face.lead(wanted if self.role.shows(screen_entry(wanted)) else FIRST)
        self.face.view.select(roll)
