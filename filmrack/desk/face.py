"""What is seen of the desk: top row, one screen with the card beside it, answer, line, footer."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import cached_property
from typing import TYPE_CHECKING, Literal, TypeVar

from textual.widget import Widget

from filmrack.desk.answer import Answer
from filmrack.desk.footer import Footer
from filmrack.desk.line import Line
from filmrack.desk.lines import Lines
from filmrack.desk.now import Now
from filmrack.desk.registry import ScreenEntry, open_to, screen_entry
from filmrack.desk.roll_card.card import Card
from filmrack.desk.roll_card.step import OnEnter
from filmrack.desk.screens import view_class
from filmrack.desk.session import Session
from filmrack.desk.toprow import TopRow
from filmrack.desk.view import View
from filmrack.domain.attention import Standing

if TYPE_CHECKING:
    from filmrack.desk.help import Help
    from filmrack.desk.hits import Hits
    from filmrack.desk.question import Question

FIRST = "dryer"
"""The screen that a desk opens with."""

Over = Literal["hits", "help", ""]

_Part = TypeVar("_Part", bound=Lines)


class Face:
    """Lays out the desk and draws it; knows nothing of what a line means.

    `begin` is called when the first frame is about to be painted, and draws it. What is not on
    that frame is made when it is first wanted.
    """

    def __init__(self, session: Session, keys: dict[str, str], begin: Callable[[], None]) -> None:
        self.session = session
        self._keys = keys
        self.top = TopRow()
        self.view: View = view_class(FIRST)(session)
        """The screen that is shown."""
        self._views = {FIRST: self.view}
        self.card = Card(session)
        self.body = Widget(self.view, self.card, id="body")
        self.answer = Answer()
        self.line = Line(keys)
        self.footer = Footer(keys)
        self.over: Over = ""
        """What lies over the screen."""
        self.led_from: list[str] = []
        """The screens that a find or an order led away from, which Escape goes back to."""
        for part in (self.top, self.view, self.card, self.footer):
            part.begin = begin

    def parts(self) -> Iterator[Widget]:
        """Yield the parts from the top down."""
        yield from (self.top, self.body, self.answer, self.line, self.footer)

    @cached_property
    def hits(self) -> Hits:
        """What a typed line could mean."""
        from filmrack.desk.hits import Hits

        return self._laid(Hits(self.session))

    @cached_property
    def help(self) -> Help:
        """The help of the screen that is shown."""
        from filmrack.desk.help import Help

        return self._laid(Help(self._keys))

    def _laid(self, part: _Part) -> _Part:
        self.body.mount(part, before=self.card)
        return part

    @property
    def whole(self) -> bool:
        """Tell whether all is laid out; it is not yet at the start, and not any more at the end."""
        return self.view.is_attached and self.footer.is_mounted

    @property
    def is_low(self) -> bool:
        """Tell whether the screen is so low that an answer takes the place of the card."""
        return self.top.screen.has_class("low")

    @property
    def entry(self) -> ScreenEntry:
        """Return what the registry says of the screen that is shown."""
        return screen_entry(self.view.screen_id)

    def go(self, screen_id: str) -> None:
        """Show a screen that was asked for, made when it is first wanted; what was selected stays
        so.
        """
        self.led_from.clear()
        self._turn_to(screen_id)

    def lead(self, screen_id: str) -> None:
        """Show a screen for what a line found or ordered; Escape leads back from it."""
        if screen_id in self.led_from:
            del self.led_from[self.led_from.index(screen_id) :]
        elif screen_id != self.view.screen_id:
            self.led_from.append(self.view.screen_id)
        self._turn_to(screen_id)

    def go_back(self) -> None:
        """Show the screen that was led away from as it was left, with nothing selected on it: what
        was only found in between is not meant there either.
        """
        self._show(self.led_from.pop())
        self.view.put_down()

    def _turn_to(self, screen_id: str) -> None:
        if self.over == "help":
            self._lay_over("")
        if screen_id == self.view.screen_id:
            return
        before = self.view
        self._show(screen_id)
        self.view.turned_to()
        if before.selected is not None:
            self.view.carry(before.selected)

    def _show(self, screen_id: str) -> None:
        before, self.view = self.view, self.made(screen_id)
        before.display = False
        self.view.display = not self.over

    def made(self, screen_id: str) -> View:
        """Return a screen, made when it is first wanted; it is not shown by that."""
        if screen_id not in self._views:
            view = self._views[screen_id] = self._laid(view_class(screen_id)(self.session))
            view.display = False
        return self._views[screen_id]

    def look_for(self, text: str, *, whose: bool) -> None:
        """Show what a typed line could mean, over the screen; nothing for an empty line."""
        self._lay_over("hits" if text else "")
        if text:
            self.hits.look(text, whose=whose, listed=self.view.listed())

    def toggle_help(self) -> None:
        """Open or close the help of this screen."""
        self.help.at = 0
        self._lay_over("" if self.over == "help" else "help")

    def _lay_over(self, over: Over) -> None:
        if self.over:
            self._part(self.over).display = False
        if over:
            self._part(over).display = True
        self.over = over
        self.view.display = not over

    def _part(self, over: Over) -> Hits | Help:
        return self.hits if over == "hits" else self.help

    def draw(self, now: Now, question: Question | None) -> None:
        """Draw all but card and footer, which want to know what is selected."""
        sweeps = open_to(screen_entry("sweep"), self.session.by)
        self.top.draw(now, self.entry.title, sweeps=sweeps)
        self.view.does = "" if question is None else question.does
        match self.over:
            case "":
                self.view.draw(now)
            case "hits":
                self.hits.draw()
            case "help":
                self.help.draw(self.view.screen_id, self.session.by)
        if question is None:
            self.line.invite(f"{self.view.mark()} ›".lstrip(), self.view.hint())
        else:
            self.line.invite("?", question.prompt, secret=question.secret)

    def draw_card(
        self,
        now: Now,
        standing: Standing | None,
        *,
        at_rest: bool,
        does: str = "",
        is_asked: bool = False,
    ) -> None:
        """Draw the card, where there is room for it and nothing lies over the screen.

        `does` is what Enter does instead of the next step while the line has asked something,
        `is_asked` that it has, so that no other roll than the one it is about is on the card.
        """
        answered = self.is_low and self.answer.display
        shows = self.view.shows_card and not self.over and not answered
        if shows != self.card.display:  # told what it is already, Textual lays all out anew
            self.card.display = shows
        if shows:
            own = does or self.view.enter_does()
            words = self.view.ahead(standing, now.room) if standing and own is None else []
            closed = self.session.closed_words(standing.roll) if standing else ""
            act = self.view.act_of(standing, now.room) if standing else None
            on_enter = OnEnter(at_rest, [] if closed else words, own, closed, act, is_asked)
            self.card.draw(now, standing, on_enter)
