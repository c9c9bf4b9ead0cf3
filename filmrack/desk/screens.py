"""Which class draws which screen; each is imported when it is first shown."""

from __future__ import annotations

from importlib import import_module

from filmrack.desk.view import View

_CLASSES = {
    "board": "BoardView",
    "dryer": "DryerView",
    "boxes": "BoxesView",
    "sweep": "SweepView",
    "archive": "ArchiveView",
    "labels": "LabelsView",
    "room": "RoomView",
}


def view_class(screen_id: str) -> type[View]:
    """Return the class of a screen, which is named as its module is."""
    found: type[View] = getattr(import_module(f"filmrack.desk.{screen_id}"), _CLASSES[screen_id])
    return found
