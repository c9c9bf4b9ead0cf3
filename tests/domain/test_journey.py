from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from filmrack.domain.journey import POSSIBLE_FROM, OutOfPlace, fold
from filmrack.domain.roll import PLACES, Detail, Entry, Roll

NINE = datetime(2026, 11, 17, 9, 0, tzinfo=UTC)

DETAILS: dict[str, Detail] = {
    "load": {"term": "26F", "serial": 1, "film": "135-36", "person": 1, "period": 1, "clip": 17},
    "hang": {"rod": 1, "position": 4},
    "move": {"rod": 2, "position": 1},
    "seen": {"rod": 1},
    "touch": {"dry": True},
    "box": {"box": 1},
    "sleeve": {"page_name": "7x5", "pages": [[5, 5, 5, 5, 5, 5, 5], [1]], "frames": 36},
    "contact": {"paper": "8x10in", "picks": [4, 11]},
    "picks": {"picks": [12, 14]},
    "unpick": {"picks": [2, 4]},
    "file": {"binder": 3},
    "lend": {"until": "2026-12-01", "note": 1},
    "reclip": {"clip": 62, "clip_before": 17},
    "claim": {"person": 2, "period": 2},
    "swap": {"person": 3, "period": 3},
}


def tell(*acts: str | tuple[str, Detail], since: int = 0) -> list[Entry]:
    """Return entries, one a minute from nine o'clock."""
    entries = []
    for minute, each in enumerate(acts, since):
        act, detail = each if isinstance(each, tuple) else (each, DETAILS.get(each, {}))
        at = NINE + timedelta(minutes=minute)
        entries.append(Entry(minute + 1, minute + 1, at, at, act, 1, detail))
    return entries


def after(*acts: str | tuple[str, Detail]) -> Roll:
    roll = fold(tell(*acts))
    assert roll is not None
    return roll


WAYS_TO: dict[str, tuple[str, ...]] = {
    "tank": ("load",),
    "rod": ("load", "hang"),
    "box": ("load", "hang", "box"),
    "owner": ("load", "hang", "take"),
    "missing": ("load", "hang", "missing"),
    "sleeve": ("load", "hang", "box", "sleeve"),
    "binder": ("load", "hang", "box", "sleeve", "file"),
    "out": ("load", "hang", "box", "sleeve", "file", "lend"),
    "handed_back": ("load", "hang", "box", "sleeve", "release"),
    "discarded": ("load", "discard"),
}


def test_a_roll_goes_from_tank_to_binder():
    roll = after("load", "hang", "flip", "touch", "box", "sleeve", "contact", "file")
    assert (roll.place.kind, roll.place.number, roll.number) == ("binder", 3, "26F-0001-44")
    assert (roll.sleeved_at, roll.filed_at) == (
        NINE + timedelta(minutes=5),
        NINE + timedelta(minutes=7),
    )


@pytest.mark.parametrize("place", sorted(WAYS_TO))
def test_each_way_leads_to_its_place(place: str):
    assert after(*WAYS_TO[place]).place.kind == place


@pytest.mark.parametrize("place", ["sleeve", "binder", "out"])
def test_frames_are_picked_on_the_last_sheet_beside_those_picked_before(place: str):
    twice = ("contact", ("contact", Detail(paper="a4", picks=[2])), "picks")
    assert [sheet.picks for sheet in after(*WAYS_TO[place], *twice).sheets] == [
        (4, 11),
        (2, 12, 14),
    ]
    assert after(*WAYS_TO[place], *twice).picks == (2, 4, 11, 12, 14)


@pytest.mark.parametrize("place", ["sleeve", "binder", "out"])
def test_frames_are_picked_no_longer_on_whichever_sheet_they_were(place: str):
    twice = ("contact", ("contact", Detail(paper="a4", picks=[2, 4])), "picks", "unpick")
    assert [sheet.picks for sheet in after(*WAYS_TO[place], *twice).sheets] == [(11,), (12, 14)]


def test_every_place_but_void_has_a_way_to_it():
    assert set(WAYS_TO) == PLACES - {"void"}


