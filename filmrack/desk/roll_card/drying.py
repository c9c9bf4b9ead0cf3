"""What the card says of film that hangs: its times, and how far each end has dried."""

from __future__ import annotations

from rich.text import Text

from filmrack.desk.ink import style
from filmrack.desk.now import Now
from filmrack.desk.themes import Palette
from filmrack.domain.attention import Standing
from filmrack.domain.clock import clock
from filmrack.domain.outlook import Outlook

_BAR = 14
"""Cells of an end's bar."""

_NAME = 11
"""Cells of what stands before a time or a bar."""

_CROWDED = 7
"""Wet rolls in one dryer from which film may dry slower: twelve instead of two cost 7 to 30 %
(common practice), which no number here allows for."""

_BEFORE_BELL = {"yes": "dry by then", "tight": "perhaps dry", "no": "not dry"}


def drying_lines(now: Now, standing: Standing, drying: Outlook, palette: Palette) -> list[Text]:
    """Return when it was hung, when to flip it and when it is likely dry, whether that is before
    the bell, and the bars of both ends.
    """

    def line(name: str, words: str) -> Text:
        return Text.assemble((f"{name:<{_NAME}}", style(palette.quiet)), (words, palette.text))

    times = (
        ("hung", standing.roll.hung_at),
        ("flip", drying.flip_at),
        ("likely dry", drying.likely_at),
    )
    zone = now.room.timetable.zone
    lines = [line(name, clock(when, zone, now.at)) for name, when in times if when is not None]
    if drying.state != "dry":
        if now.class_on is not None and standing.before_bell is not None:
            bell = clock(now.class_on.meeting.ends, zone, now.at)
            lines.append(line("the bell", f"{bell}, {_BEFORE_BELL[standing.before_bell]}"))
        cabinet = now.room.dryer_of(standing.roll.place.number or 0)
        wet = sum(fan.wet for fan in now.fans if fan.dryer == cabinet)
        if wet >= _CROWDED and standing.state in ("wet", "flip"):
            lines.append(Text(f"May be slow: {wet} not dry yet.", style=style(palette.quiet)))
    return [*lines, Text(""), *ends(drying, ("top end", "bottom end"), palette)]


def ends(drying: Outlook, names: tuple[str, str], palette: Palette) -> list[Text]:
    """Return how much of the usual time each end had; a finger that found it tacky knows better."""
    shares = drying.top_fraction, drying.bottom_fraction
    if drying.state != "dry" and drying.found_tacky and min(shares) > 0.99:
        return [Text("Tacky: longer than usual.", style=style(palette.quiet))]
    return [_end(name, share, palette) for name, share in zip(names, shares, strict=True)]


def _end(name: str, fraction: float, palette: Palette) -> Text:
    full = round(fraction * _BAR)
    return Text.assemble(
        (f"{name:<{_NAME}}", style(palette.quiet)),
        ("━" * full, style(palette.dry)),
        ("╍" * (_BAR - full), style(palette.wet)),
        (f" {fraction:4.0%}", style(palette.quiet)),
    )
