"""What is to be printed, as it is typed and chosen."""

from __future__ import annotations

from pathlib import Path

import pytest

from filmrack.acts import archiving, fetching, hanging
from filmrack.acts.labelling import KINDS
from filmrack.desk.app import Desk
from filmrack.desk.labels.choice import ABOUT, Choice
from filmrack.desk.labels.choice_typed import chosen_by
from filmrack.desk.labels.drawing import kinds_width
from filmrack.printing import stock_names
from filmrack.store import labelling
from tests.conftest import MARA, OLU, School
from tests.desk.at_desk import opened_on
from tests.desk.labels.printed import labels, printed, sleeve, view_of
from tests.printed import symbols


async def test_clips_are_asked_for_by_number(school: School, home: Path) -> None:
    async with labels(school.file.path) as desk:
        await desk.press("up")
        assert view_of(desk).choice.kind == "clips"
        await desk.enter()
        assert "which clips" in desk.line.hint
        await desk.enter("1-2")
        await printed(desk)
    assert len(symbols(home / "clips.pdf")) == 4


async def test_what_is_to_be_printed_is_said_on_any_screen(school: School, home: Path) -> None:
    for screen in ("board", "dryer", "archive", "room", "labels"):
        async with opened_on(screen, school.file.path) as desk:
            for typed, choice in (
                ("labels clips 1-60", Choice("clips", "1-60")),
                ("labels sleeves", Choice()),
                ("Labels bench", Choice("bench")),
                ("print boxes", Choice("boxes")),
            ):
                await desk.enter(typed)
                assert view_of(desk).display, (screen, typed)
                assert view_of(desk).choice == choice, (screen, typed)
    assert not list(home.glob("*.pdf"))


async def test_a_word_that_names_labels_and_a_screen_says_which_it_was(
    school: School, home: Path
) -> None:
    for word, screen in (("boxes", "Boxes"), ("binders", "Archive"), ("rods", "Dryer")):
        async with labels(school.file.path) as desk:
            await desk.enter(word)
            assert view_of(desk).choice.kind == word
            assert f"To print: {word}" in desk.answer
            assert f"“{word}” once more opens the screen {screen}" in desk.answer
            await desk.enter(word)
            assert isinstance(desk.app, Desk)
            assert desk.app.face.entry.title == screen


async def test_stock_changes_with_the_arrows_and_by_its_name(school: School, home: Path) -> None:
    async with labels(school.file.path) as desk:
        await desk.enter("rods")
        await desk.enter("a4-65")
        assert "on a4-65" in desk.page
        await desk.press("right")
        following = stock_names()[stock_names().index("a4-65") + 1]
        assert f"on {following}" in desk.page
        await desk.enter("test")
        assert "on letter paper" in desk.page
        await desk.press("right")
        assert "on a4 paper" in desk.page


@pytest.mark.parametrize("line", ["print label", "label"])
async def test_the_label_of_the_roll_in_hand_is_asked_for_without_its_number(
    school: School, home: Path, line: str
) -> None:
    sleeve(school, MARA, 17)
    sleeve(school, OLU, 5)
    async with opened_on("archive", school.file.path) as desk:
        await desk.enter("26F-0002")
        await desk.enter(line)
        assert view_of(desk).display
        assert view_of(desk).choice.asked.startswith("26F-0002")
        assert "Enter saves that as a PDF" in desk.answer


async def test_the_roll_whose_labels_were_saved_is_lent_without_its_number(
    school: School, home: Path
) -> None:
    sleeve(school, MARA, 17)
    sleeve(school, OLU, 5)
    async with opened_on("archive", school.file.path) as desk:
        await desk.enter("26F-0002")
        await desk.enter("label")
        await desk.enter()
        await printed(desk)
        assert "26F-0002" in desk.page
        number = view_of(desk).mark()
        assert number.startswith("26F-0002")
        assert f"{number} ›" in desk.screen, "whom a verb alone would be about stands at the line"
        await desk.enter("lend Ms Novak")
        await desk.enter()
        assert "26F-0002" in desk.answer
        assert "lent to Ms Novak" in desk.answer
        assert "lend" in desk.acts


async def test_where_the_labels_of_several_rolls_stand_none_of_them_is_lent(
    school: School, home: Path
) -> None:
    sleeve(school, MARA, 17)
    sleeve(school, OLU, 5)
    async with opened_on("archive", school.file.path) as desk:
        await desk.enter("26F-0002")
        for asked in ("print sleeves", "print sleeves 0001 0002", "print rods"):
            await desk.enter(asked)
            assert desk.line.prompt == "›"
            await desk.enter("lend Ms Novak")
            assert "“26F-0142 lend Ms Novak”" in desk.answer, asked
            await desk.enter("lend")
            assert "“26F-0142 lend juniper”" in desk.answer, asked


