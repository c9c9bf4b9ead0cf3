"""SQL is spoken in the store and nowhere else, so that a change of the file stays there."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

import filmrack

HOUSE = Path(filmrack.__file__).parent
OUTSIDE = sorted(
    path for path in HOUSE.rglob("*.py") if path.relative_to(HOUSE).parts[0] != "store"
)
_SPEAKS = {"execute", "executemany", "executescript"}
_OPENS = {"sqlite3.connect", "rolls.read", "roll_rows.read"}


def sql_in(source: str) -> list[int]:
    """Return the lines on which a database is asked, or opened."""
    calls = [node for node in ast.walk(ast.parse(source)) if isinstance(node, ast.Call)]
    return [
        call.lineno
        for call in calls
        if isinstance(call.func, ast.Attribute)
        and (call.func.attr in _SPEAKS or ast.unparse(call.func) in _OPENS)
    ]


@pytest.mark.parametrize("path", OUTSIDE, ids=lambda path: str(path.relative_to(HOUSE)))
def test_nobody_outside_the_store_speaks_sql(path: Path) -> None:
    assert sql_in(path.read_text(encoding="utf-8")) == []


def test_sql_would_be_found() -> None:
    speaking = sorted(path.name for path in (HOUSE / "store").glob("*.py"))
    found = [name for name in speaking if sql_in((HOUSE / "store" / name).read_text("utf-8"))]
    assert {"ledger.py", "roll_rows.py", "file.py"} <= {*found}
    assert sql_in("x = 1\nconn.execute('SELECT 1')\nrolls.read(conn, 'id = 1')") == [2, 3]
