"""What a teacher says in the archive of the selected roll, and of the binder in hand."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from filmrack.acts import archiving, lending, owning
from filmrack.desk.sentences import Said
from filmrack.desk.session import Session
from filmrack.desk.steps import Question
from filmrack.domain.asking import code_in, parse
from filmrack.domain.binder import binder_number
from filmrack.domain.names import Person
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.store import archive, people, search

_ALONE = frozenset({"back", "found", "mark missing", "hand back"})
_WITH_MORE = ("lend", "discard", "note", "sleeve", "contact", "file")


class BinderInHand(NamedTuple):
    """The binder that is open: what is scanned goes into it, and what Enter files.

    `period` is the one for whose rolls it was named; for another one Enter asks again.
    """

    term: str
    number: int
    period: int | None

    def is_for(self, roll: Roll) -> bool:
        """Tell whether Enter files a roll in it without asking."""
        return roll.term == self.term and self.period in (None, roll.period)

    def __str__(self) -> str:
        """Return it as people read it: `26F-03`."""
        return f"{self.term}-{self.number:02d}"


class Words:
    """Takes the words of one desk; each act says whom it was about and how it is taken back."""

    def __init__(self, session: Session) -> None:
        self.session = session
        self.binder: BinderInHand | None = None

    def understands(self, text: str) -> bool:
        """Tell whether a line is one of these words, or a scan that belongs to the binder."""
        line = " ".join(text.casefold().split())
        if line in _ALONE or line.split(" ")[0] in _WITH_MORE:
            return True
        return self._binder_in(text) is not None or self._scanned(text) is not None

    def say(self, text: str, roll: Roll | None) -> Said | Question:
        """Do what a line says with the selected roll. Raises Refused when it cannot be meant."""
        binder = self._binder_in(text)
        if binder is not None:
            return self._take_up(*binder)
        scanned = self._scanned(text)
        if scanned is not None and self.binder is not None:
            return self._put(search.which(self.session.file.conn, scanned), self.binder)
        if roll is None:
            raise Refused(f"{text[:20]} what? Select a roll first")
        line = " ".join(text.split())
        if line.casefold() in _ALONE:
            return self._alone(line.casefold(), roll)
        verb, _, more = line.partition(" ")
        return self._with_more(verb.casefold(), more.strip(), roll)

    def file(self, roll: Roll) -> Said | Question:
        """File a roll in the binder in hand; ask for one when there is none for its period."""
        if self.binder is not None and self.binder.is_for(roll):
            return self._put(roll, self.binder)

        def answer(text: str) -> Said:
            number = binder_number(text, [roll])
            said = self._put(roll, BinderInHand(roll.term, number, roll.period))
            self.binder = BinderInHand(roll.term, number, roll.period)
            return said

        return Question(f"{self._headline(roll)}: which binder of {roll.term}?", answer, kind="A")

    def owner(self, roll: Roll) -> Person | None:
        """Return whose a roll is."""
        if roll.person is None:
            return None
        return people.read_people(self.session.file.conn, [roll.person]).get(roll.person)

    def _alone(self, words: str, roll: Roll) -> Said:
        file, hand, number = self.session.file, self.session.hand(), roll.id
        match words:
            case "back":
                there = lending.back(file, hand, [number])[0]
                return self._done(roll, f"brought back, {there.place}")
            case "found":
                there = lending.found(file, hand, number)
                return self._done(roll, f"found, {there.place}")
            case "mark missing":
                there = lending.missing(file, hand, [number])[0]
                return self._done(roll, f"missing, last seen {there.seen}")
            case _:
                lending.release(file, hand, [number])
                return self._done(roll, "handed back for good")

    def _with_more(self, verb: str, more: str, roll: Roll) -> Said | Question:
        file, session, number = self.session.file, self.session, roll.id
        match verb:
            case "lend":
                return self._lend(roll, more)
            case "discard":

                def discard(why: str) -> Said:
                    lending.discard(file, session.hand(), number, why)
                    return self._done(roll, "discarded")

                if not more and roll.filed_at is None:
                    return self._ask(roll, "why is it thrown away?", discard)
                return discard(more)
            case "note":

                def note(text: str) -> Said:
                    owning.note(file, session.hand(), number, text)
                    return self._done(roll, "noted")

                return note(more) if more else self._ask(roll, "what is worth knowing?", note)
            case "sleeve":
                page, _, frames = more.partition(" ")
                sleeved = archiving.sleeve(
                    file,
                    session.hand(),
                    number,
                    page or None,
                    _whole(frames, "frames") if frames else None,
                )
                strips = [s.last - s.first + 1 for each in sleeved.pages for s in each.strips]
                return self._done(roll, f"cut {' '.join(map(str, strips))}, label queued")
            case "contact":
                picks = [_whole(pick, "a frame") for pick in more.replace(",", " ").split()]
                made = archiving.contact(file, session.hand(), number, picks=picks)
                chosen = f", picks {', '.join(map(str, picks))}" if picks else ""
                return self._done(roll, f"contact sheet on {made.sheets[-1].paper}{chosen}")
            case _:
                if not more:
                    return self.file(roll)
                binder = BinderInHand(roll.term, binder_number(more, [roll]), roll.period)
                return self._put(roll, binder)

    def _lend(self, roll: Roll, more: str) -> Said | Question:
        """`lend`, `lend mara`, `lend mara 2026-12-04`, `lend “art office” until 2026-12-04`."""
        words = more.split()
        until = words.pop() if words and words[-1][:4].isdecimal() and "-" in words[-1] else ""
        if words and words[-1].casefold() == "until":
            words.pop()
        who = " ".join(words)
        if not who:
            prompt = "who borrows it? A guest's name: in “quotes”"
            return self._ask(roll, prompt, lambda text: self._lend(roll, f"{text} {until}"))
        guest = who.strip("\"“”„'").strip() if who[0] in '"“„' else None
        person = None if guest is not None else search.who(self.session.file.conn, who)
        if not until:
            whom = person.full if person else guest
            return self._ask(
                roll,
                f"to {whom} until which day? Such as 2026-12-04",
                lambda text: self._lent(roll, person, guest, text),
            )
        return self._lent(roll, person, guest, until)

    def _lent(self, roll: Roll, person: Person | None, guest: str | None, until: str) -> Said:
        lent = lending.lend(
            self.session.file,
            self.session.hand(),
            roll.id,
            until,
            person=None if person is None else person.number,
            name=guest,
        )
        due = lent.loan.until if lent.loan else until
        return self._done(roll, f"lent to {person.full if person else guest} until {due}")

    def _ask(self, roll: Roll, words: str, answer: Callable[[str], Said | Question]) -> Question:
        return Question(f"{self._headline(roll)}: {words}", answer)

    def _take_up(self, term: str, number: int) -> Said:
        period = archive.binder_period(self.session.file.conn, term, number)
        self.binder = BinderInHand(term, number, period)
        return Said(f"binder {self.binder}", "in hand. Now scan sleeve after sleeve")

    def _put(self, roll: Roll, binder: BinderInHand) -> Said:
        if roll.term != binder.term:
            raise Refused(
                f"binder {binder} is of another term than {roll.number}: file it in one of"
                f" {roll.term}"
            )
        archiving.file_in_binder(self.session.file, self.session.hand(), [roll.id], binder.number)
        return self._done(roll, f"filed in binder {binder}")

    def _binder_in(self, text: str) -> tuple[str, int] | None:
        """Return (term, number) of a binder that is typed or scanned by itself."""
        try:
            parts = parse(text)
        except Refused:
            return None
        if len(parts) != 1 or parts[0].kind != "binder":
            return None
        term, _, number = parts[0].value.rpartition("-")
        room = self.session.file.room()
        force = room.term_at(self.session.now)
        shown = term or (force.code if force else "")
        known = shown in {each.code for each in room.terms} and 1 <= int(number) <= 99
        return (shown, int(number)) if known else None

    def _scanned(self, text: str) -> str | None:
        """Return a scanned roll or sleeve while a binder is in hand."""
        if self.binder is None:
            return None
        try:
            code = code_in(text)
        except Refused:
            return None
        return text if code is not None and code.kind in ("R", "S") else None

    def _headline(self, roll: Roll) -> str:
        owner = self.owner(roll)
        return f"{roll.number} → {owner.full if owner else 'unknown roll'}"

    def _done(self, roll: Roll, words: str) -> Said:
        return Said(self._headline(roll), f"{words}. Wrong? Type undo", select=roll.id, done=True)


def _whole(text: str, what: str) -> int:
    if not (text.isascii() and text.isdecimal()):
        raise Refused(f"{text[:20]!r} is no number of {what}: write it in figures")
    return int(text[:4])
