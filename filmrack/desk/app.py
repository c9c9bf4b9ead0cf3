"""The desk: one line, one screen at a time, and the file under it."""

from __future__ import annotations

from contextlib import AbstractContextManager
from datetime import UTC, datetime
from functools import partial
from pathlib import Path
from typing import ClassVar

from textual import events
from textual.app import App, ComposeResult

from filmrack.desk import daily
from filmrack.desk.ahead import step_words
from filmrack.desk.answer import LOW
from filmrack.desk.dispatch import Dispatch, Outcome, Wish
from filmrack.desk.errands import clock_question, power_question
from filmrack.desk.face import FIRST, Face
from filmrack.desk.line import Line
from filmrack.desk.lines import STEPS, Lines
from filmrack.desk.notices import Notices
from filmrack.desk.registry import SCREENS, ScreenEntry, key_map, screen_entry
from filmrack.desk.role import Role
from filmrack.desk.said import Said
from filmrack.desk.session import Clock, Now, Session
from filmrack.desk.steps import Question
from filmrack.desk.themes import PALETTES, theme
from filmrack.desk.trouble import Troubles
from filmrack.desk.view import View
from filmrack.domain.attention import Standing
from filmrack.domain.refusal import Refused
from filmrack.store import rolls
from filmrack.store.standings import see

NARROW = 100
ANSWER_SECONDS = 12
_SHOWN_ON = {"tank": "dryer", "rod": "dryer", "box": "boxes", "owner": "boxes"}


