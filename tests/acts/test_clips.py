from __future__ import annotations

from datetime import timedelta

import pytest

from filmrack.acts.clips import lose, restore, retire
from filmrack.acts.group import Hand
from filmrack.domain.clip import Clip, Lost
from filmrack.domain.refusal import Refused
from filmrack.store.clips import all_clips, read_clip
from filmrack.store.file import DarkroomFile
from tests.conftest import TUESDAY_9_00 as NOW

HAND = Hand(NOW, NOW)


def test_a_pair_that_is_retired_and_restored_is_as_new(file: DarkroomFile):
    assert retire(file, HAND, 17) == Clip(17, retired=True)
    assert lose(file, HAND, 17, Lost("tag", "B")) == Clip(17, (Lost("tag", "B"),), retired=True)
    assert restore(file, HAND, 17) == Clip(17)
    assert all_clips(file.conn) == [Clip(17)]


def test_a_pair_can_lose_more_than_one_thing_and_each_once(file: DarkroomFile):
    for part in (Lost("tag", "A"), Lost("hook", "B"), Lost("tag", "A")):
        lose(file, HAND, 4, part)
    assert read_clip(file.conn, 4) == Clip(4, (Lost("hook", "B"), Lost("tag", "A")))


def test_a_pair_is_retired_from_the_first_time_on(file: DarkroomFile):
    tomorrow = NOW + timedelta(days=1)
    retire(file, HAND, 4)
    retire(file, Hand(tomorrow, tomorrow), 4)
    kept = file.conn.execute("SELECT retired_at FROM clips").fetchone()[0]
    assert kept == "2026-11-17T15:00:00Z"


@pytest.mark.parametrize("number", [0, 1000])
def test_a_clip_that_cannot_be_is_refused(file: DarkroomFile, number: int):
    with pytest.raises(Refused, match="1 to 999"):
        retire(file, HAND, number)
    assert all_clips(file.conn) == []
