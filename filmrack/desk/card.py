"""The card of the selected roll: who, where, its next step, its ends, its ledger."""

from collections.abc import Sequence
from typing import NamedTuple

from rich.text import Text

from filmrack.desk.enter import ENTER, comes_words, goes_on
from filmrack.desk.ink import at, fit, state_style, style, wrapped
from filmrack.desk.lines import Lines
from filmrack.desk.now import Now
from filmrack.desk.others import others_on_card
from filmrack.desk.said import capital
from filmrack.desk.session import Session
from filmrack.desk.themes import PALETTES, Palette
from filmrack.domain.attention import Standing
from filmrack.domain.clock import day_words, time_words
from filmrack.domain.outlook import Outlook
from filmrack.domain.roll import Entry, Roll
from filmrack.domain.story import told
from filmrack.domain.student_desk import may
from filmrack.store import ledger, people

_BAR = 14
"""Cells of an end's bar."""

_CROWDED = 7
"""Wet rolls in one dryer from which film may run late: twelve instead of two cost 7 to 30 % (a
working figure, from memory), which no number here allows for."""

_BEFORE_BELL = {"yes": "dry by then", "tight": "perhaps dry", "no": "not dry"}


class OnEnter(NamedTuple):
    """What Enter does to a roll: nothing while `at_rest`; `ahead` is what it will come to.

    `own` is what it does on this screen where that is not the next step; empty for nothing.
    `closed` says that its term is closed, in place of all that.
    """

    at_rest: bool = False
    ahead: Sequence[str] = ()
    own: str | None = None
    closed: str = ""
    act: str | None = None
    """Which act that is, where it is not the next step by its name."""
    asked: bool = False
    """Whether the line has asked something: without a roll the card is empty then."""


class Card(Lines):
    """The selected roll at the right, or under the map on a narrow screen."""

    def __init__(self, session: Session) -> None:
        super().__init__(id="card")
        self.session = session
        self.on_enter = OnEnter()

    def draw(
        self,
        now: Now,
        standing: Standing | None,
        on_enter: OnEnter | None = None,
    ) -> None:
        """Show a roll; nothing when there is none."""
        self.on_enter = on_enter or OnEnter()
        width = max(20, self.content_size.width or 34)
        if standing is None:
            self.show([] if self.on_enter.asked else self._nothing(now, width))
            return
        low = self.size.height and self.size.height < 10
        self.show(_low(self, now, standing, width) if low else self._high(now, standing, width))

    def _nothing(self, now: Now, width: int) -> list[Text]:
        from filmrack.desk.first_steps import first_steps  # mostly a roll is selected

        quiet = style(PALETTES[self.app.theme].quiet)
        low = self.size.height and self.size.height < 10
        lines: list[Text] = []
        for sentence in first_steps(self.session, now):
            lines += [Text(row.plain, style=quiet) for row in wrapped(sentence, width)]
            lines += [] if low else [Text("")]
        return lines

    def _high(self, now: Now, standing: Standing, width: int) -> list[Text]:
        palette, roll = PALETTES[self.app.theme], standing.roll
        lines = [_title(now, standing, palette), *self._facts(now, roll, palette, width), Text("")]
        others = others_on_card(self.session, now, roll)
        if others:
            lines[-1:] = [
                *(
                    Text(row.plain, style=style(palette.text))
                    for row in wrapped(f"{others}.", width)
                ),
                Text(""),
            ]
        step = _step(standing, palette, width, self.session, self.on_enter)
        plan = [row for each in self.on_enter.ahead for row in wrapped(each, width)]
        lines += [step[0], *(Text(row.plain, style=style(palette.text)) for row in plan), *step[1:]]
        to_print = standing.next.act == "contact" and may(self.session.by, "contact")
        if to_print and not self.on_enter.closed:
            words = "With frames: contact 3 12"
            lines.append(Text(fit(words, width).rstrip(), style=style(palette.quiet)))
        if standing.outlook is not None:
            lines += [Text(""), *_drying(now, standing, standing.outlook, palette)]
        clue = roll.clue and people.read_notes(self.session.file.conn, [roll.clue]).get(roll.clue)
        if clue:
            lines.append(Text(""))
            lines += [
                Text(row.plain, style=style(palette.text)) for row in wrapped(f"“{clue}”", width)
            ]
        lines += [Text(""), *self._story(now, roll, palette, width)]
        return lines

    def _facts(self, now: Now, roll: Roll, palette: Palette, width: int) -> list[Text]:
        quiet = style(palette.quiet)
        return [
            Text(fit(f"{roll.number}   {roll.film}", width), style=quiet),
            *(Text(row.plain, style=quiet) for row in wrapped(self.where(now, roll), width)),
        ]

    def where(self, now: Now, roll: Roll) -> str:
        """Return where a roll is; of a missing one where it was, of a lent one who has it."""
        if roll.place.kind == "missing":
            return f"missing; last seen {at(roll.seen_at, now.room, now.at)}, {roll.seen}"
        if roll.place.kind == "out" and roll.loan is not None:
            from filmrack.domain.loans import loan_words  # few cards say who borrowed
            from filmrack.store.borrowing import borrower

            who = borrower(self.session.file.conn, roll)
            return loan_words(roll.loan, who, now.room, now.at)
        return str(roll.place)

    def _story(self, now: Now, roll: Roll, palette: Palette, width: int) -> list[Text]:
        story = ledger.whole_story(self.session.file.conn, roll.id)
        zone, quiet = now.room.timetable.zone, style(palette.quiet)
        lines: list[Text] = []
        day = today = now.at.astimezone(zone).date()
        for entry, undone in reversed(story):
            if entry.act == "undo":
                continue
            local = entry.happened.astimezone(zone)
            if local.date() != day:
                day = local.date()
                lines.append(Text(day_words(day, today), style=quiet))
            mark = "undone: " if undone else "assumed, nobody said so: " if entry.assumed else ""
            for nth, row in enumerate(wrapped(f"{mark}{self._told(entry)}", width - 7)):
                lines.append(Text(f"{time_words(local) if nth == 0 else '':<7}{row}", style=quiet))
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


