"""Which lines are the sweep's, and what each is."""

from __future__ import annotations

import pytest

from filmrack.desk.sweep.lines_typed import meant
from filmrack.domain.codes import box_code, clip_code


@pytest.mark.parametrize(
    "text",
    [
        "mara",
        "17 mar",
        "17 dry",
        "17 tacky",
        "P023188",
        "fan off",
        "",
        "mara missing",
        "rod 3 missing",
        "missing mara",
        "missing rod 3",
        "17 clip 18",
    ],
)
def test_names_and_other_sentences_are_not_the_sweeps(text: str):
    assert meant(text) is None


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("6", "number"),
        ("count 6", "count"),
        ("clip 17", "clip"),
        (clip_code(17, "A"), "clip"),
        ("rod 3", "rod"),
        (box_code(3), "box"),
        ("26F-0142-09", "roll"),
        ("61 box 4", "roll"),
        ("66 51", "clips"),
        ("clips 66, 51 and 48", "clips"),
        ("Undo", "undo"),
        ("Sweep  Again", "sweep again"),
        ("missing", "missing"),
        ("17 missing", "missing"),
        ("Missing 17", "missing"),
        ("missing clip 17", "missing"),
    ],
)
def test_counts_clips_and_places_are_the_sweeps(text: str, kind: str):
    line = meant(text)
    assert line is not None
    assert line.kind == kind
