"""How rolls are printed: one JSON document, or a short table for a person."""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from datetime import datetime, tzinfo

import click

from filmrack.domain import names
from filmrack.domain.attention import Standing
from filmrack.domain.roll import Roll
from filmrack.domain.room import Room
from filmrack.store.standings import Seen

_JsonRoll = dict[str, object]


def print_json(document: object) -> None:
    """Print one JSON document."""
    text = json.dumps(document, ensure_ascii=False, indent=2)
    click.echo("".join(f"\\u{ord(c):04x}" if c != "\n" and names.steers(c) else c for c in text))


def harmless(text: str) -> str:
    """Return a text without characters that would steer a terminal; its lines stay lines."""
    return names.harmless(text, kept="\n\t")


def say(text: str) -> None:
    """Print a line for a person."""
    click.echo(harmless(text))


def tell_warnings(warnings: Iterable[str]) -> None:
    """Print what is to be heeded, after what was done."""
    for words in warnings:
        say(f"note: {words}")


def iso(moment: datetime | None, zone: tzinfo) -> str | None:
    """Return a moment in ISO 8601 with the offset of the room's zone."""
    return None if moment is None else moment.astimezone(zone).isoformat(timespec="seconds")


def roll_json(standing: Standing, seen: Seen, room: Room) -> _JsonRoll:
    """Return all that is known of one roll, with stable keys."""
    roll, drying, zone = standing.roll, standing.outlook, room.timetable.zone
    owner = seen.owner(roll)
    return {
        "roll": roll.number,
        "who": owner.full if owner else None,
        "said": seen.said.get(roll.id),
        "film": roll.film,
        "clip": roll.clip,
        "period": roll.period,
        "where": str(roll.place),
        "place": _place(roll),
        "state": standing.state,
        "left_behind": standing.left_behind,
        "flip_at": iso(drying.flip_at, zone) if drying else None,
        "likely_at": iso(drying.likely_at, zone) if drying else None,
        "dry_at": iso(drying.dry_at, zone) if drying else None,
        "dryer_minutes": round(drying.dryer_minutes, 2) if drying else None,
        "p_dry": round(drying.p_dry, 4) if drying else None,
        "before_bell": standing.before_bell,
        "next": standing.next.words,
        "picks": list(roll.picks),
        "loan": _loan(standing, seen, room),
        "done": {
            "sleeved": iso(roll.sleeved_at, zone),
            "contact": iso(roll.sheets[0].at, zone) if roll.sheets else None,
            "filed": iso(roll.filed_at, zone),
        },
    }


def _loan(standing: Standing, seen: Seen, room: Room) -> _JsonRoll | None:
    loan = standing.roll.loan
    if loan is None:
        return None
    return {
        "to": seen.borrowers.get(standing.roll.id),
        "lent": iso(loan.at, room.timetable.zone),
        "until": loan.until,
        "overdue": any(why == "loan overdue" for why, _ in standing.why),
    }


def _place(roll: Roll) -> _JsonRoll:
    place: _JsonRoll = {"kind": roll.place.kind}
    if roll.place.number is not None:
        place[roll.place.kind] = roll.place.number
    if roll.place.position is not None:
        place["position"] = roll.place.position
    return place


def print_rolls(seen: Seen, room: Room, *, as_json: bool) -> None:
    """Print rolls as an act left them, or as a question found them."""
    if as_json:
        print_json([roll_json(each, seen, room) for each in seen.standings])
    else:
        print_table([_row(each, seen) for each in seen.standings])


def sentence(standing: Standing, seen: Seen) -> str:
    """Return a roll in one line: `26F-0142-09  Mara Okafor  clip 17  rod 3, position 4  wet: …`."""
    return "  ".join(part for part in _row(standing, seen) if part)


def _row(standing: Standing, seen: Seen) -> tuple[str, ...]:
    roll = standing.roll
    state = "left behind" if standing.left_behind else standing.state or ""
    if standing.left_behind and standing.state != "dry":
        state = f"left behind, {standing.state}"
    return (
        roll.number,
        seen.whose(roll),
        f"clip {roll.clip}" if roll.clip else "",
        seen.place(roll),
        state,
        standing.next.words,
    )


def print_table(rows: Sequence[Sequence[str]], head: Sequence[str] = ()) -> None:
    """Print rows in columns as wide as their widest cell."""
    clean = [[harmless(cell) for cell in row] for row in ([head, *rows] if head else rows)]
    widths = [max(map(_width, column)) for column in zip(*clean, strict=True)]
    for row in clean:
        cells = (
            cell + " " * (width - _width(cell)) for cell, width in zip(row, widths, strict=True)
        )
        click.echo("  ".join(cells).rstrip())


def _width(text: str) -> int:
    """Return how many cells of a terminal a text takes."""
    if max(text, default="") < "\u0300":  # Latin letters, with their accents
        return len(text)
    from rich.cells import cell_len

    return cell_len(text)
