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
from filmrack.desk.face import Face
from filmrack.desk.keys import key_map
from filmrack.desk.line import Line
from filmrack.desk.lines import Lines
from filmrack.desk.role import Role
from filmrack.desk.said import Said
from filmrack.desk.session import Clock, Session
from filmrack.desk.showing import Showing
from filmrack.desk.telling import Telling
from filmrack.desk.themes import PALETTES, theme, theme_after
from filmrack.desk.trouble import Troubles
from filmrack.desk.view import View
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
        self.showing = Showing(self.session, self.role, self.face)
        self._begun = self._awake = False

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
        self.showing.heard_by = self.keys_and_clicks
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
        return self.showing.question

    def draw(self) -> None:
        """Draw everything as it is now; before all is laid out there is nothing to draw on."""
        if self._begun and self.face.whole:
            with self.telling.heeding():
                self._draw()

    def _draw(self) -> None:
        now = self.session.look()
        if self._awake and self.rounds.watch(now):
            self.bell()
        self.showing.draw(now)

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
        answer = self.hearing.dispatch.answered_plainly(line.text)
        if answer is not None:
            self.face.look_for("", whose=False)  # nobody is meant who may be called so
        if answer is False:
            self.keys_and_clicks.leave()
        else:
            text = "" if answer else line.text
            self.hearing.entered(text, self.showing.standing, soon=line.soon)
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
