"""Finding: a name or part of it, three letters at most; Enter selects and never acts."""

from __future__ import annotations

from pathlib import Path

import pytest

from filmrack.acts import archiving, drying, fetching, hanging, lending, locking, shelving
from filmrack.acts.terms import open_term
from filmrack.desk.help import Help
from filmrack.desk.hit_search import hits_for
from filmrack.desk.hits import Hits
from filmrack.desk.roll_card.card import Card
from filmrack.desk.session import Session
from filmrack.domain.codes import clip_code
from filmrack.domain.names import Person
from filmrack.store import people
from tests.conftest import MARA, OLU, TUESDAY_9_00, School
from tests.desk.at_desk import at_desk


async def test_three_letters_show_where_a_roll_is_and_how(db: Path, school: School) -> None:
    hanging.hang(school.file, school.hand(6), person=MARA, clip=17)
    async with at_desk(db) as here:
        await here.type("mar")
        row = next(row for row in here.rows() if "▸" in row)
        assert all(word in row for word in ("Mara O.", "clip 17", "rod 1", "flip"))
        assert here.keys == 3


async def test_one_scan_finds_a_roll(db: Path, school: School) -> None:
    hanging.hang(school.file, school.hand(6), person=MARA, clip=17)
    async with at_desk(db) as here:
        await here.scan(clip_code(17, "B"))
        assert "17 → Mara O." in here.screen
        assert "rod 1, position 1" in here.screen
        assert (here.scans, here.keys) == (1, 0)


async def test_enter_selects_the_first_hit_and_does_nothing_to_it(db: Path, school: School) -> None:
    hanging.hang(school.file, school.hand(6), person=OLU, clip=18)
    hanging.hang(school.file, school.hand(6), person=MARA, clip=17)
    async with at_desk(db) as here:
        await here.type("mar")
        await here.press("enter")
        assert here.acts == ["load", "hang"] * 2
        assert "17 → Mara O." in here.screen
        await here.press("enter")
        assert here.on(17).flipped
        assert not here.on(18).flipped


@pytest.mark.parametrize("line", ["mar", "17", clip_code(17, "A")])
async def test_a_double_enter_behind_a_look_up_does_nothing_to_the_roll(
    db: Path, school: School, line: str
) -> None:
    hanging.hang(school.file, school.hand(6), person=MARA, clip=17)
    async with at_desk(db) as here:
        await here.say(line)
        here.ticks += 0.35
        await here.pilot.press("enter")
        here.ticks += 0.2
        here.line._settle()
        await here.pilot.pause()
        assert not here.on(17).flipped
        assert "17 → Mara O." in here.answer
        await here.press("enter")
        assert here.on(17).flipped


async def test_a_clip_and_then_a_name_from_the_list_are_loaded(db: Path, school: School) -> None:
    hanging.hang(school.file, school.hand(6), person=MARA, clip=17)
    async with at_desk(db) as here:
        await here.scan(clip_code(20, "A"))
        await here.type("mar")
        await here.press("enter")
        assert here.on(20).person == MARA
        assert here.on(17).person == MARA


async def test_a_command_or_a_screen_is_found_by_its_first_letters(db: Path) -> None:
    async with at_desk(db) as here:
        await here.type("boar")
        await here.press("enter")
        assert here.app.view.screen_id == "board"
        await here.type("hel")
        await here.press("enter")
        assert "Take care" in "\n".join(line.plain for line in here.app.query_one(Help).page)


async def test_undo_picked_from_the_list_takes_back(db: Path) -> None:
    async with at_desk(db) as here:
        await here.type("17 mar")
        await here.press("enter")
        await here.type("und")
        await here.press("enter")
        assert "Taken back" in here.screen


async def test_what_is_called_nothing_is_said_so_and_refused(db: Path) -> None:
    async with at_desk(db) as here:
        await here.type("zzz")
        assert "Nothing is called “zzz”" in here.screen
        await here.press("enter")
        assert "nothing is called" in here.screen.casefold()


@pytest.mark.parametrize("text", ["[/x]", "[bold]", "'", '"', "%", "*", "a-b", "é", "😀", "أ", "("])
async def test_nothing_that_is_typed_breaks_the_desk(db: Path, text: str) -> None:
    async with at_desk(db) as here:
        await here.type(text)
        await here.press("enter", "escape")
        assert here.app.is_running


