"""The top row: room, date and time, class, when to start, fan, and how many rolls hang how."""

from __future__ import annotations

from rich.text import Text

from filmrack.desk.ink import at, style
from filmrack.desk.lines import Lines
from filmrack.desk.outlooks import Class, Fan
from filmrack.desk.session import Now
from filmrack.desk.themes import PALETTES, Palette
from filmrack.domain.clock import minutes_between


class TopRow(Lines):
    """Two lines that stay on every screen."""

    def draw(self, now: Now, title: str) -> None:
        """Show how things are now; `title` is the screen's."""
        palette = PALETTES[self.app.theme]
        width = self.content_size.width
        first = _spread([_title(title, palette), _clock(now, palette), _class(now, palette)], 3)
        demo = Text(" demo ", style=style(palette.flip, bold=True)) if now.demo else Text("")
        room = Text(now.room.name, style=style(palette.quiet))
        warning = Text(now.warning or "", style=style(palette.flip, bold=True))
        second = _spread([*_fans(now, palette), _counts(now, palette), warning], 4)
        self.show([_ends(first, room, width), _ends(second, demo, width)])


def _title(title: str, palette: Palette) -> Text:
    return Text(title, style=style(palette.text, bold=True))


def _clock(now: Now, palette: Palette) -> Text:
    local = now.at.astimezone(now.room.timetable.zone)
    return Text(f"{local:%a} {local.day} {local:%b}  {local:%H:%M}", style=style(palette.text))


def _class(now: Now, palette: Palette) -> Text:
    quiet = style(palette.quiet)
    lesson = now.lesson
    if lesson is None:
        following = now.room.timetable.next_meeting_after(now.at)
        if following is None:
            return Text("no class", style=quiet)
        name = _name(now, following.period)
        return Text(f"no class; {name} {at(following.starts, now.room, now.at)}", style=quiet)
    ends, left = lesson.meeting.ends, minutes_between(now.at, lesson.meeting.ends)
    words = Text.assemble(
        (_name(now, lesson.meeting.period), style(palette.text, bold=True)),
        (f" ends {at(ends, now.room, now.at)}, {left} min", style(palette.text)),
    )
    return words.append(f"   {_advice(now, lesson)}", style=quiet)


def _advice(now: Now, lesson: Class) -> str:
    """What a student who comes in now has to know, to leave with dry film."""
    if now.at <= lesson.start_by:
        return f"to leave dry, start developing by {at(lesson.start_by, now.room, now.at)}"
    if now.at <= lesson.hang_by:
        return f"to leave dry, hang by {at(lesson.hang_by, now.room, now.at)}"
    return "what is hung now goes to the box"


def _name(now: Now, number: int) -> str:
    period = now.room.period(number)
    return period.name if period else "class"


def _fans(now: Now, palette: Palette) -> list[Text]:
    several = len(now.fans) > 1
    return [_fan(now, fan, fan.dryer.name if several else "Fan", palette) for fan in now.fans]


def _fan(now: Now, fan: Fan, name: str, palette: Palette) -> Text:
    if fan.until is None:
        how = style(palette.flip, bold=True) if fan.wet else style(palette.quiet)
        return Text(f"{name} off" + (" over wet film" if fan.wet else ""), style=how)
    left = minutes_between(now.at, fan.until)
    known = "assumed" if fan.assumed else "logged"
    return Text(f"{name} on, {known}, {left} min left", style=style(palette.quiet))


def _counts(now: Now, palette: Palette) -> Text:
    parts = [
        (now.wet, "wet", palette.wet),
        (now.ready, "ready", palette.dry),
        (now.left_behind, "left behind", palette.left),
    ]
    words = [
        Text(f"{count} {what}", style=style(color if count else palette.quiet, bold=count > 0))
        for count, what, color in parts
    ]
    if now.tank:
        words.append(Text(f"{len(now.tank)} in the tank", style=style(palette.quiet)))
    return _spread(words, 3)


def _spread(parts: list[Text], gap: int) -> Text:
    return Text(" " * gap).join(part for part in parts if part.plain)


def _ends(left: Text, right: Text, width: int) -> Text:
    """Put one text at the left and one at the right, if both have room."""
    space = width - left.cell_len - right.cell_len
    if space < 2:
        left.truncate(width, overflow="ellipsis")
        return left
    return Text.assemble(left, " " * space, right)
