"""The list of what a name that is being typed could mean, to choose from."""

from __future__ import annotations

from collections.abc import Collection

from rich.style import Style
from rich.text import Text

from filmrack.desk.hit_order import Listed
from filmrack.desk.hit_search import Hit, fitting, hits_for, lent_first, one_letter, to_do
from filmrack.desk.ink import fitted, ground, state_style, state_word, style
from filmrack.desk.lines import Lines, Spot
from filmrack.desk.others import others_fit
from filmrack.desk.plain_questions import (
    asks_what_they_have,
    asks_whether_dry,
    asks_who_has,
)
from filmrack.desk.registry import CALLED, screen_entry
from filmrack.desk.rows_in_sight import in_sight, more_below
from filmrack.desk.said import capital
from filmrack.desk.session import Session
from filmrack.desk.terminal_words import why_not_here
from filmrack.desk.themes import PALETTES, Palette
from filmrack.desk.verbs import looked_for
from filmrack.domain.attention import Standing
from filmrack.domain.clock import near_day
from filmrack.domain.roll import ARCHIVED, Roll
from filmrack.store.standings import Seen

_ROOMY = 100
"""Cells from which a row has room for all of a place."""


class Hits(Lines):
    """The list of hits, over the screen while something is typed."""

    def __init__(self, session: Session) -> None:
        super().__init__(id="hits")
        self.session = session
        self.hits: list[Hit] = []
        self.at: int | None = None
        self._first = 0
        """The first hit in sight."""
        self._line = ""
        self._archived = False
        self._picked = False
        """Whether somebody chose among them, and so has read them."""
        self._which = ""
        """A verb that can be meant of several of these rolls."""
        self._shut: Collection[str] = ()
        self._owners: Collection[int | None] = ()
        """Whose rolls are among the hits."""
        self._seen = Seen((), {})

    def look(self, line: str, *, whose: bool = False, listed: Listed | None = None) -> None:
        """Look for what is typed now; the first hit is the chosen one, behind one letter or where
        nobody is called quite so none.

        A line that begins or ends with a verb looks for the rest when nothing is called as the
        whole.
        """
        self._line, self._archived, self._which = line.strip(), listed is not None, ""
        self._picked, self._first = False, 0
        self.hits, self._seen = hits_for(self.session, line, whose=whose, listed=listed)
        verb, rest = looked_for(line)
        if verb and not self.sure:
            listed = listed if verb == "find" and not asks_whether_dry(line) else None
            hits, seen = hits_for(self.session, rest, whose=whose or verb == "load", listed=listed)
            if asks_who_has(line) or asks_what_they_have(line):
                hits = lent_first(hits, to_them=asks_what_they_have(line))
            if verb == "find":  # nothing is done by asking
                hits = [hit for hit in hits if not hit.command]
            if hits:
                self._line, self._seen, self._archived = rest, seen, listed is not None
                self.hits = (
                    hits if verb in ("load", "find") else to_do(self.session, hits, verb, rest)
                )
                several = verb not in ("load", "find") and len(fitting(hits, verb)) > 1
                self._which = verb if several else ""
        self.at = None if one_letter(line) or not self.sure or self._which else 0

    @property
    def sure(self) -> bool:
        """Tell whether something is called as was typed; the others are only near."""
        return bool(self.hits) and not self.hits[0].near

    @property
    def doubt(self) -> str:
        """Return what to say of a line that nobody is called by, while none is chosen."""
        if self.at is None and self.sure and self._which:
            return f"{self._which} which of these? Choose with the arrows, then press Enter"
        if self.at is None and self.hits and one_letter(self._line):
            return f"{self._line} alone could be many: type one more letter, or choose one"
        if self.at is not None or not self.hits or self.sure:
            return ""
        return f"nobody is called “{self._line[:40]}”: choose one of these with the arrows"

    @property
    def chosen(self) -> Hit | None:
        """Return the hit that Enter takes."""
        return None if self.at is None else self.hits[self.at]

    @property
    def enter_does(self) -> str:
        """Return what Enter does with the chosen hit, as the footer says it; empty for none."""
        hit = self.chosen
        if hit is None:
            return ""
        if hit.screen is not None:
            return f"open {screen_entry(hit.screen).title}"
        return hit.command or ("as typed" if hit.verb else "choose")

    @property
    def entered(self) -> Hit | None:
        """Return the hit that Enter takes, with whether it is but one of several of its owner."""
        chosen = self.chosen
        if chosen is None or chosen.standing is None or self._picked:
            return chosen
        owner = chosen.standing.roll.person
        theirs = [hit for hit in self.hits if hit.standing and hit.standing.roll.person == owner]
        return chosen._replace(one_of_several=owner is not None and len(theirs) > 1)

    @property
    def others(self) -> str:
        """Return whom else the letters fit, for an answer about the hit that nobody picked."""
        chosen = self.chosen
        if chosen is None or self._picked:
            return ""
        return others_fit(self._line, chosen, self.hits, self._seen)

    def pick(self, nth: int) -> None:
        """Choose a hit by its place in the list."""
        self.at, self._picked = nth, True

    def move(self, step: int) -> None:
        """Choose another hit; a single step goes round at the ends."""
        if not self.hits:
            return
        self._picked = True
        at = (-1 if step > 0 else 0) if self.at is None else self.at
        last = len(self.hits) - 1
        self.at = (at + step) % (last + 1) if abs(step) == 1 else max(0, min(last, at + step))

    def draw(self) -> None:
        """Show the hits."""
        if not self.hits:
            self._draw_none()
            return
        width = self.content_size.width
        self._shut = self.session.closed_terms()
        self._owners = {hit.standing.roll.person for hit in self.hits if hit.standing is not None}
        palette = PALETTES[self.app.theme]
        lines = self._head(palette)
        many = len(self.hits)
        height = self.content_size.height or len(lines) + many  # not laid out yet, all is shown
        at = self._first if self.at is None else self.at
        sight = in_sight(self._first, at, many, height - len(lines))
        self._first = sight.first
        spots = []
        for nth in range(sight.first, sight.end):
            spots.append(Spot(len(lines), 0, len(lines) + 1, width, nth))
            lines.append(self._row(nth, width))
        if sight.below:
            lines.append(more_below(sight.below, width, palette))
        self.show(lines, spots)

    def _draw_none(self) -> None:
        text = style(PALETTES[self.app.theme].text, bold=True)
        if one_letter(self._line):
            words, less = f"“{self._line}” begins many names.", "Type one more letter."
        else:
            instead = why_not_here(self._line)
            less = f"{capital(instead)}." if instead else "Try fewer letters."
            words = f"Nothing is called “{self._line}”."
        self.show([Text(words, style=text), Text(less)])

    def _head(self, palette: Palette) -> list[Text]:
        """Return what stands above the hits: that one is to be chosen, or how they are ordered."""
        strong = style(palette.text, bold=True)
        if not self.sure:
            words = f"Nobody is called “{self._line}”. These are near: choose with the arrows."
            return [Text(words, style=strong), Text("")]
        if self._otherwise_than_elsewhere():
            words = "Here what is sleeved comes first; on other screens what is on its way does."
            return [Text(words, style=style(palette.quiet)), Text("")]
        if self._which:
            words = f"{capital(self._which)} which of these? Choose with the arrows."
            return [Text(words, style=strong), Text("")]
        return []

    def _otherwise_than_elsewhere(self) -> bool:
        """Tell whether the order is the archive's own: it has both kinds of rolls."""
        kinds = [each.standing.roll.place.kind for each in self.hits if each.standing is not None]
        some = {kind in ARCHIVED for kind in kinds}
        return self._archived and len(some) > 1

    def _next(self, standing: Standing) -> str:
        term = standing.roll.term
        return f"term {term} is closed" if term in self._shut else standing.next.words

    def _row(self, nth: int, width: int) -> Text:
        hit, chosen = self.hits[nth], nth == self.at
        palette = PALETTES[self.app.theme]
        text, quiet = style(palette.text, bold=chosen), style(palette.quiet)
        row = Text.assemble(("▸ " if chosen else "  ", text))
        if hit.standing is not None:
            row.append_text(self._roll(hit.standing, text, palette, width))
        elif hit.person is not None:
            again = hit.person.number in self._owners
            name = "" if again else hit.person.short
            words = f"load another roll of {hit.person.short}" if again else "load a roll of theirs"
            row.append_text(fitted(name, 24, text))
            row.append(f"{words}: then its clip", text if again else quiet)
        elif hit.screen is not None:
            entry = screen_entry(hit.screen)
            row.append_text(fitted(entry.title, 24, text)).append(entry.purpose, quiet)
        else:
            command = next(each for each in CALLED if each.words == hit.command)
            row.append_text(fitted(command.words, 24, text)).append(command.does, quiet)
        if chosen:
            row.stylize(ground(palette))
        return row

    def _roll(self, standing: Standing, text: Style, palette: Palette, width: int) -> Text:
        roll, owner = standing.roll, self._seen.owner(standing.roll)
        quiet = style(palette.quiet)
        return Text.assemble(
            fitted(owner.short if owner else self._seen.whose(roll), 24, text),
            fitted(f"clip {roll.clip}" if roll.clip else self._hung(roll), 12, text),
            fitted(self._seen.place(roll), 20 if width < _ROOMY else 22, text),
            fitted(state_word(standing), 7, state_style(standing, palette)),
            fitted(roll.number, 13, quiet),
            fitted(self._next(standing), max(0, width - 80), quiet),
        )

    def _hung(self, roll: Roll) -> str:
        """Return the day on which a roll without a clip was hung, as its sleeve's label has it; its
        number tells the year.
        """
        word = "kept" if roll.hung_at is None else "hung"
        day = self.session.file.room().timetable.local_date(roll.hung_at or roll.first_at)
        return f"{word} {near_day(day)}"
