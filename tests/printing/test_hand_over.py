"""Handing a PDF to a viewer or a printer; no program of the machine's own is started here."""

import os
import sys
from collections.abc import Sequence
from pathlib import Path

import pytest

from filmrack.domain.refusal import Refused
from filmrack.printing import send, view
from filmrack.printing.hand_over import Ran, begin, media, run

PDF = Path("out") / "labels.pdf"
LETTER = (215.9, 279.4)


class Machine:
    """A machine that has some programs and writes down what it was told to run."""

    def __init__(self, *programs: str, status: int = 0, said: str = "") -> None:
        self.programs = programs
        self.ending = Ran(status, said)
        self.ran: list[list[str]] = []

    def which(self, program: str) -> str | None:
        return f"/bin/{program}" if program in self.programs else None

    def run(self, command: Sequence[str]) -> Ran:
        self.ran.append(list(command))
        return self.ending


def test_labels_are_printed_at_their_actual_size_on_their_own_paper() -> None:
    machine = Machine("lp")
    send(PDF, LETTER, "office", run=machine.run, which=machine.which)
    options = ["-o", "media=na_letter_8.5x11in", "-o", "print-scaling=none"]
    assert machine.ran == [["/bin/lp", "-d", "office", *options, "--", str(PDF)]]


@pytest.mark.parametrize(
    ("paper_mm", "name"),
    # Source: PWG 5101.1, media standardized names; other sizes are named by themselves.
    [
        (LETTER, "na_letter_8.5x11in"),
        ((8.5 * 25.4, 11 * 25.4), "na_letter_8.5x11in"),
        ((210.0, 297.0), "iso_a4_210x297mm"),
        ((2 * 25.4, 25.4), "custom_sheet_50.8x25.4mm"),
        ((100.0, 150.0), "custom_sheet_100x150mm"),
    ],
)
def test_a_paper_is_named_as_printers_name_it(paper_mm: tuple[float, float], name: str) -> None:
    assert media(paper_mm) == name


@pytest.mark.parametrize("machine", [Machine(), Machine("lp", status=1)])
def test_a_machine_that_cannot_print_says_what_to_do(machine: Machine) -> None:
    with pytest.raises(Refused, match="actual size"):
        send(PDF, LETTER, run=machine.run, which=machine.which)


def test_what_the_printing_command_complains_of_is_passed_on() -> None:
    machine = Machine("lp", status=1, said="/bin/lp: Error - No default destination.")
    with pytest.raises(Refused, match=r"labels\.pdf \(Error - No default destination\): look"):
        send(PDF, LETTER, run=machine.run, which=machine.which)


@pytest.mark.parametrize(
    ("platform", "program"), [("linux", "xdg-open"), ("darwin", "open"), ("win32", "explorer")]
)
def test_the_systems_viewer_is_opened(platform: str, program: str) -> None:
    machine = Machine(program, status=int(platform == "win32"))
    view(PDF, platform=platform, run=machine.run, which=machine.which)
    assert machine.ran == [[f"/bin/{program}", str(PDF)]]


@pytest.mark.parametrize("machine", [Machine(), Machine("xdg-open", status=3)])
def test_a_machine_without_a_viewer_says_so(machine: Machine) -> None:
    with pytest.raises(Refused, match="open the file yourself"):
        view(PDF, platform="linux", run=machine.run, which=machine.which)


def test_a_command_tells_how_it_ended_and_what_it_complained_of() -> None:
    script = "import sys; print('printed'); sys.exit('no such queue')"
    assert run([sys.executable, "-c", script]) == Ran(1, "no such queue")


def test_a_viewer_that_stays_open_is_not_waited_for(tmp_path: Path) -> None:
    window = tmp_path / "window"
    os.mkfifo(window)
    assert begin(["/bin/cat", str(window)], patience_s=0.0) == Ran(0)
    window.write_bytes(b"")  # its window is closed


def test_a_viewer_that_cannot_open_a_file_is_noticed() -> None:
    assert begin([sys.executable, "-c", "raise SystemExit(3)"], patience_s=30.0) == Ran(3)
