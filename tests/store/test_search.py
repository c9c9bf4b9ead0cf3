from __future__ import annotations

import pytest

from filmrack.acts.archiving import sleeve
from filmrack.acts.fetching import take
from filmrack.acts.hanging import hang, load
from filmrack.acts.lending import back, discard, lend
from filmrack.acts.undoing import undo
from filmrack.domain.codes import clip_code, person_code, rod_code, roll_code
from filmrack.domain.names import Person
from filmrack.domain.refusal import Refused
from filmrack.store import people
from filmrack.store.search import find, which, which_all, who
from tests.conftest import IVO, MARA, OLU, School


@pytest.fixture
def two(school: School) -> School:
    """Olu's first roll hangs on clip 17, Mara's second is loaded on clip 18."""
    hang(school.file, school.hand(), person=OLU, clip=17)
    load(school.file, school.hand(), MARA, [18])
    return school


@pytest.mark.parametrize(
    ("line", "ids"),
    [
        ("ade", [1]),
        ("OKAFOR 26f", [2]),
        ("okafro", [2]),
        ("0001", [1]),
        ("17", [1]),
        ("clip 18 b", [2]),
        (clip_code(18, "B"), [2]),
        (roll_code("26F", 1), [1]),
        (person_code(MARA), [2]),
        ("rod 2", [1]),
        ("rod 2 mara", []),
        ("26F", [2, 1]),
        ("25S", []),
        ("9" * 300, []),
        ("rod " + "9" * 30, []),
        ("%", []),
        ("a'b\" OR 1=1", []),
        ("", []),
    ],
)
def test_a_line_finds_what_all_its_parts_agree_on(two: School, line: str, ids: list[int]):
    assert [roll.id for roll in find(two.file.conn, line)] == ids


@pytest.mark.parametrize(
    "text", ["S-101", "mara", "MARA okafor", "Okafor, Mara", "1", "person 1", person_code(1)]
)
def test_a_person_is_meant_by_name_school_number_or_code(school: School, text: str):
    assert who(school.file.conn, text).number == MARA


def test_a_whole_name_goes_before_the_beginning_of_others(school: School):
    with school.file.writing() as conn:
        people.add(conn, Person(0, "Ivonne", "Lindqvist"))
        bo = people.add(conn, Person(0, "Robert", "Lee", "Bo"))
        people.add(conn, Person(0, "Roberta", "Lee"))
    assert who(school.file.conn, "ivo lindqvist").number == IVO
    assert who(school.file.conn, "robert lee").number == bo
    with pytest.raises(Refused, match=r"Bo Lee \(person 5\), Roberta Lee \(person 6\)"):
        who(school.file.conn, "lee")


def test_a_roll_is_never_meant_by_a_name(two: School):
    with pytest.raises(Refused, match="is no roll that is known here"):
        which(two.file.conn, "mara")


def test_a_void_number_is_no_roll(school: School):
    load(school.file, school.hand(), OLU, [17])
    undo(school.file, school.hand())
    for text in ("0001", "26F-0001", roll_code("26F", 1)):
        with pytest.raises(Refused, match="is no roll that is known here"):
            which(school.file.conn, text)


def test_rolls_are_meant_each_once_and_beside_whole_rods(two: School):
    conn = two.file.conn
    for texts, ids in (
        (["17", clip_code(17, "A"), clip_code(17, "B")], [1]),
        (["rod", "2", "18"], [1, 2]),
        (["18", "rod 2"], [2, 1]),
        (["clip", "18", "A", "clip", "17"], [2, 1]),
        ([rod_code(2)], [1]),
        ([roll_code("26F", 1)] * 80, [1]),
    ):
        assert [roll.id for roll in which_all(conn, texts)] == ids


@pytest.mark.parametrize("recent", [1, 3, 5, 100])
@pytest.mark.parametrize("line", ["mara", "mara okafor", "okafro", "mara 26f", "olu"])
def test_wherever_a_name_is_looked_for_first_its_newest_rolls_are_found(
    school: School, monkeypatch: pytest.MonkeyPatch, line: str, recent: int
):
    for clip in range(1, 9):
        person = OLU if clip % 4 == 0 else MARA
        roll = load(school.file, school.hand(), person, [clip]).rolls[0].id
        if clip < 7:
            discard(school.file, school.hand(), roll, "fogged")
    mine = [4, 8] if line == "olu" else [1, 2, 3, 5, 6, 7]
    on_their_way = [roll for roll in (8, 7) if roll in mine]
    gone = [roll for roll in range(6, 0, -1) if roll in mine]
    monkeypatch.setattr("filmrack.store.matching._RECENT", recent)
    for limit in (1, 2, 3, 50):
        found = [roll.id for roll in find(school.file.conn, line, limit=limit)]
        assert found == [*on_their_way, *gone][:limit]


@pytest.mark.parametrize("limit", [1, 2, 50])
def test_who_is_called_so_comes_before_a_family_of_that_name(school: School, limit: int):
    with school.file.writing() as conn:
        marsh = people.add(conn, Person(0, "Juniper", "Marsh"))
        called = people.add(conn, Person(0, "Ottilie", "Finch", "Marigold"))
    filed, first, second = (
        load(school.file, school.hand(), person, [clip]).rolls[0].id
        for clip, person in enumerate((called, called, marsh), 1)
    )
    discard(school.file, school.hand(), filed, "fogged")
    third = load(school.file, school.hand(), marsh, [9]).rolls[0].id
    found = [roll.id for roll in find(school.file.conn, "mar", limit=limit)]
    assert found == [first, third, second, filed][:limit]  # what is on its way before the rest


def test_what_somebody_of_the_school_has_borrowed_is_found_behind_their_own(two: School):
    roll = two.sleeved(IVO, 19)
    lend(two.file, two.hand(), roll, "4 dec", to=OLU)
    assert [each.id for each in find(two.file.conn, "olu")] == [1, roll]
    assert [each.id for each in find(two.file.conn, "adeyemi o")] == [1, roll]
    back(two.file, two.hand(), [roll])
    assert [each.id for each in find(two.file.conn, "olu")] == [1]


def test_a_guests_name_finds_what_they_have_borrowed_and_no_more_once_it_is_back(
    two: School,
) -> None:
    roll = two.file.conn.execute("SELECT id FROM rolls WHERE clip = 17").fetchone()[0]
    take(two.file, two.hand(), roll)
    sleeve(two.file, two.hand(), roll)
    lend(two.file, two.hand(), roll, "4 dec", to="Ms Novák")
    for line in ("novak", "ms nov"):
        assert [found.id for found in find(two.file.conn, line)] == [roll], line
    for line in ("ms", "novak 26F", "ovak"):
        assert (line == "ms") == bool(find(two.file.conn, line)), line
    back(two.file, two.hand(), [roll])
    assert find(two.file.conn, "novak") == []