class Desk(App[None]):
    """The Textual app on one darkroom file: hands what happens to those who know what it means."""

    CSS_PATH = "app.tcss"
    ENABLE_COMMAND_PALETTE = False
    BINDINGS: ClassVar = []

    def __init__(
        self,
        path: Path,
        machine: Clock | None = None,
        *,
        keys: dict[str, str] | None = None,
        colours: str = "dim",
    ) -> None:
        super().__init__()
        for palette in PALETTES.values():
            self.register_theme(theme(palette))
        self.theme = colours
        self.session = Session(path, machine or (lambda: datetime.now(UTC)))
        self.role = Role(self.session)
        self.notices = Notices()
        self.troubles = Troubles(path, self.session.machine)
        self._daily = daily.Daily(self.session)
        self.dispatch = Dispatch(self.session, self.role, self.notices)
        self.face = Face(self.session, keys or key_map())
        self._answered: datetime | None = None
        self._now: Now | None = None

    def compose(self) -> ComposeResult:
        """Show the desk's face."""
        yield self.face

    def on_mount(self) -> None:
        """Begin to look at the file twice a second and at the clock each second."""
        self.face.line.focus()
        self.set_interval(0.5, self._poll)
        self.set_interval(1.0, self.draw)
        self.set_interval(60.0, self._beat)
        self.call_after_refresh(self._beat)
        doubted = clock_question(self.session)
        if doubted is not None:
            self.call_after_refresh(self._ask, doubted)
        self.call_after_refresh(self.draw)

    def on_resize(self, event: events.Resize) -> None:
        """Put the card under the map on a narrow screen."""
        self.screen.set_class(event.size.width < NARROW, "narrow")
        self.screen.set_class(event.size.height < LOW, "low")
        self.call_after_refresh(self.draw)

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
        return self.dispatch.question

    def draw(self) -> None:
        """Draw everything as it is now; before all is laid out there is nothing to draw on."""
        if not self.face.whole:
            return
        with self._heeding():
            self._draw()

    def _draw(self) -> None:
        now = self._now = self.session.look()
        self._keep_watch(now)
        self.face.draw(now, self.question)
        standing = self._standing(self.view.selected)
        self.face.draw_card(now, standing, at_rest=self.view.resting)
        choosing = self.face.hits.display and self.question is None
        does = "choose" if choosing else self.dispatch.enter_does(self.view, standing)
        if self.face.line.text and not choosing:
            does = "answer" if self.question else "as typed"
        ahead = self.view.ahead(standing, now.room) if standing else []
        self.face.footer.draw(step_words(does, ahead), self._following().title)

    def _keep_watch(self, now: Now) -> None:
        """Let answers fade, lock a desk that nobody touches, say what is due."""
        faded = self._answered and (now.at - self._answered).total_seconds() > ANSWER_SECONDS
        if self.dispatch.sentences.expire(now.at) or faded:
            self._hush()
        if self.role.idle(now.at):
            self.dispatch.question = None
            self.dispatch.sentences.clear()
            self.face.line.clear()
            self._tell(Said("Student desk", "locked, for nobody was here"))
        if not self.role.shows(self.face.entry):
            self.face.go(FIRST)
        notice = self.notices.heed(now)
        if notice and self.question is None and not self.face.answer.display:
            self._tell(notice)
            if self.notices.bell:
                self.bell()

    def _beat(self) -> None:
        with self._heeding():
            silence = self.session.beat()
            if silence is not None:
                self.call_after_refresh(self._ask, power_question(self.session, silence))
            if self._daily.due():
                self.run_worker(partial(self._back_up, self.session.now), thread=True)

    def _back_up(self, now: datetime) -> None:
        why_not = daily.make(self.session.path, now)
        if why_not is not None and self.is_running:
            self.call_from_thread(self._tell, Said("No backup of today", why_not), refused=True)

    def _heeding(self) -> AbstractContextManager[None]:
        """Say what is wrong with the file, where something is, and go on."""
        return self.troubles.passed_to(self._tell_of_the_file)

    def _tell_of_the_file(self, words: str) -> None:
        self._answered = None
        self.face.answer.tell("The file", words, refused=True)

    def _ask(self, question: Question) -> None:
        """Ask in the line; what the question says stands above it until it is answered."""
        if question.done:
            self.session.acted()
        self.dispatch.question = question
        self._answered = None
        self.face.answer.tell(question.headline, question.words)
        if question.given:
            self.face.line.begin_from(question.given)

    def _standing(self, roll: int | None) -> Standing | None:
        if roll is None or self._now is None:
            return None
        for each in (*self._now.hanging, *self._now.tank):
            if each.roll.id == roll:
                return each
        seen = see(self.session.file, rolls.by_ids(self.session.file.conn, [roll]), self._now.at)
        self._now.people.update(seen.people)
        shown = [each for each in seen.standings if self.teacher or each.roll.live]
        return shown[0] if shown else None

    def _following(self, step: int = 1) -> ScreenEntry:
        shown = [entry for entry in SCREENS if self.role.shows(entry)]
        return shown[(shown.index(self.face.entry) + step) % len(shown)]

    def _poll(self) -> None:
        with self._heeding():
            if self.session.changed():
                self.draw()

    def on_line_changed(self, message: Line.Changed) -> None:
        """Look for a name while it is typed; a sentence waits for its end."""
        self.role.used()
        text = message.text.strip()
        with self._heeding():
            looked_for = text if self.dispatch.asks_for_hits(text, self.view) else ""
            self.face.look_for(looked_for, whose=self.dispatch.sentences.wants_person)
            self.view.foresee("" if self.question else text)
        self.draw()

    def on_line_entered(self, message: Line.Entered) -> None:
        """Take a submitted line, and say what came of it."""
        self.role.used()
        chosen = self.face.hits.chosen if self.face.hits.display else None
        self.face.look_for("", whose=False)
        with self._heeding():
            try:
                outcome = self.dispatch.entered(
                    message.line.text, chosen, self.view, self._now, self._standing
                )
                self._follow(outcome)
                if isinstance(outcome, Said) and outcome.done:
                    self._rest(outcome.select)
            except Refused as refused:
                self._tell(Said("", str(refused)), refused=True)
        self.draw()

    def _follow(self, outcome: Outcome) -> None:
        match outcome:
            case Question():
                self._ask(outcome)
            case Said():
                self._tell(outcome)
            case Wish("go"):
                self.face.go(outcome.screen)
            case Wish("say"):
                self.face.go(outcome.screen)
                self._follow(self.view.take(outcome.line))
            case Wish("help"):
                self.face.toggle_help()
            case Wish("colours"):
                self._next_theme()
            case Wish("quit"):
                self._leave()

    def on_view_laid(self) -> None:
        """Draw anew when a screen has another size."""
        self.draw()

    def on_view_told(self, message: View.Told) -> None:
        """Say how a screen's long work ended."""
        with self._heeding():
            self._tell(message.said, refused=message.refused)
        self.draw()

    async def on_line_pressed(self, message: Line.Pressed) -> None:
        """Take a key that is not for the text."""
        self.role.used()
        with self._heeding():
            await self._press(message.key_id)
        self.draw()

    async def _press(self, key: str) -> None:
        match key:
            case "next_screen":
                self.face.go(self._following(1).id)
            case "last_screen":
                self.face.go(self._following(-1).id)
            case "back":
                self._back()
            case "help":
                self.face.toggle_help()
            case "theme":
                self._next_theme()
            case "quit":
                await self.action_quit()
            case _ if self.face.hits.display and key in STEPS:
                self.face.hits.move(STEPS[key])
            case _ if self.face.help.display and key in STEPS:
                self.face.help.at += STEPS[key]
            case _:
                self._let_go()
                self.view.move(key)

    def on_lines_picked(self, message: Lines.Picked) -> None:
        """Take a click: select, and on the second click do what Enter does."""
        self.role.used()
        if self.face.hits.display:
            self.face.hits.at = message.what
            self.face.line.enter()
            return
        with self._heeding():
            self._let_go()
            self.view.choose(message.what)
        if message.again and self.view.acts_on(message.what):
            self.face.line.enter()
        self.draw()

    def _let_go(self) -> None:
        self.view.resting = False
        if self.dispatch.let_go():
            self._hush()

    def _back(self) -> None:
        if self.face.line.text:
            self.face.line.clear()
        elif self.face.help.display:
            self.face.toggle_help()
        elif self.question is None and not self.dispatch.let_go() and self.view.back():
            self._hush()
        else:
            self.dispatch.question = None
            self.dispatch.let_go()
            self._hush()
            self.face.look_for("", whose=False)

    def _leave(self) -> None:
        self.role.refuse_leaving()
        self.exit()

    async def action_quit(self) -> None:
        """Leave by a key, also by Textual's own, which no line sees; a student desk is not left."""
        try:
            self._leave()
        except Refused as refused:
            self._tell(Said("", str(refused)), refused=True)

    def _next_theme(self) -> None:
        names = list(PALETTES)
        self.theme = names[(names.index(self.theme) + 1) % len(names)]
        others = " and ".join(name for name in names if name != self.theme)
        self._tell(Said(f"Colours: {self.theme}", f"type colours again for {others}"))

    def _tell(self, said: Said, *, refused: bool = False) -> None:
        if said.done:
            self.session.acted()
            self.session.did(said.select)
        self._answered = self.session.now
        self.face.answer.tell(said.headline, said.words, refused=refused)
        if said.select is not None:
            if said.done and self.view.stays:
                self.view.acted_on(said.select)
            elif self.view.shows_card or said.go:
                self._show_roll(said.select)

    def _rest(self, roll: int | None) -> None:
        """Keep the roll selected that was taken down; Enter then does nothing to anyone."""
        if roll is None or self.dispatch.sentences.in_hand is not None:
            return
        if rolls.by_id(self.session.file.conn, roll).place.kind in ("box", "owner"):
            self.view.keep(roll)

    def _show_roll(self, roll: int) -> None:
        """Show a roll on the screen where it is, if this desk has that screen."""
        kind = rolls.by_id(self.session.file.conn, roll).place.kind
        wanted = _SHOWN_ON.get(kind, "archive")
        self.view.select(roll)
        self.face.go(wanted if self.role.shows(screen_entry(wanted)) else FIRST)

    def _hush(self) -> None:
        self._answered = None
        self.face.answer.tell("")

    async def on_unmount(self) -> None:
        """Leave the file."""
        self.session.close()
