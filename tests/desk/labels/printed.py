"""How tests of the screen Labels go about it."""

from __future__ import annotations

from functools import partial

from filmrack.desk.labels.view import LabelsView
from tests.conftest import School
from tests.desk.at_desk import AtDesk, opened_on

labels = partial(opened_on, "labels")


def view_of(desk: AtDesk) -> LabelsView:
    return desk.app.query_one(LabelsView)


async def printed(desk: AtDesk) -> None:
    """Wait until the thread is done and the desk has heard of it."""
    await desk.app.workers.wait_for_complete()
    await desk.pilot.pause()
    await desk.pilot.pause()


def sleeve(school: School, person: int, clip: int) -> None:
    school.sleeved(person, clip)
