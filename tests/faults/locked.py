"""What can be said to a desk, taken from where the desk itself has it: each word, scan and order,
of rolls in every place that a roll can be in.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator
from itertools import product
from pathlib import Path

from filmrack import acts
from filmrack.acts import archiving, fetching, hanging, lending, owning, undoing
from filmrack.acts.locking import set_passphrase
from filmrack.cli.app import COMMANDS as COMMANDS_OF_THE_LINE
from filmrack.desk import verbs
from filmrack.desk.archive import orders as archive_orders
from filmrack.desk.halves import TYPED_WORDS
from filmrack.desk.registry import COMMANDS, SCREENS, SENTENCES
from filmrack.desk.room.sections import SECTIONS
from filmrack.domain import codes
from filmrack.domain.journey import FIRST_ACTS, POSSIBLE_FROM
from filmrack.domain.roll import PLACES, Roll
from filmrack.store import rolls
from tests.conftest import IVO, MARA, OLU, School, open_school

PASSPHRASE = "three dry clips"
SECRETS = (
    *("Okafor", "Adeyemi", "Lindqvist", "S-101", "S-102"),
    *("a bicycle", "Ms Abara", "torn at frame 9", "all black"),
    *("in its sleeve", "borrowed", "handed back", "discarded"),
)
"""What is in the school's file and not for students: families, their numbers, what is noted of
rolls in the archive, who borrowed one, and where they are.
"""

WORDS_OF_CLIPS = ("lost hook a", "tag b lost", "retired", "whole")
BEHIND = ("mar", "Ms Novak 4 dec", "3", "a4 4, 11", "6x6 35", "blank film")
"""What may stand behind an order of the archive."""


def furnish(path: Path) -> None:
    """Put a roll into every place, and lock the desks of the file."""
    school = open_school(path)
    f = school.file

    def archived(clip: int, ago: float) -> int:
        roll = hanging.hang(
            f, school.hand(ago=ago), person=IVO, clip=clip, rod=2, clue="a bicycle"
        ).roll.id
        archiving.sleeve(f, school.hand(ago=ago - 50), roll)
        return roll

    archived(30, 900)
    filed, lent, returned, thrown = (archived(31 + nth, 840 - 60 * nth) for nth in range(4))
    archiving.contact(f, school.hand(ago=410), filed, picks=[9])
    archiving.file_in_binder(f, school.hand(ago=400), [filed], 3)
    owning.note(f, school.hand(ago=390), filed, "torn at frame 9")
    lending.lend(f, school.hand(ago=380), lent, "2026-11-27", to="Ms Abara")
    lending.release(f, school.hand(ago=370), [returned])
    lending.discard(f, school.hand(ago=360), thrown, "all black")
    boxed = hanging.hang(f, school.hand(ago=300), person=MARA, clip=20, rod=3).roll.id
    fetching.box(f, school.hand(ago=100), [boxed])
    fetching.take(
        f, school.hand(ago=90), hanging.hang(f, school.hand(ago=299), person=OLU, clip=21).roll.id
    )
    lost = hanging.hang(f, school.hand(ago=250), person=IVO, clip=22).roll.id
    lending.missing(f, school.hand(ago=60), [lost])
    hanging.hang(f, school.hand(ago=20), person=MARA, clip=17)
    hanging.hang(f, school.hand(ago=15), clip=23, rod=3)
    hanging.load(f, school.hand(ago=5), OLU, [19])
    hanging.load(f, school.hand(ago=4, desk="another"), OLU, [40])
    undoing.undo(f, school.hand(ago=3, desk="another"))
    set_passphrase(f, PASSPHRASE, None, school.now)
    assert {roll.place.kind for roll in all_rolls(school)} == PLACES
    f.close()


def all_rolls(school: School) -> list[Roll]:
    return rolls.read(school.file.conn, "1 ORDER BY id")


def acts_written() -> set[str]:
    """Return every act that can come into the ledger: those of a roll's journey, and whatever
    else stands as a word in an `append` among the acts.
    """
    found = {*POSSIBLE_FROM, *FIRST_ACTS}
    for module in Path(acts.__file__).parent.glob("*.py"):
        for node in ast.walk(ast.parse(module.read_text(encoding="utf-8"))):
            match node:
                case ast.Call(
                    func=ast.Attribute(attr="append", value=ast.Name(id="group")),
                    args=[ast.Constant(value=str(act)), *_],
                ):
                    found.add(act)
    return found - {"undo"}


def words() -> Iterator[str]:
    """Yield whatever is a word of its own: commands, screens, sections, verbs, examples of help."""
    for command in COMMANDS:
        yield from (command.words, *command.other_words)
    for screen in SCREENS:
        yield from (screen.title, *screen.words)
        yield from (line for example, _ in screen.says for line in example.split(" · "))
    yield from (line for example, _ in SENTENCES for line in example.split(" · "))
    for section in SECTIONS:
        yield from (section.title, *section.names)
    yield from (*TYPED_WORDS, *verbs.ANSWER_TO_VERB_ALONE, *verbs.DONE_TO, *COMMANDS_OF_THE_LINE)
    yield from (*archive_orders._VERBS, *archive_orders._OF_A_TERM)
    yield from (f"{verb} 26F" for verb in archive_orders._OF_A_TERM)
    yield from ("oka", "ade", "lin", "bicycle", "novak", "26F", "o", "person 3", "3", "?", "rod 9")


def scans(some: list[Roll]) -> dict[str, list[str]]:
    """Return codes of each kind: those of all rolls and their clips, and some of nothing."""
    found = {
        "R": [codes.roll_code(roll.term, roll.serial) for roll in some],
        "S": [codes.page_code(roll.term, roll.serial, page) for roll in some for page in (1, 2)],
        "C": [codes.clip_code(roll.clip, "A") for roll in some if roll.clip],
        "D": [codes.rod_code(rod) for rod in (1, 3, 9)],
        "B": [codes.box_code(box) for box in (1, 2, 9)],
        "A": [codes.binder_code("26F", binder) for binder in (3, 4)],
        "P": [codes.person_code(person) for person in (MARA, OLU, IVO, 99)],
        "X": [codes.action_code(action) for action in codes.ACTIONS],
    }
    assert found.keys() == codes.SHAPES.keys(), "a kind of code that no locked desk was tried with"
    found["C"] += [codes.clip_code(50, "B")]
    return found


def scanned(some: list[Roll]) -> Iterator[tuple[str, ...]]:
    """Yield every code alone, and every two of different kinds or places, one behind the other."""
    kinds = scans(some)
    yield from ((code,) for each in kinds.values() for code in each)
    firsts = [code for kind in "RCDBAP" for code in kinds[kind]]
    seconds = [*kinds["X"], *(kinds[kind][0] for kind in "DBAPC")]
    yield from ((one, other) for one, other in product(firsts, seconds) if one != other)


def ordered(some: list[Roll]) -> Iterator[str]:
    """Yield every order of every roll, as it may be typed; the longer ones of one roll that is on
    its way and of one in the archive.
    """
    named = [roll.number for roll in some]
    clips = [str(roll.clip) for roll in some if roll.clip]
    two = [next(roll.number for roll in some if roll.live is live) for live in (True, False)]
    places = ("rod 2", "box 1", "binder 3", "olu", "clip 60", "touch")
    yield from ("60 olu", "load olu 60", "hang 60", "60 rod 3")
    yield from (f"{one} {word}" for one in (*named, *clips) for word in (*TYPED_WORDS, *places))
    yield from (f"{word} {one}" for one in (*two, *clips) for word in verbs.DONE_TO)
    yield from (f"{clip} {said}" for clip in clips for said in WORDS_OF_CLIPS)
    yield from (f"{one} {verb}" for one, verb in product(named, archive_orders._VERBS))
    for one, verb in product(two, archive_orders._VERBS):
        yield f"{verb} {one}"
        yield from (f"{one} {verb} {behind}" for behind in BEHIND)
    yield from (f"rod {rod} {word}" for rod in (1, 3) for word in TYPED_WORDS)


def counted(some: list[Roll]) -> Iterator[str]:
    """Yield what a sweep takes besides: counts, rolls and clips alone, in a box, or missing."""
    named = [roll.number for roll in some] + [f"clip {roll.clip}" for roll in some if roll.clip]
    yield from (str(count) for count in range(5))
    yield from (f"{one}{more}" for one in named for more in ("", " missing", " box 1"))
    yield from ("missing", "sweep again", "finish", "undo", "")
