"""Keeping the file: is it whole, a copy of it, and the way back."""

from __future__ import annotations

from pathlib import Path

import click

from filmrack.cli.call import Call, json_option
from filmrack.cli.output import print_json, say, tell_warnings
from filmrack.domain.counted import counted
from filmrack.store import backup as backups
from filmrack.store import checking
from filmrack.store.shares import network_share


@click.command()
@click.option(
    "--rebuild", "anew", is_flag=True, help="Write the state anew from the ledger; a copy is kept."
)
@json_option
@click.pass_context
def check(ctx: click.Context, *, anew: bool, as_json: bool) -> None:
    """Check the file: whole, and each roll where the ledger says. Changes nothing by itself."""
    call: Call = ctx.obj
    if anew:
        _rebuild(call, as_json=as_json)
        return
    with call.reading() as file:
        found = checking.problems(file)
        odd = [] if found else checking.odd_times(file)
    shared = network_share(call.path)
    notes = [*odd, *([shared] if shared else [])]
    if as_json:
        print_json({"ok": not found, "problems": found, "notes": notes})
    elif not found:
        say("the file is whole, and every roll is where the ledger says")
    else:
        for problem in found:
            say(problem)
        say(
            "what is not as the ledger says is put right by “filmrack check --rebuild”; for the"
            " rest go back to a backup with “filmrack restore”"
        )
    if not as_json:
        tell_warnings(notes)
    ctx.exit(1 if found else 0)


def _rebuild(call: Call, *, as_json: bool) -> None:
    from filmrack.acts.restoring import rebuild

    with call.writing() as file:
        done = rebuild(file, call.now(file))
    kept = None if done.backup is None else str(done.backup.file)
    if as_json:
        print_json({"ok": True, "problems": list(done.problems), "kept": kept})
        return
    for problem in done.problems:
        say(f"put right: {problem}")
    if done.problems:
        say(f"the file as it was before: {kept or 'not kept, for this is a demo'}")
    say("the file is whole, and every roll is where the ledger says")


@click.command()
@click.argument("source", type=click.Path(path_type=Path), metavar="FILE")
@json_option
@click.pass_obj
def restore(call: Call, *, source: Path, as_json: bool) -> None:
    """Put a backup in the place of the darkroom file.

    That one is kept; desks may stay open.

    Names that were wiped since the backup stay wiped, as far as the file that was there tells.
    """
    from filmrack.acts.restoring import restore as put_back

    done = put_back(call.path, source, call.machine())
    kept = None if done.kept is None else str(done.kept)
    if as_json:
        print_json(
            {
                "file": str(call.path),
                "rolls": done.rolls,
                "kept": kept,
                "wiped_known": done.wiped_known,
            }
        )
        return
    say(f"{call.path} is what {source} holds: {counted(done.rolls, 'roll')}")
    say(f"the file as it was before: {kept}" if kept else "there was no file there before")
    if not done.wiped_known:
        say(
            "names wiped after that backup was made may be back, for there was no whole file to"
            " ask: who is wiped in a backup beside it is wiped here too, so look for others and"
            " wipe them again with “filmrack person wipe”"
        )


@click.command()
@click.argument("target", type=click.Path(path_type=Path), metavar="FILE")
@json_option
@click.pass_obj
def backup(call: Call, *, target: Path, as_json: bool) -> None:
    """Copy the darkroom file, and read the copy back. Desks may write meanwhile."""
    with call.reading() as file:
        made = backups.back_up(file, target)
    if as_json:
        print_json({"file": str(made.file), "rolls": made.rolls, "bytes": made.bytes})
    else:
        say(
            f"{made.file}: {counted(made.rolls, 'roll')}, {made.bytes:,} bytes, read back and whole"
        )