async def test_what_a_slip_is_stands_beside_the_kinds(school: School, home: Path) -> None:
    for size in ((80, 24), (120, 34)):
        async with opened_on("labels", school.file.path, size) as desk:
            await desk.enter("sweepslip")
            assert "a slip to lie in each box" in desk.page


async def test_the_words_behind_a_cut_make_as_many_labels_as_they_say(
    school: School, home: Path
) -> None:
    sleeve(school, OLU, 5)
    roll = hanging.hang(school.file, school.hand(), person=MARA, clip=17).roll
    fetching.take(school.file, school.hand(), roll.id)
    async with opened_on("archive", school.file.path) as desk:
        await desk.enter(f"{roll.number} cut")
        assert "“label” then Enter makes the PDF of these 2, “print sleeves” of all" in desk.answer
        await desk.enter("label")
        assert "2 labels on 1 sheet" in desk.page
        await desk.enter("print sleeves")
        assert "4 labels on 1 sheet" in desk.page
        await desk.enter()
        await printed(desk)
        assert len(list(home.glob("*.pdf"))) == 1


async def test_label_behind_an_act_is_of_that_roll_as_long_as_its_labels_wait(
    school: School, home: Path
) -> None:
    for person, clip in ((OLU, 5), (MARA, 9), (MARA, 17)):
        sleeve(school, person, clip)
    mara = school.roll(school.sleeved(MARA, 18))
    archiving.contact(school.file, school.hand(), mara.id)
    async with opened_on("archive", school.file.path) as desk:
        await desk.enter("not filed")
        await desk.enter(f"{mara.number} file 2")
        assert "filed in binder 2; “label” makes its 2 labels. Wrong?" in desk.answer
        assert desk.app.view.selected != mara.id
        await desk.enter("label")
        assert view_of(desk).choice == Choice("sleeves", mara.number)
        assert "2 labels on 1 sheet" in desk.page
    labelling.forget_queued(school.file.conn, [(mara.id, 1), (mara.id, 2)])
    async with opened_on("archive", school.file.path) as desk:
        await desk.enter("in binders")
        await desk.enter("contact")
        await desk.enter()
        assert "contact sheet made" in desk.answer
        assert "“label”" not in desk.answer
        await desk.enter(f"{mara.number} file 3")
        await desk.enter()
        await desk.enter("not filed")
        marked = school.roll(desk.app.view.selected or 0)
        assert marked.id != mara.id
        await desk.enter("label")
        assert view_of(desk).choice == Choice("sleeves", marked.number)


async def test_label_is_of_the_marked_roll_once_a_key_chose_it(school: School, home: Path) -> None:
    some = [school.sleeved(person, clip) for person, clip in ((OLU, 5), (MARA, 9), (MARA, 17))]
    async with opened_on("archive", school.file.path) as desk:
        await desk.enter("not filed")
        await desk.enter(f"{school.roll(some[2]).number} file 2")
        await desk.enter()  # without a contact sheet
        await desk.press("down", "up")
        marked = school.roll(desk.app.view.selected or 0)
        assert marked.id != some[2]
        await desk.enter("label")
        assert view_of(desk).choice == Choice("sleeves", marked.number)


async def test_a_label_of_no_sleeve_is_refused_in_a_sentence(school: School) -> None:
    hanging.hang(school.file, school.hand(), person=MARA, clip=17)
    async with opened_on("dryer", school.file.path) as desk:
        await desk.enter("print label")
        assert "has no sleeve yet" in desk.answer


async def test_hints_are_whole_at_80_columns(school: School, home: Path) -> None:
    async with labels(school.file.path, (80, 24)) as desk:
        line = desk.line
        for kind in KINDS:
            view_of(desk).choice = Choice(kind)
            hint = view_of(desk).hint()
            line.hint = hint
            assert line.render_line(0).text.rstrip().endswith(hint), kind
        view_of(desk).prints.press.running = True
        line.hint = view_of(desk).hint()
        assert line.render_line(0).text.rstrip().endswith(line.hint)


def test_each_kind_is_told_in_the_words_that_a_list_has_room_for() -> None:
    assert set(ABOUT) == set(KINDS)
    assert {
        kind: about for kind, about in ABOUT.items() if len(about) > kinds_width(100) - 16
    } == {}


@pytest.mark.parametrize(
    ("typed", "choice"),
    [
        ("clips 1-60", Choice("clips", "1-60")),
        ("1-3, 17", Choice(asked="1-3, 17")),
        ("1 – 60", Choice(asked="1 – 60")),
        ("all", Choice()),
        ("from 5", Choice(start=5)),
        ("letter-30", Choice(stock="letter-30")),
        ("stock a4-21", Choice(stock="a4-21")),
        ("600 dpi", Choice(dpi=600)),
        ("17", None),
        ("mar", None),
        ("26F-0142-09", None),
        ("letters", None),
    ],
)
def test_a_typed_line_chooses_or_is_left_to_the_desk(typed: str, choice: Choice | None) -> None:
    assert chosen_by(Choice(), typed, None) == choice