def test_twins_are_both_found(db: Path, school: School) -> None:
    with school.file.writing() as conn:
        people.add(conn, Person(4, "Mara", "Okafor", None, None))
    session = Session(db, lambda: TUESDAY_9_00)
    found = [hit.person.number for hit in hits_for(session, "mar")[0] if hit.person]
    session.close()
    assert found == [MARA, 4]


def test_people_to_load_for_stand_in_the_order_of_what_is_found(db: Path, school: School) -> None:
    with school.file.writing() as conn:
        people.add(conn, Person(4, "Mara", "Okafor", None, None))
    hanging.hang(school.file, school.hand(), person=4, clip=17)
    session = Session(db, lambda: TUESDAY_9_00)
    for whose in (False, True):
        hits = hits_for(session, "mar", whose=whose)[0]
        assert [hit.person.number for hit in hits if hit.person] == [4, MARA]
    session.close()


async def test_in_the_archive_a_name_means_what_is_filed_before_what_hangs(
    db: Path, school: School
) -> None:
    filed = school.sleeved(MARA, 17)
    hangs = hanging.hang(school.file, school.hand(), person=MARA, clip=18).roll.id
    async with at_desk(db) as here:
        for screen, meant in (("dryer", hangs), ("archive", filed)):
            here.app.face.go(screen)
            await here.type("mara")
            hits = here.app.query_one(Hits)
            rows = [hits.render_line(row).text for row in range(hits.size.height)]
            said = any("Here what is sleeved comes first" in row for row in rows)
            assert said == (screen == "archive")
            await here.press("enter")
            assert here.app.view.selected == meant
        assert here.open == "archive"


async def test_whether_film_is_dry_is_asked_of_what_hangs_in_the_archive_too(
    db: Path, school: School
) -> None:
    school.sleeved(MARA, 17)
    hangs = hanging.hang(school.file, school.hand(), person=MARA, clip=18).roll.id
    async with at_desk(db) as here:
        await here.say("archive")
        await here.say("is mara dry")
        assert here.app.view.selected == hangs


async def test_who_is_here_goes_before_who_was_however_late_an_old_sleeve_is_shelved(
    db: Path, school: School
) -> None:
    open_term(school.file, school.hand(), "24S")
    now = shelving.shelve(school.file, school.hand(), 3, owner="Mara Okafor").id
    with school.file.writing() as conn:
        people.add(conn, Person(0, "Marlene", "Old", None))
    shelving.shelve(school.file, school.hand(), 1, owner="Marlene Old", term="24S")
    async with at_desk(db) as here:
        for screen in ("dryer", "archive"):
            here.app.face.go(screen)
            await here.say("mar")
            assert here.app.view.selected == now, screen


async def test_up_and_down_choose_among_the_hits(db: Path) -> None:
    async with at_desk(db) as here:
        await here.type("ok")
        hits = here.app.query_one(Hits)
        first = hits.chosen
        await here.press("up")
        last = hits.chosen
        assert last == hits.hits[-1]
        await here.press("down")
        assert (first, hits.chosen) == (hits.hits[0], first)


async def test_one_letter_means_nothing_until_somebody_chooses(db: Path) -> None:
    async with at_desk(db) as here:
        await here.type("o")
        await here.press("enter")
        assert "type one more letter" in here.screen
        assert (here.acts, here.app.hearing.dispatch.sentences.in_hand.first) == ([], None)
        await here.type("o")
        await here.press("down")
        assert here.app.query_one(Hits).chosen is not None


async def test_the_list_behind_one_letter_stays_to_choose_from(db: Path, school: School) -> None:
    hanging.hang(school.file, school.hand(), person=OLU, clip=18)
    async with at_desk(db) as here:
        await here.type("o")
        await here.press("enter")
        assert (
            "o alone could be many: type one more letter, or choose one" in here.screen.casefold()
        )
        await here.press("down", "enter")
        assert "Olu A." in here.answer
        assert here.acts == ["load", "hang"]


async def test_no_question_is_a_command(db: Path, school: School) -> None:
    hanging.hang(school.file, school.hand(), person=MARA, clip=17)
    async with at_desk(db) as here:
        await here.say("17 take")
        assert "nothing is called “wrong”" in await here.say("what is wrong")
        assert here.acts[-1] == "take"


@pytest.mark.parametrize(("line", "shown"), [("take back", "undo"), ("cabinet", "Dryer")])
async def test_what_people_say_instead_is_taken_first(db: Path, line: str, shown: str) -> None:
    async with at_desk(db) as here:
        await here.type(line)
        assert shown in next(row for row in here.rows() if "▸" in row)


