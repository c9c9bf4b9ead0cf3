from __future__ import annotations

from filmrack.acts.hanging import hang
from tests.cli.conftest import Shell
from tests.conftest import MARA


def test_everything_is_exported_and_taken_into_a_new_file(shell: Shell):
    hang(shell.school.file, shell.school.hand(), person=MARA, clip=17)
    told = shell.json("export", "out")
    assert (told["rolls"], "out/ledger.csv" in told["files"]) == (1, True)
    told = shell.json("--db", "second.db", "import", "out")
    assert (told["db"], told["rolls"]) == ("second.db", 1)
    assert shell.json("--db", "second.db", "check") == {"ok": True, "problems": [], "notes": []}
    assert shell.json("--db", "second.db", "show", "clip", "17")["who"] == "Mara Okafor"


def test_nothing_is_written_over(shell: Shell):
    shell.type("export", "out")
    shell.type("export", "out")
    assert shell.code == 1
    shell.type("import", "out")
    assert shell.code == 1
    assert "exists already" in shell.err
    shell.type("--db", "third.db", "import", ".")
    assert shell.code == 1
    assert "about.json" in shell.err
    shell.type("export", "no/where")
    assert shell.code == 3
