"""Showing a desk as it is now: its screen, the card of the roll that is meant, what Enter does."""

from __future__ import annotations

from typing import TYPE_CHECKING

from filmrack.desk.enter import enter_does, step_words
from filmrack.desk.face import Face
from filmrack.desk.now import Now
from filmrack.desk.role import Role
from filmrack.desk.session import Session
from filmrack.domain.attention import Standing

if TYPE_CHECKING:
    from filmrack.desk.keys_and_clicks import KeysAndClicks
    from filmrack.desk.question import Question


class Showing:
    """Draws the face; until it is told who hears lines here, nothing is typed, asked or in hand."""

    def __init__(self, session: Session, role: Role, face: Face) -> None:
        self.session = session
        self.role = role
        self.face = face
        self.heard_by: KeysAndClicks | None = None
        """Who hears keys and lines; None on the first frame."""
        self._now: Now | None = None

    @property
    def question(self) -> Question | None:
        """Return what the line asks for."""
        return None if self.heard_by is None else self.heard_by.dispatch.question

    def draw(self, now: Now) -> None:
        """Draw everything as it is at one moment."""
        self._now = now
        view = self.face.view
        self.face.draw(now, self.question)
        standing = self._draw_card(now)
        does = self._enter_does(standing)
        self.face.footer.draw(
            step_words(does, view.ahead(standing, now.room) if standing else []),
            self.role.screen_after(self.face.entry).title,
            (self.heard_by or view).escape_does(),
            rests=not does and self._rests(standing),
            typed="" if does else self._typed(standing),
        )

    def standing(self, roll: int | None) -> Standing | None:
        """Return how a roll stands that this desk may show; None for none."""
        now = self._now
        if roll is None or now is None:
            return None
        for each in (*now.hanging, *now.tank):
            if each.roll.id == roll:
                return each
        standing = self.session.elsewhere(roll, now)
        return standing if self.role.teacher or (standing and standing.roll.live) else None

    def _draw_card(self, now: Now) -> Standing | None:
        """Draw the card; return how the roll on it stands."""
        view = self.face.view
        if self.heard_by is None:
            standing = self.standing(view.selected)
            self.face.draw_card(now, standing, at_rest=view.resting)
            return standing
        dispatch = self.heard_by.dispatch
        in_hand = dispatch.sentences.in_hand
        standing = self.standing(dispatch.free.on_card(view))
        waits = dispatch.question is not None or in_hand.waits
        at_rest = waits or dispatch.free.rests(view, standing)
        self.face.draw_card(
            now, standing, at_rest=at_rest, does=in_hand.does, is_asked=in_hand.asks_of_clip
        )
        return standing

    def _enter_does(self, standing: Standing | None) -> str:
        face = self.face
        if face.over == "help":
            return "close help"
        if self.heard_by is None:
            return enter_does(face.view, standing, self.session.by, rests=False)
        if face.over == "hits" and self.question is None:
            return face.hits.enter_does
        if face.line.text:
            return "answer" if self.question else "as typed"
        return self.heard_by.dispatch.enter_does(face.view, standing)

    def _rests(self, standing: Standing | None) -> bool:
        """Tell whether Enter does nothing until a roll is selected anew."""
        if self.heard_by is None or self.face.over or self.face.line.text:
            return False
        return self.heard_by.dispatch.rests(self.face.view, standing)

    def _typed(self, standing: Standing | None) -> str:
        """Return the word that does what Enter does not, while the line is empty."""
        if self.heard_by is None or self.face.over or self.face.line.text:
            return ""
        return self.heard_by.dispatch.typed_word(self.face.view, standing)
