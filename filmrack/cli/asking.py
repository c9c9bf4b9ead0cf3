"""The room of a new darkroom file: from a room file, from answers on a terminal, or the usual."""

from __future__ import annotations

import sys
from datetime import datetime
from pathlib import Path

import click
from tzlocal import get_localzone_name

from filmrack.domain.default_room import (
    MOST_PERIODS,
    MOST_POSITIONS,
    PERIODS,
    POSITIONS,
    default_room,
)
from filmrack.domain.refusal import FileTrouble, Refused
from filmrack.domain.room import LONGEST_PERIOD_WORD, Room
from filmrack.domain.timetable import zone_named


def room_for(room_file: Path | None, now: datetime, *, ask: bool) -> tuple[Room, str | None]:
    """Return the room, and the text of the room file it comes from.

    Raises Refused for a room file with mistakes, naming the first.
    """
    if room_file is not None:
        from filmrack.domain.roomfile import read_room_file

        try:
            written = room_file.read_bytes()
        except OSError as error:
            raise FileTrouble(f"{room_file} cannot be read: {error.strerror}") from error
        return read_room_file(written)
    zone = get_localzone_name()
    today = now.astimezone(zone_named(zone)).date()
    if not (ask and sys.stdin.isatty()):
        return default_room(zone, today), None
    click.echo("A few questions; Enter takes what stands in brackets, all can be changed later.")
    word = click.prompt("Your word for a period", default="period", value_proc=_period_word)
    periods = click.prompt("How many a day", default=PERIODS, type=click.IntRange(1, MOST_PERIODS))
    on_a_rod = click.IntRange(1, MOST_POSITIONS)
    positions = click.prompt("Positions on a rod", default=POSITIONS, type=on_a_rod)
    zone = click.prompt("Time zone", default=zone, value_proc=_zone)
    today = now.astimezone(zone_named(zone)).date()
    return default_room(zone, today, periods=periods, positions=positions, period_word=word), None


def _zone(typed: str) -> str:
    try:
        return zone_named(typed.strip()).key
    except Refused as refused:  # asked again
        raise click.UsageError(str(refused)) from refused


def _period_word(typed: str) -> str:
    if len(typed.strip()) > LONGEST_PERIOD_WORD:
        raise click.UsageError(f"write it with up to {LONGEST_PERIOD_WORD} letters")
    return typed.strip()
