"""Each number of the room file's rules, changed by the room file, changes what commands say."""

from __future__ import annotations

import re
from datetime import UTC, datetime, timedelta

import pytest

from tests.cli.conftest import Shell
from tests.conftest import TUESDAY_9_00

DAY = timedelta(days=1)


def change(shell: Shell, key: str, value: object) -> None:
    text, changes = re.subn(
        rf"\b{key} = [^\s,}}]+", f"{key} = {value}", shell.type("room", "export")
    )
    assert changes == 1
    (shell.folder / "room.toml").write_text(text, encoding="utf-8")
    shell.type("room", "apply", "room.toml")
    assert shell.code == 0


def why(shell: Shell) -> list[str]:
    return [reason for each in shell.json("due") for reason in (each["why"], *each["also"])]


def test_a_longer_lag_makes_the_bell_tight(shell: Shell):
    # The bell rings 46 minutes later; without checks "dry" is said after 40 fan minutes (prior).
    assert shell.json("hang", "olu", "--clip", "17")["before_bell"] == "yes"
    change(shell, "drying_lag_minutes", 7)
    assert shell.json("hang", "olu", "--clip", "18")["before_bell"] == "tight"


def test_the_longer_developing_takes_the_earlier_it_must_start_to_leave_dry(shell: Shell):
    starts = []
    for clip, minutes in enumerate((28, 30), 1):
        change(shell, "process_minutes", minutes)
        loaded = shell.json("load", "olu", "--clip", str(clip))
        starts.append(datetime.fromisoformat(loaded["start_by"]))
    assert starts[0] - starts[1] == timedelta(minutes=2)
    assert "start developing by 09:04 to leave dry" in shell.type("load", "olu", "--clip", "3")
    change(shell, "process_minutes", 40)
    assert "hardly be dry before the bell at 09:46" in shell.type("load", "olu", "--clip", "4")


def test_the_dial_is_turned_to_as_many_hours_as_the_room_says(shell: Shell):
    assert "turn the dial to 1 h" in shell.type("hang", "olu", "--clip", "17")
    change(shell, "dial_hours", 2.5)
    shell.stands_at(TUESDAY_9_00 + timedelta(hours=4))
    assert "turn the dial to 2.5 h" in shell.type("hang", "olu", "--clip", "18")
    assert "until 15:30" in shell.type("fan", "on")


def test_film_is_dry_without_the_fan_after_as_many_hours_as_the_room_says(shell: Shell):
    shell.type("hang", "olu", "--clip", "17")
    shell.type("fan", "off")
    shell.stands_at(TUESDAY_9_00 + timedelta(hours=11))
    assert shell.json("find", "clip", "17")[0]["state"] != "dry"
    change(shell, "overnight_hours", 10)
    assert shell.json("find", "clip", "17")[0]["state"] == "dry"
    change(shell, "overnight_hours", 12)
    assert shell.json("find", "clip", "17")[0]["state"] != "dry"


def test_film_is_left_behind_when_the_day_is_over_or_only_when_the_next_class_begins(shell: Shell):
    shell.type("hang", "olu", "--clip", "17")
    shell.stands_at(TUESDAY_9_00 + timedelta(hours=6))
    assert "left behind" in why(shell)
    change(shell, "left_behind", '"next_class"')
    assert "left behind" not in why(shell)
    shell.stands_at(TUESDAY_9_00 + DAY + timedelta(minutes=46))
    assert "left behind" in why(shell)


@pytest.mark.parametrize(
    ("put", "reason"), [("box", "long in its box"), ("take", "long with its owner")]
)
def test_the_room_says_after_how_many_school_days_film_is_long_in_its_box(
    shell: Shell, put: str, reason: str
):
    shell.type("hang", "olu", "--clip", "17")
    shell.type(put, "17")
    shell.stands_at(TUESDAY_9_00 + 2 * DAY)
    assert reason not in why(shell)
    change(shell, "box_school_days", 1)
    assert reason in why(shell)


def test_the_room_says_after_how_many_school_days_a_contact_sheet_is_asked_for(shell: Shell):
    shell.type("hang", "olu", "--clip", "17")
    shell.type("sleeve", "17")
    shell.stands_at(TUESDAY_9_00 + 3 * DAY)
    assert "no contact sheet yet" not in why(shell)
    change(shell, "contact_school_days", 2)
    assert "no contact sheet yet" in why(shell)


def test_the_room_says_for_how_many_school_days_a_sleeve_is_lent(shell: Shell):
    shell.type("hang", "olu", "--clip", "17")
    shell.type("sleeve", "17")
    # Ten school days from Tuesday the 17th, weekends left out: Tuesday the 1st.
    assert "due on Tue 1 Dec" in shell.type("lend", "0001", "--to", "ivo")
    shell.type("back", "0001")
    change(shell, "loan_school_days", 4)
    assert "due on Mon 23 Nov" in shell.type("lend", "0001", "--to", "ivo")


def test_the_room_says_after_how_many_years_old_names_are_wiped(shell: Shell):
    shell.stands_at(datetime(2029, 7, 2, 15, 0, tzinfo=UTC))
    change(shell, "keep_names_years", 5)
    assert shell.json("person", "wipe", "--old", "--yes")["wiped"] == []
    change(shell, "keep_names_years", 2)
    assert shell.json("person", "wipe", "--old", "--yes")["wiped"] == [1, 2, 3]
