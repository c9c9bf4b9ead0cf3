"""What is seen of the desk: top row, one screen with the card beside it, answer, line, footer."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Container, Horizontal
from textual.widgets import ContentSwitcher

from filmrack.desk.answer import Answer
from filmrack.desk.card import Card
from filmrack.desk.footer import Footer
from filmrack.desk.help import Help
from filmrack.desk.hits import Hits
from filmrack.desk.line import Line
from filmrack.desk.registry import ScreenEntry, screen_entry
from filmrack.desk.screens import view_class
from filmrack.desk.session import Now, Session
from filmrack.desk.steps import Question
from filmrack.desk.toprow import TopRow
from filmrack.desk.view import View
from filmrack.domain.attention import Standing

FIRST = "dryer"
"""The screen that a desk opens with."""


class Face(Container):
    """Lays out the desk and draws it; knows nothing of what a line means."""

    def __init__(self, session: Session, keys: dict[str, str]) -> None:
        super().__init__(id="face")
        self.session = session
        self.top = TopRow()
        self.first = view_class(FIRST)(session)
        self.switcher = ContentSwitcher(self.first, initial=FIRST, id="views")
        self.hits = Hits(session)
        self.help = Help(keys)
        self.card = Card(session)
        self.answer = Answer()
        self.line = Line(keys)
        self.footer = Footer(keys)

    def compose(self) -> ComposeResult:
        """Yield the parts from the top down."""
        yield self.top
        with Horizontal(id="body"):
            with Container(id="main"):
                yield self.switcher
                yield self.hits
                yield self.help
            yield self.card
        yield self.answer
        yield self.line
        yield self.footer

    @property
    def whole(self) -> bool:
        """Tell whether all is laid out; it is not yet at the start, and not any more at the end."""
        shown = any(child.id == self.switcher.current for child in self.switcher.children)
        return shown and self.footer.is_mounted

    @property
    def view(self) -> View:
        """Return the screen that is shown."""
        return self.switcher.get_child_by_id(self.switcher.current or FIRST, View)

    @property
    def entry(self) -> ScreenEntry:
        """Return what the registry says of the screen that is shown."""
        return screen_entry(self.view.screen_id)

    def go(self, screen_id: str) -> None:
        """Show a screen, made when it is first wanted; what was selected stays so."""
        self.help.display = False
        self.switcher.display = not self.hits.display
        if screen_id == self.view.screen_id:
            return
        selected = self.view.selected
        if not self.switcher.query(f"#{screen_id}"):
            self.switcher.mount(view_class(screen_id)(self.session))
        self.switcher.current = screen_id
        if selected is not None:
            self.view.select(selected)

    def look_for(self, text: str, *, whose: bool) -> None:
        """Show what a typed line could mean, over the screen; nothing for an empty line."""
        self.help.display = False
        self.hits.display = bool(text)
        self.switcher.display = not text
        if text:
            self.hits.look(text, whose=whose)

    def toggle_help(self) -> None:
        """Open or close the help of this screen."""
        self.help.display = not self.help.display
        self.help.at = 0
        self.switcher.display = not self.help.display

    def draw(self, now: Now, question: Question | None) -> None:
        """Draw all but card and footer, which want to know what is selected."""
        self.top.draw(now, self.entry.title)
        if self.switcher.display:
            self.view.draw(now)
        if self.hits.display:
            self.hits.draw(self.line.text)
        if self.help.display:
            self.help.draw(self.view.screen_id, self.session.by)
        self.line.hint = question.prompt if question else self.view.hint()
        self.line.prompt = "?" if question else "›"
        self.line.secret = question is not None and question.secret
        self.line.refresh()

    def draw_card(self, now: Now, standing: Standing | None, *, at_rest: bool) -> None:
        """Draw the card, where there is room for it and nothing lies over the screen."""
        covered = self.hits.display or self.help.display
        answered = self.screen.has_class("low") and self.answer.display
        self.card.display = self.view.shows_card and not covered and not answered
        if self.card.display:
            words = self.view.ahead(standing, now.room) if standing else []
            self.card.draw(now, self.view.selected, standing, at_rest=at_rest, ahead=words)
