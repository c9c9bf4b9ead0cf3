"""What is to be heeded when film is loaded, hung or flipped stands in the desk's answer."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from filmrack.acts import clips
from filmrack.acts.refitting import refit
from filmrack.desk.next_step import next_step
from filmrack.desk.said import Said
from filmrack.desk.sentences import Sentences
from filmrack.desk.session import Session
from filmrack.domain.clip import Lost
from filmrack.domain.codes import clip_code, person_code
from filmrack.store import rolls
from filmrack.store.standings import see
from tests.conftest import OLU, TUESDAY_9_00, School


@pytest.fixture
def session(school: School) -> Iterator[Session]:
    opened = Session(school.file.path, lambda: TUESDAY_9_00)
    yield opened
    opened.close()


@pytest.fixture
def low(school: School) -> School:
    """A dryer of 1.20 m, for film of 1.63 m."""
    room = school.file.room()
    refit(
        school.file,
        school.hand(),
        room._replace(dryers=(room.dryers[0]._replace(clear_height_mm=1200),)),
    )
    return school


def test_a_long_strip_that_is_hung_by_a_scan_is_to_be_looped(low: School, session: Session):
    sentences = Sentences(session)
    for code in (person_code(OLU), clip_code(17, "A")):
        sentences.say(code)
    said = sentences.say("17 rod 3")
    assert "Loop it over the rod, or cut it between two frames" in said.words


def test_enter_on_the_next_step_tells_it_too(low: School, session: Session):
    sentences = Sentences(session)
    for code in (person_code(OLU), clip_code(17, "A")):
        sentences.say(code)
    roll = rolls.on_clip(session.file.conn, 17)
    assert roll is not None
    standing = see(session.file, [roll], session.now).standings[0]
    said = next_step(session, standing)
    assert isinstance(said, Said)
    assert "Turn the dial to 1 h" in said.words
    assert "Loop it over the rod" in said.words


def test_a_clip_without_a_hook_is_told_at_loading_and_at_the_flip(school: School, session: Session):
    clips.lose(school.file, school.hand(), 17, Lost("hook", "A"))
    sentences = Sentences(session)
    sentences.say(person_code(OLU))
    assert "A has no hook: bottom only" in sentences.say(clip_code(17, "B")).words
    assert "A has no hook: bottom only" in sentences.say("17 rod 2").words
    assert "cannot be flipped: a hook of it is noted as lost" in sentences.say("17 flip").words
