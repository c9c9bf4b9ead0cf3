"""What comes of keys that are not for the text, and of clicks."""

from __future__ import annotations

from collections.abc import Callable

from filmrack.desk.hearing import Hearing
from filmrack.desk.lines import MOVES
from filmrack.desk.registry import ScreenEntry, screen_entry
from filmrack.desk.said import Said
from filmrack.domain.refusal import Refused


class KeysAndClicks:
    """Moves among screens, rows and hits, and leaves what was begun."""

    def __init__(self, hearing: Hearing) -> None:
        self._hearing = hearing
        self.dispatch = hearing.dispatch
        self._role = hearing.role
        self._telling = hearing.telling
        self._face = hearing.face

    def pressed(self, key: str) -> None:
        """Take a key that is not for the text."""
        self._role.used()
        with self._telling.heeding():
            try:
                self._press(key)
            except Refused as refused:
                self._telling.refuse(str(refused))

    def _press(self, key: str) -> None:
        match key:
            case "next_screen":
                self._hearing.turn_to(self._role.screen_after(self._face.entry).id)
            case "screen_before":
                self._hearing.turn_to(self._role.screen_after(self._face.entry, -1).id)
            case "back":
                self._back()
            case "help":
                self._face.toggle_help()
            case "colours":
                self._hearing.own["colours"]()
            case "quit":
                self._hearing.own["quit"]()
            case _ if self._face.over == "hits" and key in MOVES:
                self._face.hits.move(MOVES[key])
            case _ if self._face.over == "help" and key in MOVES:
                self._face.help.at += MOVES[key]
            case _:
                self._select(lambda: self._face.view.move(key))

    def leave(self) -> None:
        """Leave what is asked, as Escape does on an empty line."""
        self._role.used()
        with self._telling.heeding():
            self._leave()

    def picked(self, what: int, *, again: bool) -> None:
        """Take a click: select, and on the second click do what Enter does."""
        self._role.used()
        if self._face.over == "hits":
            self._face.hits.pick(what)
            self._face.line.enter()
            return
        with self._telling.heeding():
            self._select(lambda: self._face.view.choose(what))
        if again and self._face.view.enters_on_second_click(what):
            self._face.line.enter()

    def _select(self, move: Callable[[], None]) -> None:
        """Move the selection, and let go of what is about what was selected until now: also of an
        answer about a roll, whose “undo” and next word would be read as those of the one selected
        then.
        """
        view, was = self._face.view, self._face.view.selected
        self._selection_moves()
        move()
        about = self._telling.about
        if about is None:
            return
        view.draw(view.session.look())  # some lists find what is selected only then
        if view.selected not in (None, was, about):
            self._telling.hush()

    def _selection_moves(self) -> None:
        """Let go of what was about the roll or the row that is selected until now."""
        self._face.view.resting = False
        asked = self.dispatch.question
        if asked is not None and asked.of_row:
            self.dispatch.question = None
            self._face.line.clear()
            words = f"“{asked.headline or asked.prompt}” is left unanswered"
            self._telling.tell(asked.left or Said("", words))
        person = self.dispatch.sentences.in_hand.without_clip
        if self.dispatch.sentences.in_hand.let_go():
            self._telling.hush()
            if person is not None:
                self._hearing.tell_of_no_load(person)

    def escape_does(self) -> str:
        """Return what Escape does next, as the footer says it; empty for nothing."""
        before = self._before()
        return self._clears() or (f"back to {before.title}" if before else "")

    def _before(self) -> ScreenEntry | None:
        """Return the screen that a line led away from, if this desk has it still."""
        led_from = self._face.led_from
        before = screen_entry(led_from[-1]) if led_from else None
        return before if before is not None and self._role.shows(before) else None

    def _clears(self) -> str:
        """Return what Escape takes away before it goes back to another screen."""
        face, in_hand = self._face, self.dispatch.sentences.in_hand
        begun = self.dispatch.question is not None or in_hand.first is not None
        seen = bool(face.line.text or face.over) or face.answer.display
        return "clear" if begun or seen or in_hand.does else face.view.escape_does()

    def _back(self) -> None:
        if self._face.line.text:
            self._face.line.clear()
        elif self._face.over == "help":
            self._face.toggle_help()
        elif self._face.over == "hits":
            self._face.look_for("", whose=False)
            self._telling.hush()
        else:
            self._leave()

    def _leave(self) -> None:
        """Leave what is asked, else what the screen holds, else put down what is selected; where
        there is none of that, go back to the screen that was led away from.
        """
        if not self._clears() and self._before():
            self._face.go_back()
            return
        sentences = self.dispatch.sentences
        asked, self.dispatch.question = self.dispatch.question, None
        person = sentences.in_hand.without_clip
        open_ = asked is not None or sentences.in_hand.half_said or bool(sentences.in_hand.does)
        self._telling.hush()
        page_over_all = not self._face.view.shows_card  # no roll in hand is seen below it
        if page_over_all and not open_ and self._face.view.back():
            return
        if not sentences.in_hand.let_go() and not open_ and self._face.view.back():
            return
        if open_:
            self._face.view.resting = True
        else:
            self._face.view.put_down()
        if asked is not None and asked.left is not None:
            self._telling.tell(asked.left)
        elif person is not None:
            self._hearing.tell_of_no_load(person)
