"""The paths of a roll in a real terminal: what a scanner sends is what the desk gets."""

from __future__ import annotations

import shlex
import shutil
import subprocess
from pathlib import Path

import pytest

from filmrack.acts import hanging
from filmrack.acts.group import Hand
from filmrack.domain.codes import clip_code, person_code
from filmrack.store import rolls
from filmrack.store.file import open_file
from tests.conftest import MARA, OLU, TUESDAY_9_00, School
from tests.terminal.screen import Terminal, desk_command, running

MOMENT = TUESDAY_9_00.isoformat()
ENDINGS = {"Enter": "\r", "Tab": "\t", "LF": "\n", "CR LF": "\r\n", "nothing": ""}


def acts(path: Path) -> list[str]:
    with open_file(path, write=False) as file:
        sql = "SELECT act FROM ledger WHERE roll IS NOT NULL ORDER BY id"
        return [row[0] for row in file.conn.execute(sql).fetchall()]


def load_and_hang(terminal: Terminal, path: Path, ending: str) -> None:
    terminal.until("Nothing hangs", "a name, a number")
    terminal.press(person_code(MARA) + ending)
    terminal.until("New roll for Mara O.")
    terminal.press(clip_code(17, "A") + ending)
    terminal.until("17 → Mara O.", "Loaded")
    terminal.press(clip_code(18, "A") + ending)
    terminal.until("18 → Mara O.", "Loaded")
    assert acts(path) == ["load", "load"]


@pytest.mark.parametrize("ending", list(ENDINGS))
def test_scanners_of_every_kind_load_two_rolls_and_nothing_more(db: Path, ending: str) -> None:
    with running(desk_command(db, MOMENT)) as terminal:
        load_and_hang(terminal, db, ENDINGS[ending])


def test_a_loaded_roll_hangs_by_one_scan(db: Path, school: School) -> None:
    hanging.load(school.file, school.hand(9), MARA, [17])
    with running(desk_command(db, MOMENT)) as terminal:
        terminal.until("Nothing hangs")
        terminal.press(clip_code(17, "B") + "\r\n")
        terminal.until("17 → Mara O.", "Hung on rod 1", "┬17")
        assert acts(db) == ["load", "hang"]


def test_three_letters_find_a_roll(db: Path, school: School) -> None:
    hanging.hang(school.file, school.hand(6), person=MARA, clip=17)
    with running(desk_command(db, MOMENT)) as terminal:
        terminal.until("┬17")
        terminal.press("mar")
        terminal.until("▸ Mara O.", "clip 17", "rod 1")


def test_caps_lock_changes_nothing(db: Path) -> None:
    with running(desk_command(db, MOMENT)) as terminal:
        terminal.until("Nothing hangs")
        terminal.press("17 MAR\r")
        terminal.until("17 → Mara O.")


def test_a_bracketed_paste_stands_in_the_line_until_enter(db: Path) -> None:
    with running(desk_command(db, MOMENT)) as terminal:
        terminal.until("Nothing hangs")
        assert b"\x1b[?2004h" in terminal.raw
        terminal.paste("17 mar\n")
        terminal.until("› 17 mar")
        assert acts(db) == []
        terminal.press("\r")
        terminal.until("17 → Mara O.")


@pytest.mark.parametrize("mouse", ["mouse", "no mouse"])
def test_the_mouse_is_asked_for_only_when_wanted(db: Path, mouse: str) -> None:
    """Mode 1000 is xterm's button reports."""
    with running(desk_command(db, MOMENT, mouse)) as terminal:
        terminal.until("Nothing hangs")
        assert (b"\x1b[?1000h" in terminal.raw) is (mouse == "mouse")
        terminal.press("\t")
        terminal.press("17 mar\r")
        terminal.until("17 → Mara O.")


@pytest.mark.parametrize(
    "kind", ["xterm-256color", "xterm", "screen-256color", "tmux-256color", "linux", "vt100"]
)
def test_the_desk_opens_in_every_usual_terminal(db: Path, kind: str) -> None:
    with running(desk_command(db, MOMENT), (80, 24), TERM=kind) as terminal:
        terminal.until("Dryer", "Nothing hangs", "help")
        terminal.press("?")
        terminal.until("Type it, or scan it")


def test_colours_are_left_away_when_asked(db: Path) -> None:
    """No SGR colour but greys leaves the desk under NO_COLOR (no-color.org)."""
    with running(desk_command(db, MOMENT), NO_COLOR="1") as terminal:
        terminal.until("Nothing hangs")
        terminal.press("17 mar\r")
        terminal.until("17 → Mara O.")


def test_what_another_desk_does_shows_without_a_key(db: Path, school: School) -> None:
    with running(desk_command(db, MOMENT)) as terminal:
        terminal.until("Nothing hangs")
        hanging.hang(school.file, Hand(TUESDAY_9_00, TUESDAY_9_00, "desk 2"), person=OLU, clip=18)
        terminal.until("┬18", "Olu")


def test_two_terminals_on_one_file_follow_each_other(db: Path) -> None:
    with (
        running(desk_command(db, MOMENT)) as one,
        running(desk_command(db, MOMENT)) as other,
    ):
        one.until("Nothing hangs")
        other.until("Nothing hangs")
        one.press("17 mar\r")
        one.until("17 → Mara O.")
        other.press(clip_code(17, "A") + "\r")
        other.until("┬17")
        one.until("┬17")
        with open_file(db, write=False) as file:
            roll = rolls.on_clip(file.conn, 17)
            assert roll is not None
            assert roll.place.kind == "rod"


def test_leaving_gives_the_terminal_back(db: Path) -> None:
    """Mode 1049 is xterm's other screen; leaving it shows what was there before."""
    with running(desk_command(db, MOMENT)) as terminal:
        terminal.until("Nothing hangs")
        terminal.press("quit\r")
        terminal.until_so(lambda: b"\x1b[?1049l" in terminal.raw, "the other screen left")


@pytest.mark.skipif(shutil.which("tmux") is None, reason="tmux is not installed here")
def test_the_desk_works_inside_tmux(db: Path, tmp_path: Path) -> None:
    socket = str(tmp_path / "tmux")
    command = shlex.join(desk_command(db, MOMENT))
    tmux = ["tmux", "-f", "/dev/null", "-S", socket]
    try:
        with running([*tmux, "new-session", command], (100, 30)) as terminal:
            terminal.until("Nothing hangs")
            terminal.press(person_code(MARA) + "\r")
            terminal.until("New roll for Mara O.")
            terminal.press(clip_code(17, "A") + "\r\n")
            terminal.until("17 → Mara O.")
            terminal.press("\x1b[Z")  # Shift+Tab
            terminal.until("Board")
            assert acts(db) == ["load"]
    finally:
        subprocess.run([*tmux, "kill-server"], check=False, capture_output=True)
