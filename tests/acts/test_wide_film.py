"""Film that needs more than one position, and film that is longer than the dryer is high."""

from __future__ import annotations

import pytest

from filmrack.acts.clips import lose, retire
from filmrack.acts.hanging import hang, load, move
from filmrack.acts.refitting import refit
from filmrack.domain.clip import Lost
from filmrack.domain.refusal import Refused
from filmrack.domain.room import Rod, Room
from tests.conftest import IVO, MARA, OLU, School

WIDE = "120-6x6"
"""61.5 mm (ISO 732, from memory): two positions of 50 mm."""


@pytest.fixture
def wide(school: School) -> School:
    """The second period has a rod of six positions, and only the first has another, of two."""
    room = school.file.room()
    rods = (Rod(1, 1, 2, 1), Rod(2, 1, 6, 2))
    refit(school.file, school.hand(), room._replace(rods=rods))
    return school


def hung_at(school: School, clip: int, film: str | None = None, **where: int) -> int | None:
    return hang(
        school.file, school.hand(), person=OLU, clip=clip, film=film, **where
    ).roll.place.position


def test_the_neighbour_of_a_wide_strip_is_not_given(wide: School):
    assert [hung_at(wide, 1, WIDE), hung_at(wide, 2), hung_at(wide, 3, WIDE)] == [1, 3, 4]
    assert [hung_at(wide, 4)] == [6]


def test_a_wide_strip_goes_where_it_has_room(wide: School):
    hung_at(wide, 1, position=2)
    assert hung_at(wide, 2, WIDE) == 3
    assert hung_at(wide, 3) == 1


def test_a_wide_strip_goes_to_another_rod_before_it_is_squeezed_in(wide: School):
    for clip, position in enumerate((2, 4, 6), 1):
        hung_at(wide, clip, position=position)
    sent = hang(wide.file, wide.hand(), person=OLU, clip=4, film=WIDE)
    assert (str(sent.roll.place), sent.roll.sent) == ("rod 1, position 1", True)
    squeezed = hang(wide.file, wide.hand(), person=IVO, clip=5, film=WIDE)
    assert str(squeezed.roll.place) == "rod 2, position 1"
    assert [words for words in squeezed.warnings if "it may touch" in words]


def test_a_rod_that_is_spaced_wider_has_room_for_every_strip(wide: School):
    room = wide.file.room()
    refit(
        wide.file,
        wide.hand(),
        room._replace(rods=(room.rods[0], room.rods[1]._replace(spacing_mm=70))),
    )
    assert [hung_at(wide, clip, WIDE) for clip in (1, 2, 3)] == [1, 2, 3]


def test_sheets_of_a_set_hang_side_by_side(wide: School):
    # Four sheets of 101.6 mm (4 in of 25.4 mm) are 406.4 mm: more than six positions of 50 mm.
    assert hung_at(wide, 1, "sheet-4x5-2") == 1
    assert hung_at(wide, 2) == 6


def test_the_hand_that_hangs_beside_a_wide_strip_is_believed_and_told(wide: School):
    hung_at(wide, 1, WIDE)
    near = hang(wide.file, wide.hand(), person=IVO, clip=2, rod=2, position=2)
    assert (str(near.roll.place), near.displaced) == ("rod 2, position 2", ())
    (words,) = near.warnings
    assert "it may touch 26F-0001-" in words
    assert move(wide.file, wide.hand(), near.roll.id, 2, 4).warnings == ()


def test_film_told_late_is_not_given_the_neighbour_of_what_hung_then(wide: School):
    hang(wide.file, wide.hand(30), person=OLU, clip=1, film=WIDE)
    late = hang(wide.file, wide.hand(20), person=OLU, clip=2)
    assert late.roll.place.position == 3


def with_height(room: Room, millimetres: int) -> Room:
    return room._replace(dryers=(room.dryers[0]._replace(clear_height_mm=millimetres),))


@pytest.mark.parametrize(
    ("height", "film", "told"),
    [
        # 36 frames of 38 mm (ISO 1007, summary) with leader and tail are 1.60 to 1.65 m.
        (1900, "135-36", ()),
        (1650, "135-36", ()),
        (1200, "135-36", ("1.20 m", "loop it over the rod, or cut it between two frames")),
        (700, "135-36", ("0.70 m", "cut it between frames")),
        (1200, "135-20", ()),
        (1200, "120-6x6", ()),
        (700, "120-6x6", ("loop it over the rod",)),
        (700, "sheet-4x5", ()),
    ],
)
def test_a_strip_longer_than_the_dryer_is_high_is_looped_or_cut(
    wide: School, height: int, film: str, told: tuple[str, ...]
):
    refit(wide.file, wide.hand(), with_height(wide.file.room(), height))
    hung = hang(wide.file, wide.hand(), person=MARA, clip=17, film=film, rod=2)
    assert len(hung.warnings) == bool(told)
    assert all(words in hung.warnings[0] for words in told)


def test_a_retired_clip_hangs_film_and_is_asked_about(school: School):
    retire(school.file, school.hand(), 17)
    loaded = load(school.file, school.hand(), OLU, [17])
    assert "clip 17 is retired: type “clip restore 17” if" in loaded.warnings[0]
    hung = hang(school.file, school.hand(), person=OLU)
    assert hung.warnings == loaded.warnings


def test_a_clip_without_a_hook_or_a_tag_hangs_film_and_says_so(school: School):
    lose(school.file, school.hand(), 17, Lost("hook", "B"))
    lose(school.file, school.hand(), 17, Lost("tag", "A"))
    (words,) = hang(school.file, school.hand(), person=OLU, clip=17).warnings
    assert "B has no hook: bottom only" in words
    assert "A has no tag: print one" in words
    assert hang(school.file, school.hand(), person=OLU, clip=18).warnings == ()


def test_a_refusal_for_a_full_rod_counts_every_position(wide: School):
    for clip in range(1, 7):
        hung_at(wide, clip)
    with pytest.raises(Refused, match="rod 2 is noted as full"):
        hung_at(wide, 7, WIDE, rod=2)
