"""Whether a rod will hold what its class usually hangs."""

from filmrack.domain.forecast import usually_hung, will_be_short


def test_a_class_usually_hangs_the_upper_median_of_its_last_ten_days() -> None:
    assert usually_hung([40, 40, 5, 6, 7, 8, 5, 6, 7, 8, 5, 6]) == 6
    assert usually_hung([5, 6]) == 6


def test_a_class_that_never_met_hangs_nothing() -> None:
    assert usually_hung([]) == 0


def test_a_rod_with_room_for_the_usual_day_is_not_short() -> None:
    assert will_be_short([8, 8, 8], hung_today=0, free=8) == 0


def test_a_rod_is_short_by_what_still_comes_and_finds_no_place() -> None:
    assert will_be_short([8, 8, 8], hung_today=2, free=4) == 2


def test_more_rolls_than_usual_do_not_count_as_coming() -> None:
    assert will_be_short([8, 8, 8], hung_today=9, free=0) == 0
