"""The one list of screens and commands: footer, help and the line's hits all read it."""

from typing import NamedTuple

from filmrack.domain.names import folded


class ScreenEntry(NamedTuple):
    """A screen: `words` are what else its name may be when it is typed, `says` are lines that
    mean something on it alone, each with what it means.
    """

    id: str
    title: str
    purpose: str
    words: tuple[str, ...] = ()
    teacher: bool = False
    """Only a teacher's desk shows it."""
    helper: bool = False
    """A student desk shows it too where the room lets helpers sweep."""
    says: tuple[tuple[str, str], ...] = ()

    @property
    def names(self) -> tuple[str, ...]:
        """Return what it may be called when it is typed, in small letters."""
        return (self.title.casefold(), *self.words)


SCREENS = (
    ScreenEntry("board", "Board", "this and the last period's rolls, for everyone to read"),
    ScreenEntry(
        "dryer",
        "Dryer",
        "what hangs in it, rod by rod; late is left behind",
        ("cabinet", "rods", "due"),
    ),
    ScreenEntry(
        "boxes",
        "Boxes",
        "who lies in the period boxes, and since when",
        ("box",),
        teacher=True,
        helper=True,
    ),
    ScreenEntry(
        "sweep",
        "Sweep",
        "empty the dryer at the end of the day",
        ("close the dryer", "close up", "empty the dryer", "end of the day", "end of day"),
        teacher=True,
        helper=True,
        says=(
            ("Enter · 6", "the count is right: dry film goes to its box, the rest hangs on"),
            ("5", "so many hang there: scan each, or say which is missing"),
            ("71", "more than the rod has positions: it is clip 71"),
            ("17 wet", "a finger finds it wet: it hangs on"),
            ("clip 17 · 17 20 31", "they are there, and go to their box; wet film is asked about"),
            ("box all", "film that is not dry goes to its box too"),
            ("next · finish", "pass the rod by · to the end, and there finish"),
            ("6 missing · jun missing", "clip 6 is not there · Jun's strip on this rod is not"),
            ("rod 1 10", "rod 1 is the one in hand, and 10 hang there"),
            ("sweep again", "begin another sweep after this one is finished"),
        ),
    ),
    ScreenEntry(
        "archive",
        "Archive",
        "sleeves, contact sheets, binders, loans",
        ("binders",),
        teacher=True,
        says=(
            ("sleeve 6x6 35", "cut for another page, or other frames than the film says"),
            ("a4 · contact a4 4, 11", "contact sheets on that paper · with its picks"),
            ("picks 12 14 · unpick 12", "frames chosen on its contact sheet · not that one"),
            ("file 3 · binder 3", "filed there · in hand: then scan sleeve after sleeve"),
            (
                "lend mara to Ms Novak 2 weeks · end loan",
                "whose film, to whom, how long · it is here again",
            ),
            ("hand back · discard blank film", "to its owner for good · thrown away, and why"),
            ("shelve 3 · shelve 24F-02", "old sleeves without a history: then whose each is"),
            (
                "mark missing · found · claim jun",
                "not where it should be · there again · whose it is",
            ),
            ("15 cut · 26F-0142 lend jun", "on any screen: a clip or a roll's number goes first"),
        ),
    ),
    ScreenEntry(
        "labels",
        "Labels",
        "print clip tags, sleeve labels and sheets",
        ("print",),
        teacher=True,
        says=(
            ("clips 1-60 · sleeves 0142", "what is printed, and which of it"),
            ("from 5 · a4-21 · 600 dpi", "from that label on · on it · how fine"),
            ("view · print · stop", "see the file · to the printer · end it"),
            ("labels clips 1-60", "on any screen: opens Labels with that chosen"),
        ),
    ),
    ScreenEntry(
        "room",
        "Room",
        "timetable, dryers, clips, people, backups",
        ("settings",),
        teacher=True,
        says=(
            ("drying record", "when to flip is learned from touches and cannot be set"),
            ("rules · rods · people", "go to that section; ← and → go out and in"),
            ("40 · yes · 18 dec", "a new value of the selected row; then Enter changes it"),
            (
                "1 8:00-8:50, free 12:00-12:40",
                "classes of a day, and when nobody comes",
            ),
            ("2 3 1 · mon · none", "in another order · as that plan · nobody comes; Enter first"),
            ("remove", "take the selected entry of a list away"),
            ("day off 24 dec · day off 21 dec to 1 jan", "no school then; at any screen"),
            ("clip 17 hook A lost", "or tag, retired, whole: what a clip pair is, at any screen"),
        ),
    ),
)


def screen_entry(screen_id: str) -> ScreenEntry:
    """Return the entry of a screen."""
    return next(entry for entry in SCREENS if entry.id == screen_id)


class CommandEntry(NamedTuple):
    """A command of the line, beside scans and names."""

    words: str
    does: str
    teacher: bool = False
    helper: bool = False
    other_words: tuple[str, ...] = ()
    """What else it may be called when it is typed."""

    @property
    def names(self) -> tuple[str, ...]:
        """Return all that it may be called."""
        return (self.words, *self.other_words)


NOT_PUT_AWAY = (
    *("not put away", "what is not put away", "what is left", "open rolls"),
    *("what keeps the term from closing", "what keeps it from closing", "what keeps the term open"),
)
"""What else the report of a term is asked for by: closing speaks of rolls not put away."""

