"""Sweeping the dryer from the command line."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TextIO

import click

from filmrack.acts import sweeping
from filmrack.acts.scans import read_scans
from filmrack.acts.sweep_boxing import Swept
from filmrack.cli.call import Call, json_option
from filmrack.cli.output import print_json, print_table, say
from filmrack.domain.names import called
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import owner_of
from filmrack.store import people, rolls
from filmrack.store.file import DarkroomFile
from filmrack.store.standings import see
from filmrack.store.unseen import Unseen, unseen


@click.command()
@click.option("--period", metavar="P", help="Only that period's rods.")
@click.option("--count", "counts", multiple=True, metavar="ROD=N", help="What hangs on a rod.")
@click.option(
    "--scans",
    type=click.File("r", encoding="utf-8", errors="replace"),
    help="What was scanned: one code a line, a rod's or box's code says where; - reads on.",
)
@click.option("--wet", is_flag=True, help="What is counted and not dry goes to its box too.")
@click.option("--finish", is_flag=True, help="Done: name what is missing.")
@json_option
@click.pass_obj
def sweep(
    call: Call,
    *,
    period: str | None,
    counts: tuple[str, ...],
    scans: TextIO | None,
    wet: bool,
    finish: bool,
    as_json: bool,
) -> None:
    """Sweep the dryer: count each rod, scan where a count is wrong. `--finish` ends it."""
    with call.writing() as file:
        number = None if period is None else file.room().period_meant(period).number
        counted = dict(_count(count) for count in counts)
        scanned = read_scans(file, scans) if scans else []
        hand = call.hand(file)
        swept = sweeping.sweep(
            file, hand, period=number, counts=counted, scans=scanned, not_dry_too=wet, finish=finish
        )
        hung = see(file, rolls.hanging(file.conn), hand.at).standings
        left = unseen(file.conn, swept.sweep, hung)
        if as_json:
            print_json(_json(file, swept, left))
        else:
            _print(file, swept, left)


def _count(text: str) -> tuple[int, int]:
    rod, _, counted = text.casefold().removeprefix("rod").strip().partition("=")
    if not (rod.strip().isdecimal() and counted.strip().isdecimal()) or len(text) > 12:
        raise Refused(f"“{text[:20]}” is no count: write the rod and what hangs there as 3=6")
    return int(rod), int(counted)


def _json(file: DarkroomFile, swept: Swept, left: Unseen) -> dict[str, object]:
    def numbers(ids: Iterable[int]) -> list[str]:
        return [roll.number for roll in rolls.by_ids(file.conn, ids)]

    return {
        "expected": {
            str(rod): [roll.number for roll in hanging] for rod, hanging in swept.hanging.items()
        },
        "rods": [
            {
                "rod": rod.rod,
                "expected": rod.expected,
                "counted": rod.counted,
                "matched": rod.matched,
                "extra": rod.extra,
            }
            for rod in swept.rods.values()
        ],
        "wrong_place": numbers(swept.wrong_place),
        "missing": numbers(swept.missing),
        "unknown": numbers(swept.unknown),
        "closed_term": numbers(swept.closed_term),
        "no_box": numbers(swept.no_box),
        "not_dry": numbers(_not_dry(swept, left)),
        "not_scanned": [roll.number for roll in left.dry],
        "open": [{"rod": each.rod, "not_accounted_for": each.off} for each in swept.open],
        "no_term": swept.no_term,
        "boxed": numbers(swept.boxed),
        "finished": swept.finished,
    }


def _not_dry(swept: Swept, left: Unseen) -> list[int]:
    """Return what hangs on since it is not dry by the clock: counted just now, or not seen."""
    return list(dict.fromkeys((*swept.hangs_on, *(roll.id for roll in left.wet))))


def _print(file: DarkroomFile, swept: Swept, left: Unseen) -> None:
    wet, dry = _not_dry(swept, left), [roll.id for roll in left.dry]
    if swept.boxed:
        say("to the boxes:")
        _list(file, swept.boxed)
    for title, ids in (
        ("found in the wrong place:", swept.wrong_place),
        ("unknown rolls:", swept.unknown),
        ("of a closed term, reopen it to cut and sleeve them:", swept.closed_term),
        ("without a box of their own, they hang still:", swept.no_box),
        ("not dry by the clock, they hang on:", wet),
        ("should be dry, not scanned beside wet film, so they hang on:", dry),
        ("missing, look for them:", swept.missing),
    ):
        if ids:
            say(title)
            _list(file, ids)
    for clip in swept.no_term:
        say(f"clip {clip}: no record explains it, and no term is open: put it aside, open the next")
        say("  term and scan it again")
    for each in swept.open:
        say(each.told)
    if swept.finished:
        say("the sweep is finished")
        return
    for rod, hanging in swept.hanging.items():
        count = swept.rods.get(rod)
        still = sum(roll.id not in wet for roll in hanging)
        if count is not None and count.wrong and still:
            say(
                f"rod {rod}: {count.counted} counted, {count.expected} should hang: scan what is"
                " there"
            )
        elif count is not None and hanging:
            say(f"rod {rod}: {len(hanging)} {'hangs' if len(hanging) == 1 else 'hang'} there still")
        elif hanging:
            say(f"rod {rod}: {len(hanging)} should hang")


def _list(file: DarkroomFile, ids: Iterable[int]) -> None:
    some = rolls.by_ids(file.conn, ids)
    owners = people.read_people(file.conn, (roll.person for roll in some if roll.person))
    rows = []
    for roll in some:
        clip = f"clip {roll.clip}" if roll.clip else ""
        rows.append((f"  {roll.number}", called(owner_of(roll, owners)), clip, str(roll.place)))
    print_table(rows)
