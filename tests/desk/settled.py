"""Wait until a desk has done all that it was told, instead of until it looks idle.

A pilot waits after each key, twice, until the process has done next to nothing for a fiftieth of a
second: half a second for a scan of a dozen keys, and on a busy machine sometimes not long enough.
What is left to do in the loop of a desk is known exactly.
"""

from __future__ import annotations

import asyncio
from typing import Any

from textual import app, pilot
from textual._context import active_app
from textual._wait import wait_for_idle

_TURNS = 10_000
"""Turns of the loop after which a desk that is still busy never comes to rest."""


async def settled(*_: float) -> None:
    """Return when no message and no frame is left to the desk, and work beside it looks idle."""
    desk = active_app.get()
    loop: Any = asyncio.get_running_loop()
    for _turn in range(_TURNS):
        await asyncio.sleep(0)
        if loop._ready:
            continue
        if any(worker.is_running for worker in desk.workers):
            return await wait_for_idle(0)
        if not _frame_is_due(desk):
            return None
        desk.screen._on_timer_update()
    raise AssertionError("the desk never comes to rest")


def _frame_is_due(desk: app.App[Any]) -> bool:
    return (
        desk.is_running and bool(desk.screen_stack) and desk.screen._update_timer._active.is_set()
    )


def wait_exactly() -> None:
    """Have each pilot wait for what is known to be left."""
    app.wait_for_idle = pilot.wait_for_idle = settled  # type: ignore[attr-defined]
