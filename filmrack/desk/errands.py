"""The words of the line that are about the desk: lock, passphrase, backup, clock, bell."""

from __future__ import annotations

from filmrack.acts.drying import Silence, power_was_on
from filmrack.desk.day_off_words import ask_day_off
from filmrack.desk.notices import Notices
from filmrack.desk.passphrase import (
    ask_new_passphrase,
    ask_to_remove_passphrase,
    ask_to_unlock,
)
from filmrack.desk.question import Question
from filmrack.desk.role import Role
from filmrack.desk.said import Said
from filmrack.desk.session import Session
from filmrack.domain.clock import clock, time_words, whole_day
from filmrack.domain.counted import counted
from filmrack.domain.yes_or_no import yes_or_no
from filmrack.store.backup import back_up


def errand(words: str, session: Session, role: Role, notices: Notices) -> Said | Question | None:
    """Do what a command says, or ask for what it needs; None for a command of none of these."""
    match words:
        case "teacher":
            return ask_to_unlock(session, role)
        case "lock":
            role.lock()
            return Said("Student desk", "locked; the teacher types “teacher”")
        case "passphrase":
            return ask_new_passphrase(session, role)
        case "no passphrase":
            return ask_to_remove_passphrase(session)
        case "backup":
            return _back_up(session)
        case "catch up":
            from filmrack.desk.catching_up import begin

            return begin(session)
        case "day off":
            return ask_day_off(session)
        case "clock":
            return clock_question(session) or Said("The clock", "it is not doubted")
        case "bell":
            notices.bell = not notices.bell
            return Said("The bell", "on: it rings with each notice" if notices.bell else "off")
        case _:
            return None


def clock_question(session: Session) -> Question | None:
    """Return the question whether the machine's clock is right, if it is doubted."""
    why = session.clock_doubt()
    if why is None:
        return None
    zone = session.file.room().timetable.zone
    local = session.now.astimezone(zone)

    def answer(text: str) -> Said:
        if not yes_or_no(text, "look at a clock and type one"):
            return Said("The clock", "set the machine's clock: until then nothing is entered")
        session.believe_clock()
        return Said("The clock", "taken as right")

    return Question(
        "yes or no",
        answer,
        headline=f"Is it {whole_day(local)} {time_words(local)}?",
        words=f"This machine says so, but {why}. Nothing is entered before you say “yes” or “no”",
    )


def power_question(session: Session, silence: Silence) -> Question:
    """Return the question whether the power was out while no desk was alive."""
    since = clock(silence.since, session.file.room().timetable.zone, session.now)

    def answer(text: str) -> Said:
        if yes_or_no(text):
            return Said("The fan", f"taken as stopped at {since}: turn the dial again")
        power_was_on(session.file, session.hand(), silence)
        return Said("The fan", "taken as running on", done=True)

    return Question(
        "yes or no",
        answer,
        headline="Was the power out?",
        words=f"{_silent(session, silence)}. No: it ran on",
        done=True,
    )


def power_told(session: Session, silence: Silence) -> Said:
    """Return what a student desk says instead: the fan is the teacher's."""
    return Said("The fan", f"{_silent(session, silence)}: the teacher says whether it ran on")


def _silent(session: Session, silence: Silence) -> str:
    zone, now = session.file.room().timetable.zone, session.now
    since = clock(silence.since, zone, now)
    until = clock(now, zone, now)
    return f"No desk was alive from {since} to {until}, so the fan is taken as stopped at {since}"


def _back_up(session: Session) -> Said:
    zone = session.file.room().timetable.zone
    stamp = f"{session.now.astimezone(zone):%Y-%m-%d-%H%M%S}"
    path = session.path
    made = back_up(session.file, path.with_name(f"{path.stem}-{stamp}{path.suffix}"))
    return Said(
        "Backup made", f"{made.file.absolute()}: {counted(made.rolls, 'roll')}, read back and whole"
    )
