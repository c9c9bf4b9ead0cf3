"""The guides: for each of the people at work here, one page that is read in a minute."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final, NamedTuple

from filmrack.printing.bench_card import draw_cautions
from filmrack.printing.leaf import Leaf, wrap
from filmrack.printing.lettering import cap_height_mm

_HEADING, _WORDS, _TYPED, _CAUTION = 15.0, 12.0, 14.0, 11.5
_NUMBER_PT, _NUMBER_MM = 34.0, 14.0
_KEY, _KEY_PITCH = (46.0, 8.0), 9.2
_LINE, _GAP = 5.6, 6.0
"""Millimetres from line to line, and between steps."""


class GuideStep(NamedTuple):
    """What to do: its heading, why or how, and what to type or scan (shown as it is typed)."""

    heading: str
    words: str
    typed: tuple[str, ...] = ()


class GuideText(NamedTuple):
    """What a guide says: its title, whom it is for, the one thing to know, then the steps."""

    title: str
    whom: str
    gist: str
    steps: tuple[GuideStep, ...]


GUIDES: Final[Mapping[str, GuideText]] = {
    "student": GuideText(
        "Your roll, in a minute",
        "For students",
        "The board tells where your roll hangs and whether it is dry.",
        (
            GuideStep(
                "Load: say whose roll it is",
                "While your film develops, with dry hands: take a clip pair, type its number and"
                " your name. Both clips of a pair, A and B, mean your roll.",
                ("17 mara",),
            ),
            GuideStep(
                "Hang: one scan at the dryer",
                "Hang the strip on your class's rod, the second clip of the pair as weight below."
                " Scan the clip. Turn the dial as the screen says.",
                ("scan clip 17", "17 rod 3"),
            ),
            GuideStep(
                "Flip when it is due",
                "Turn the strip end for end: the other end comes to the fan. In your next class by"
                " then? A neighbour may do it.",
                ("17 flip",),
            ),
            GuideStep(
                "Touch both ends",
                "When the screen says so: a clean dry finger on the edge, at both ends, never on"
                " the pictures. Tacky film hangs on.",
                ("17 dry", "17 tacky"),
            ),
            GuideStep(
                "Take it, or box it",
                "Dry film goes with you or into your class's box. The clip stays with the roll"
                " until it is sleeved.",
                ("17 take", "17 box"),
            ),
            GuideStep(
                "Where is it?",
                "Three letters of your name, and Enter; then flip, dry or take alone means that"
                " roll. A mistake? Take back what you did last.",
                ("mar", "undo"),
            ),
        ),
    ),
    "cabinet": GuideText(
        "The dryer at the end of the day",
        "For the teacher at the open cabinet",
        "Count a rod first; scan only where the count is wrong.",
        (
            GuideStep(
                "During the day, read the top row",
                "It says how many are wet, ready or left behind, when the fan stops, and until when"
                " to start developing so that film leaves dry.",
                ("dryer",),
            ),
            GuideStep(
                "Open the sweep",
                "It names the clips of each rod. You see another? Scan it first.",
                ("sweep",),
            ),
            GuideStep(
                "The count is right: one key",
                "Dry film goes to its own period's box, other film hangs on. That too? Say so.",
                ("Enter", "box all"),
            ),
            GuideStep(
                "The count is wrong: scan that rod",
                "Type the number you counted, then scan: each clip you scan goes to its box, also"
                " when it is not dry. The screen says what hangs on a wrong rod, and what no record"
                " explains. Only one is gone? Say which.",
                ("5", "scan each clip", "17 missing"),
            ),
            GuideStep(
                "Finish, and look for what is named",
                "What should hang there and was not seen is missing, with where and when it last"
                " was; film that may hang there, as wet film does, hangs on until you say that it"
                " is gone. Nothing is boxed that was neither counted nor scanned.",
                ("Enter",),
            ),
            GuideStep(
                "Wrong, or in the dark",
                "Take back what was done last. Without power write on the hang sheet, and type that"
                " in later.",
                ("undo", "catch up"),
            ),
        ),
    ),
    "binders": GuideText(
        "The archive at the end of term",
        "For the teacher with binders",
        "Every roll has one next step until it is filed, handed back or accounted for.",
        (
            GuideStep(
                "See what the term still owes",
                "The archive lists what is not sleeved, not filed, borrowed or missing; left and"
                " right choose which.",
                ("archive", "term report"),
            ),
            GuideStep(
                "Sleeve",
                "It says where to cut and which pockets take which strips, and queues the label."
                " Hold film by its edges. The clip pair is free again.",
                ("sleeve",),
            ),
            GuideStep(
                "Print the labels that wait",
                "Try one sheet on plain paper first: at actual size, held against the stock.",
                ("labels",),
            ),
            GuideStep(
                "Contact sheet and picks",
                "The frames that are picked on it are kept with the roll; “unpick 4” takes one"
                " back.",
                ("contact", "picks 4 11"),
            ),
            GuideStep(
                "File",
                "Scan a binder, then sleeve after sleeve: each goes into it. Old sleeves that no"
                " record knows are shelved: whose each is, and nothing else.",
                ("scan binder", "shelve 3"),
            ),
            GuideStep(
                "Lend, hand back, close",
                "A loan has a date and is asked for when it is past; end it when the sleeve is"
                " here. A term closes when each roll is put away.",
                ("lend", "end loan", "hand back", "close term"),
            ),
        ),
    ),
}
"""Each guide by the name of whom it is for."""


class Guide(NamedTuple):
    """One guide as a page, for a room."""

    text: GuideText
    room: str = ""

    def draw(self, leaf: Leaf) -> None:
        """Fill a page: the one thing to know, the numbered steps, the cautions."""
        whom = f"{self.room} · {self.text.whom}" if self.room else self.text.whom
        leaf.open(self.text.title, whom)
        leaf.y += 1
        leaf.paragraph(self.text.gist, _HEADING, bold=True)
        leaf.y += _GAP
        for number, step in enumerate(self.text.steps, 1):
            _step(leaf, number, step)
        leaf.y += 1
        draw_cautions(leaf, _CAUTION)


def _step(leaf: Leaf, number: int, step: GuideStep) -> None:
    """Draw a large figure, what to do beside it, and at the right what is typed on grey."""
    top, left = leaf.y, leaf.left + _NUMBER_MM
    right = leaf.left + leaf.width - _KEY[0]
    room = right - left - 5
    figure = top + cap_height_mm(_NUMBER_PT)
    leaf.text((leaf.left, figure), str(number), _NUMBER_PT, room=_NUMBER_MM, bold=True)
    base = top + cap_height_mm(_HEADING)
    leaf.text((left, base), step.heading, _HEADING, room=room, bold=True)
    for line in wrap(step.words, _WORDS, False, room):
        base += _LINE
        leaf.text((left, base + 0.6), line, _WORDS, room=room)
    for nth, typed in enumerate(step.typed):
        _key(leaf, (right, top - 0.6 + nth * _KEY_PITCH), typed)
    leaf.y = max(base + 1, top - 1 + len(step.typed) * _KEY_PITCH) + _GAP


def _key(leaf: Leaf, at: tuple[float, float], typed: str) -> None:
    (x, y), (width, height) = at, _KEY
    leaf.pen.box(at, _KEY, line_mm=0.0, fill=0.9)
    base = y + (height + cap_height_mm(_TYPED)) / 2
    leaf.text((x + 3, base), typed, _TYPED, room=width - 6, bold=True)
