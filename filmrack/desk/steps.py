"""The next step of a roll, done by Enter; where one word is missing, the line asks for it."""

from __future__ import annotations

from filmrack.acts import archiving, drying, hanging, lending
from filmrack.desk.ahead import sleeved_words
from filmrack.desk.contact_sheet import contact_sheet
from filmrack.desk.deeds import Deeds
from filmrack.desk.filing import Filing
from filmrack.desk.now import Now
from filmrack.desk.question import Question
from filmrack.desk.replies import comes_next
from filmrack.desk.said import WRONG, Said, also, dial, headline
from filmrack.desk.session import Session
from filmrack.domain.attention import Standing
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.store import rolls


def next_step(session: Session, now: Now, standing: Standing) -> Said | Question:
    """Do the next step of a roll, or ask for what is missing to do it."""
    roll = standing.roll
    whom = headline(roll, now.owner(roll))

    def done(words: str) -> Said:
        return Said(whom, f"{words}. {WRONG}", select=roll.id, done=True)

    match standing.next.act:
        case "hang":
            hung = hanging.hang(session.file, session.hand(), roll=roll.id)
            told = f"{comes_next(session, hung.roll)}{also(hung.warnings)}{dial(hung.dial_hours)}"
            return done(f"hung on {hung.roll.place}{told}")
        case "flip" | "box" as act:
            return Deeds(session).act(roll, act.upper())
        case "touch":
            return touch_question(session, roll)
        case "sleeve":
            sleeved = archiving.sleeve(session.file, session.hand(), roll.id)
            return done(sleeved_words(sleeved))
        case "contact":
            return contact_sheet(session, roll, whom)
        case "file":
            return Filing(session).file(roll)
        case "back":
            there = lending.back(session.file, session.hand(), [roll.id])[0]
            return done(f"loan ended, {there.place}")
        case "found":
            there = lending.found(session.file, session.hand(), roll.id)
            return done(f"found, {there.place}")
        case "fan":
            drying.turn_dial(session.file, session.hand())
            return done("dial turned")
        case _:
            return Said(whom, standing.next.words, select=roll.id)


def touch_question(session: Session, roll: Roll) -> Question:
    """Ask what a finger felt at both ends of a roll that hangs."""
    whom = headline(roll, session.owner(roll))
    return Question(
        f"{whom}: dry or tacky?",
        lambda text: _touch(session, roll, text),
        kind="X",
        select=roll.id,
    )


def _touch(session: Session, roll: Roll, text: str) -> Said:
    answers = {"d": "DRY", "dry": "DRY", "t": "TACKY", "tacky": "TACKY"}
    felt = answers.get(text.strip().casefold())
    if felt is None:
        raise Refused(f"{text[:20]!r} is neither dry nor tacky: type d or t")
    return Deeds(session).act(rolls.by_id(session.file.conn, roll.id), felt)
