from __future__ import annotations

import pytest

from filmrack.domain.clip import Clip, Lost, clip_number, lost_named
from filmrack.domain.refusal import Refused


@pytest.mark.parametrize("text", ["17", "clip 17", "Clip17", "17 A", "017b"])
def test_both_clips_of_a_pair_have_one_number(text: str):
    assert clip_number(text) == 17


@pytest.mark.parametrize("text", ["", "0", "1000", "-1", "17C", "rod 3", "١٧"])
def test_what_is_no_clip_is_refused(text: str):
    with pytest.raises(Refused, match="1 to 999"):
        clip_number(text)


def test_a_pair_without_one_hook_hangs_from_the_other_and_is_not_flipped():
    clip = Clip(17, (Lost("hook", "B"),))
    assert not clip.can_be_flipped
    assert clip.says == "B has no hook: bottom only, the strip cannot be flipped"


def test_a_pair_without_hooks_cannot_hang():
    assert "cannot hang" in Clip(17, (Lost("hook", "A"), Lost("hook", "B"))).says


def test_a_lost_tag_is_printed_anew():
    clip = Clip(17, (Lost("tag", "A"),), retired=True)
    assert clip.can_be_flipped
    assert clip.says == "retired; A has no tag: print one"


def test_what_was_lost_is_said_in_two_words():
    assert lost_named("Hook  a") == Lost("hook", "A")
    with pytest.raises(Refused, match="hook or tag"):
        lost_named("spring A")