async def test_what_is_asked_is_what_footer_and_card_say_of_enter(db: Path, school: School) -> None:
    hanging.hang(school.file, school.hand(6), person=MARA, clip=17)
    hanging.hang(school.file, school.hand(6), person=OLU, clip=18)
    async with at_desk(db) as here:
        await here.type("load mara 18")
        await here.press("enter")
        assert "enter clip 18 is Mara O.'s" in here.rows()[-1]
        await here.press("escape")
        await here.press("enter")
        assert here.acts == ["load", "hang"] * 2


async def test_behind_a_refusal_enter_does_nothing_until_something_is_selected(
    db: Path, school: School
) -> None:
    hanging.hang(school.file, school.hand(6), person=MARA, clip=17)
    async with at_desk(db) as here:
        await here.type("17 rod 99")
        await here.press("enter")
        await here.press("enter")
        assert here.acts == ["load", "hang"]
        await here.press("down", "enter")
        assert here.acts == ["load", "hang", "flip"]


async def test_behind_a_name_that_is_nobodys_enter_does_nothing_to_what_was_in_hand(
    db: Path, school: School
) -> None:
    hanging.hang(school.file, school.hand(6), person=MARA, clip=17)
    async with at_desk(db) as here:
        for line in ("17", "nonsense", ""):
            await here.type(line)
            await here.press("enter")
        assert here.acts == ["load", "hang"]


async def test_while_the_other_half_is_missing_the_footer_promises_nothing(
    db: Path, school: School
) -> None:
    hanging.hang(school.file, school.hand(6), person=MARA, clip=17)
    async with at_desk(db) as here:
        await here.scan(clip_code(64, "A"))
        assert "Whose roll is on it" in here.screen
        assert not here.rows()[-1].strip().startswith("enter")


async def test_a_further_roll_of_whoever_it_is_comes_below_all_of_their_rolls(
    db: Path, school: School
) -> None:
    hanging.hang(school.file, school.hand(6), person=MARA, clip=17)
    hanging.hang(school.file, school.hand(6), person=MARA, clip=18)
    async with at_desk(db) as here:
        await here.type("mar")
        hits = here.app.query_one(Hits)
        first, second, third = hits.hits[:3]
        assert first.standing is not None
        assert second.standing is not None
        assert third.person is not None
        assert third.person.number == MARA
        assert "load another roll of Mara O.: then its clip" in here.screen
        await here.press("up")
        assert hits.chosen == third


@pytest.mark.parametrize("line", ["find mar", "hang mar", "take mar"])
async def test_a_verb_before_a_name_looks_for_the_name(db: Path, school: School, line: str) -> None:
    roll = hanging.hang(school.file, school.hand(6), person=MARA, clip=17).roll
    async with at_desk(db) as here:
        await here.type(line)
        chosen = here.app.query_one(Hits).chosen
        assert chosen is not None
        assert chosen.standing is not None
        assert chosen.standing.roll.id == roll.id


async def test_while_letters_mean_many_people_rolls_stand_together(
    db: Path, school: School
) -> None:
    with school.file.writing() as conn:
        four = [people.add(conn, Person(0, f"Kim{nth}", "Ode")) for nth in range(4)]
    for nth, person in enumerate(four[:3]):
        hanging.hang(school.file, school.hand(6), person=person, clip=21 + nth)
    async with at_desk(db) as here:
        await here.type("kim")
        assert here.screen.count("load another roll of Kim") == 3
        assert here.screen.count("load a roll of theirs") == 1
        hanging.hang(school.file, school.hand(6), person=four[3], clip=24)
        await here.press("escape")
        await here.wait(seconds=1)
        await here.type("kim")
        kinds = [hit.standing is not None for hit in here.app.query_one(Hits).hits]
        assert kinds == [True] * 4 + [False] * 4


async def test_load_before_a_name_offers_the_person_and_not_what_hangs(
    db: Path, school: School
) -> None:
    hanging.hang(school.file, school.hand(6), person=MARA, clip=17)
    async with at_desk(db) as here:
        await here.type("load mar")
        await here.press("enter")
        assert "New roll for Mara O." in here.screen


