"""The first start, without a darkroom file: the cautions, then one question after the other."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from typing import ClassVar

from rich.text import Text
from textual.app import App, ComposeResult

from filmrack.desk.answer import LOW, Answer
from filmrack.desk.ink import style, styled, wrapped
from filmrack.desk.keys import key_map
from filmrack.desk.line import Line
from filmrack.desk.lines import Lines
from filmrack.desk.set_up import SetUp
from filmrack.desk.themes import PALETTES, theme, theme_after
from filmrack.domain.refusal import FileTrouble, Refused
from filmrack.printing import CAUTIONS

_WIDEST = 84


class FirstStart(App[bool]):
    """Leads to a darkroom file where there is none; returns whether it was made."""

    CSS_PATH = "app.tcss"
    ENABLE_COMMAND_PALETTE = False
    BINDINGS: ClassVar = []

    def __init__(self, path: Path, now: datetime, zone: str, *, colours: str = "dim") -> None:
        super().__init__()
        for palette in PALETTES.values():
            self.register_theme(theme(palette))
        self.theme = colours
        self.path = path
        self.set_up = SetUp(now, zone)
        self.careful = False
        """Whether the cautions were read."""

    def compose(self) -> ComposeResult:
        """Lay out the page, the answer and the line."""
        page = Lines(id="page")
        page.styles.height = "1fr"
        page.styles.padding = (1, 2)
        yield page
        yield Answer()
        yield Line(key_map())

    def on_mount(self) -> None:
        """Show the first page."""
        self.query_one(Line).focus()
        self.call_after_refresh(self.draw)

    def on_resize(self) -> None:
        """Draw anew at another size."""
        self.screen.set_class(self.size.height < LOW, "low")
        self.call_after_refresh(self.draw)

    def on_line_entered(self, message: Line.Entered) -> None:
        """Take an answer; Enter alone takes what stands there."""
        answer = self.query_one(Answer)
        answer.tell("")
        try:
            if not self.careful:
                self.careful = True
            elif self.set_up.asked is not None:
                self.set_up.answer(message.line.text)
            else:
                self.path.parent.mkdir(parents=True, exist_ok=True)
                self.set_up.found(self.path)
                self.exit(True)
        except (Refused, FileTrouble) as no:
            answer.tell("", str(no), refused=True)
        except OSError as error:
            words = (
                f"{self.path.parent} cannot be made ({error.strerror}): leave with Ctrl+Q and start"
                " “filmrack --db FILE” with another place"
            )
            answer.tell("", words, refused=True)
        self.draw()

    def on_line_pressed(self, message: Line.Pressed) -> None:
        """Take Escape as one question back, and leave where a person wants to leave."""
        if message.key_id == "quit":
            self.exit(False)
        elif message.key_id == "colours":
            self.theme = theme_after(self.theme)
        elif message.key_id == "back":
            line = self.query_one(Line)
            if line.text:
                line.clear()
            elif not self.set_up.back():
                self.careful = False
            self.query_one(Answer).tell("")
        self.draw()

    def draw(self) -> None:
        """Show the cautions, or the answers so far with the question that is next."""
        page = self.query_one("#page", Lines)
        line = self.query_one(Line)
        width = max(30, min(_WIDEST, page.content_size.width or 76))
        asked = self.set_up.asked
        if not self.careful:
            lines, line.hint = self._cautions(width), "Enter when you have read this"
        elif asked is not None:
            lines, line.hint = self._questions(width), f"Enter takes {asked.usual}"
        else:
            lines, line.hint = self._questions(width), "Enter makes the darkroom file"
        line.prompt = "?" if self.careful and asked is not None else "›"
        line.refresh()
        page.show(lines)

    def _cautions(self, width: int) -> list[Text]:
        palette = PALETTES[self.theme]
        strong, plain = style(palette.text, bold=True), style(palette.text)
        lines = [Text("Filmrack", style=strong), Text("")]
        there = f"There is no darkroom file at {self.path} yet. Six questions make one."
        lines += styled(there, width, plain)
        lines += [Text(""), Text("First, take care", style=strong)]
        for caution in CAUTIONS:
            rows = wrapped(caution, width - 2)
            lines += [Text.assemble("  ", (row.plain, plain)) for row in rows]
        return lines

    def _questions(self, width: int) -> list[Text]:
        palette = PALETTES[self.theme]
        strong, quiet = style(palette.text, bold=True), style(palette.quiet)
        lines = [Text("A new darkroom", style=strong), Text("")]
        for each, given in zip(self.set_up.questions(), self.set_up.answers, strict=False):
            lines.append(Text.assemble((f"{each.name:<18}", quiet), (given, style(palette.text))))
        if self.set_up.answers:
            lines.append(Text(""))
        asked = self.set_up.asked
        if asked is not None:
            lines += [Text(asked.question, style=strong), Text(asked.words, style=quiet)]
            lines.append(Text(f"Enter takes {asked.usual}.", style=quiet))
        else:
            said = (
                f"Enter makes {self.path}. Then type “roster” and the path of the school's"
                " list, and “labels clips 1-60” for the tags. All of this can be changed later."
            )
            lines += styled(said, width, strong)
        lines += [Text(""), Text("Esc goes one question back, Ctrl+Q leaves.", style=quiet)]
        return lines