# Which act is possible from where is common practice in school darkrooms; one row an act.
POSSIBLE = {
    "hang": "tank box owner missing",
    "flip": "rod",
    "touch": "rod",
    "move": "rod",
    "seen": "rod",
    "box": "tank rod box owner missing",
    "take": "tank rod box owner missing",
    "sleeve": "rod box owner missing",
    "contact": "sleeve binder out",
    "picks": "",  # of a roll without a contact sheet
    "unpick": "",  # of such a one
    "file": "sleeve binder out",
    "lend": "sleeve binder",
    "back": "out",
    "missing": "tank rod box owner sleeve binder out handed_back",
    "unclip": "owner",
    "reclip": "tank rod box owner missing",
    "found": "missing handed_back",
    "release": "tank rod box owner missing sleeve binder out",
    "discard": "tank rod box owner missing sleeve binder out handed_back",
    "claim": "tank rod box owner missing sleeve binder out handed_back discarded",
    "swap": "tank rod box owner missing sleeve binder out handed_back discarded",
    "note": "tank rod box owner missing sleeve binder out handed_back discarded",
}


@pytest.mark.parametrize("act", sorted(POSSIBLE_FROM))
@pytest.mark.parametrize("place", sorted(WAYS_TO))
def test_an_act_is_possible_from_its_places_and_refused_from_all_others(act: str, place: str):
    if place in POSSIBLE[act].split():
        assert after(*WAYS_TO[place], act).place.kind in PLACES
    else:
        with pytest.raises(OutOfPlace, match=r"^(26F-0001-44|that) .*") as refused:
            after(*WAYS_TO[place], act)
        assert refused.value.entry.act == act


GONE_WORDS = {
    "discarded": "is discarded: undo that first if it is not so",
    "handed_back": "is handed back: if it is here again say so first, with “found 26F-0001-44”",
}


@pytest.mark.parametrize(
    ("place", "act"),
    [(one, act) for one in GONE_WORDS for act in POSSIBLE if one not in POSSIBLE[act].split()],
)
def test_film_that_is_gone_is_refused_as_that_whatever_is_to_be_done_to_it(place: str, act: str):
    with pytest.raises(OutOfPlace) as refused:
        after(*WAYS_TO[place], act)
    assert str(refused.value) == f"26F-0001-44 {GONE_WORDS[place]}"


@pytest.mark.parametrize("act", ["flip", "touch", "move", "seen", "hang", "box", "reclip"])
@pytest.mark.parametrize(
    ("place", "where"), [("sleeve", "in its sleeve"), ("binder", "in binder 3")]
)
def test_film_that_is_sleeved_does_not_dry_any_more(act: str, place: str, where: str):
    with pytest.raises(OutOfPlace) as refused:
        after(*WAYS_TO[place], act)
    assert str(refused.value) == (
        f"26F-0001-44 is sleeved already ({where}): undo that first if it is not so"
    )


@pytest.mark.parametrize(
    ("place", "act", "why"),
    [
        ("box", "flip", "does not hang (in box 1): hang it first"),
        ("rod", "hang", "hangs already on rod 1, position 4: say where it hangs now to move it"),
        ("tank", "sleeve", "is still in the tank: hang it and let it dry first"),
        ("box", "unclip", "is in box 1: only a roll with its owner stays without a clip"),
        ("binder", "back", "is not borrowed (in binder 3), so no loan ends: look at its card"),
        ("out", "lend", "cannot be lent (borrowed): only a sleeve at hand can"),
        ("missing", "missing", "is missing already: when it turns up say “found 26F-0001-44”"),
        ("rod", "found", "is not missing (on rod 1, position 4): look for it there"),
    ],
)
def test_what_is_refused_says_where_the_roll_is_and_what_to_do(place: str, act: str, why: str):
    with pytest.raises(OutOfPlace) as refused:
        after(*WAYS_TO[place], act)
    assert str(refused.value) == f"26F-0001-44 {why}"


@pytest.mark.parametrize("act", ["hang", "box", "take", "sleeve"])
def test_a_sleeve_that_is_missing_does_not_go_back_to_the_dryer(act: str):
    with pytest.raises(OutOfPlace, match="sleeved already"):
        after("load", "hang", "sleeve", "missing", act)


def test_a_sleeve_that_was_missing_is_filed_when_it_is_found():
    assert after("load", "hang", "sleeve", "missing", "found", "file").place.kind == "binder"


def test_the_order_in_which_things_were_told_does_not_matter():
    entries = tell("load", "hang", "flip", "box")
    assert fold(entries[::-1]) == fold(entries)


def test_of_two_acts_in_one_second_the_one_told_first_came_first():
    load, hang = tell("load", "hang")
    at_once = [
        load,
        Entry(2, 2, NINE, NINE, "hang", 1, {"rod": 1, "position": 1}),
        Entry(3, 3, NINE, NINE, "move", 1, {"rod": 2, "position": 2}),
    ]
    roll = fold(at_once)
    assert hang.act == "hang"
    assert roll is not None
    assert str(roll.place) == "rod 2, position 2"


def test_nothing_told_is_no_roll():
    assert fold([]) is None


