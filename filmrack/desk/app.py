"""The desk: one line, one screen at a time, and the file under it."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime
from functools import cached_property, partial
from pathlib import Path
from typing import TYPE_CHECKING, ClassVar

from textual import events
from textual.app import App, ComposeResult

from filmrack.desk.answer import LOW
from filmrack.desk.enter import enter_does, step_words
from filmrack.desk.face import Face
from filmrack.desk.keys import key_map
from filmrack.desk.line import Line
from filmrack.desk.lines import Lines
from filmrack.desk.now import Now
from filmrack.desk.role import Role
from filmrack.desk.said import Said
from filmrack.desk.session import Clock, Session
from filmrack.desk.telling import Telling
from filmrack.desk.themes import PALETTES, theme, theme_after
from filmrack.desk.trouble import Troubles
from filmrack.desk.view import View
from filmrack.domain.attention import Standing
from filmrack.domain.refusal import Refused

if TYPE_CHECKING:
    from filmrack.desk.hearing import Hearing
    from filmrack.desk.keys_and_clicks import KeysAndClicks
    from filmrack.desk.notices import Notices
    from filmrack.desk.question import Question
    from filmrack.desk.rounds import Rounds

_NARROW = 100


class Desk(App[None]):
    """The Textual app on one darkroom file: hands what happens to those who know what it means.

    It wakes once its first frame is painted: what that one does not need is imported, made and
    done only then.
    """

    CSS_PATH = "app.tcss"
    ENABLE_COMMAND_PALETTE = False
    BINDINGS: ClassVar = []
    _coloured = False

    def __init__(
        self,
        path: Path,
        machine: Clock | None = None,
        *,
        keys: dict[str, str] | None = None,
        colours: str = "dim",
        started: Callable[[], None] | None = None,
    ) -> None:
        # A palette names what the terminal shows, be it one of its own sixteen: as it stands.
        super().__init__(ansi_color=True)
        # Nothing is told by Textual's own toasts and tooltips: a start would make them in vain.
        self._disable_tooltips = self._disable_notifications = True
        self._started = started
        self._begin_in(colours)
        self.session = Session(path, machine or (lambda: datetime.now(UTC)))
        self.role = Role(self.session)
        self.face = Face(self.session, keys or key_map(), self._begin)
        troubles = Troubles(path, self.session.machine)
        self.telling = Telling(self.session, self.role, self.face, troubles)
        self._begun = self._awake = False
        self._now: Now | None = None

    def _begin_in(self, colours: str) -> None:
        self._coloured = True
        for palette in PALETTES.values():
            self.register_theme(theme(palette))
        if PALETTES[colours].dark != self.current_theme.dark:
            self.theme = colours
            return
        # Nothing is painted yet: told as a change, all styles would be read once more for it.
        self.set_reactive(App.theme, colours)
        self.stylesheet.set_variables(self.get_css_variables())

    def get_css_variables(self) -> dict[str, str]:
        """Return the colours by name; none of Textual's own, which a start would work out first."""
        return super().get_css_variables() if self._coloured else {}

    def compose(self) -> ComposeResult:
        """Show the desk's face."""
        yield from self.face.parts()

    def on_mount(self) -> None:
        """Leave the line the one that takes the keys."""
        self.face.line.focus()

    def _begin(self) -> None:
        """Draw what is on the first frame, then wake."""
        if not self._begun:
            self._begun = True
            self.draw()
            self.call_after_refresh(self._wake)

    def _wake(self) -> None:
        """Begin to look at the file twice a second and at the clock each second."""
        if self._started is not None:
            self._started()
        self._awake = True
        self.polling = self.set_interval(0.5, self._poll)
        self.set_interval(1.0, self.draw)
        self.set_interval(60.0, self.rounds.beat)
        self.rounds.begin()
        self.draw()

    @cached_property
    def notices(self) -> Notices:
        """What is said here without being asked."""
        from filmrack.desk.notices import Notices

        return Notices()

    @cached_property
    def hearing(self) -> Hearing:
        """What comes of lines here."""
        from filmrack.desk.hearing import Hearing

        own = {"colours": self._next_theme, "quit": self._leave}
        return Hearing(self.session, self.role, self.notices, self.telling, own)

    @cached_property
    def keys_and_clicks(self) -> KeysAndClicks:
        """What comes of keys and clicks here."""
        from filmrack.desk.keys_and_clicks import KeysAndClicks

        return KeysAndClicks(self.hearing)

    @cached_property
    def rounds(self) -> Rounds:
        """What is done here because time passes."""
        from filmrack.desk.rounds import Rounds

        return Rounds(self.hearing, self.notices, self._beside)

    @property
    def view(self) -> View:
        """Return the screen that is shown."""
        return self.face.view

    @property
    def teacher(self) -> bool:
        """Tell whether this is the teacher's desk."""
        return self.role.teacher

    @property
    def question(self) -> Question | None:
        """Return what the line asks for."""
        return self.hearing.dispatch.question if self._awake else None

    def draw(self) -> None:
        """Draw everything as it is now; before all is laid out there is nothing to draw on."""
        if self._begun and self.face.whole:
            with self.telling.heeding():
                self._draw()

    def _draw(self) -> None:
        now = self._now = self.session.look()
        if self._awake and self.rounds.watch(now):
            self.bell()
        self.face.draw(now, self.question)
        standing = self._draw_card(now)
        does = self._enter_does(standing)
        ahead = self.view.ahead(standing, now.room) if standing else []
        following = self.role.screen_after(self.face.entry)
        keys = self.keys_and_clicks if self._awake else self.view
        self.face.footer.draw(
            step_words(does, ahead),
            following.title,
            keys.escape_does(),
            rests=not does and self._rests(standing),
            typed="" if does else self._typed(standing),
        )

    def _draw_card(self, now: Now) -> Standing | None:
        """Draw the card; return how the roll on it stands."""
        if not self._awake:
            standing = self._standing(self.view.selected)
            self.face.draw_card(now, standing, at_rest=self.view.resting)
            return standing
        dispatch = self.hearing.dispatch
        standing = self._standing(dispatch.free.on_card(self.view))
        waits = dispatch.question is not None or dispatch.sentences.in_hand.waits
        at_rest = waits or dispatch.free.rests(self.view, standing)
        asks, asked = dispatch.sentences.in_hand.asks, dispatch.sentences.in_hand.asks_of_clip
        self.face.draw_card(now, standing, at_rest=at_rest, asks=asks, asked=asked)
        return standing

    def _enter_does(self, standing: Standing | None) -> str:
        if self.face.over == "help":
            return "close help"
        if not self._awake:
            return enter_does(self.view, standing, self.session.by, rests=False)
        if self.face.over == "hits" and self.question is None:
            return "" if self.face.hits.chosen is None else "choose"
        if self.face.line.text:
            return "answer" if self.question else "as typed"
        return self.hearing.dispatch.enter_does(self.view, standing)

    @property
    def _hears_enter(self) -> bool:
        return self._awake and not self.face.over and not self.face.line.text

    def _rests(self, standing: Standing | None) -> bool:
        """Tell whether Enter does nothing until a roll is selected anew."""
        return self._hears_enter and self.hearing.dispatch.rests(self.view, standing)

    def _typed(self, standing: Standing | None) -> str:
        return self.hearing.dispatch.typed_word(self.view, standing) if self._hears_enter else ""

    def _standing(self, roll: int | None) -> Standing | None:
        if roll is None or self._now is None:
            return None
        for each in (*self._now.hanging, *self._now.tank):
            if each.roll.id == roll:
                return each
        standing = self.session.elsewhere(roll, self._now)
        return standing if self.teacher or (standing and standing.roll.live) else None

    def _poll(self) -> None:
        with self.telling.heeding():
            if self.session.changed():
                self.draw()

    def _beside(self, work: Callable[[], str | None]) -> None:
        self.run_worker(partial(self._work, work), thread=True)

    def _work(self, work: Callable[[], str | None]) -> None:
        why_not = work()
        if why_not is not None and self.is_running:
            said = Said("No backup of today", why_not)
            self.call_from_thread(self.telling.tell, said, refused=True)

    def on_resize(self, event: events.Resize) -> None:
        """Put the card under the map on a narrow screen."""
        self.screen.set_class(event.size.width < _NARROW, "narrow")
        self.screen.set_class(event.size.height < LOW, "low")
        self.call_after_refresh(self.draw)

    def on_view_laid(self) -> None:
        """Draw anew when a screen has another size."""
        self.draw()

    def on_view_told(self, message: View.Told) -> None:
        """Say how a screen's long work ended."""
        with self.telling.heeding():
            self.telling.tell(message.said, refused=message.refused)
        self.draw()

    def on_line_changed(self, message: Line.Changed) -> None:
        """Take a text that is being typed."""
        self.hearing.changed(message.text.strip())
        self.draw()

    def on_line_entered(self, message: Line.Entered) -> None:
        """Take a submitted line."""
        line = message.line
        self.hearing.entered(line.text, self._standing, soon=line.soon)
        self.draw()

    def on_line_pressed(self, message: Line.Pressed) -> None:
        """Take a key that is not for the text."""
        self.keys_and_clicks.pressed(message.key_id)
        self.draw()

    def on_lines_picked(self, message: Lines.Picked) -> None:
        """Take a click."""
        self.keys_and_clicks.picked(message.what, again=message.again)
        self.draw()

    def _leave(self) -> None:
        self.role.refuse_leaving()
        self.exit()

    async def action_quit(self) -> None:
        """Leave by Textual's own key, which no line sees; a student desk is not left."""
        try:
            self._leave()
        except Refused as refused:
            self.telling.refuse(str(refused))

    def _next_theme(self) -> None:
        self.theme = theme_after(self.theme)
        others = " and ".join(name for name in PALETTES if name != self.theme)
        self.telling.tell(Said(f"Colours: {self.theme}", f"type “colours” again for {others}"))

    async def on_unmount(self) -> None:
        """Leave the file."""
        self.session.close()
