"""What the card says of a roll's next step: what comes, and what Enter or a typed word does."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from rich.text import Text

from filmrack.desk.enter import ENTER, comes_words, how_to_go_on
from filmrack.desk.ink import state_style, style, styled
from filmrack.desk.said import capital
from filmrack.desk.session import Session
from filmrack.desk.themes import Palette
from filmrack.domain.attention import Standing
from filmrack.domain.student_desk import may


class OnEnter(NamedTuple):
    """What Enter does to a roll: nothing while `at_rest`; `ahead` is what it will come to.

    `own` is what it does on this screen where that is not the next step; empty for nothing.
    `closed` says that its term is closed, in place of all that.
    """

    at_rest: bool = False
    ahead: Sequence[str] = ()
    own: str | None = None
    closed: str = ""
    act: str | None = None
    """Which act that is, where it is not the next step by its name."""
    is_asked: bool = False
    """Whether the line has asked something: without a roll the card is empty then."""


def comes_lines(standing: Standing, on_enter: OnEnter, palette: Palette, width: int) -> list[Text]:
    """Return what comes next for a roll; of one whose term is closed that nothing does."""
    how = style(palette.text, bold=True)
    if on_enter.closed:
        return styled(f"{capital(on_enter.closed)}.", width, how)
    if standing.outlook is not None:
        how = state_style(standing, palette)
    return styled(f"{comes_words(standing)}.", width, how)


def does_lines(
    session: Session, standing: Standing, on_enter: OnEnter, palette: Palette, width: int
) -> list[Text]:
    """Return what Enter does then, or which word goes on while it does nothing; and that the roll
    was left behind, if it was.
    """
    if on_enter.closed:
        return []
    late = [Text("Late: left behind.", style=style(palette.left, bold=True))]
    return [
        *_enter_lines(session, standing, on_enter, palette, width),
        *(late if standing.left_behind else []),
    ]


def _enter_lines(
    session: Session, standing: Standing, on_enter: OnEnter, palette: Palette, width: int
) -> list[Text]:
    if on_enter.own is not None:
        return _keyed("Enter", on_enter.own, palette, width) if on_enter.own else []
    act = standing.next.act
    if act is None or on_enter.at_rest:
        return styled(how_to_go_on(session, standing), width, style(palette.quiet))
    if may(session.by, act):
        named = on_enter.act or act
        return _keyed("Enter", ENTER.get(named, named), palette, width)
    if act == "box":
        return _keyed("take", "typed, when you go", palette, width)
    return styled("the teacher does this", width, style(palette.quiet))


def _keyed(key: str, words: str, palette: Palette, width: int) -> list[Text]:
    """Return a key or a word to type, and what it does."""
    rows = styled(f"{key}  {words}", width, style(palette.quiet))
    rows[0].stylize(style(palette.text, bold=True), 0, len(key))
    return rows


def not_there(session: Session, standing: Standing) -> str:
    """Return how it is said that a roll does not hang where the record has it; empty where this
    desk cannot say so.
    """
    roll = standing.roll
    if roll.place.kind != "rod" or not may(session.by, "missing"):
        return ""
    return f"Not there? Type “{roll.clip or roll.number} missing”"
