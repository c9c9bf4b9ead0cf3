"""Labels: what to print, on which stock, from which label on, with the sheet drawn."""

from __future__ import annotations

from functools import partial

from rich.text import Text
from textual.message import Message
from textual.timer import Timer

from filmrack.acts import labelling
from filmrack.acts.labelling import KINDS
from filmrack.desk.hit_order import Listed
from filmrack.desk.labels.choice import Choice, stocks_for
from filmrack.desk.labels.choice_typed import chosen_by, chosen_words, typing_hint
from filmrack.desk.labels.drawing import (
    PLACE,
    facts,
    kinds,
    kinds_width,
    progress,
    saved,
    sheet_and_label,
    side_by_side,
)
from filmrack.desk.labels.hand_over import (
    HandOver,
    tell_measured,
    to_printer,
    to_viewer,
    what_was_printed,
)
from filmrack.desk.labels.prints import Ended, Prints
from filmrack.desk.labels.reading import Reader
from filmrack.desk.lines import MOVES, Spot
from filmrack.desk.now import Now
from filmrack.desk.question import Question
from filmrack.desk.registry import called_alike
from filmrack.desk.said import Said
from filmrack.desk.session import Session
from filmrack.desk.terminal_words import labels_line
from filmrack.desk.view import View
from filmrack.domain.refusal import Refused
from filmrack.store import rolls
from filmrack.store.data_folder import data_folder

_MEASURED = "measured "
_HANDED_TO: dict[str, HandOver] = {"view": to_viewer, "print": to_printer}
_WORDS = frozenset({*_HANDED_TO, "stop", "again"})


