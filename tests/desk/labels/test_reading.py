"""How labels fall on the sheets of a stock."""

from __future__ import annotations

from filmrack.desk.labels.reading import Sheets


def test_labels_before_the_first_are_used_and_those_behind_the_last_are_free() -> None:
    sheets = Sheets(3, 10, 8, 2)
    places = [sheets.place(number) for number in (7, 8, 9, 10)]
    assert places == ["used", "now", "now", "free"]
    assert Sheets(3, 10, 8, 24).sheets == 2
