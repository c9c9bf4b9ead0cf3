"""The desk: one line, one screen at a time, and the file under it."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path
from typing import ClassVar

from textual import events
from textual.app import App, ComposeResult
from textual.containers import Container, Horizontal
from textual.widgets import ContentSwitcher

from filmrack.desk.answer import LOW, Answer
from filmrack.desk.archive import ArchiveView
from filmrack.desk.board import BoardView
from filmrack.desk.boxes import BoxesView
from filmrack.desk.card import ENTER, Card
from filmrack.desk.dryer import DryerView
from filmrack.desk.errands import clock_question, errand, power_question
from filmrack.desk.footer import Footer
from filmrack.desk.halves import ACTION_WORDS
from filmrack.desk.help import Help
from filmrack.desk.hits import Hit, Hits
from filmrack.desk.labels import LabelsView
from filmrack.desk.line import Line
from filmrack.desk.lines import Lines
from filmrack.desk.notices import Notices
from filmrack.desk.registry import SCREENS, ScreenEntry, key_map
from filmrack.desk.role import Role
from filmrack.desk.room import RoomView
from filmrack.desk.sentences import Said, Sentences
from filmrack.desk.session import Clock, Now, Session
from filmrack.desk.steps import Question, next_step
from filmrack.desk.sweep import SweepView
from filmrack.desk.themes import PALETTES, theme
from filmrack.desk.toprow import TopRow
from filmrack.desk.typing import Submitted
from filmrack.desk.view import View
from filmrack.domain.attention import Standing
from filmrack.domain.refusal import FileTrouble, Refused
from filmrack.store import rolls
from filmrack.store.standings import see

NARROW = 100
ANSWER_SECONDS = 12


class Desk(App[None]):
    """The Textual app on one darkroom file."""

    CSS_PATH = "app.tcss"
    ENABLE_COMMAND_PALETTE = False
    BINDINGS: ClassVar = []
    VIEWS: ClassVar[tuple[type[View], ...]] = (
        BoardView,
        DryerView,
        BoxesView,
        SweepView,
        ArchiveView,
        LabelsView,
        RoomView,
    )

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
        self.keys = keys or key_map()
        self.sentences = Sentences(self.session)
        self.question: Question | None = None
        self.role = Role(self.session)
        self.notices = Notices()
        self._answered: datetime | None = None
        self._now: Now | None = None

    def compose(self) -> ComposeResult:
        """Lay out the desk: top row, screen with card, answer, line, footer."""
        yield TopRow()
        with Horizontal(id="body"):
            with Container(id="main"):
                with ContentSwitcher(initial="dryer", id="views"):
                    for view in self.VIEWS:
                        yield view(self.session)
                yield Hits(self.session)
                yield Help(self.keys)
            yield Card(self.session)
        yield Answer()
        yield Line(self.keys)
        yield Footer(self.keys)

    def on_mount(self) -> None:
        """Begin to look at the file twice a second and at the clock each second."""
        self.query_one(Line).focus()
        self.set_interval(0.5, self._poll)
        self.set_interval(1.0, self.draw)
        self.set_interval(60.0, self._beat)
        self._beat()
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
    def teacher(self) -> bool:
        """Tell whether this is the teacher's desk."""
        return self.role.teacher

    @property
    def view(self) -> View:
        """Return the screen that is shown."""
        shown = self.query_one("#views", ContentSwitcher).current
        return self.query_one(f"#{shown}", View)

    def draw(self) -> None:
        """Draw everything as it is now; before all is laid out there is nothing to draw on."""
        if not self.query(Card):
            return
        try:
            now = self._now = self.session.look()
        except FileTrouble as trouble:
            self.query_one(Answer).tell("The file", str(trouble), refused=True)
            return
        if self.sentences.expire(now.at):
            self._hush()
        if self._answered and (now.at - self._answered).total_seconds() > ANSWER_SECONDS:
            self._hush()
        self._keep_watch(now)
        view, line = self.view, self.query_one(Line)
        entry = _entry_of(view.screen_id)
        self.query_one(TopRow).draw(now, entry.title)
        if self.query_one("#views").display:
            view.draw(now)
        self._draw_card(now, view)
        if self.query_one(Hits).display:
            self.query_one(Hits).draw(line.text)
        if self.query_one(Help).display:
            self.query_one(Help).draw(view.screen_id, self.session.by)
        line.hint = self.question.prompt if self.question else view.hint()
        line.prompt = "?" if self.question else "›"
        line.secret = self.question is not None and self.question.secret
        line.refresh()
        self.query_one(Footer).draw(self._enter_does(view), self._following().title)

    def _keep_watch(self, now: Now) -> None:
        """Lock a desk that nobody touches, leave a screen it may not show, say what is due."""
        if self.role.idle(now.at):
            self.question = None
            self.sentences.clear()
            self.query_one(Line).clear()
            self._tell(Said("Student desk", "locked, for nobody was here"))
        if not self.role.shows(_entry_of(self.view.screen_id)):
            self.go("dryer")
        notice = self.notices.heed(now)
        if notice and self.question is None and not self.query_one(Answer).display:
            self._tell(notice)
            if self.notices.bell:
                self.bell()

    def _beat(self) -> None:
        try:
            silence = self.session.beat()
        except FileTrouble as trouble:
            self._tell(Said("The file", str(trouble)), refused=True)
        else:
            if silence is not None:
                self.call_after_refresh(self._ask, power_question(self.session, silence))

    def _ask(self, question: Question) -> None:
        """Ask in the line; what the question says stands above it until it is answered."""
        if question.done:
            self.session.acted()
        self.question = question
        self._answered = None
        self.query_one(Answer).tell(question.headline, question.words)

    def _draw_card(self, now: Now, view: View) -> None:
        card = self.query_one(Card)
        covered = self.query_one(Hits).display or self.query_one(Help).display
        answered = self.screen.has_class("low") and self.query_one(Answer).display
        card.display = view.shows_card and not covered and not answered
        if card.display:
            card.draw(now, view.selected, self._standing(view.selected))

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

    def _enter_does(self, view: View) -> str:
        if self.question is not None:
            return "answer"
        if self.query_one(Hits).display:
            return "choose"
        own = view.enter_does()
        if own is not None:
            return own
        standing = self._standing(view.selected) if view.shows_card else None
        act = standing.next.act if standing and self.role.does(standing.next.act or "") else None
        return ENTER.get(act, act) if act else ""

    def _following(self, step: int = 1) -> ScreenEntry:
        ids = [view.screen_id for view in self.VIEWS if self.role.shows(_entry_of(view.screen_id))]
        at = ids.index(self.view.screen_id)
        wanted = ids[(at + step) % len(ids)]
        return _entry_of(wanted)

    def _poll(self) -> None:
        if self.session.changed():
            self.draw()

    def on_line_changed(self, message: Line.Changed) -> None:
        """Look for a name while it is typed; a sentence waits for its end."""
        self.role.used()
        hits = self.query_one(Hits)
        text = message.text.strip()
        asked = self.question is not None or self.view.takes(text)
        hits.display = bool(text) and not asked and not self.sentences.understands(text)
        self.query_one(Help).display = False
        self.query_one("#views").display = not hits.display
        if hits.display:
            hits.look(text, whose=self.sentences.wants_person)
        self.draw()

    def on_line_entered(self, message: Line.Entered) -> None:
        """Take a submitted line: an answer, a sentence, a hit; when empty, the next step."""
        self.role.used()
        line = message.line
        try:
            said = self._entered(line)
        except Refused as refused:
            self._tell(Said("", str(refused)), refused=True)
        except FileTrouble as trouble:
            self._tell(Said("The file", str(trouble)), refused=True)
        else:
            if isinstance(said, Question):
                self._ask(said)
            elif said is not None:
                self._tell(said)
        self.draw()

    def on_view_laid(self) -> None:
        """Draw anew when a screen has another size."""
        self.draw()

    def on_view_told(self, message: View.Told) -> None:
        """Say how a screen's long work ended."""
        self._tell(message.said, refused=message.refused)
        self.draw()

    def _entered(self, line: Submitted) -> Said | Question | None:
        hits = self.query_one(Hits)
        chosen, text = hits.chosen if hits.display else None, line.text
        hits.display = False
        self.query_one("#views").display = True
        if self.question is not None:
            if not text:
                return None
            answered = self.question.answered_by(text)
            if answered is not None:
                answer = self.question.answer(answered)
                self.question = None
                return answer
            self.question = None
        if not text:
            return self._empty_line()
        own = self.view.take(text) if self.view.takes(text) else None
        if own is not None:
            return own
        if self.sentences.understands(text):
            return self.sentences.say(text)
        if chosen is None:
            raise Refused(f"nothing is called {text[:40]!r}: try fewer letters, or scan it")
        return self._take_hit(chosen)

    def _empty_line(self) -> Said | Question | None:
        own = self.view.enter()
        if own is not None:
            self.sentences.clear()
            return own
        said = self.sentences.enter()
        if said is not None:
            return said
        shown = self.view.selected if self.view.shows_card else None
        standing = self._standing(self.sentences.in_hand or shown)
        if standing is None or self._now is None:
            return None
        self.role.refuse_step(standing.next.act)
        self.sentences.clear()
        return next_step(self.session, self._now, standing)

    def _take_hit(self, hit: Hit) -> Said | Question | None:
        if hit.screen is not None:
            self.go(hit.screen)
            return None
        if hit.command is not None:
            return self._command(hit.command)
        if hit.person is not None:
            return self.sentences.person(hit.person)
        assert hit.standing is not None
        roll = hit.standing.roll
        self.show_roll(roll.id, roll.place.kind)
        return self.sentences.hold(roll)

    def _command(self, words: str) -> Said | Question | None:
        match words:
            case "help":
                self._toggle_help()
            case "colours":
                self._next_theme()
            case "quit":
                self._leave()
            case "unknown":
                return Said("Unknown roll", "scan or type a free clip, then its rod")
            case _ if words in ACTION_WORDS:
                return self.sentences.act(ACTION_WORDS[words])
            case _:
                return errand(words, self.session, self.role, self.notices)
        return None

    def _leave(self) -> None:
        self.role.refuse_leaving()
        self.exit()

    async def action_quit(self) -> None:
        """Leave by a key, also by Textual's own, which no line sees; a student desk is not left."""
        try:
            self._leave()
        except Refused as refused:
            self._tell(Said("", str(refused)), refused=True)

    def show_roll(self, roll: int, kind: str) -> None:
        """Show a roll on the screen where it is."""
        wanted = {"tank": "dryer", "rod": "dryer", "box": "boxes", "owner": "boxes"}.get(
            kind, "archive"
        )
        ids = [view.screen_id for view in self.VIEWS]
        target = wanted if wanted in ids and self.role.shows(_entry_of(wanted)) else "dryer"
        for view in self.VIEWS:
            self.query_one(f"#{view.screen_id}", View).select(roll)
        self.go(target)

    def go(self, screen_id: str) -> None:
        """Show a screen."""
        self.query_one(Help).display = False
        self.query_one("#views", ContentSwitcher).current = screen_id
        self.call_after_refresh(self.draw)

    async def on_line_pressed(self, message: Line.Pressed) -> None:
        """Take a key that is not for the text."""
        self.role.used()
        key = message.key_id
        hits, help_ = self.query_one(Hits), self.query_one(Help)
        steps = {"up": -1, "down": 1, "page_up": -10, "page_down": 10, "first": -999, "last": 999}
        if key == "next_screen":
            self.go(self._following(1).id)
        elif key == "last_screen":
            self.go(self._following(-1).id)
        elif key == "back":
            self._back()
        elif key == "help":
            self._toggle_help()
        elif key == "theme":
            self._next_theme()
        elif key == "quit":
            await self.action_quit()
        elif hits.display and key in steps:
            hits.move(steps[key])
        elif help_.display and key in steps:
            help_.at += steps[key]
        else:
            self._let_go()
            self.view.move(key)
        self.draw()

    def on_lines_picked(self, message: Lines.Picked) -> None:
        """Take a click: select, and on the second click do what Enter does."""
        self.role.used()
        hits = self.query_one(Hits)
        if hits.display:
            hits.at = message.what
            self.query_one(Line).enter()
            return
        self._let_go()
        self.view.choose(message.what)
        if message.again and self.view.acts_on(message.what):
            self.query_one(Line).enter()
        self.draw()

    def _let_go(self) -> None:
        """Forget a sentence in hand: another roll is selected, and Enter is about that one."""
        if self.sentences.first is not None:
            self.sentences.clear()
            self._hush()

    def _back(self) -> None:
        line = self.query_one(Line)
        if line.text:
            line.clear()
        elif self.query_one(Help).display:
            self._toggle_help()
        elif self.question is None and self.sentences.first is None and self.view.back():
            self._hush()
        else:
            self.question = None
            self.sentences.clear()
            self._hush()
            self.query_one(Hits).display = False
            self.query_one("#views").display = True

    def _toggle_help(self) -> None:
        help_ = self.query_one(Help)
        help_.display = not help_.display
        help_.at = 0
        self.query_one("#views").display = not help_.display

    def _next_theme(self) -> None:
        names = list(PALETTES)
        self.theme = names[(names.index(self.theme) + 1) % len(names)]

    def _tell(self, said: Said, *, refused: bool = False) -> None:
        if said.done:
            self.session.acted()
            self.session.did(said.select)
        self._answered = self.session.now
        self.query_one(Answer).tell(said.headline, said.words, refused=refused)
        if said.select is not None:
            roll = rolls.by_id(self.session.file.conn, said.select)
            if said.done and self.view.stays:
                self.view.acted_on(said.select)
            elif self.view.shows_card:
                self.show_roll(said.select, roll.place.kind)

    def _hush(self) -> None:
        self._answered = None
        self.query_one(Answer).tell("")

    async def on_unmount(self) -> None:
        """Leave the file."""
        self.session.close()


def _entry_of(screen_id: str) -> ScreenEntry:
    return next(each for each in SCREENS if each.id == screen_id)