def _step(
    standing: Standing, palette: Palette, width: int, session: Session, on_enter: OnEnter
) -> list[Text]:
    next_, by = standing.next, session.by
    lines = []
    if on_enter.closed:
        words = f"{capital(on_enter.closed)}."
        return [
            Text(row.plain, style=style(palette.text, bold=True)) for row in wrapped(words, width)
        ]
    how = state_style(standing, palette) if standing.outlook else style(palette.text, bold=True)
    for row in wrapped(f"{comes_words(standing)}.", width):
        row.stylize(how)
        lines.append(row)
    if on_enter.own:
        first, *more = wrapped(f"Enter  {on_enter.own}", width)
        lines += [
            Text.assemble(
                ("Enter", style(palette.text, bold=True)), (first.plain[5:], style(palette.quiet))
            ),
            *(Text(row.plain, style=style(palette.quiet)) for row in more),
        ]
    elif next_.act is not None and on_enter.own is None and not on_enter.at_rest:
        act = on_enter.act or next_.act
        key, does = "Enter", ENTER.get(act, act)
        if not may(by, next_.act):
            takes = next_.act == "box"
            key, does = ("take", "typed, when you go") if takes else ("", "the teacher does this")
        lines.append(
            Text.assemble(
                (key, style(palette.text, bold=True)),
                (f"  {does}" if key else does, style(palette.quiet)),
            )
        )
    elif on_enter.own is None and (words := goes_on(session, standing)):
        lines += [Text(row.plain, style=style(palette.quiet)) for row in wrapped(words, width)]
    if standing.left_behind:
        lines.append(Text("Late: left behind.", style=style(palette.left, bold=True)))
    return lines


def _drying(now: Now, standing: Standing, drying: Outlook, palette: Palette) -> list[Text]:
    times = [
        ("hung", standing.roll.hung_at),
        ("flip", drying.flip_at),
        ("likely dry", drying.likely_at),
    ]
    lines = [
        Text.assemble(
            (f"{name:<11}", style(palette.quiet)), (at(moment, now.room, now.at), palette.text)
        )
        for name, moment in times
        if moment is not None
    ]
    if drying.state != "dry":
        lines += _in_time(now, standing, palette)
    lines.append(Text(""))
    return lines + _ends(drying, ("top end", "bottom end"), palette)


def _in_time(now: Now, standing: Standing, palette: Palette) -> list[Text]:
    """Return whether it is dry before the bell, and what may make it later than is said."""
    lines = []
    if now.meeting is not None and standing.before_bell is not None:
        bell = f"{at(now.meeting.ends, now.room, now.at)}, {_BEFORE_BELL[standing.before_bell]}"
        lines.append(
            Text.assemble((f"{'the bell':<11}", style(palette.quiet)), (bell, palette.text))
        )
    cabinet = now.room.dryer_of(standing.roll.place.number or 0)
    wet = sum(fan.wet for fan in now.fans if fan.dryer == cabinet)
    if wet >= _CROWDED and standing.state in ("wet", "flip"):
        lines.append(Text(f"May be slow: {wet} not dry yet.", style=style(palette.quiet)))
    return lines


def _ends(drying: Outlook, names: tuple[str, str], palette: Palette) -> list[Text]:
    """Return how much of the usual time each end had; a finger that found it tacky knows better."""
    shares = drying.top_fraction, drying.bottom_fraction
    if drying.state != "dry" and drying.found_tacky and min(shares) > 0.99:
        return [Text("Tacky: longer than usual.", style=style(palette.quiet))]
    return [_end(name, share, palette) for name, share in zip(names, shares, strict=True)]


def _end(name: str, fraction: float, palette: Palette) -> Text:
    full = round(fraction * _BAR)
    return Text.assemble(
        (f"{name:<11}", style(palette.quiet)),
        ("━" * full, style(palette.dry)),
        ("╍" * (_BAR - full), style(palette.wet)),
        (f" {fraction:4.0%}", style(palette.quiet)),
    )


def _low(card: Card, now: Now, standing: Standing, width: int) -> list[Text]:
    palette, roll = PALETTES[card.app.theme], standing.roll
    title = _title(now, standing, palette)
    title.append(f"   {roll.number}   {card.where(now, roll)}", style=style(palette.quiet))
    title.truncate(width)
    lines = [
        title,
        *_step(standing, palette, width, card.session, card.on_enter),
    ]
    others = others_on_card(card.session, now, roll)
    if others:
        roomy = min(lines[1:], key=lambda row: row.cell_len)
        if len(lines) == 2 and roomy.cell_len + len(others) + 3 > width:
            lines.append(roomy := Text())
        roomy.append(f"   {others}" if roomy else others, style=style(palette.text))
        roomy.truncate(width, overflow="ellipsis")
    if card.on_enter.ahead:
        words = "; ".join(card.on_enter.ahead[:2])
        lines.insert(2, Text(fit(words, width).rstrip(), style=style(palette.text)))
    if standing.outlook is not None:
        lines.append(Text("  ").join(_ends(standing.outlook, ("top", "bottom"), palette)))
    return lines
