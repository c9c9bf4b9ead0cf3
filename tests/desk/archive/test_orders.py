"""Lines that say what is to be done to a roll or a term, on the archive or on every screen."""

from __future__ import annotations

import pytest

from filmrack.desk.archive.orders import for_the_archive, read_order


@pytest.mark.parametrize("line", ["hand back", "back mara", "back", "lena", "missing", "file 3"])
def test_what_names_no_roll_is_left_to_the_screen(line: str) -> None:
    order = read_order(line)
    assert order is None or not for_the_archive(order)


@pytest.mark.parametrize(
    "line",
    ["lend 26F-0142-09 mara", "26F-0142 file 3", "back R26F014209", "missing 26f-0142", "report"],
)
def test_what_names_its_roll_or_a_term_is_the_archives_on_every_screen(line: str) -> None:
    order = read_order(line)
    assert order is not None
    assert for_the_archive(order)


def test_options_are_read_as_on_the_command_line() -> None:
    order = read_order("file 26F-0142-09 --binder 3")
    assert order is not None
    assert (order.verb, order.roll, order.rest) == ("file", "26F-0142", "3")