@pytest.mark.parametrize("line", ["colours", "colors"])
async def test_other_colours_are_named_with_what_else_there_is(db: Path, line: str) -> None:
    async with at_desk(db) as here:
        await here.type(line)
        await here.press("enter")
        assert "Colours: daylight" in here.screen
        assert "dim and terminal" in here.screen


async def test_of_ones_rolls_the_dry_one_to_take_comes_first(school: School) -> None:
    """The owner's order: dry to take, then hanging, then in the box, then in the tank."""
    file, hand = school.file, school.hand
    dry, wet, box = (
        hanging.hang(file, hand(), person=MARA, clip=clip).roll.id for clip in (21, 22, 23)
    )
    drying.touch(file, hand(), dry, dry=True)
    fetching.box(file, hand(), [box])
    tank = hanging.load(file, hand(), MARA, [24]).rolls[0].id
    session = Session(file.path, lambda: TUESDAY_9_00)
    standings = [hit.standing for hit in hits_for(session, "mara")[0] if hit.standing]
    session.close()
    assert [each.roll.id for each in standings] == [dry, wet, box, tank]


@pytest.mark.parametrize("size", [(80, 24), (120, 34)])
async def test_who_finds_one_roll_reads_of_the_others_of_the_same_person(
    school: School, size: tuple[int, int]
) -> None:
    file, hand = school.file, school.hand
    wet, dry, box = (
        hanging.hang(file, hand(), person=MARA, clip=clip).roll.id for clip in (21, 22, 23)
    )
    drying.touch(file, hand(), dry, dry=True)
    fetching.box(file, hand(), [box])
    async with at_desk(file.path, school.now, size=size) as here:
        await here.say("mara")
        assert here.app.view.selected == dry
        assert "22 → Mara O., 1 of 3. Also clip 21 wet on rod 1, clip 23 in box 1" in here.screen
        assert "Another: type its clip" in here.answer
        await here.say("21")
        assert here.app.view.selected == wet
        await here.wait(seconds=15)
        assert "Also clip 22 dry on rod 1" in " ".join(here.screen.split())


@pytest.mark.parametrize("by", ["teacher", "student"])
async def test_who_finds_a_roll_in_the_box_reads_of_those_that_are_filed_where_they_may_be_seen(
    school: School, by: str
) -> None:
    file, hand = school.file, school.hand
    first, second, boxed = (
        hanging.hang(file, hand(), person=MARA, clip=clip).roll.id for clip in (21, 22, 23)
    )
    fetching.box(file, hand(), [first, second, boxed])
    for each in (first, second):
        archiving.sleeve(file, hand(), each)
    archiving.file_in_binder(file, hand(), [first, second], 2)
    if by == "student":
        locking.set_passphrase(file, "red lamp at noon", None, school.now)
    async with at_desk(file.path, school.now) as here:
        said = await here.say("mara")
        assert here.app.view.selected == boxed
        seen = by == "teacher"
        assert ("23 → Mara O., 1 of 3. Also 2 filed in binder 2" in said) is seen
        assert ("Also 2 filed in binder 2" in here.part(Card)) is seen
        assert ("The others are with the teacher" in said) is seen
        assert seen or "filed" not in here.screen
        if seen:
            here.app.face.go("archive")
            said = await here.say("find mara")
            assert here.app.view.selected == first
            assert "1 of 3 in 26F. Also clip 23 in box 1, 1 filed in binder 2" in said


async def test_in_the_archive_a_name_means_first_what_is_on_the_list_that_is_shown(
    school: School,
) -> None:
    file, hand = school.file, school.hand
    unprinted, to_file = (
        hanging.hang(file, hand(), person=MARA, clip=clip).roll.id for clip in (21, 22)
    )
    fetching.box(file, hand(), [unprinted, to_file])
    for each in (unprinted, to_file):
        archiving.sleeve(file, hand(), each)
    archiving.contact(file, hand(), to_file)
    archiving.file_in_binder(file, hand(), [unprinted], 2)
    async with at_desk(file.path, school.now) as here:
        here.app.face.go("archive")
        await here.say("mara")
        assert here.app.view.selected == to_file
        await here.say("no contact")
        await here.say("mara")
        assert here.app.view.selected == unprinted


async def test_whoever_has_one_roll_reads_of_no_other(db: Path, school: School) -> None:
    hanging.hang(school.file, school.hand(6), person=MARA, clip=17)
    hanging.hang(school.file, school.hand(6), person=OLU, clip=18)
    async with at_desk(db) as here:
        await here.say("mara")
        assert "also" not in here.screen.casefold()
        assert " of 1" not in here.answer


