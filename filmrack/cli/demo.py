"""The demo: a school that we invented, to look around in."""

from __future__ import annotations

import shutil
from pathlib import Path
from tempfile import TemporaryDirectory, mkdtemp

import click

from filmrack.cli.call import Call, json_option
from filmrack.cli.output import print_json, say


@click.command()
@click.option(
    "--copy",
    "copy_to",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="Leave a copy there for other commands, instead of opening the desk.",
)
@click.option(
    "--rebuild",
    "rebuild_at",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="Build the demo anew there; only over an earlier demo.",
)
@json_option
@click.pass_obj
def demo(call: Call, *, copy_to: Path | None, rebuild_at: Path | None, as_json: bool) -> None:
    """Open the desk on a scratch copy of the demo school. Its clock is the school's own."""
    if copy_to is not None and rebuild_at is not None:
        raise click.UsageError("name a copy or a file to rebuild, not both")
    if rebuild_at is not None:
        from filmrack.demo.building import rebuild

        rebuild(rebuild_at)
        _tell(rebuild_at, "is built anew", as_json=as_json)
    elif copy_to is not None:
        from filmrack.demo.copying import copy_demo

        copy_demo(copy_to, call.machine())
        _tell(copy_to, f"is a copy: try “filmrack --db {copy_to} due”", as_json=as_json)
    elif as_json:
        raise click.UsageError("the desk has no JSON: name a --copy or a file to --rebuild")
    else:
        _open_desk(call)


def _open_desk(call: Call) -> None:
    from filmrack.demo.copying import copy_demo

    with TemporaryDirectory(prefix="filmrack-demo-", ignore_cleanup_errors=True) as folder:
        copy = Path(folder) / "demo.db"
        copy_demo(copy, call.machine())
        say(f"this is a scratch copy, removed when you leave: {copy}")
        try:
            call.open_desk(copy)
        finally:
            _keep_prints(Path(folder))


def _keep_prints(folder: Path) -> None:
    """Move what was printed out of a folder that is removed, and say where to."""
    prints = sorted(folder.glob("*.pdf"))
    if not prints:
        return
    kept = Path(mkdtemp(prefix="filmrack-prints-"))
    for each in prints:
        shutil.move(each, kept)
    say(f"what you printed is kept in {kept}: {', '.join(each.name for each in prints)}")


def _tell(path: Path, what: str, *, as_json: bool) -> None:
    size = path.stat().st_size
    if as_json:
        print_json({"file": str(path), "bytes": size})
    else:
        say(f"{path} ({size:,} bytes) {what}")
