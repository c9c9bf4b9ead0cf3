"""Changes of who and which clip pairs are known are acts of the ledger: undo takes them back."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from filmrack.acts import clips, hanging, wiping
from filmrack.acts import people as acts
from filmrack.acts.rostering import take_roster
from filmrack.acts.undoing import Undone, undo
from filmrack.domain.clip import Clip, lost_named
from filmrack.domain.refusal import Refused
from filmrack.domain.roster import read_roster
from filmrack.store import roster
from filmrack.store.checking import problems
from filmrack.store.clips import read_clip
from tests.conftest import MARA, School

LINA = b"Name,ID,Period\nLina Haddad,S-104,2\n"


def take(school: School, text: bytes = LINA, *, others_left: bool = False) -> None:
    take_roster(school.file, school.hand(), read_roster(text), others_left=others_left)


def take_back(school: School) -> Undone:
    return undo(school.file, school.hand())


def everything_known(school: School) -> list[tuple[object, ...]]:
    """Return all rows of people, their periods, the words they are found by, and clip pairs."""
    return [
        tuple(row)
        for table in ("people", "enrolments", "name_tokens", "clips")
        for row in school.file.conn.execute(f"SELECT * FROM {table} ORDER BY 1, 2")
    ]


def test_undo_behind_an_added_person_removes_them_and_nothing_older(school: School):
    hanging.load(school.file, school.hand(), MARA, [7])
    before = everything_known(school)
    take(school)
    assert take_back(school).settings == ("Lina Haddad is gone again",)
    assert everything_known(school) == before
    assert [act for act, _ in take_back(school).acts] == ["load"]
    assert problems(school.file) == []


def test_a_person_with_film_on_the_record_is_not_removed(school: School):
    take(school)
    lina = roster.highest(school.file.conn)
    roll = hanging.load(school.file, school.hand(), lina, [7]).rolls[0]
    take_back(school)
    with pytest.raises(Refused, match="Lina Haddad stays because there is film of theirs"):
        take_back(school)
    assert roll.person == lina
    assert problems(school.file) == []


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (
            lambda school: acts.rename(school.file, school.hand(), MARA, given="Max"),
            "Mara Okafor is the name again, it was Max Okafor",
        ),
        (
            lambda school: acts.move(school.file, school.hand(), MARA, 2),
            "Mara Okafor is in Period 1 again",
        ),
        (
            lambda school: acts.leave(school.file, school.hand(), MARA),
            "Mara Okafor is here again",
        ),
    ],
    ids=["a name", "a period", "having left"],
)
def test_undo_gives_a_person_back_what_was_changed(
    school: School, change: Callable[[School], object], told: str
):
    before = everything_known(school)
    change(school)
    assert everything_known(school) != before
    assert take_back(school).settings == (told,)
    assert everything_known(school) == before


def test_a_whole_roster_is_one_act(school: School):
    before = everything_known(school)
    take(school, b"Name,ID,Period\nLina Haddad,S-104,2\nMara Okafor,S-101,2\n", others_left=True)
    assert len(take_back(school).settings) == 4  # one added, one moved, two that had left
    assert everything_known(school) == before


def test_what_changed_again_since_stays(school: School):
    acts.rename(school.file, school.hand(), MARA, given="Max")
    acts.rename(school.file, school.hand(desk="desk 2"), MARA, given="Mo")
    with pytest.raises(Refused, match="they were changed again since"):
        take_back(school)


def test_a_former_name_goes_with_the_names_of_its_person(school: School):
    acts.rename(school.file, school.hand(), MARA, given="Max", family="Weber")
    wiping.wipe(school.file, [MARA], school.now)
    notes = school.file.conn.execute("SELECT text FROM notes").fetchall()
    assert [row["text"] for row in notes] == [""]
    with pytest.raises(Refused, match="a name that was wiped"):
        take_back(school)


def test_added_clip_pairs_are_unknown_again_unless_they_carried_film(school: School):
    before = everything_known(school)
    clips.add(school.file, school.hand(), [151, 152])
    assert take_back(school).settings == ("2 clip pairs are unknown again",)
    assert everything_known(school) == before
    clips.add(school.file, school.hand(), [151])
    hanging.load(school.file, school.hand(desk="desk 2"), MARA, [151])
    with pytest.raises(Refused, match="clip 151 stays because it carried film since"):
        take_back(school)


def test_what_a_clip_pair_lost_is_taken_back(school: School):
    hand = school.hand()
    clips.lose(school.file, hand, 17, lost_named("hook A"))
    clips.retire(school.file, hand, 17)
    take_back(school)
    assert read_clip(school.file.conn, 17) == Clip(17, (lost_named("hook A"),))
    take_back(school)
    assert read_clip(school.file.conn, 17) is None


def test_a_roster_taken_in_again_is_no_act(school: School):
    take(school)
    take(school)
    clips.add(school.file, school.hand(), [])
    assert take_back(school).settings == ("Lina Haddad is gone again",)
