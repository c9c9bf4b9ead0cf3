"""What every screen of the desk has in common."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual import events
from textual.message import Message

from filmrack.desk.lines import Lines
from filmrack.desk.now import Now
from filmrack.desk.session import Session
from filmrack.desk.themes import PALETTES, Palette
from filmrack.domain.attention import Standing
from filmrack.domain.roll import PLACES
from filmrack.domain.room import Room

if TYPE_CHECKING:
    from filmrack.desk.hit_order import Listed
    from filmrack.desk.question import Question
    from filmrack.desk.said import Said
    from filmrack.domain.roll import Roll


class View(Lines):
    """One screen. It draws what `Now` says and keeps which roll is selected; the line does the
    rest. Arrow keys arrive through `move`, Enter through `enter`.
    """

    class Laid(Message):
        """Its size is another now."""

    class Told(Message):
        """Long work of a screen came to its end, well or not."""

        def __init__(self, said: Said, *, refused: bool = False) -> None:
            super().__init__()
            self.said = said
            self.refused = refused

    screen_id: ClassVar[str] = ""
    shows_card: bool = True
    rests_after: ClassVar[frozenset[str]] = frozenset({"box", "owner"})
    """Places to which an act takes a roll down from here: Enter then leaves all others alone."""
    shows: ClassVar[frozenset[str]] = PLACES
    """Places whose rolls are seen here; Enter leaves others alone that were named elsewhere."""
    stays: ClassVar[bool] = False
    """Whether it goes on being shown when an act has taken a roll elsewhere."""

    def __init__(self, session: Session) -> None:
        super().__init__(id=self.screen_id)
        self.session = session
        self.does = ""
        """What Enter does instead while the line asks something."""
        self.selected: int | None = None
        """The number of the selected roll in the file."""
        self.chosen: int | None = None
        """The roll that an arrow or a click selected in a list of rolls which may be lent."""
        self.resting = False
        """Whether Enter does nothing: the selected roll went away from here, and a neighbour that
        takes its place must not be next by chance."""

    def listed(self) -> Listed | None:
        """Return the list of sleeved rolls that is shown; None where a name means first what is on
        its way.
        """
        return None

    def on_resize(self, _: events.Resize) -> None:
        """Ask to be drawn anew, since what fits is another now."""
        self.post_message(self.Laid())

    @property
    def palette(self) -> Palette:
        """Return the colours in force."""
        return PALETTES[self.app.theme]

    def draw(self, now: Now) -> None:
        """Show what is so now; called each second and after every change."""
        raise NotImplementedError

    def move(self, key: str) -> None:
        """Move the selection: up, down, left, right, first, last, page_up, page_down."""

    def select(self, roll: int) -> None:
        """Select a roll."""
        self.selected = roll
        self.resting = False

    def carry(self, roll: int) -> None:
        """Go on with the roll that was selected on the screen which was left."""
        self.select(roll)

    def turned_to(self) -> None:
        """Hear that this screen is shown from now on, and begin as it begins each time."""

    def about(self) -> int | None:
        """Return the one roll that a screen without a card shows by its number; None for none."""
        return None

    def turn_to(self, roll: int) -> None:
        """Select a roll that the line is about, wherever it is; nothing where it is not shown."""

    def keep(self, roll: int) -> None:
        """Keep a roll selected that went away from here; an arrow or a click selects the next."""
        self.select(roll)
        self.resting = True

    def put_down(self) -> None:
        """Let go of the selected roll, so that Enter does nothing."""
        self.resting = True

    def acted_on(self, _roll: int) -> str:
        """Hear which roll an act was done to, on a screen that stays; return what to say of it."""
        return ""

    def way_to_next(self) -> str:
        """Return how the next roll here is come to while Enter rests; empty where none is next."""
        return ""

    def choose(self, what: int) -> None:
        """Take a click on a spot: mostly a roll."""
        self.select(what)

    def enters_on_second_click(self, _what: int) -> bool:
        """Tell whether a second click on a spot is Enter; on what holds rolls it is nothing."""
        return True

    def enter_does(self) -> str | None:
        """Return what the footer says of Enter; None leaves it to the selected roll's next step."""
        return None

    def ahead(self, standing: Standing, room: Room) -> list[str]:
        """Return what the next step of a roll will come to, to be read before Enter."""
        if standing.outlook is not None:  # what hangs is not cut yet
            return []
        from filmrack.desk.ahead import ahead

        return ahead(standing.roll, standing.next.act, room.materials, self.paper_in_hand())

    def act_of(self, standing: Standing, room: Room) -> str | None:
        """Return the act that Enter does to a roll: its next step, or `paper` to ask for one."""
        act = standing.next.act
        if act != "contact" or self.paper_in_hand():
            return act
        from filmrack.desk.ahead import papers_asked

        return "paper" if papers_asked(standing.roll, room.materials) else act

    def paper_in_hand(self) -> str:
        """Return the paper that was chosen for contact sheets; empty for the room's."""
        return ""

    def foresee(self, _text: str) -> None:
        """Hear what is being typed, to show what it would come to."""

    def enter(self) -> Said | Question | None:
        """Take Enter on an empty line; None leaves it to the selected roll's next step."""
        return None

    def back(self) -> bool:
        """Take Escape on an empty line: let go of what this screen holds; False if nothing."""
        return False

    def escape_does(self) -> str:
        """Return what Escape on an empty line does to a roll, or to what this screen holds, as the
        footer says it; empty for nothing.
        """
        return "clear" if self.selected is not None else ""

    def reads(self, text: str) -> str:
        """Return a line as it is meant on this screen: a name can be whose strip is in hand.

        Raises Refused where more than one thing can be meant.
        """
        return text

    def tells_of(self, _roll: Roll) -> Said | None:
        """Say where a roll is that was found by name, and stay; None turns to where it is shown."""
        return None

    def takes(self, _text: str) -> bool:
        """Tell whether a line is meant for this screen, before scans and names are looked at."""
        return False

    def take(self, _text: str) -> Said | Question | None:
        """Take a submitted line that `takes` wanted; return what the desk answers."""
        return None

    def mark(self) -> str:
        """Return what is in hand here, shown before the line also while something is typed."""
        return ""

    def hint(self) -> str:
        """Return what the line says while it is empty."""
        return "a name, a number, a clip, or scan"
