"""Labels: what to print, on which stock, from which label on, with the sheet drawn."""

from __future__ import annotations

from datetime import datetime
from functools import partial
from pathlib import Path

from rich.text import Text
from textual.message import Message
from textual.timer import Timer

from filmrack.acts import labelling
from filmrack.acts.labelling import KINDS
from filmrack.acts.new_files import free_name
from filmrack.desk.labels.choice import (
    Choice,
    chosen_by,
    chosen_words,
    labels_line,
    stocks_for,
    typing_hint,
)
from filmrack.desk.labels.drawing import (
    PLACE,
    facts,
    kinds,
    kinds_width,
    progress,
    saved,
    sheet_and_label,
)
from filmrack.desk.labels.press import (
    HandOver,
    Press,
    Printout,
    advice,
    handed,
    print_folder,
    summary,
    to_printer,
    to_viewer,
)
from filmrack.desk.labels.reading import Reading, read, tell_measured
from filmrack.desk.lines import Spot
from filmrack.desk.now import Now
from filmrack.desk.question import Question
from filmrack.desk.registry import called_alike
from filmrack.desk.said import Said
from filmrack.desk.session import Session
from filmrack.desk.view import View
from filmrack.domain.refusal import FileTrouble, Refused
from filmrack.store.data_folder import data_folder

_WORDS = frozenset({"view", "print", "stop", "again"})


