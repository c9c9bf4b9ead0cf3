"""Keeping the file: is it whole, and a copy of it."""

from __future__ import annotations

from pathlib import Path

import click

from filmrack.cli.call import Call, json_option
from filmrack.cli.output import print_json, say
from filmrack.store import backup as backups
from filmrack.store import checking


@click.command()
@json_option
@click.pass_context
def check(ctx: click.Context, *, as_json: bool) -> None:
    """Check the file: whole, and each roll where the ledger says. Changes nothing."""
    call: Call = ctx.obj
    with call.reading() as file:
        found = checking.problems(file)
    if as_json:
        print_json({"ok": not found, "problems": found})
    elif not found:
        say("the file is whole, and every roll is where the ledger says")
    else:
        for problem in found:
            say(problem)
        say("go back to the newest backup if you cannot explain this")
    ctx.exit(1 if found else 0)


@click.command()
@click.argument("target", type=click.Path(path_type=Path), metavar="FILE")
@json_option
@click.pass_obj
def backup(call: Call, *, target: Path, as_json: bool) -> None:
    """Copy the darkroom file, also while desks write, and read the copy back."""
    with call.reading() as file:
        made = backups.back_up(file, target)
    if as_json:
        print_json({"file": str(made.file), "rolls": made.rolls, "bytes": made.bytes})
    else:
        say(f"{made.file}: {made.rolls} rolls, {made.bytes:,} bytes, read back and whole")
