"""Handing a PDF to a viewer or a printer; no program is started here."""

from collections.abc import Sequence
from pathlib import Path

import pytest

from filmrack.domain.refusal import Refused
from filmrack.printing import send, view

PDF = Path("out") / "labels.pdf"


class Machine:
    """A machine that has some programs and writes down what it was told to run."""

    def __init__(self, *programs: str, status: int = 0) -> None:
        self.programs = programs
        self.status = status
        self.ran: list[list[str]] = []

    def which(self, program: str) -> str | None:
        return f"/bin/{program}" if program in self.programs else None

    def run(self, command: Sequence[str]) -> int:
        self.ran.append(list(command))
        return self.status


def test_labels_are_printed_at_their_actual_size() -> None:
    machine = Machine("lp")
    send(PDF, "office", run=machine.run, which=machine.which)
    options = ["-d", "office", "-o", "print-scaling=none", "--", str(PDF)]
    assert machine.ran == [["/bin/lp", *options]]


@pytest.mark.parametrize("machine", [Machine(), Machine("lp", status=1)])
def test_a_machine_that_cannot_print_says_what_to_do(machine: Machine) -> None:
    with pytest.raises(Refused, match="actual size"):
        send(PDF, run=machine.run, which=machine.which)


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
