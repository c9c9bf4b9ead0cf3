"""The commands, found by name and imported only when they are called."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from importlib import import_module
from typing import TYPE_CHECKING

import click

from filmrack.cli.call import Call, machine_now, no_desk

if TYPE_CHECKING:
    from datetime import datetime
    from pathlib import Path

COMMANDS = {
    "new": "founding:new",
    "demo": "demo:demo",
    "room": "room:room",
    "roster": "roster:roster",
    "load": "hanging:load",
    "hang": "hanging:hang",
    "move": "hanging:move",
    "reclip": "clips:reclip",
    "fan": "drying:fan",
    "flip": "drying:flip",
    "touch": "drying:touch",
    "take": "fetching:take",
    "box": "fetching:box",
    "find": "looking:find",
    "show": "looking:show",
    "due": "looking:due",
    "sweep": "sweeping:sweep",
    "sleeve": "archiving:sleeve",
    "contact": "archiving:contact",
    "picks": "archiving:picks",
    "unpick": "archiving:unpick",
    "file": "archiving:file_",
    "shelve": "shelving:shelve",
    "lend": "lending:lend",
    "back": "lending:back",
    "end": "lending:end",
    "hand-back": "lending:hand_back",
    "missing": "lending:missing",
    "found": "lending:found",
    "discard": "lending:discard",
    "claim": "owning:claim",
    "swap": "owning:swap",
    "note": "owning:note",
    "undo": "undoing:undo",
    "clip": "clips:clip",
    "person": "people:person",
    "term": "terms:term",
    "labels": "labels:labels",
    "check": "keeping:check",
    "backup": "keeping:backup",
    "restore": "keeping:restore",
    "export": "exporting:export",
    "import": "exporting:import_",
}
"""Each command: the module in this package, and the name in it."""


class Commands(click.Group):
    """A group that imports a command's module when that command is called, and no other."""

    def list_commands(self, _ctx: click.Context) -> list[str]:
        """Return the names in the order of a roll's life."""
        return list(COMMANDS)

    def get_command(self, _ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Return a command by its name."""
        where = COMMANDS.get(cmd_name)
        if where is None:
            return None
        module, name = where.split(":")
        command: click.Command = getattr(import_module(f"filmrack.cli.{module}"), name)
        return command


@click.group(cls=Commands, invoke_without_command=True)
@click.option(
    "--db",
    type=click.Path(),
    envvar="FILMRACK_DB",
    help="The darkroom file; else the one in your data folder.",
)
@click.option(
    "--at",
    "at_text",
    metavar="TIME",
    help="When it happened (a late entry), or as of when to read: 2026-11-17T10:31, or 10:31.",
)
@click.version_option(package_name="filmrack", message="filmrack %(version)s")
@click.pass_context
def filmrack(ctx: click.Context, db: str | None, at_text: str | None) -> None:
    """Follow each roll of a school darkroom from the dryer to the archive of its term.

    Without a command the desk opens.
    """
    call = ctx.obj = ctx.obj._replace(db=db, at_text=at_text)
    if ctx.invoked_subcommand is None:
        call.open_desk(call.path)


def run(
    arguments: list[str] | None = None,
    open_desk: Callable[[Path], None] = no_desk,
    machine: Callable[[], datetime] = machine_now,
) -> int:
    """Run one command line and return its exit code.

    `open_desk` opens the desk on a file, `machine` tells the machine's time.

    0 done, 1 refused by a rule, 2 wrong usage, 3 the file itself. Errors are one sentence on
    standard error.
    """
    from filmrack.domain.refusal import FileTrouble, Refused

    try:
        call = Call(open_desk=open_desk, machine=machine)
        code = filmrack.main(arguments, prog_name="filmrack", standalone_mode=False, obj=call)
    except click.exceptions.NoArgsIsHelpError as error:
        click.echo(error.format_message())
        return 2
    except click.UsageError as error:
        hint = f" ({error.ctx.command_path} --help)" if error.ctx else ""
        return _complain(f"{error.format_message()}{hint}", 2)
    except click.ClickException as error:
        return _complain(error.format_message(), 2)
    except (click.Abort, KeyboardInterrupt):
        return _complain("stopped: nothing further was done", 1)
    except (Refused, FileTrouble) as error:
        return complain_of(error, machine)
    except BrokenPipeError:
        # Whoever read us has enough, as in `filmrack due | head`.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    return code if isinstance(code, int) else 0


def complain_of(error: Exception, machine: Callable[[], datetime] = machine_now) -> int:
    """Say why not, in one sentence on standard error; return the exit code."""
    from filmrack.domain.refusal import FileTrouble

    if not isinstance(error, FileTrouble):
        return _complain(str(error), 1)
    from filmrack.store.keeping import with_the_way_back

    return _complain(with_the_way_back(error, machine()), 3)


def _complain(sentence: str, code: int) -> int:
    from filmrack.domain.names import harmless

    click.echo(f"filmrack: {harmless(sentence)}", err=True)  # one line, whatever was typed
    return code
