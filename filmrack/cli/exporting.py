"""Everything as tables for other programs, and back into a new file."""

from __future__ import annotations

from pathlib import Path

import click

from filmrack.cli.call import Call, json_option
from filmrack.cli.output import print_json, say
from filmrack.domain.counted import counted

_FOLDER = click.Path(path_type=Path)


@click.command()
@click.argument("folder", type=_FOLDER, metavar="DIR")
@json_option
@click.pass_obj
def export(call: Call, *, folder: Path, as_json: bool) -> None:
    """Write everything to a new folder, as CSV and JSON. It says what each column means."""
    from filmrack.acts import exporting
    from filmrack.store.file import open_file

    with open_file(call.path, write=False) as file:
        done = exporting.export(file, folder)
    if as_json:
        print_json({"files": [str(folder / name) for name in done.files], "rolls": done.rolls})
    else:
        say(f"{folder}: {len(done.files)} files with {counted(done.rolls, 'roll')}")
        say("they hold names: keep them as you keep the darkroom file")


@click.command("import")
@click.argument("folder", type=_FOLDER, metavar="DIR")
@json_option
@click.pass_obj
def import_(call: Call, *, folder: Path, as_json: bool) -> None:
    """Make a new darkroom file from an exported folder. Name it with --db."""
    from filmrack.acts import exporting

    if call.db is None:
        call.path.parent.mkdir(parents=True, exist_ok=True)
    done = exporting.take_in(call.path, folder, call.machine())
    if as_json:
        print_json(
            {
                "db": str(call.path),
                "files": [str(folder / name) for name in done.files],
                "rolls": done.rolls,
            }
        )
    else:
        say(f"{call.path} is made from {folder}: {counted(done.rolls, 'roll')}")
