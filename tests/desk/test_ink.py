"""Small pieces of text: broken into rows as Rich breaks them, which is the reference here."""

import pytest
from rich.console import Console
from rich.text import Text

from filmrack.desk.ink import wrapped


@pytest.mark.parametrize(
    "text",
    [
        "",
        "dry",
        "touch it at both ends, then take it down",
        "一二三 四五六",
        "two rows\nof its own",
        "a tab\tbetween",
        " a blank before and behind ",
    ],
)
@pytest.mark.parametrize("width", [3, 9, 13, 40, 80])
def test_a_text_is_broken_into_the_rows_that_rich_would_break_it_into(text, width):
    rows = Text(text).wrap(Console(width=80), width)

    assert [row.plain.rstrip() for row in wrapped(text, width)] == [
        row.plain.rstrip() for row in rows
    ]