COMMANDS = (
    CommandEntry("help", "what this screen is for, and every key"),
    CommandEntry(
        "undo", "take back the last act of this desk", other_words=("take back", "wrong", "oops")
    ),
    CommandEntry("fan", "you turned the fan's dial, to the room's hours", teacher=True),
    CommandEntry("fan off", "the fan was found off", teacher=True),
    CommandEntry("unknown", "hang a roll without an owner"),
    CommandEntry(
        "colours", "daylight, dim, or the terminal's own", other_words=("colors", "themes")
    ),
    CommandEntry("bell", "a bell with each notice, on or off"),
    CommandEntry("clock", "say whether the machine's clock is right"),
    CommandEntry("teacher", "unlock the teacher's desk with the passphrase"),
    CommandEntry("lock", "make this a student desk again", teacher=True),
    CommandEntry("day off", "no school on a day: “day off 24 dec”, or from one to another", True),
    CommandEntry("catch up", "type in a hang sheet from a day without power", teacher=True),
    CommandEntry(
        "term report",
        "where its rolls are, and what keeps it from closing",
        teacher=True,
        other_words=NOT_PUT_AWAY,
    ),
    CommandEntry("figures", "the figures of the term as a picture", teacher=True),
    CommandEntry("hand-back list", "which film its owners get for good, at its end", teacher=True),
    CommandEntry("close term", "nothing of it can be changed from then on", teacher=True),
    CommandEntry("reopen term", "let a closed term be changed again", teacher=True),
    CommandEntry("shelve", "sleeves without a history, one after the other", teacher=True),
    CommandEntry("backup", "copy the darkroom file, beside it", teacher=True),
    CommandEntry("passphrase", "set the passphrase that makes student desks", teacher=True),
    CommandEntry("no passphrase", "let every desk be the teacher's", teacher=True),
    CommandEntry("quit", "leave the desk", teacher=True),
)


class SectionEntry(NamedTuple):
    """A section of the screen Room: the first of `words` opens it from every screen, and so do the
    others; `on_room` are words that mean something else there, and open it on Room alone.
    """

    id: str
    title: str
    does: str
    words: tuple[str, ...]
    on_room: tuple[str, ...] = ()


_MATERIALS = ("papers", "film", "films", "pages", "materials")

SECTIONS_OF_ROOM = (
    SectionEntry("today", "Today", "which classes meet today", ("today",)),
    SectionEntry("naming", "This room", "its name, its zone", ("time zone", "zone"), ("name",)),
    SectionEntry(
        "timetable",
        "Timetable",
        "the classes of each day",
        ("timetable", "lunch", "letters"),
        ("plans",),
    ),
    SectionEntry(
        "days", "Terms, days off", "the terms, and days without school", ("days off", "terms")
    ),
    SectionEntry("periods", "Periods, boxes", "the periods and their boxes", ("periods",)),
    SectionEntry("dryers", "Dryers, rods", "the dryers and their rods", ("dryers",), ("rods",)),
    SectionEntry("binders", "Binders", "the binders", (), ("binders",)),
    SectionEntry("materials", "Film and paper", "film, pages and papers", _MATERIALS),
    SectionEntry("rules", "Rules", "how long film lies, loans, and the other rules", ("rules",)),
    SectionEntry("people", "People", "who is in which period", ("people", "roster", "persons")),
    SectionEntry("clips", "Clips", "the clip pairs", ("clips", "clip pairs")),
    SectionEntry("drying", "Drying record", "what touch checks have taught", ("drying record",)),
    SectionEntry(
        "student", "Student desk", "what a student desk may do", ("student desk",), ("students",)
    ),
    SectionEntry("file", "This file", "where the darkroom file lies, its backups", ("this file",)),
)

ROOM_SECTIONS = tuple(
    CommandEntry(one.words[0], one.does, teacher=True, other_words=one.words[1:])
    for one in SECTIONS_OF_ROOM
    if one.words
)
"""Those that have a name which opens them from every screen."""

CALLED = (*COMMANDS, *ROOM_SECTIONS)
"""All that a hit of the line can be beside rolls, people and screens."""


def called_alike(text: str) -> str:
    """Return what a typed word opens wherever it means nothing else: a screen, or a section of
    Room; empty for nothing.
    """
    said = folded(text)
    for screen in SCREENS:
        if said in screen.names:
            return f"the screen {screen.title}"
    found = next((entry.words for entry in ROOM_SECTIONS if said in entry.names), "")
    return f"{found} in Room" if found else ""


def command_called(text: str) -> str:
    """Return the command that is called just like a line; empty for none."""
    said = folded(text)
    return next((entry.words for entry in COMMANDS if said in entry.names), "")


_NO_ANSWERS = ("undo", "help", "quit", "catch up", "term report", "close term", "reopen term")


def is_no_answer(text: str) -> bool:
    """Tell whether a line is an order that nothing is ever called like."""
    return command_called(text) in _NO_ANSWERS


def is_undo(text: str) -> bool:
    """Tell whether a line says undo, by one of its names."""
    return command_called(text) == "undo"


def open_to(entry: ScreenEntry | CommandEntry, by: str) -> bool:
    """Tell whether a screen or a command is for a desk of this kind, see `student_desk.By`."""
    return by == "teacher" or not entry.teacher or (entry.helper and by == "helper desk")


SENTENCES = (
    ("jun", "find by three letters of a name, as of Juniper"),
    ("17", "scan or type a clip: who it is, and its next step with Enter"),
    ("load jun 17 · 17 jun", "clip 17 carries Juniper's roll: loaded"),
    ("17 clip 18", "wrong clip: that roll is on clip 18, nothing else changes"),
    ("hang 17 · 17 rod 3", "it hangs on its owner's rod · there"),
    ("17 flip · 17 dry · 17 tacky", "flipped · touched at both ends"),
    ("17 take · 17 box", "with its owner · to its period's box"),
    ("17 missing · 17 found", "it is not where it should be · there again"),
    ("rod 3 flip · rod 3 box", "what is wet on it · every roll on it"),
    ("rod 3 · box 2", "what hangs on it · what lies in it"),
    ("free clips", "which clip pairs are on no roll"),
)
