"""Examples and questions that want a free clip name free ones of this room."""

from __future__ import annotations

import pytest

from filmrack.acts import clips
from filmrack.domain.codes import person_code
from filmrack.domain.refusal import Refused
from tests.conftest import MARA, OLU
from tests.desk.bench import Bench, hung, loaded


def tagged(bench: Bench, *numbers: int) -> None:
    clips.add(bench.session.file, bench.session.hand(), numbers)


@pytest.mark.parametrize(
    ("line", "example"),
    [
        ("load", "as “load juniper 9”"),
        ("move", "or another clip, as “17 clip 9”"),
        ("reclip", "as “17 clip 9”"),
        ("wrong clip", "as “17 clip 9”"),
        ("17 is", "as “17 clip 9”"),
        ("30 clip 17", "as “17 clip 9”"),
    ],
)
def test_an_example_names_the_lowest_free_clip(bench: Bench, line: str, example: str) -> None:
    tagged(bench, 8, 9, 12, 30)
    hung(bench, MARA, 17)
    hung(bench, OLU, 8)
    with pytest.raises(Refused, match=example):
        bench.say(line)


def test_where_no_known_clip_is_free_an_example_names_one_that_nobody_has_used(
    bench: Bench,
) -> None:
    hung(bench, MARA, 1)
    hung(bench, OLU, 2)
    with pytest.raises(Refused, match="as “load juniper 3”"):
        bench.say("load")


def test_whose_roll_is_loaded_is_answered_with_the_free_clips(bench: Bench) -> None:
    tagged(bench, 8, 9, 12, 30)
    loaded(bench, OLU, 8)
    assert bench.say(person_code(MARA)).words == "scan or type its clip. Free: 9, 12, 30"
    with pytest.raises(Refused, match=r"Mara O\. has no clip yet: scan or type one, as 9"):
        bench.enter()


def test_an_unknown_roll_is_asked_for_one_of_the_free_clips(bench: Bench) -> None:
    tagged(bench, 9, 12)
    words = "scan or type a free clip, then its rod. Free: 9, 12"
    assert bench.sentences.unknown().words == words
