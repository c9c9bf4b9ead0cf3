"""The manual page, made from the commands' own help.

Run: python -m filmrack.cli.manual > filmrack.1
"""

from __future__ import annotations

from collections.abc import Iterator
from importlib.metadata import version

import click

from filmrack.cli.app import filmrack

_EXITS = (
    ("0", "done"),
    ("1", "refused by a rule, or nothing was found, or a check found problems"),
    ("2", "wrong usage"),
    ("3", "the file itself: missing, not ours, damaged, newer, not writable"),
)


def manual() -> str:
    """Return the page in the man macros of roff."""
    return "\n".join(_lines()) + "\n"


def commands(
    group: click.Group = filmrack, above: click.Context | None = None
) -> Iterator[tuple[click.Command, click.Context]]:
    """Yield each command with the context that names it, groups before their own commands."""
    here = above or click.Context(group, info_name="filmrack")
    for name in group.list_commands(here):
        command = group.get_command(here, name)
        assert command is not None
        within = click.Context(command, info_name=name, parent=here)
        yield command, within
        if isinstance(command, click.Group):
            yield from commands(command, within)


def _lines() -> Iterator[str]:
    top = click.Context(filmrack, info_name="filmrack")
    summary, *about = _paragraphs(filmrack)
    yield f'.TH FILMRACK 1 "" "filmrack {version("filmrack")}" "Filmrack"'
    yield from (".SH NAME", f"filmrack \\- {_text(summary[:1].lower() + summary[1:].rstrip('.'))}")
    yield from (".SH SYNOPSIS", f".B {_text(_usage(filmrack, top))}")
    yield ".SH DESCRIPTION"
    for paragraph in about:
        yield from (".PP", _text(paragraph))
    yield ".SH OPTIONS"
    yield from _options(filmrack, top)
    yield ".SH COMMANDS"
    for command, context in commands():
        yield f'.SS "{_text(_usage(command, context))}"'
        for paragraph in _paragraphs(command):
            yield from (".PP", _text(paragraph))
        yield from _options(command, context)
    yield ".SH EXIT STATUS"
    for code, means in _EXITS:
        yield from (".TP", f".B {code}", _text(means))


def _usage(command: click.Command, context: click.Context) -> str:
    return " ".join([context.command_path, *command.collect_usage_pieces(context)])


def _paragraphs(command: click.Command) -> list[str]:
    """Return what a command's docstring says, each paragraph in one line."""
    said = (command.help or "").split("\n\n")
    return [" ".join(paragraph.split()) for paragraph in said if paragraph.strip()]


def _options(command: click.Command, context: click.Context) -> Iterator[str]:
    for parameter in command.get_params(context):
        if not isinstance(parameter, click.Option):  # the usage names all others
            continue
        record = parameter.get_help_record(context)
        # That each command has a --help is said once.
        if record is not None and ("--help" not in parameter.opts or context.parent is None):
            yield from (".TP", f".B {_text(record[0])}", _text(record[1]))


def _text(words: str) -> str:
    """Return words as roff takes them: nothing in them is a request or an escape."""
    plain = words.replace("\\", "\\e").replace("-", "\\-").replace('"', "\\(dq")
    return f"\\&{plain}" if plain.startswith((".", "'")) else plain


if __name__ == "__main__":
    click.echo(manual(), nl=False)
