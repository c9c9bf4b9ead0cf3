"""The manual page: all that can be called stands in it, and roff takes it without complaint."""

from __future__ import annotations

import re
import shutil
import subprocess

import click
import pytest

from filmrack.cli.app import COMMANDS, filmrack
from filmrack.cli.manual import commands, manual

EVERY = [(filmrack, click.Context(filmrack, info_name="filmrack")), *commands()]


@pytest.mark.parametrize(("command", "context"), EVERY, ids=[c.command_path for _, c in EVERY])
def test_a_command_says_what_it_does_and_so_does_each_of_its_options(
    command: click.Command, context: click.Context
) -> None:
    assert command.help
    page = manual().replace("\\-", "-").replace("\\(dq", '"').replace("\\e", "\\")
    assert context.command_path in page
    assert " ".join(command.help.split("\n\n")[0].split()).rstrip(".")[1:] in page
    for option in command.params:
        if isinstance(option, click.Option):
            assert option.help, f"{option.opts[0]} of “{context.command_path}” says nothing"
            assert option.opts[0] in page


def test_nothing_stands_in_it_without_a_word_and_help_is_named_once() -> None:
    assert "\n\n" not in manual()
    assert manual().count(".B \\-\\-help\n") == 1


def test_no_command_is_left_out() -> None:
    paths = {context.command_path for _, context in EVERY}
    assert {f"filmrack {name}" for name in COMMANDS} <= paths
    assert "filmrack term close" in paths  # a command of a command


@pytest.mark.skipif(shutil.which("groff") is None, reason="this machine has no groff")
def test_roff_takes_the_page_without_a_warning() -> None:
    # groff is the reference: with -ww it warns of whatever its man macros (man(7)) do not take.
    done = subprocess.run(
        ["groff", "-man", "-Tutf8", "-Kutf8", "-ww"],
        input=manual().encode(),
        capture_output=True,
        check=True,
    )
    assert done.stderr.decode() == ""
    printed = re.sub(".\b", "", done.stdout.decode())  # bold is a letter struck twice
    assert "EXIT STATUS" in printed


@pytest.mark.parametrize(("command", "context"), EVERY, ids=[c.command_path for _, c in EVERY])
def test_a_list_of_commands_says_whole_what_each_does_in_eighty_columns(
    command: click.Command, context: click.Context
) -> None:
    listed = click.formatting.HelpFormatter(width=78)
    command.format_help(context, listed)
    below = listed.getvalue().partition("Commands:")[2]
    assert "..." not in below
