"""The picture of what a dryer has taught, read as plain text: no colour is needed."""

from __future__ import annotations

import pytest

from filmrack.acts.drying import touch
from filmrack.acts.hanging import hang
from filmrack.desk.room.drying_record import drying_record
from filmrack.desk.room.words import records
from filmrack.desk.session import Session
from filmrack.desk.themes import DIM
from filmrack.domain.learning import CheckedRoll
from filmrack.domain.touch import TimedCheck
from tests.conftest import OLU, School
from tests.domain.taught import learn
from tests.domain.twelve_rolls import TWELVE_ROLLS

SIZES = [(100, 20), (60, 13), (36, 8)]


def picture(rolls: list[list[TimedCheck]], width: int, height: int) -> list[str]:
    learned = learn([CheckedRoll.of(checks) for checks in rolls])
    return [line.plain for line in drying_record(learned, rolls, width, height, DIM)]


@pytest.mark.parametrize(("width", "height"), SIZES)
@pytest.mark.parametrize("rolls", [[], TWELVE_ROLLS[:1], TWELVE_ROLLS, TWELVE_ROLLS * 5])
def test_the_picture_fills_what_it_is_given(rolls: list[list[TimedCheck]], width: int, height: int):
    lines = picture(rolls, width, height)
    assert len(lines) == height
    assert {len(line) for line in lines[1:-1]} == {width}
    assert not any("…" in line for line in lines)


@pytest.mark.parametrize(("width", "height"), SIZES)
def test_dry_and_tacky_are_shapes_on_rows_of_their_own(width: int, height: int):
    lines = picture([[TimedCheck(3, 3, False), TimedCheck(5, 5, True)]], width, height)
    (tacky,) = (line for line in lines if line.lstrip().startswith("tacky"))
    (dry,) = (line for line in lines if line.lstrip().startswith("dry"))
    assert tacky.count("▲") == 2  # one of them names the row
    assert dry.count("●") == 2
    assert tacky.rindex("▲") < dry.rindex("●")


def test_checks_in_one_place_are_counted():
    lines = picture([[TimedCheck(4, 4, True)]] * 3 + [[TimedCheck(8, 8, True)]] * 12, 60, 13)
    (dry,) = (line for line in lines if line.lstrip().startswith("dry"))
    assert [cell for cell in dry.split("│")[1] if cell != " "] == ["3", "+"]


def test_fifty_and_ninety_five_per_cent_are_told_for_film_flipped_and_not():
    # The worked example of the drying model: 7.8 and 11.5 minutes, 12.2 and 16.7 unflipped.
    lines = picture(TWELVE_ROLLS, 100, 20)
    assert any("flipped" in line and "50 % 8, 95 % 11" in line for line in lines)
    assert any("unflipped" in line and "50 % 12, 95 % 17" in line for line in lines)


def test_the_span_of_film_flipped_in_time_stands_under_its_curve():
    lines = picture(TWELVE_ROLLS, 100, 20)
    middle = next(line for line in lines if "50 % dry" in line)
    span = next(line for line in lines if line.lstrip().startswith("flipped"))
    first = next(n for n, cell in enumerate(middle[10:]) if cell != " ")
    assert abs(first - span[10:].index("├")) <= 2


@pytest.mark.parametrize(("width", "height"), SIZES)
def test_what_is_still_wanted_is_said(width: int, height: int):
    assert picture([], width, height)[-1] == "Wanted: 10 more rolls, 3 more tacky".ljust(width)
    # Two rolls of which one was tacky once.
    two = [[TimedCheck(3, 3, False), TimedCheck(5, 5, True)], [TimedCheck(5, 5, True)]]
    assert "8 more rolls, 2 more tacky" in picture(two, width, height)[-1]
    assert picture(TWELVE_ROLLS, width, height)[-1].startswith("Enough")
    assert picture([], width, height)[0].startswith("No touch check yet")


def test_room_shows_the_checks_of_its_dryer(school: School):
    hung = hang(school.file, school.hand(ago=9), person=OLU, clip=17).roll
    touch(school.file, school.hand(ago=3), hung.id, dry=False)
    touch(school.file, school.hand(), hung.id, dry=True)
    session = Session(school.file.path, lambda: school.now)
    ((_, rolls),) = records(session, session.file.room())
    session.close()
    # Six and nine minutes under the assumed fan, never flipped.
    assert rolls == [[TimedCheck(6, 0, dry=False), TimedCheck(9, 0, dry=True)]]