class LabelsView(View):
    """What is printed, and the sheet that it goes on; printing never holds the line up."""

    class Done(Message):
        """A print came to its end: with a file, or with a reason why there is none."""

        def __init__(
            self, printout: Printout | None, why: str = "", then: HandOver | None = None
        ) -> None:
            super().__init__()
            self.printout = printout
            self.why = why
            self.then = then

    screen_id = "labels"
    shows_card = False

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self.listed = lambda _: True  # which a line means is all there is to choose
        self.choice = Choice()
        self.press = Press()
        self._printed: Choice | None = None
        self.last: Printout | None = None
        """The latest print at this desk."""
        self._rests = False
        """Whether Enter does nothing, for what is chosen was printed a moment ago."""
        self._once = ""
        """The kind that was typed last, where it names a screen too: once more it opens that."""
        self._own = data_folder()
        self._known: tuple[int, Choice, Printout | None] | None = None
        self._reading: Reading | None = None
        self._timer: Timer | None = None

    def draw(self, now: Now) -> None:
        """Show the kinds at the left; what the chosen one comes to beside them."""
        width, height = self.content_size.width, self.content_size.height
        left = kinds_width(width)
        listed, spots = kinds(self.choice, left, height, self.palette)
        rights, more = self._chosen(now, Spot(0, left + 2, height, width, 0))
        lines = []
        for nth in range(max(len(listed), len(rights))):
            line = listed[nth] if nth < len(listed) else Text(" " * left)
            line = Text.assemble(line, "  ")
            if nth < len(rights):
                line.append_text(rights[nth])
            lines.append(line)
        self.show(lines, [*spots, *more])

    def move(self, key: str) -> None:
        """Choose another kind with up and down, other stock with left and right."""
        self._once, self._rests = "", False
        steps = {"up": -1, "down": 1, "page_up": -5, "page_down": 5, "first": -99, "last": 99}
        if key in steps:
            self.choice = self.choice.step_kind(steps[key])
        elif key in ("left", "right"):
            names = stocks_for(self.choice, self._own)
            self.choice = self.choice.step_stock(
                self._usual_stock(), names, 1 if key == "right" else -1
            )

    def select(self, roll: int) -> None:
        """Keep which roll other screens mean, for the way back; nothing is done to it here."""
        self.selected = roll

    def about(self) -> int | None:
        """Return the roll whose labels are chosen: its number stands on the screen."""
        if self._reading is None or self._reading.order is None or not self.choice.asked:
            return None
        some = {roll for roll, _ in self._reading.order.wanted.queued}
        return some.pop() if len(some) == 1 else None

    def choose(self, what: int) -> None:
        """Take a click on a kind, or on the place of the sheet to begin at."""
        self._rests = False
        if what >= PLACE:
            self.choice = self.choice._replace(start=what - PLACE)
        else:
            self.choice = self.choice.of(KINDS[what], self.choice.asked_of(KINDS[what]))

    def acts_on(self, what: int) -> bool:
        """Tell that only a kind is printed by a second click."""
        return what < PLACE

    def enter_does(self) -> str | None:
        """Say that Enter saves a PDF, where there is something to print."""
        reading = self._reading
        nothing = reading is not None and bool(reading.why) and not self.choice.asks_which
        if self.press.running or nothing or self._is_printed():
            return ""
        again = " again" if self.last is not None and self.choice == self._printed else ""
        return f"save {self.choice.kind}{again} as a PDF"

    def enter(self) -> Said | Question:
        """Save as a PDF; ask which clips where none are named, and rest behind a print."""
        if self._is_printed() and self.last is not None:
            return Said(summary(self.last), "saved already; “again” saves it once more")
        return self._begin(then=None)

    def back(self) -> bool:
        """Stop what is being printed."""
        if self.press.running:
            self.press.stop()
        return self.press.running

    def takes(self, text: str) -> bool:
        """Take kinds, ranges, stock, `from 5`, `600 dpi`, `view`, `print`, `stop`, `measured`."""
        line = text.casefold()
        if line in _WORDS or line.startswith("measured "):
            return True
        if line == self._once:
            return False
        try:
            return chosen_by(self.choice, labels_line(text) or text, self._own) is not None
        except Refused:
            return True

    def take(self, text: str) -> Said | Question:
        """Change what is chosen, or do something with the latest print."""
        line = text.casefold()
        if line == "stop":
            self.press.stop()
            return Said("")
        if line == "again":
            if self.last is None:
                raise Refused("nothing was saved here yet: choose what to print and press Enter")
            self.choice = self.last.choice._replace(start=None)
            return self._begin(then=None)
        if line == "print":
            return self._begin(then=to_printer) if self._is_new() else self._hand_over(to_printer)
        if line == "view":
            return self._begin(then=to_viewer) if self._is_new() else self._hand_over(to_viewer)
        if line.startswith("measured "):
            return tell_measured(self.session.file, line.removeprefix("measured "))
        line = labels_line(text) or text
        chosen = chosen_by(self.choice, line, self._own)
        if chosen is None:
            return Said("")
        self.choice, self._rests = chosen, False
        if line.partition(" ")[0].casefold() not in KINDS:
            return Said("")
        opens = called_alike(line)
        self._once = line.casefold() if opens else ""
        why = self._read(self.session.look()).why
        return Said(*chosen_words(chosen, opens, why))

    def hint(self) -> str:
        """Say what can be typed here."""
        if self.press.running:
            return "printing; esc or “stop” ends it, and nothing is written then"
        return typing_hint(self.choice, self.session.file.room().period_word)

    def _begin(self, then: HandOver | None) -> Said | Question:
        if self.press.running:
            raise Refused("something is being printed: wait for it, or stop it with Esc")
        if self.choice.asks_which:

            def answer(text: str) -> Said | Question:
                chosen = self.choice.of("clips", text)
                labelling.order(self.session.file, "clips", text.split(), self.session.now)
                self.choice = chosen
                return self._begin(then)

            return Question("which clips? Their numbers, such as 1-60", answer)
        name = self.choice.stock or self._usual_stock()
        choice = self.choice._replace(stock=name)
        self.press.begin()
        self._timer = self._timer or self.set_interval(0.2, self._tick)
        work = partial(self._work, choice, self.session.now, print_folder(self.session), then)
        self.run_worker(work, thread=True)
        return Said("")

    def _work(self, choice: Choice, moment: datetime, folder: Path, then: HandOver | None) -> None:
        """Print in a thread, and tell the screen how it ended."""
        try:
            printout = self.press.run(self.session.path, choice, moment, folder)
        except (Refused, FileTrouble) as trouble:
            self.post_message(self.Done(None, str(trouble)))
            return
        self.post_message(self.Done(printout, handed(printout, then), then))

    def on_labels_view_done(self, message: Done) -> None:
        """Say where the print is, or why there is none."""
        self.press.running = False
        if self._timer is not None:
            self._timer.stop()
            self._timer = None
        printout = message.printout
        if printout is None:
            self.post_message(self.Told(Said("Not printed", message.why), refused=True))
            return
        # The next ones go on where this sheet stopped, and what was asked for is on paper.
        self.choice = self.choice._replace(start=None)
        self.last, self._printed, self._rests = printout, self.choice, True
        said = Said(summary(printout), advice(printout, self._own, message.then), done=True)
        if message.why:
            said = Said(summary(printout), message.why, done=True)
        self.post_message(self.Told(said, refused=bool(message.why)))

    def _hand_over(self, then: HandOver) -> Said:
        assert self.last is not None
        printout = self.last
        self.run_worker(partial(self._handing, printout, then), thread=True)
        where = "To the viewer" if then is to_viewer else "To the printer"
        return Said(where, str(printout.path))

    def _handing(self, printout: Printout, then: HandOver) -> None:
        why = handed(printout, then)
        if why:
            self.post_message(self.Told(Said("", why), refused=True))

    def _is_printed(self) -> bool:
        """Tell whether Enter rests: not where further sleeves have come to wait since."""
        return self._rests and self.choice != self.choice.of("sleeves")

    def _is_new(self) -> bool:
        return self.last is None or self.choice != self._printed or not self.last.path.exists()

    def _tick(self) -> None:
        if self.app.query_one(f"#{self.screen_id}").display:
            self.draw(self.session.look())

    def _usual_stock(self) -> str:
        return labelling.usual_stock(self.session.file.room(), self.choice.kind)

    def _read(self, now: Now) -> Reading:
        """Return what the choice comes to, read anew when it or the file has changed."""
        known = self.session.stamp, self.choice, self.last
        if self._reading is None or self._known != known:
            self._known = known
            path = free_name(print_folder(self.session), self.choice.kind)
            self._reading = read(self.session.file, self.choice, now.at, path, self._own)
        return self._reading

    def _chosen(self, now: Now, at: Spot) -> tuple[list[Text], list[Spot]]:
        """Return what is chosen, for a part of the screen."""
        reading, width = self._read(now), max(20, at.right - at.left)
        if self.last is not None and self._rests and (reading.why or self._is_printed()):
            return saved(summary(self.last), self.last.path, reading.why, width, self.palette), []
        name = self.choice.stock or self._usual_stock()
        lines = facts(self.choice, reading, self.palette, name=name, width=width, own=self._own)
        if self.press.running:
            return [
                *lines,
                Text(""),
                progress(self.press.done, self.press.total, width, self.palette),
            ], []
        below = at._replace(top=at.top + len(lines))
        more, spots = sheet_and_label(reading, below, self.palette, self._own)
        return lines + more, spots
