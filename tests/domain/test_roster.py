from __future__ import annotations

import codecs

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from filmrack.domain.names import clean
from filmrack.domain.refusal import Refused
from filmrack.domain.roster import MOST_BYTES, Roster, RosterLine, read_roster

ROWS = (
    RosterLine(2, "Mara", "Okafor", None, "1001", "3"),
    RosterLine(3, "Zoë", "Núñez", "Zo", "1002", "Block C"),
)
LINES = (
    "Family{0}Given{0}Called{0}ID{0}Period\n"
    "Okafor{0}Mara{0}{0}1001{0}3\n"
    "Núñez{0}Zoë{0}Zo{0}1002{0}Block C\n"
)


def read(text: str) -> Roster:
    return read_roster(text.encode())


@pytest.mark.parametrize("separator", [",", ";", "\t"])
@pytest.mark.parametrize(
    ("encoding", "name"),
    [
        ("utf-8", "UTF-8"),
        ("utf-8-sig", "UTF-8"),
        ("cp1252", "Windows-1252"),
        ("utf-16", "UTF-16"),
    ],
)
@pytest.mark.parametrize("ending", ["\n", "\r\n"])
def test_a_roster_is_read_however_it_was_saved(
    separator: str, encoding: str, name: str, ending: str
):
    roster = read_roster(LINES.format(separator).replace("\n", ending).encode(encoding))
    assert roster.rows == ROWS
    assert roster.refused == ()
    assert roster.mapping.encoding == name
    assert roster.mapping.separator == {",": "comma", ";": "semicolon", "\t": "tab"}[separator]


def test_the_bytes_of_windows_1252_are_those_of_its_table():
    # Unicode Consortium, mapping table CP1252.TXT: 0x8A is U+0160, 0x9C is U+0153.
    (row,) = read_roster(b"Given,Family\nC\x9cur,\x8aim\xe1k\n").rows
    assert (row.given, row.family) == ("Cœur", "Šimák")


def test_headings_may_stand_in_any_order_under_usual_names():
    (row,) = read(
        "Class Period,Student ID,E-mail,PREFERRED NAME,last_name,First Name\n"
        "2,77,m@x.org,Mo,Okafor,Mara\n"
    ).rows
    assert row == RosterLine(2, "Mara", "Okafor", "Mo", "77", "2")


def test_the_mapping_says_what_is_taken_from_where():
    mapping = read("Student;Homeroom;Block\nOkafor, Mara;12;C\n").mapping
    assert mapping.columns == (("Student", "full"), ("Block", "period"))
    assert mapping.not_used == ("Homeroom",)


def test_a_heading_in_the_rooms_own_word_names_the_period():
    roster = read_roster(b"Name,Slot\nMara Okafor,2\n", period_word="slot")
    assert roster.rows[0].period == "2"


@pytest.mark.parametrize(
    ("written", "given_", "family", "called"),
    [
        ('"Okafor, Mara"', "Mara", "Okafor", None),
        ('"Okafor ,  Mara  Jane "', "Mara Jane", "Okafor", None),
        ('"van den Berg, Jo (Joey)"', "Jo", "van den Berg", "Joey"),
        ("Mara Okafor", "Mara", "Okafor", None),
        ("Mara", "Mara", "", None),
    ],
)
def test_a_name_in_one_column_is_taken_apart(
    written: str, given_: str, family: str, called: str | None
):
    assert read(f"Name\n{written}\n").rows == (RosterLine(2, given_, family, called),)


def test_a_quoted_line_break_belongs_to_its_cell_and_lines_are_still_counted():
    roster = read('Name,Note\n"Okafor,\nMara","two\nlines"\n,\nBo Li,\n')
    assert [(row.line, row.given) for row in roster.rows] == [(2, "Mara"), (6, "Bo")]


def test_bad_lines_are_refused_with_their_number_and_the_others_taken():
    roster = read(
        'Name,Period\nAda One,1\n,2\nBo, Two,1\n"Cy Three,1\nDi\x07 Four,1\n'
        + "E" * 121
        + ",1\nFay Six,1\n"
    )
    assert [row.given for row in roster.rows] == ["Ada", "Fay"]
    assert [line for line, _ in roster.refused] == [3, 4, 5, 6, 7]
    why = dict(roster.refused)
    assert "no name" in why[3]
    assert "quotation marks" in why[4]
    assert "do not match" in why[5]
    assert "U+0007" in why[6]
    assert "more than 120" in why[7]


def test_a_title_above_the_headings_and_headings_printed_again_are_no_people():
    roster = read("Class list 2026\n\nFamily,Given\nOkafor,Mara\nFamily,Given\nLi,Bo\n")
    assert [(row.line, row.given) for row in roster.rows] == [(4, "Mara"), (6, "Bo")]


def test_a_spreadsheet_may_say_its_separator():
    assert read("sep=;\nName;Period\nMara Okafor;1\n").rows == (
        RosterLine(3, "Mara", "Okafor", None, None, "1"),
    )


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"\n\n",
        b"Okafor,Mara\n",
        b"Period,Homeroom\n1,2\n",
        b"PK\x03\x04rest of a workbook",
        b"Name\n\x81\x8d",
        b"Name\nMa\0ra\n",
        codecs.BOM_UTF16_LE + b"\x00\xd8",
        b"x" * (MOST_BYTES + 1),
        b"\n" * 60_000,
    ],
)
def test_what_is_no_roster_is_refused_in_one_sentence(data: bytes):
    with pytest.raises(Refused) as refusal:
        read_roster(data)
    assert str(refusal.value)
    assert "\n" not in str(refusal.value)


def test_a_file_far_too_long_for_a_roster_is_another_one():
    with pytest.raises(Refused, match=r": choose the right file$"):
        read_roster(b"x" * (MOST_BYTES + 1))


def test_five_thousand_people_are_all_read():
    roster = read("Name,ID\n" + "".join(f'"Fam{n}, Giv{n}",{n}\n' for n in range(5000)))
    assert len(roster.rows) == 5000
    assert roster.rows[-1] == RosterLine(5001, "Giv4999", "Fam4999", None, "4999")


@given(st.binary(max_size=400) | st.text(max_size=200).map(str.encode))
@settings(max_examples=150)
def test_no_bytes_do_more_than_be_refused(data: bytes):
    for some in (data, b"Name,Period\n" + data, b'Family;Given\n"' + data):
        try:
            roster = read_roster(some)
        except Refused:
            continue
        for row in roster.rows:
            assert row.given
        lines = [row.line for row in roster.rows] + [line for line, _ in roster.refused]
        assert len(set(lines)) == len(lines)


cells = st.text(
    st.characters(categories=("L", "N"), include_characters=" ,;\"'-"), min_size=1, max_size=12
).map(lambda text: f"x{text}".strip())


@given(st.lists(st.tuples(cells, cells), max_size=8), st.sampled_from([",", ";", "\t"]))
@settings(max_examples=80)
def test_names_that_were_quoted_as_rfc_4180_says_come_back(
    names: list[tuple[str, str]], separator: str
):
    # RFC 4180 section 2, rules 5 to 7: quoted cells, a quotation mark written twice.
    def quoted(cell: str) -> str:
        return '"' + cell.replace('"', '""') + '"'

    text = separator.join(("Given", "Family")) + "\r\n"
    text += "".join(separator.join(map(quoted, name)) + "\r\n" for name in names)
    rows = read(text).rows

    assert [(row.given, row.family) for row in rows] == [
        (clean(one, "it"), clean(other, "it")) for one, other in names
    ]
