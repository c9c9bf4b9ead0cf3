"""The next step of a roll, done by Enter; where one word is missing, the line asks for it."""

from __future__ import annotations

from filmrack.acts import archiving, drying, lending
from filmrack.desk.ahead import sleeved_words
from filmrack.desk.archive.contact_sheet import contact_sheet
from filmrack.desk.archive.filing import Filing
from filmrack.desk.deeds import Deeds
from filmrack.desk.question import Question
from filmrack.desk.replies import found_words
from filmrack.desk.said import Said
from filmrack.desk.session import Session
from filmrack.domain.attention import Standing
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.store import rolls


def next_step(session: Session, standing: Standing) -> Said | Question:
    """Do the next step of a roll, or ask for what is missing to do it."""
    roll, deeds = standing.roll, Deeds(session)
    match standing.next.act:
        case "hang":
            return deeds.hang_as_shown(roll)
        case "flip" | "box" as act:
            return deeds.act(roll, act.upper())
        case "touch":
            return touch_question(session, roll)
        case "sleeve":
            sleeved = archiving.sleeve(session.file, session.hand(), roll.id)
            return deeds.done(roll, sleeved_words(sleeved))
        case "contact":
            return contact_sheet(session, roll, session.headline(roll))
        case "file":
            return Filing(session).file(roll)
        case "back":
            there = lending.back(session.file, session.hand(), [roll.id])[0]
            return deeds.done(roll, f"loan ended, {there.place}")
        case "found":
            there = lending.found(session.file, session.hand(), roll.id)
            return deeds.done(roll, found_words(session, roll, there))
        case "fan":
            drying.turn_dial(session.file, session.hand())
            return deeds.done(roll, "dial turned")
        case _:
            return Said(session.headline(roll), standing.next.words, select=roll.id)


def touch_question(session: Session, roll: Roll) -> Question:
    """Ask what a finger felt at both ends of a roll that hangs."""
    return Question(
        f"{session.headline(roll)}: dry or tacky?",
        lambda text: _touch(session, roll, text),
        kind="X",
        select=roll.id,
    )


def _touch(session: Session, roll: Roll, text: str) -> Said:
    answers = {"d": "DRY", "dry": "DRY", "t": "TACKY", "tacky": "TACKY"}
    felt = answers.get(text.strip().casefold())
    if felt is None:
        raise Refused(f"“{text[:20]}” is neither dry nor tacky: type “d” or “t”")
    return Deeds(session).act(rolls.by_id(session.file.conn, roll.id), felt)
