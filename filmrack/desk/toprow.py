"""The top row: room, date and time, class, when to start, fan, and how many rolls hang how."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime
from itertools import chain

from rich.text import Text

from filmrack.desk.ink import style
from filmrack.desk.lines import Lines
from filmrack.desk.now import Now
from filmrack.desk.outlooks import ClassOn, Fan
from filmrack.desk.themes import PALETTES, Palette
from filmrack.domain.clock import clock, day_words, minutes_between, time_words


class TopRow(Lines):
    """Two lines that stay on every screen."""

    def draw(self, now: Now, title: str, *, sweeps: bool) -> None:
        """Show how things are now; `title` is the screen's, `sweeps` whether this desk may."""
        palette = PALETTES[self.app.theme]
        width = self.content_size.width
        name, clock = _title(title, palette), _clock(now, palette)
        sweep = Text("") if title == "Sweep" else _sweep(now, palette)
        back = _sweep(now, palette, ": type “sweep”") if sweep.plain and sweeps else sweep
        first = (
            _spread([name, clock, _class(now, palette, brief), back], gap)
            for brief, gap in ((0, 3), (1, 2), (2, 2))
        )
        bare = (_spread([name, clock, words], 2) for words in (back, sweep) if sweep.plain)
        demo = Text(" demo ", style=style(palette.flip, bold=True)) if now.demo else Text("")
        room = Text(now.room.name, style=style(palette.quiet))
        warning = Text(now.warning or "", style=style(palette.flip, bold=True))
        second = (
            _spread([*_fans(now, palette, brief), _counts(now, palette, brief), warning], gap)
            for brief, gap in ((0, 4), (1, 2), (2, 2))
        )
        space = width - demo.cell_len
        self.show(
            [
                _ends(_first_fit(chain(first, bare), width), room, width),
                _ends(_first_fit(second, space), demo, width),
            ]
        )


def _title(title: str, palette: Palette) -> Text:
    return Text(title, style=style(palette.text, bold=True))


def _clock(now: Now, palette: Palette) -> Text:
    local = now.at.astimezone(now.room.timetable.zone)
    day = day_words(local.date(), local.date())
    return Text(f"{day}  {time_words(local)}", style=style(palette.text))


def _sweep(now: Now, palette: Palette, back: str = "") -> Text:
    """Return how far the sweep is and the way `back`, for whoever left it or finds it begun."""
    if now.sweep is None:
        return Text("")
    words = f"sweep on, {now.sweep.through} of {now.sweep.rods} rods through{back}"
    return Text(words, style=style(palette.flip, bold=True))


def _class(now: Now, palette: Palette, brief: int) -> Text:
    """Return what is on and what to do by when; a brief one says less, from 0 to 2."""
    quiet = style(palette.quiet)
    class_on = now.class_on
    if class_on is None:
        following = now.room.timetable.next_meeting_after(now.at)
        if following is None:
            return Text("no class", style=quiet)
        name = _name(now, following.period)
        return Text(f"no class; {name} {_at(now, following.starts)}", style=quiet)
    ends, left = class_on.meeting.ends, minutes_between(now.at, class_on.meeting.ends)
    words = Text.assemble(
        (_name(now, class_on.meeting.period), style(palette.text, bold=True)),
        (f" ends {_at(now, ends)}", style(palette.text)),
        ("" if brief else f", {left} min", style(palette.text)),
    )
    advice = _advice(now, class_on)
    return words.append(f"{' ' * (2 if brief else 3)}{advice[brief == 2]}", style=quiet)


def _advice(now: Now, class_on: ClassOn) -> tuple[str, str]:
    """Return what a student who comes in now has to know to leave with dry film, and in brief."""
    if now.at <= class_on.start_by:
        start = f"start developing by {_at(now, class_on.start_by)}"
        return f"to leave dry, {start}", start
    if now.at <= class_on.hang_by:
        hang = f"hang by {_at(now, class_on.hang_by)}"
        return f"to leave dry, {hang}", hang
    return "film hung now is not dry when class ends", "too late to dry by then"


def _at(now: Now, moment: datetime) -> str:
    return clock(moment, now.room.timetable.zone, now.at)


def _name(now: Now, number: int) -> str:
    period = now.room.period(number)
    return period.name if period else "class"


def _fans(now: Now, palette: Palette, brief: int) -> list[Text]:
    several = len(now.fans) > 1
    names = (fan.dryer.name if several else "Fan" for fan in now.fans)
    return [_fan(now, fan, name, palette, brief) for fan, name in zip(now.fans, names, strict=True)]


def _fan(now: Now, fan: Fan, name: str, palette: Palette, brief: int) -> Text:
    if fan.until is None:
        how = style(palette.flip, bold=True) if fan.wet else style(palette.quiet)
        return Text(f"{name} off" + (" over wet film" if fan.wet else ""), style=how)
    left = minutes_between(now.at, fan.until)
    words = (f"{name} on, {left} min left", f"{name} on, {left} min", f"{name} {left} min")
    if fan.assumed:  # who hangs film is told to turn the dial, and nobody says that it was done
        words = (
            f"{name} on, {left} min left if the dial was turned",
            f"{name} on, perhaps {left} min",
            f"{name} perhaps {left} min",
        )
    return Text(words[brief], style=style(palette.quiet))


def _counts(now: Now, palette: Palette, brief: int) -> Text:
    not_dry = [(now.wet, "wet", palette.wet)]
    if now.to_touch and brief:  # probably dry, so that it is never counted as wet
        not_dry = [(now.wet + now.to_touch, "not dry", palette.wet)]
    elif now.to_touch:
        not_dry.append((now.to_touch, "to touch", palette.touch))
    parts = [
        *not_dry,
        (now.ready, "ready", palette.dry),
        (now.left_behind, "left behind", palette.left),
    ]
    words = [
        Text(f"{count} {what}", style=style(color if count else palette.quiet, bold=count > 0))
        for count, what, color in parts
    ]
    if now.tank:
        words.append(
            Text(
                f"{len(now.tank)} in {'' if brief == 2 else 'the '}tank", style=style(palette.quiet)
            )
        )
    return _spread(words, 2 if brief else 3)


def _spread(parts: list[Text], gap: int) -> Text:
    return Text(" " * gap).join(part for part in parts if part.plain)


def _first_fit(forms: Iterable[Text], width: int) -> Text:
    """Return the first form that has room, else what of the last one has."""
    fitting = Text()
    for fitting in forms:
        if fitting.cell_len <= width:
            break
    fitting.truncate(max(0, width), overflow="ellipsis")
    return fitting


def _ends(left: Text, right: Text, width: int) -> Text:
    """Put one text at the left and one at the right, if both have room."""
    space = width - left.cell_len - right.cell_len
    return left if space < 0 else Text.assemble(left, " " * space, right)
