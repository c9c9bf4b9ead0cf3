"""The slips of a finished sweep: one to lie in each box, with what is missing from it."""

from __future__ import annotations

from filmrack.desk.said import Said
from filmrack.desk.session import Session
from filmrack.desk.sweep.course import SweepCourse
from filmrack.domain.counted import counted


class Slips:
    """Saves slips as a PDF where all prints go, and knows what those of this desk say."""

    def __init__(self, session: Session) -> None:
        self._session = session
        self._said: tuple[object, ...] | None = None
        """What the slips say that were saved here last."""

    def are_saved(self, course: SweepCourse) -> bool:
        """Tell whether slips were saved here that say what is so now."""
        return self._said == course.slips

    def save(self, course: SweepCourse, *, again: bool = False) -> Said:
        """Save the slips of a sweep; those that are saved already only if they are asked for
        `again`.

        Raises Refused where the sweep boxed nothing and nothing is missing.
        """
        if self.are_saved(course) and not again:
            return Said("the slips", "are saved already: type “slips” for another PDF")
        said = _print(self._session)
        self._said = course.slips
        return said


def _print(session: Session) -> Said:
    from filmrack.acts import labelling  # with all that prints
    from filmrack.acts.new_files import free_name
    from filmrack.desk.labels.press import print_folder

    local = session.now.astimezone(session.file.room().timetable.zone)
    out = free_name(print_folder(session), f"sweep-slips-{local:%Y-%m-%d-%H%M}")
    order = labelling.order(session.file, "sweepslip", [], session.now)
    labelling.print_order(session.file, order, out)
    words = f"{out}: print it, one to lie in each box, with what is missing from it"
    return Said(f"{counted(len(order.pages), 'slip')} saved as a PDF", words)