class LabelsView(View):
    """What is printed, and the sheet that it goes on; printing never holds the line up."""

    class Done(Message):
        """A print came to its end."""

        def __init__(self, ended: Ended) -> None:
            super().__init__()
            self.ended = ended

    screen_id = "labels"
    shows_card = False

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self.choice = Choice()
        self._own = data_folder()
        self.prints = Prints(session, self._own, partial(self.run_worker, thread=True))
        self._reader = Reader(session, self._own)
        self._typed_once = ""
        """The kind that was typed last, where it names a screen too: once more it opens that."""
        self._progress: Timer | None = None
        """Draws how far a print is, while one runs."""

    def listed(self) -> Listed:
        """Return all sleeved rolls: which a line means is all there is to choose."""
        return Listed(lambda _: True)

    def draw(self, now: Now) -> None:
        """Show the kinds at the left; what the chosen one comes to beside them."""
        width, height = self.content_size.width, self.content_size.height
        left = kinds_width(width)
        listed, spots = kinds(self.choice, left, height, self.palette)
        chosen, more = self._chosen(now, Spot(0, left + 2, height, width, 0))
        self.show(side_by_side(listed, left, chosen), [*spots, *more])

    def move(self, key: str) -> None:
        """Choose another kind with up and down, other stock with left and right."""
        self._typed_once = ""
        if key in MOVES:
            self._choose(self.choice.step_kind(MOVES[key]))
        elif key in ("left", "right"):
            names, step = stocks_for(self.choice, self._own), 1 if key == "right" else -1
            self._choose(self.choice.step_stock(self._stock(), names, step))

    def select(self, roll: int) -> None:
        """Keep which roll other screens mean, for the way back; nothing is done to it here."""
        self.selected = roll

    def about(self) -> int | None:
        """Return the roll whose labels are chosen: its number stands on the screen."""
        reading = self._reader.latest
        if reading is None or reading.order is None or self.choice.is_the_queue:
            return None
        some = {roll for roll, _ in reading.order.wanted.queued}
        return some.pop() if len(some) == 1 else None

    def choose(self, what: int) -> None:
        """Take a click on a kind, or on the place of the sheet to begin at."""
        if what >= PLACE:
            self._choose(self.choice._replace(start=what - PLACE))
        else:
            self._choose(self.choice.turned_to(KINDS[what]))

    def enters_on_second_click(self, what: int) -> bool:
        """Tell that only a kind is printed by a second click."""
        return what < PLACE

    def enter_does(self) -> str | None:
        """Say that Enter saves a PDF, where there is something to print."""
        reading = self._reader.latest
        nothing = reading is not None and bool(reading.why) and not self.choice.asks_which
        if self.prints.press.running or nothing or self.prints.holds(self.choice):
            return ""
        again = " again" if self.prints.is_again(self.choice) else ""
        return f"save {self.choice.kind}{again} as a PDF"

    def enter(self) -> Said | Question:
        """Save as a PDF; ask which clips where none are named, and rest behind a print."""
        latest = self.prints.latest
        if latest is not None and self.prints.holds(self.choice):
            return Said(what_was_printed(latest), "saved already; “again” saves it once more")
        return self._begin()

    def back(self) -> bool:
        """Stop what is being printed."""
        running = self.prints.press.running
        if running:
            self.prints.press.stop()
        return running

    def escape_does(self) -> str:
        """Say that what is being printed is stopped."""
        return "stop" if self.prints.press.running else ""

    def takes(self, text: str) -> bool:
        """Take kinds, ranges, stock, `from 5`, `600 dpi`, `view`, `print`, `stop`, `measured`."""
        line = text.casefold()
        if line in _WORDS or line.startswith(_MEASURED):
            return True
        if line == self._typed_once:
            return False
        try:
            return chosen_by(self.choice, labels_line(text) or text, self._own) is not None
        except Refused:
            return True

    def take(self, text: str) -> Said | Question:
        """Change what is chosen, or do something with the latest print."""
        line = text.casefold()
        if line == "stop":
            self.prints.press.stop()
            return Said("")
        if line == "again":
            if self.prints.latest is None:
                raise Refused("nothing was saved here yet: choose what to print and press Enter")
            self.choice = self.prints.latest.choice._replace(start=None)
            return self._begin()
        if line in _HANDED_TO:
            then = _HANDED_TO[line]
            new = self.prints.is_new(self.choice)
            return self._begin(then) if new else self.prints.hand_over(then, self._not_handed)
        if line.startswith(_MEASURED):
            return tell_measured(self.session.file, line.removeprefix(_MEASURED))
        return self._chosen_by(labels_line(text) or text)

    def mark(self) -> str:
        """Show the roll that a verb alone is about, as “lend” behind “label”; none has a card."""
        about = self.about()
        return "" if about is None else rolls.by_id(self.session.file.conn, about).number

    def hint(self) -> str:
        """Say what can be typed here."""
        if self.prints.press.running:
            return "printing; Esc or “stop” ends it, and nothing is written then"
        return typing_hint(self.choice, self.session.file.room().period_word)

    def _choose(self, choice: Choice) -> None:
        self.choice = choice
        self.prints.goes_on()

    def _chosen_by(self, line: str) -> Said:
        """Choose what a line says; say what that is where it names a kind."""
        chosen = chosen_by(self.choice, line, self._own)
        if chosen is None:
            return Said("")
        self._choose(chosen)
        if line.partition(" ")[0].casefold() not in KINDS:
            return Said("")
        opens = called_alike(line)
        self._typed_once = line.casefold() if opens else ""
        why = self._reader.read(chosen, self.session.now, self.prints.latest).why
        return Said(*chosen_words(chosen, opens, why))

    def _begin(self, then: HandOver | None = None) -> Said | Question:
        if not self.choice.asks_which:
            choice = self.choice._replace(stock=self._stock())
            self.prints.begin(choice, then, lambda ended: self.post_message(self.Done(ended)))
            self._progress = self._progress or self.set_interval(0.2, self._tick)
            return Said("")

        def answer(text: str) -> Said | Question:
            chosen = self.choice.of("clips", text)
            labelling.order(self.session.file, "clips", text.split(), self.session.now)
            self.choice = chosen
            return self._begin(then)

        return Question("which clips? Their numbers, such as 1-60", answer)

    def on_labels_view_done(self, message: Done) -> None:
        """Say where the print is, or why there is none."""
        if self._progress is not None:
            self._progress.stop()
            self._progress = None
        if message.ended.printout is not None:
            # The next ones go on where this sheet stopped.
            self.choice = self.choice._replace(start=None)
        said = self.prints.keep(message.ended, self.choice)
        self.post_message(self.Told(said, refused=bool(message.ended.why)))

    def _not_handed(self, why: str) -> None:
        self.post_message(self.Told(Said("", why), refused=True))

    def _tick(self) -> None:
        if self.app.query_one(f"#{self.screen_id}").display:
            self.draw(self.session.look())

    def _stock(self) -> str:
        """Return the stock, or the paper, that is chosen or else usual."""
        usual = labelling.usual_stock(self.session.file.room(), self.choice.kind)
        return self.choice.stock or usual

    def _chosen(self, now: Now, at: Spot) -> tuple[list[Text], list[Spot]]:
        """Return what is chosen, for a part of the screen."""
        latest = self.prints.latest
        reading, width = self._reader.read(self.choice, now.at, latest), max(20, at.right - at.left)
        just_saved = self.prints.holds(self.choice) or (self.prints.rests and bool(reading.why))
        if latest is not None and just_saved:
            return saved(
                what_was_printed(latest), latest.path, reading.why, width, self.palette
            ), []
        name, press = self._stock(), self.prints.press
        lines = facts(self.choice, reading, self.palette, name=name, width=width, own=self._own)
        if press.running:
            bar = progress(press.done, press.total, width, self.palette)
            return [*lines, Text(""), bar], []
        below = at._replace(top=at.top + len(lines))
        more, spots = sheet_and_label(reading, below, self.palette, self._own)
        return lines + more, spots
