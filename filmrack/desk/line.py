"""The line at the bottom: the one widget that has the focus, always."""

from __future__ import annotations

import time
from collections.abc import Callable

from rich.text import Text
from textual import events
from textual.message import Message
from textual.strip import Strip
from textual.widget import Widget

from filmrack.desk import keystrokes
from filmrack.desk.ink import style
from filmrack.desk.keystrokes import Submitted, Typed
from filmrack.desk.themes import PALETTES
from filmrack.domain.names import harmless

_EDITING = frozenset({"backspace", "delete", "ctrl+u", "ctrl+w", "left", "right", "home", "end"})
_ONLY_WITH_TEXT = frozenset({"left", "right", "home", "end", "question_mark"})


class Line(Widget, can_focus=True):
    """Takes every key and every scan; keys that are not for the text go to the desk by their id."""

    class Changed(Message):
        """The text is another now."""

        def __init__(self, text: str) -> None:
            super().__init__()
            self.text = text

    class Entered(Message):
        """A line was submitted; empty for Enter alone."""

        def __init__(self, line: Submitted) -> None:
            super().__init__()
            self.line = line

    class Pressed(Message):
        """A key of the registry was pressed while it is not needed for the text."""

        def __init__(self, key_id: str) -> None:
            super().__init__()
            self.key_id = key_id

    def __init__(self, keys: dict[str, str]) -> None:
        super().__init__(id="line")
        self._keys = keys
        self._typed = Typed()
        self.hint = ""
        self.prompt = "›"
        self.secret = False
        self.ticks: Callable[[], float] = time.monotonic
        """Seconds of a clock that never goes back."""

    @property
    def text(self) -> str:
        """Return what stands in the line."""
        return self._typed.text

    def invite(self, prompt: str, hint: str, *, secret: bool = False) -> None:
        """Say what may be typed; dots stand for what is typed where it is `secret`."""
        if (prompt, hint, secret) != (self.prompt, self.hint, self.secret):
            self.prompt, self.hint, self.secret = prompt, hint, secret
            self.refresh()

    def clear(self) -> None:
        """Empty the line."""
        was = self._typed
        self._set(Typed(ended=was.ended, code=was.code, said=was.said))

    def begin_from(self, text: str) -> None:
        """Put a text into the line: typing replaces it, and who moves in it changes it."""
        was = self._typed
        self._set(Typed(text, len(text), ended=was.ended, said=was.said, given=True))

    def enter(self) -> None:
        """Submit the line as Enter does."""
        self._end("enter", self.ticks())

    def on_mount(self) -> None:
        """Look after scanners that end a code with nothing."""
        self._waiting = self.set_interval(keystrokes.SURE / 2, self._settle, pause=True)

    def on_key(self, event: events.Key) -> None:
        """Take a key; none is left to other widgets."""
        event.stop()
        event.prevent_default()
        now = self.ticks()
        if event.key not in keystrokes.TERMINATORS:
            self._submit(*keystrokes.sure(self._typed))
        key_id = self._keys.get(event.key)
        just_ended = now - self._typed.ended < keystrokes.SETTLE
        if event.key in keystrokes.TERMINATORS and (self.text or just_ended or key_id is None):
            # Tab alone goes to another screen or nowhere: it is no Enter.
            if self.text or event.key != "tab":
                self._end(event.key, now)
        elif key_id is not None and not (self.text and event.key in _ONLY_WITH_TEXT):
            self.post_message(self.Pressed(key_id))
        elif event.key in _EDITING:
            self._set(keystrokes.edited(self._typed, event.key, now))
        elif event.character is not None and event.is_printable:
            self._set(keystrokes.character(self._typed, event.character, now))

    def on_paste(self, event: events.Paste) -> None:
        """Take a paste as typing; it submits nothing."""
        event.stop()
        self._set(keystrokes.character(self._typed, event.text, self.ticks()))

    def _end(self, key: str, now: float) -> None:
        self._submit(*keystrokes.terminator(self._typed, key, now))

    def _settle(self) -> None:
        self._submit(*keystrokes.settled(self._typed, self.ticks()))

    def _hold(self, typed: Typed) -> None:
        """Keep what is typed; time can tell something of it, or else nothing is waited for."""
        self._typed = typed
        if typed.text or typed.doubt is not None:
            self._waiting.resume()
        else:
            self._waiting.pause()

    def _submit(self, typed: Typed, submitted: Submitted | None) -> None:
        """Empty the line without telling it as a change: what was looked for still counts."""
        self._hold(typed)
        if submitted is not None:
            self.post_message(self.Entered(submitted))
            self.refresh()

    def _set(self, typed: Typed) -> None:
        changed = typed.text != self._typed.text
        self._hold(typed)
        self.refresh()
        if changed:
            self.post_message(self.Changed(typed.text))

    def render_line(self, y: int) -> Strip:
        """Return the line with its cursor, or its hint while it is empty."""
        palette = PALETTES[self.app.theme]
        width = self.size.width
        if y > 0:
            return Strip.blank(width, self.rich_style)
        words = style(palette.text)
        line = Text.assemble((f"{self.prompt} ", style(palette.wet, bold=True)))
        text, cursor = self._typed.text, self._typed.cursor
        if self.secret:
            text = "•" * len(text)
        room = max(1, width - line.cell_len - 2)
        if text:
            first = max(0, cursor - room)
            begins = len(line)
            where = begins + cursor - first
            line.append(text[first:] + " ", style=words)
            line.stylize("reverse", begins if self._typed.given else where, where + 1)
        else:
            line.append(" ", style="reverse")
            line.append(f" {self.hint}", style=style(palette.quiet))
        line.plain = harmless(line.plain)
        segments = line.render(self.app.console, end="")
        return (
            Strip(segments).apply_style(self.rich_style).adjust_cell_length(width, self.rich_style)
        )
