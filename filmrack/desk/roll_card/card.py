"""The card of the selected roll: who, where, its next step, its ends, its ledger."""

from __future__ import annotations

from rich.text import Text

from filmrack.desk.ink import fit, style, styled, wrapped
from filmrack.desk.lines import Lines
from filmrack.desk.now import Now
from filmrack.desk.others import also, others_on_card
from filmrack.desk.roll_card.drying import drying_lines, ends
from filmrack.desk.roll_card.step import OnEnter, comes_lines, does_lines, not_there
from filmrack.desk.session import Session
from filmrack.desk.themes import PALETTES, Palette
from filmrack.domain.attention import Standing
from filmrack.domain.clock import clock, day_words, time_words
from filmrack.domain.counted import frames_words
from filmrack.domain.roll import Entry, Roll
from filmrack.domain.story import told
from filmrack.domain.student_desk import may
from filmrack.store import ledger, people

_LOW = 10
"""Rows below which a card says only what is needed for the next step."""

_TIME = 7
"""Cells of the time before an entry of the ledger."""


_GAP = "   "
"""What parts two things that stand in one row of a low card."""


class Card(Lines):
    """The selected roll at the right, or under the map on a narrow screen."""

    def __init__(self, session: Session) -> None:
        super().__init__(id="card")
        self.session = session
        self.on_enter = OnEnter()

    def draw(self, now: Now, standing: Standing | None, on_enter: OnEnter) -> None:
        """Show a roll; without one what comes first in a new room, or that nothing is selected."""
        self.on_enter = on_enter
        width = max(20, self.content_size.width or 34)
        if standing is not None:
            self.show((self._low if self._is_low else self._high)(now, standing, width))
        else:
            self.show([] if self.on_enter.is_asked else self._nothing(now, width))

    @property
    def _palette(self) -> Palette:
        return PALETTES[self.app.theme]

    @property
    def _is_low(self) -> bool:
        return 0 < self.size.height < _LOW

    def _nothing(self, now: Now, width: int) -> list[Text]:
        from filmrack.desk.first_steps import first_steps  # mostly a roll is selected

        lines: list[Text] = []
        for sentence in first_steps(self.session, now):
            lines += styled(sentence, width, style(self._palette.quiet))
            lines += [] if self._is_low else [Text("")]
        return lines

    def _high(self, now: Now, standing: Standing, width: int) -> list[Text]:
        """Return all that is known of a roll, one part below the other."""
        palette, roll, on_enter = self._palette, standing.roll, self.on_enter
        plain, quiet = style(palette.text), style(palette.quiet)
        others = also(others_on_card(self.session, now, roll))
        return [
            _title(now, standing, palette),
            Text(fit(f"{roll.number}   {roll.film}", width), style=quiet),
            *styled(self._where(now, roll), width, quiet),
            *styled(others and f"{others}.", width, plain),
            Text(""),
            *comes_lines(standing, on_enter, palette, width),
            *(row for each in on_enter.ahead for row in styled(each, width, plain)),
            *does_lines(self.session, standing, on_enter, palette, width),
            *styled(self._else_typed(standing), width, quiet),
            *self._drying(now, standing),
            *self._clue(roll, width),
            Text(""),
            *self._story(now, roll, width),
        ]

    def _low(self, now: Now, standing: Standing, width: int) -> list[Text]:
        """Return what is needed for the next step, in three or four rows."""
        palette, roll, on_enter = self._palette, standing.roll, self.on_enter
        title = _title(now, standing, palette)
        title.append(f"   {roll.number}   {self._where(now, roll)}", style=style(palette.quiet))
        title.truncate(width, overflow="ellipsis")
        comes = comes_lines(standing, on_enter, palette, width)
        does = does_lines(self.session, standing, on_enter, palette, width)
        others = others_on_card(self.session, now, roll)
        if others:
            roomy = min((*comes, *does), key=lambda row: row.cell_len)
            room = width - roomy.cell_len - len(_GAP)
            if len(comes) + len(does) == 1 and len(also(others)) > room:
                does.append(Text(also(others, width), style=style(palette.text)))
            else:
                roomy.append(f"{_GAP}{also(others, room)}", style=style(palette.text))
                roomy.truncate(width, overflow="ellipsis")
        if on_enter.ahead:
            words = "; ".join(on_enter.ahead[:2])
            comes.append(Text(fit(words, width).rstrip(), style=style(palette.text)))
        drying = standing.outlook
        bars = [] if drying is None else ends(drying, ("top", "bottom"), palette)
        return [title, *comes, *does, *([Text("  ").join(bars)] if bars else [])]

    def _where(self, now: Now, roll: Roll) -> str:
        """Return where a roll is; of a lent one who has it; and the frames picked on its contact
        sheets. Where a missing one was seen last stands in what comes next, unless its term is
        closed.
        """
        picks = f"; picks {frames_words(roll.picks)}" if roll.picks else ""
        if roll.place.kind == "missing" and self.on_enter.closed:
            seen = clock(roll.seen_at, now.room.timetable.zone, now.at)
            return f"missing; last seen {seen}, {roll.seen}"
        if roll.place.kind == "out" and roll.loan is not None:
            from filmrack.domain.loans import loan_words  # few cards say who borrowed
            from filmrack.store.borrowing import borrower

            who = borrower(self.session.file.conn, roll)
            return loan_words(roll.loan, who, now.room, now.at) + picks
        return f"{roll.place}{picks}"

    def _else_typed(self, standing: Standing) -> str:
        """Return what can be typed besides the next step; empty for nothing, and while the term is
        closed.
        """
        if self.on_enter.closed:
            return ""
        if standing.next.act == "contact" and may(self.session.by, "contact"):
            return "With frames: “contact 3 12”"
        return not_there(self.session, standing)

    def _drying(self, now: Now, standing: Standing) -> list[Text]:
        if standing.outlook is None:
            return []
        return [Text(""), *drying_lines(now, standing, standing.outlook, self._palette)]

    def _clue(self, roll: Roll, width: int) -> list[Text]:
        """Return what was noted to know a roll by."""
        clue = roll.clue and people.read_notes(self.session.file.conn, [roll.clue]).get(roll.clue)
        if not clue:
            return []
        return [Text(""), *styled(f"“{clue}”", width, style(self._palette.text))]

    def _story(self, now: Now, roll: Roll, width: int) -> list[Text]:
        """Return the ledger of a roll, newest first, under the days that are not today."""
        zone, quiet = now.room.timetable.zone, style(self._palette.quiet)
        lines: list[Text] = []
        day = today = now.at.astimezone(zone).date()
        for entry, undone in reversed(ledger.whole_story(self.session.file.conn, roll.id)):
            if entry.act == "undo":
                continue
            local = entry.happened.astimezone(zone)
            if local.date() != day:
                day = local.date()
                lines.append(Text(day_words(day, today), style=quiet))
            mark = "undone: " if undone else "assumed, nobody said so: " if entry.assumed else ""
            for nth, row in enumerate(wrapped(f"{mark}{self._told(entry)}", width - _TIME)):
                time = time_words(local) if nth == 0 else ""
                lines.append(Text(f"{time:<{_TIME}}{row}", style=quiet))
        return lines

    def _told(self, entry: Entry) -> str:
        if entry.act != "lend":
            return told(entry)
        from filmrack.store.borrowing import lent_to  # few cards tell of a loan

        short = self.session.by != "teacher"
        return told(entry, lent_to(self.session.file.conn, entry, short=short))


def _title(now: Now, standing: Standing, palette: Palette) -> Text:
    owner = now.owner(standing.roll)
    name = owner.short if owner else "Unknown roll"
    clip = f"   clip {standing.roll.clip}" if standing.roll.clip else ""
    return Text.assemble((name, style(palette.text, bold=True)), (clip, style(palette.text)))