def test_a_roll_cannot_begin_on_the_rod():
    with pytest.raises(OutOfPlace, match="a roll cannot begin with “hung”"):
        fold(tell("hang"))


def test_a_flip_turns_the_strip_and_a_second_one_turns_it_back():
    roll = after("load", "hang", "flip", "flip")
    assert [stay.flipped for stay in roll.stays] == [False, True, False]
    assert [stay.until for stay in roll.stays[:-1]] == [stay.hung for stay in roll.stays[1:]]


def test_a_moved_strip_keeps_its_way_up_and_its_first_hour():
    roll = after("load", "hang", "flip", "move")
    assert roll.flipped
    assert roll.hung_at == NINE + timedelta(minutes=1)
    assert str(roll.place) == "rod 2, position 1"


def test_a_move_onto_other_clips_is_kept():
    assert after("load", "hang", ("move", {"rod": 2, "position": 1, "clip": 18})).clip == 18


@pytest.mark.parametrize("act", ["box", "take"])
def test_a_single_roll_taken_down_by_hand_counts_as_found_dry(act: str):
    (check,) = after("load", "hang", act).checks
    assert (check.dry, check.source) == (True, act)


@pytest.mark.parametrize("act", ["box", "take"])
def test_a_roll_that_was_touched_dry_is_not_found_dry_once_more(act: str):
    (check,) = after("load", "hang", ("touch", {"dry": True}), act).checks
    assert check.source == "touch"
    roll = after("load", "hang", ("touch", {"dry": False}), act)
    assert [each.dry for each in roll.checks] == [False, True]


def test_a_rod_boxed_by_count_teaches_nothing():
    assert after("load", "hang", ("box", {"box": 1, "by_count": True})).checks == ()


def test_a_roll_put_back_tacky_was_not_dry_when_it_was_taken_down():
    roll = after("load", "hang", "take", ("hang", {"rod": 1, "position": 4, "tacky": True}))
    (check,) = roll.checks
    assert (check.dry, check.at) == (False, NINE + timedelta(minutes=2))
    assert roll.hung_at == NINE + timedelta(minutes=1)


def test_a_roll_put_back_that_never_hung_hangs_from_now():
    roll = after("load", ("hang", {"rod": 1, "position": 4, "tacky": True}))
    assert roll.hung_at == NINE + timedelta(minutes=1)


def test_the_clip_comes_off_with_the_cut():
    assert after("load", "hang", "box").clip == 17
    assert after("load", "hang", "box", "sleeve").clip is None


def test_a_missing_roll_is_looked_for_where_it_was_last_seen():
    roll = after("load", "hang", "flip", "missing")
    assert (str(roll.seen), roll.seen_at) == ("rod 1, position 4", NINE + timedelta(minutes=2))
    assert roll.stays[-1].until == NINE + timedelta(minutes=3)


def test_a_missing_roll_loses_its_clip_when_another_roll_is_found_on_it():
    gave_up: Detail = {"assumed": True, "gave_up": "clip", "other": 2}
    before = after("load", "hang", "missing")
    roll = after("load", "hang", "missing", ("missing", gave_up))
    assert roll.clip is None
    assert (roll.place, roll.since, roll.seen_at) == (before.place, before.since, before.seen_at)


def test_a_roll_with_its_owner_stays_there_when_another_roll_is_found_on_its_clip():
    before = after("load", "hang", "take")
    roll = after("load", "hang", "take", "unclip")
    assert (roll.clip, roll.place, roll.since) == (None, before.place, before.since)


def test_a_roll_pushed_off_its_position_keeps_its_clip():
    gave_up: Detail = {"assumed": True, "gave_up": "position", "other": 2}
    assert after("load", "hang", ("missing", gave_up)).clip == 17


def test_what_was_assumed_stays_marked():
    roll = after(("load", {**DETAILS["load"], "assumed": True}), "hang", "box")
    assert roll.assumed == {"load"}


def test_a_borrowed_sleeve_comes_back_to_its_binder():
    assert str(after("load", "hang", "sleeve", "file", "lend", "back").place) == "binder 3"
    assert after("load", "hang", "sleeve", "lend", "back").place.kind == "sleeve"
    assert after("load", "hang", "sleeve", "file", "lend", "back").loan is None


def test_a_shelved_sleeve_has_no_history():
    shelved: Detail = {
        "term": "25S",
        "serial": 7,
        "film": "135-36",
        "binder": 2,
        "pages": [[6] * 6],
    }
    roll = after(("shelve", shelved), "contact")
    assert (str(roll.place), roll.filed_at, roll.sleeved_at) == ("binder 2", NINE, NINE)
