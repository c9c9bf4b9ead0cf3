from __future__ import annotations

from filmrack.acts.fetching import box
from filmrack.acts.hanging import hang
from filmrack.acts.scans import Scan
from filmrack.acts.sweeping import sweep
from filmrack.acts.undoing import undo
from filmrack.store.findings import findings
from tests.conftest import IVO, MARA, OLU, School


def test_a_sweep_tells_afterwards_what_it_found_where_and_what_it_did_not(school: School):
    mara, olu, ivo, second = (
        hang(school.file, school.hand(), person=person, clip=clip, rod=rod).roll.id
        for clip, (person, rod) in enumerate([(MARA, 1), (OLU, 2), (IVO, 2), (MARA, 2)], 1)
    )
    school.wait(400)
    lying = hang(school.file, school.hand(), person=OLU, clip=5).roll.id
    box(school.file, school.hand(), [lying])
    school.wait(1)
    sweep(school.file, school.hand(), counts={2: 2})
    scans = [Scan(olu, rod=2), Scan(mara, rod=2), Scan(None, 40, 2), Scan(lying, box=2)]
    for scan in scans:
        sweep(school.file, school.hand(), scans=[scan])
    number = sweep(school.file, school.hand(), finish=True).sweep

    told = findings(school.file.conn, number)
    assert [(each.roll.id, each.box, each.rod, each.unknown) for each in told.boxed[:2]] == [
        (olu, 2, 2, False),
        (mara, 1, 2, False),
    ]
    assert [str(each.recorded) for each in told.boxed] == [
        "None",
        "rod 1, position 1",
        *["None"] * 2,
    ]
    assert [each.unknown for each in told.boxed] == [False, False, True, False]
    assert [roll.id for roll in told.missing] == [ivo, second]


def test_what_a_sweep_took_back_it_has_not_found(school: School):
    hang(school.file, school.hand(), person=MARA, clip=1)
    school.wait(1)
    number = sweep(school.file, school.hand(), counts={1: 1}).sweep
    undo(school.file, school.hand())
    assert findings(school.file.conn, number).boxed == ()


def test_what_turns_up_after_a_sweep_is_missing_no_more_and_its_slips_have_changed(school: School):
    lost = hang(school.file, school.hand(), person=MARA, clip=1).roll.id
    school.wait(400)
    number = sweep(school.file, school.hand(), counts={1: 0}, finish=True).sweep
    told = findings(school.file.conn, number)
    assert ([roll.id for roll in told.missing], told.turned_up, told.changed) == ([lost], (), None)
    school.wait(1)
    box(school.file, school.hand(), [lost])
    told = findings(school.file.conn, number)
    assert (told.missing, [str(roll.place) for roll in told.turned_up]) == ((), ["box 1"])
    assert told.changed == school.now
    undo(school.file, school.hand())
    assert [roll.id for roll in findings(school.file.conn, number).missing] == [lost]
