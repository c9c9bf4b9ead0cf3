"""Which class draws which screen; each is imported when it is first shown."""

from __future__ import annotations

from importlib import import_module

from filmrack.desk.view import View

_CLASSES = {
    "board": ("board", "BoardView"),
    "dryer": ("dryer.view", "DryerView"),
    "boxes": ("boxes.view", "BoxesView"),
    "sweep": ("sweep.view", "SweepView"),
    "archive": ("archive.view", "ArchiveView"),
    "labels": ("labels.view", "LabelsView"),
    "room": ("room.view", "RoomView"),
}


def view_class(screen_id: str) -> type[View]:
    """Return the class of a screen."""
    module, name = _CLASSES[screen_id]
    found: type[View] = getattr(import_module(f"filmrack.desk.{module}"), name)
    return found
