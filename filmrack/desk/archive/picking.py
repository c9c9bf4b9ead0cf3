"""Frames picked on a contact sheet when somebody has looked at it, and picked no longer."""

from __future__ import annotations

from collections.abc import Sequence

from filmrack.acts import archiving
from filmrack.desk.archive.replies import archive_headline, done
from filmrack.desk.question import Question
from filmrack.desk.said import Said
from filmrack.desk.session import Session
from filmrack.domain.counted import frames_words
from filmrack.domain.journey import why_not
from filmrack.domain.picks import picks_in, refuse_unpicked
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll


def pick(session: Session, roll: Roll, frames: str) -> Said | Question:
    """Keep frames picked on the last contact sheet of a roll; ask for them where none are said.

    Raises Refused for a roll without a sheet: nothing is asked then.
    """

    def picked(text: str) -> Said:
        made = archiving.picks(session.file, session.hand(), roll.id, picks_in(text))
        there = frames_words(made.sheets[-1].picks)
        return done(session, roll, f"picked on its contact sheet: {there}")

    if frames.strip() or session.closed_words(roll):
        return picked(frames)
    if why := why_not(roll, "picks"):
        raise Refused(why)
    return Question(
        "which frames? Such as 12, 14", picked, headline=archive_headline(session, roll)
    )


def unpick(session: Session, roll: Roll, frames: str) -> Said | Question:
    """Keep that frames are picked no longer; ask for them where none are said.

    Raises Refused for a roll without picks: nothing is asked then.
    """

    def taken_back(text: str) -> Said:
        wrong = picks_in(text)
        left = archiving.unpick(session.file, session.hand(), roll.id, wrong).picks
        return done(session, roll, unpick_words(wrong, left))

    if frames.strip() or session.closed_words(roll):
        return taken_back(frames)
    if not roll.picks:
        refuse_unpicked(roll, [])
    return Question(
        f"which picks are taken back? It has {frames_words(roll.picks)}",
        taken_back,
        headline=archive_headline(session, roll),
    )


def unpick_words(wrong: Sequence[int], left: Sequence[int]) -> str:
    """Return which picks are taken back, and which are left."""
    stays = f"{frames_words(left)} stay picked" if left else "none is left"
    return f"no longer picked: {frames_words(wrong)}; {stays}"
