"""Draws a picture of each screen, from a copy of the demo at its own clock, for the README.

Run: PYTHONPATH=. python tests/pictures.py
"""

from __future__ import annotations

import asyncio
import re
import shutil
import tempfile
from datetime import UTC, datetime
from pathlib import Path

from filmrack.desk.app import Desk
from filmrack.desk.registry import SCREENS
from filmrack.desk.view import View

ROOT = Path(__file__).resolve().parent.parent
FOLDER = ROOT / "tests" / "pictures"
SIZE = (120, 34)
COLOURS = ("dim", "daylight")
COPIES = Path(tempfile.gettempdir()) / "darkroom"
"""Where the copies lie: its name stands in a picture, which is to be the same each time."""
LARGEST = 80_000
"""Bytes of a picture: a README should not be slow to open."""


async def draw(path: Path, screen: str, colours: str) -> str:
    """Return a screen as SVG; the demo's clock stands still, so the machine's does not matter."""
    desk = Desk(path, machine=lambda: datetime.now(UTC), colours=colours)
    async with desk.run_test(size=SIZE) as pilot:
        while not desk.query(View):
            await pilot.pause()
        desk.face.go(screen)
        await pilot.pause()
        desk.draw()
        await pilot.pause()
        return slim(desk.export_screenshot(title="Filmrack"))


def slim(svg: str) -> str:
    """Leave the faces out, which a reader would fetch from elsewhere, and what says nothing."""
    svg = re.sub(r"<!--.*?-->", "", svg, flags=re.S)
    svg = svg.replace("<style>", "<style>rect { shape-rendering: crispEdges }", 1)
    svg = re.sub(r"@font-face\s*\{.*?\}", "", svg, flags=re.S)
    svg = re.sub(r' clip-path="url\(#terminal-[^"]*-line-\d+\)"', "", svg)
    svg = re.sub(r'<clipPath id="[^"]*-line-\d+">.*?</clipPath>', "", svg, flags=re.S)
    svg = re.sub(r"terminal-\d+", "t", svg)
    svg = re.sub(
        r'<text class="[^"]*" x="[^"]*" y="[^"]*" textLength="[^"]*">(&#160;)*\s*</text>', "", svg
    )
    svg = re.sub(r' shape-rendering="crispEdges"', "", svg)
    svg = re.sub(r"(\d+\.\d)\d+", r"\1", svg)
    return re.sub(r"\s*\n\s*", "\n", svg)


def main() -> None:
    FOLDER.mkdir(exist_ok=True)
    COPIES.mkdir()
    try:
        for screen in (entry.id for entry in SCREENS):
            for colours in COLOURS if screen == "dryer" else COLOURS[:1]:
                path = Path(shutil.copy(ROOT / "demo.db", COPIES / f"{screen}.db"))
                picture = asyncio.run(draw(path, screen, colours))
                name = screen if colours == COLOURS[0] else f"{screen}-{colours}"
                size = len(picture.encode())
                assert size <= LARGEST, f"{name} has {size} bytes"
                (FOLDER / f"{name}.svg").write_text(picture, encoding="utf-8")
                print(f"{name}.svg {size} bytes")
    finally:
        shutil.rmtree(COPIES)


if __name__ == "__main__":
    main()