async def test_who_types_a_few_letters_reads_whom_else_they_fit(db: Path, school: School) -> None:
    with school.file.writing() as conn:
        ida = people.add(conn, Person(0, "Ida", "Marsh"))
        people.add(conn, Person(0, "Marla", "Ode"))
    hanging.hang(school.file, school.hand(6), person=MARA, clip=17)
    hanging.hang(school.file, school.hand(6), person=ida, clip=18)
    async with at_desk(db) as here:
        await here.say("mar")
        assert "17 → Mara O." in here.answer  # hers is the older roll, but she is called so
        assert "“mar” also fits Ida M.: type more letters" in here.answer
        await here.say("mara")
        assert "also fits" not in here.answer
        await here.type("mar")
        await here.press("down", "up", "enter")
        assert "also fits" not in here.answer
        await here.say("load mar")
        assert here.answer.startswith("New roll for Mara O.")
        assert "also fits Marla O., Ida M.: type more letters" in here.answer


@pytest.mark.parametrize("typed", ["novak", "find novak", "Ms Nov"])
async def test_a_guest_is_found_by_what_they_have_borrowed(
    db: Path, school: School, typed: str
) -> None:
    some = []
    for person, clip in ((MARA, 17), (OLU, 5), (OLU, 6)):
        roll = school.sleeved(person, clip)
        some.append(school.roll(roll).number)
        lending.lend(school.file, school.hand(), roll, "4 dec", to="Ms Novak")
    lending.back(school.file, school.hand(), [roll])
    async with at_desk(db) as here:
        before = here.acts
        await here.type(typed)
        rows = [row for row in here.rows() if "borrowed by Ms Novak" in row]
        assert [number for number in some if any(number in row for row in rows)] == some[:2]
        await here.press("enter")
        assert "borrowed by Ms Novak, due Fri 4 Dec" in here.answer
        assert f"Ms Novak also has {some[1]}" in here.answer
        assert "also fits" not in here.answer
        assert here.acts == before


@pytest.mark.parametrize("size", [(80, 24), (120, 34)])
async def test_rolls_without_a_clip_are_told_apart_by_the_day_on_which_they_hung(
    school: School, size: tuple[int, int]
) -> None:
    for ago in (8 * 24 * 60, 0):
        hand = school.hand(ago)
        hung = hanging.hang(school.file, hand, person=MARA, clip=17).roll.id
        fetching.take(school.file, hand, hung)
        archiving.sleeve(school.file, hand, hung)
        archiving.file_in_binder(school.file, hand, [hung], 2)
    async with at_desk(school.file.path, size=size) as here:
        await here.type("mara")
        rows = [row for row in here.rows() if "binder 2" in row]
        assert ["hung 17 Nov" in rows[0], "hung 9 Nov" in rows[1]] == [True, True]


async def test_hits_that_do_not_fit_say_how_many_more_there_are(school: School) -> None:
    for _ in range(25):
        shelving.shelve(school.file, school.hand(), 3, owner="Mara Okafor")
    async with at_desk(school.file.path, school.now, size=(80, 24)) as here:
        await here.say("archive")
        await here.type("mara")
        hits = here.app.face.hits
        rows = [hits.render_line(nth).text.strip() for nth in range(hits.size.height)]
        named = sum("Mara O." in row for row in rows)
        below = len(hits.hits) - named
        assert below > 0
        assert f"↓ {below} more below, with the arrows" in rows
        await here.press(*["down"] * (len(hits.hits) - 1))
        assert "more below" not in here.screen
        assert hits.at == len(hits.hits) - 1
        assert sum("▸" in row for row in here.rows()) == 1


@pytest.mark.parametrize(
    ("typed", "enter"),
    [
        *(("dryer", "open Dryer"), ("swe", "open Sweep"), ("fan off", "as typed"), ("bel", "bell")),
        *(("mara", "choose"), ("mara flip", "as typed"), ("who has what", "as typed")),
    ],
)
async def test_while_something_is_typed_the_footer_says_what_enter_does(
    school: School, typed: str, enter: str
) -> None:
    hanging.hang(school.file, school.hand(), person=MARA, clip=17)
    async with at_desk(school.file.path, school.now, size=(80, 24)) as here:
        await here.type(typed)
        assert here.rows()[-1].strip().startswith(f"enter {enter}   ")
