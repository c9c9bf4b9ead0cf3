from __future__ import annotations

from filmrack.acts.hanging import hang
from tests.cli.conftest import Shell
from tests.conftest import MARA


def test_the_terms_are_listed_with_their_rolls(shell: Shell):
    hang(shell.school.file, shell.school.hand(), person=MARA, clip=17)
    assert shell.json("term", "list") == [
        {
            "term": "26F",
            "starts": "2026-07-01",
            "ends": "2026-12-31",
            "rolls": 1,
            "running": True,
            "closed": None,
        }
    ]
    assert "26F  2026-07-01 to 2026-12-31  1 rolls  running" in shell.type("term", "list")


def test_a_term_is_opened_by_its_code_or_with_its_own_dates(shell: Shell):
    assert shell.json("term", "open", "27s") == {
        "term": "27S",
        "starts": "2027-01-01",
        "ends": "2027-06-30",
    }
    dated = ("term", "open", "27W", "--from", "2027-08-01", "--to", "2027-12-20")
    assert shell.json(*dated)["starts"] == "2027-08-01"
    assert [one["term"] for one in shell.json("term", "list")] == ["26F", "27S", "27W"]


def test_a_term_that_cannot_be_is_refused(shell: Shell):
    for words in (["26F"], ["27O"], ["27W"], ["27W", "--from", "2026-12-01", "--to", "2027-02-01"]):
        shell.type("term", "open", *words)
        assert shell.code == 1
        assert shell.err.count("\n") == 1
    shell.type("term", "open", "27W", "--from", "soon")
    assert shell.code == 2
