"""Slips of a finished sweep: what they say, where they lie, and when they are out of date."""

from __future__ import annotations

import re
from datetime import timedelta
from pathlib import Path

import pypdfium2
import pytest

from filmrack.domain.codes import clip_code
from filmrack.store import rolls
from tests.desk.at_desk import at_desk
from tests.desk.sweep.at_sweep import EVENING, finished, sweep_begun


async def test_the_slips_name_what_is_missing_and_lie_where_all_prints_go(
    forty: Path, documents: Path
):
    async with sweep_begun(forty) as here:
        await here.type("5")
        await here.press("enter")
        for clip in (1, 2, 3, 4, 5):
            await here.scan(clip_code(clip, "A"))
        await here.press("end", "enter", "enter")
        (slips,) = documents.glob("sweep-slips-*.pdf")
        assert "1 slip saved as a PDF" in here.screen
        words = pypdfium2.PdfDocument(slips)[0].get_textpage().get_text_range()
        assert rolls.by_id(here.app.session.file.conn, 6).number in words
        await here.press("enter")
        assert len(list(documents.glob("sweep-slips-*.pdf"))) == 1
        assert "saved already: type “slips” for another PDF" in here.screen
        await here.type("slips")
        await here.press("enter")
        assert len(list(documents.glob("sweep-slips-*.pdf"))) == 2


async def test_what_turns_up_after_the_end_leaves_the_missing_and_its_slips_are_printed_anew(
    forty: Path, documents: Path
):
    async with sweep_begun(forty) as here:
        await here.say("5")
        for clip in (1, 2, 3, 4, 5):
            await here.scan(clip_code(clip, "A"))
        await here.press("end", "enter", "enter")
        assert "1 slip saved as a PDF" in here.answer
        assert "slips printed before that are out of date" not in here.screen
        await here.say("6 box")
        here.app.face.go("sweep")
        await here.pilot.pause()
        assert "missing, last seen" not in here.screen
        assert "was missing and turned up; it is now" in here.screen
        assert re.search(r" 6 +Student6 H\. +box 1", here.screen)
        assert "6 in box 1" in here.screen
        told = "Found or missed at 17:00: slips printed before that are out of date"
        assert told in " ".join(here.screen.split())
        assert re.search("Enter +save new slips for the boxes as a PDF", here.screen)
        await here.wait(minutes=4)
        await here.press("enter")
        assert "out of date" not in here.screen
        words = [
            pypdfium2.PdfDocument(each)[0].get_textpage().get_text_range()
            for each in sorted(documents.glob("sweep-slips-*.pdf"))
        ]
        assert ["last seen rod 1" in each for each in words] == [True, False]
    async with sweep_begun(forty, now=EVENING + timedelta(minutes=9)) as here:
        assert told in " ".join(here.screen.split())  # not since those of 17:04


async def test_what_is_said_to_be_missing_after_the_end_is_on_no_slip_printed_before(
    forty: Path, documents: Path
):
    async with at_desk(forty, now=EVENING) as here:
        await finished(here)
        await here.say("slips")
        await here.say("clip 3 missing")
        assert "slips printed before that are out of date" in " ".join(here.screen.split())
        await here.say("undo")
        assert "out of date" not in here.screen


@pytest.mark.parametrize("words", ["print", "print slips", "slips"])
async def test_print_means_the_slips_once_a_sweep_is_finished(
    forty: Path, documents: Path, words: str
):
    async with at_desk(forty, now=EVENING) as here:
        await finished(here)
        await here.say(words)
        assert here.open == "sweep"
        assert "saved as a PDF" in here.answer
        assert "print it, one to lie in each box" in here.answer
        assert list(documents.glob("sweep-slips-*.pdf"))
