"""What a room decides: its usual materials, and its own numbers."""

from typing import TYPE_CHECKING, NamedTuple

from filmrack.domain.dryer import OVERNIGHT_HOURS
from filmrack.domain.timetable import LeftBehindRule

if TYPE_CHECKING:  # most rooms have no paper of their own, and a lookup must not wait for it
    from filmrack.domain.contact import Paper


class Materials(NamedTuple):
    """What the room works with when nobody says otherwise, and what it has beyond the usual."""

    film: str = "135-36"
    page: str = "7x5"
    paper: str = "8x10in"
    more_pages: tuple[str, ...] = ()
    """Sleeve pages beyond those that every room has: `8x5`."""
    more_papers: "tuple[Paper, ...]" = ()
    """Papers beyond those that every room has."""
    page_120: str = "4x3"
    """The page for 120 film, which the pockets of the other one are too narrow for."""
    page_sheet: str = "2x2"
    """The page for sheets, one in each pocket."""

    def page_for(self, gauge: str) -> str:
        """Return the page for film of a gauge: `135`, `120` or `sheet`."""
        return {"120": self.page_120, "sheet": self.page_sheet}.get(gauge, self.page)


class Rules(NamedTuple):
    """The room's own numbers. All are common practice and the teacher's to change."""

    drying_lag_minutes: float = 3.0
    """Between the bell and the last moment a student can still fetch a roll."""
    process_minutes: float = 35.0
    """From the first pour to hanging."""
    overnight_hours: float = OVERNIGHT_HOURS
    """Film that hung so long is dry."""
    left_behind: LeftBehindRule = "day_end"
    box_school_days: int = 5
    """A roll may lie in its box so long before it is named."""
    contact_school_days: int = 10
    """A sleeve may go so long without a contact sheet before it is named."""
    loan_school_days: int = 10
    keep_names_years: int = 2
    desk_idle_minutes: float = 5.0
    """After so long without a key the teacher's desk is a student desk again."""
    helpers_sweep: bool = False
    """Whether a student desk may empty the dryer too, for helpers and substitutes."""
