"""Labels and their designs: what stands on each, and that nothing personal is in a code."""

from pathlib import Path

import pytest

from filmrack.domain import codes
from filmrack.domain.refusal import Refused
from filmrack.printing import BinderLabel, BoxLabel, ClipTag, RodLabel, SleeveLabel, clip_pairs
from filmrack.printing.design import design, fill
from filmrack.printing.labels import Label

SLEEVE = SleeveLabel(codes.page_code("26F", 142, 2), "135-36", "26F", "14 Oct", "page 2 of 2", "MK")


@pytest.mark.parametrize(
    ("label", "payload"),
    [
        (ClipTag(17, "A"), "C017A70"),
        (SLEEVE, "S26F0142270"),
        (RodLabel(3), "D0369"),
        (BoxLabel(3), "B0387"),
        (BinderLabel("26F", 3), "A26F0391"),
    ],
)
def test_a_label_carries_its_code(label: Label, payload: str) -> None:
    assert label.payload == payload
    code = codes.read(payload)
    assert code is not None
    assert code.text == payload


@pytest.mark.parametrize("kind", ["clip", "sleeve", "rod", "box", "binder"])
def test_every_shipped_design_writes_the_code_beside_the_symbol(kind: str) -> None:
    found = design(kind)
    assert any("{code}" in text for text in (found.headline, *found.lines))


def test_initials_stand_on_a_sleeve_only_where_the_room_says_so() -> None:
    lines = [fill(line, SLEEVE.fields(), "sleeve") for line in design("sleeve").lines]
    assert "MK" in lines
    quiet = SleeveLabel(SLEEVE.code, "135-36", "26F", "14 Oct")
    lines = [fill(line, quiet.fields(), "sleeve") for line in design("sleeve").lines]
    assert lines == ["135-36", "26F · 14 Oct", ""]


def test_a_sleeve_shows_its_code_as_people_read_it() -> None:
    assert SLEEVE.fields()["code"] == "26F-0142/2-70"
    assert SLEEVE.payload == "S26F0142270"


def test_clips_come_in_pairs_a_beside_b() -> None:
    assert [(tag.number, tag.side) for tag in clip_pairs([4, 17])] == [
        (4, "A"),
        (4, "B"),
        (17, "A"),
        (17, "B"),
    ]


@pytest.mark.parametrize(
    "label",
    [
        ClipTag(1000, "A"),
        ClipTag(4, "C"),
        RodLabel(100),
        BinderLabel("26O", 1),
        SleeveLabel("C017A70", "135-36", "26F", ""),
        SleeveLabel("R26F014290", "135-36", "26F", ""),
    ],
)
def test_what_has_no_code_is_refused(label: Label) -> None:
    with pytest.raises(Refused):
        _ = label.payload


def own_design(folder: Path, text: str) -> Path:
    (folder / "design").mkdir()
    (folder / "design" / "rod.toml").write_text(text, encoding="utf-8")
    return folder


def test_a_users_own_design_wins(tmp_path: Path) -> None:
    own = own_design(tmp_path, 'headline = "Stange {number}"\nlines = ["{code}"]\n')
    assert design("rod", own).headline == "Stange {number}"
    assert design("box", own) == design("box")


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ('headline = "Rod {number}"\nlines = []\n', "{code}"),
        ('headline = "{code}"\nlines = []\ncolour = "red"\n', "colour"),
        ('headline = "{code"\nlines = []\n', "brace"),
        ('headline = "{code.__class__}"\nlines = []\n', "bare name"),
        ('headline = "{code!r}"\nlines = []\n', "bare name"),
        ('headline = "{code}"\nlines = "{number}"\n', "list"),
        ('headline = "{}"\nlines = ["{code}"]\n', "bare name"),
    ],
)
def test_a_design_that_is_wrong_is_refused(tmp_path: Path, text: str, says: str) -> None:
    with pytest.raises(Refused) as refusal:
        design("rod", own_design(tmp_path, text))
    assert says in str(refusal.value)


def test_a_field_that_the_label_does_not_have_is_named_with_those_it_has() -> None:
    with pytest.raises(Refused, match=r"\{name\}.*code, number, period"):
        fill("{name}", RodLabel(3).fields(), "rod")
