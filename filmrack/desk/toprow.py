"""The top row: room, date and time, class, when to start, fan, and how many rolls hang how."""

from __future__ import annotations

from rich.text import Text

from filmrack.desk.ink import at, style
from filmrack.desk.lines import Lines
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
        second = _spread([_fan(now, palette), _counts(now, palette)], 4)
        self.show([_ends(first, room, width), _ends(second, demo, width)])


def _title(title: str, palette: Palette) -> Text:
    return Text(title, style=style(palette.text, bold=True))


def _clock(now: Now, palette: Palette) -> Text:
    local = now.at.astimezone(now.room.timetable.zone)
    return Text(f"{local:%a} {local.day} {local:%b}  {local:%H:%M}", style=style(palette.text))


def _class(now: Now, palette: Palette) -> Text:
    quiet = style(palette.quiet)
    if now.meeting is None:
        following = now.room.timetable.next_meeting_after(now.at)
        if following is None:
            return Text("no class", style=quiet)
        period = now.room.period(following.period)
        name = period.name if period else "class"
        return Text(f"no class; {name} {at(following.starts, now.room, now.at)}", style=quiet)
    period = now.room.period(now.meeting.period)
    left = minutes_between(now.at, now.meeting.ends)
    words = Text.assemble(
        (period.name if period else "class", style(palette.text, bold=True)),
        (f" ends {at(now.meeting.ends, now.room, now.at)}, {left} min", style(palette.text)),
    )
    if now.start_by is not None:
        late = now.start_by < now.at
        when = at(now.start_by, now.room, now.at)
        text = f"   too late to leave dry: start was {when}" if late else ""
        words.append(text or f"   start developing by {when} to leave dry", style=quiet)
    return words


def _fan(now: Now, palette: Palette) -> Text:
    if now.fan_until is None:
        wet = any(each.state != "dry" for each in now.hanging)
        how = style(palette.flip, bold=True) if wet else style(palette.quiet)
        return Text("Fan off" + (" over wet film" if wet else ""), style=how)
    left = minutes_between(now.at, now.fan_until)
    how_known = "assumed" if now.fan_assumed else "logged"
    return Text(f"Fan on, {how_known}, {left} min left", style=style(palette.quiet))


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
