"""Stock: what the files in labels/ say, and what is wrong with those that do not add up."""

from pathlib import Path

import pytest

from filmrack.domain.refusal import Refused
from filmrack.printing import read_stock, stock, stock_names
from filmrack.shipped import shipped

# Inches are 25.4 mm by definition. Common practice: each sheet's own printed dimensions.
TABLE = {
    "letter-30": ((66.675, 25.4), (3, 10), (4.7625, 12.7), (69.85, 25.4)),
    "letter-80": ((44.45, 12.7), (4, 20), (7.14375, 12.7), (52.3875, 12.7)),
    "letter-20": ((101.6, 25.4), (2, 10), (3.96875, 12.7), (106.3625, 25.4)),
    "letter-10": ((101.6, 50.8), (2, 5), (3.96875, 12.7), (106.3625, 50.8)),
    "a4-21": ((63.5, 38.1), (3, 7), (7.25, 15.15), (66.0, 38.1)),
    "a4-24": ((64, 33.9), (3, 8), (6.5, 12.9), (66.5, 33.9)),
    "a4-65": ((38.1, 21.2), (5, 13), (4.75, 10.7), (40.6, 21.2)),
    "roll-2x1": ((50.8, 25.4), (1, 1), (0, 0), (50.8, 25.4)),
}

WRITTEN = """\
about = "A sheet of ours"
[sheet]
width = "210 mm"
height = "29.7 cm"
[label]
width = "63.5 mm"
height = "38.1 mm"
[grid]
across = 3
down = 7
left = "7.25 mm"
top = "15.15 mm"
pitch_across = "66 mm"
pitch_down = "38.1 mm"
[use]
dpi = [300]
stands_water = false
"""


def own(folder: Path, old: str = "", new: str = "", name: str = "ours") -> Path:
    path = folder / "stock" / f"{name}.toml"
    path.parent.mkdir(exist_ok=True)
    assert old in WRITTEN
    path.write_text(WRITTEN.replace(old, new, 1) if old else WRITTEN, encoding="utf-8")
    return path


@pytest.mark.parametrize("name", TABLE)
def test_shipped_stock_has_the_dimensions_of_its_sheet(name: str) -> None:
    size, grid, corner, pitch = TABLE[name]
    found = stock(name)
    assert (found.width, found.height) == pytest.approx(size)
    assert (found.across, found.down) == grid
    assert (found.left, found.top) == pytest.approx(corner)
    assert (found.pitch_across, found.pitch_down) == pytest.approx(pitch)
    total = 2 * corner[0] + (grid[0] - 1) * pitch[0] + size[0]
    assert found.sheet_width == pytest.approx(total, abs=0.1)


def test_all_shipped_stock_can_be_read_and_says_whether_it_stands_water() -> None:
    names = stock_names()
    assert set(TABLE) | {"tags-letter", "tags-a4"} == set(names)
    wet = {name for name in names if stock(name).stands_water}
    assert wet == {"roll-2x1"}  # plastic; all else is paper
    assert 203 not in stock("letter-80").dpi  # half-inch labels only from 300 dpi


def test_tags_come_in_whole_pairs_a_row() -> None:
    for name in ("tags-letter", "tags-a4"):
        tags = stock(name)
        assert tags.across % 2 == 0
        assert tags.cut_lines
        assert tags.punch


def test_lengths_may_be_written_in_any_unit(tmp_path: Path) -> None:
    found = read_stock(own(tmp_path, '"63.5 mm"', '"2.5 in"'))
    assert found.width == pytest.approx(63.5)
    assert found.sheet_height == pytest.approx(297)


def test_a_users_own_stock_wins_over_a_shipped_one_of_its_name(tmp_path: Path) -> None:
    own(tmp_path, name="letter-30")
    assert stock("letter-30", tmp_path).about == "A sheet of ours"
    assert stock("letter-30").about != "A sheet of ours"
    assert stock("a4-65", tmp_path) == stock("a4-65")
    own(tmp_path)
    assert {"ours", "a4-65"} <= set(stock_names(tmp_path))


def test_a_sheet_that_is_a_tenth_of_a_millimetre_off_is_taken(tmp_path: Path) -> None:
    read_stock(own(tmp_path, '"66 mm"', '"66.05 mm"'))


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ('"66 mm"', '"66.06 mm"', "7.25 + 66.06 × 2 + 63.50 + 7.25 = 210.12 mm"),
        ('"38.1 mm"\n[use]', '"38 mm"\n[use]', "does not add up down"),
        ("dpi = [300]", "dpi = [300]\nglue = true", "glue"),
        ('[sheet]\nwidth = "210 mm"', "[sheet]", "width"),
        ('"63.5 mm"', "63.5", "unit"),
        ('"63.5 mm"', '"63.5 furlongs"', "unit"),
        ("across = 3", "across = 0", "above zero"),
        ("across = 3", "across = true", "above zero"),
        ("dpi = [300]", "dpi = []", "list"),
        ("dpi = [300]", "dpi = [72]", "72 dpi"),
        ("stands_water = false", 'stands_water = "no"', "true or false"),
        ('"A sheet of ours"', '""', "text"),
        ("[grid]", "[grid", "cannot be read"),
        ("[label]", "[labels]", "labels"),
    ],
)
def test_a_stock_file_that_is_wrong_is_refused_by_what_is_wrong(
    tmp_path: Path, old: str, new: str, says: str
) -> None:
    with pytest.raises(Refused) as refusal:
        read_stock(own(tmp_path, old, new))
    assert says in str(refusal.value)


def test_labels_that_overlap_are_refused(tmp_path: Path) -> None:
    text = WRITTEN.replace('"66 mm"', '"60 mm"').replace('"7.25 mm"', '"13.25 mm"')
    path = own(tmp_path)
    path.write_text(text, encoding="utf-8")
    with pytest.raises(Refused, match="overlap"):
        read_stock(path)


@pytest.mark.parametrize("name", ["letter-31", "../stock/letter-30", "", "LETTER-30", "a/b"])
def test_an_unknown_stock_is_refused_with_those_that_there_are(name: str) -> None:
    with pytest.raises(Refused, match="a4-21, a4-24"):
        stock(name)


def test_shipped_files_are_found_in_a_checkout() -> None:
    assert (shipped("labels") / "README.md").is_file()
