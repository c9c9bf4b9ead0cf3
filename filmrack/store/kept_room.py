"""What of a room has no table of its own, as the JSON in the file has it."""

from typing import NotRequired, TypedDict

from filmrack.domain.timetable import LeftBehindRule


class KeptRules(TypedDict):
    """The rules of a room, as JSON has them."""

    drying_lag_minutes: float
    process_minutes: float
    overnight_hours: float
    left_behind: LeftBehindRule
    box_school_days: int
    contact_school_days: int
    loan_school_days: int
    keep_names_years: int
    desk_idle_minutes: float
    helpers_sweep: bool


class KeptMaterials(TypedDict):
    """The materials of a room, as JSON has them."""

    film: str
    page: str
    paper: str
    more_pages: list[str]
    more_papers: list[tuple[str, float, float]]
    page_120: NotRequired[str]
    page_sheet: NotRequired[str]


class KeptRoom(TypedDict):
    """What of a room has no table of its own, as JSON has it."""

    name: str
    zone: str
    period_word: str
    weekdays: list[str]
    rotation: list[str]
    rotation_from: str | None
    weeks: NotRequired[list[str]]
    weeks_from: NotRequired[str | None]
    plans: list[str]
    rules: KeptRules
    materials: KeptMaterials
    initials_on_sleeves: bool
