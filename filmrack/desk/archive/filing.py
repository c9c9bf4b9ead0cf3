"""Filing at the desk: the binder in hand, what is scanned into it, and what Enter files."""

from __future__ import annotations

from typing import NamedTuple

from filmrack.acts.inscriptions import period_title
from filmrack.desk.ahead import without_sheet
from filmrack.desk.archive.filed import file_in
from filmrack.desk.archive.filing_doubts import SHEET_FIRST, Doubts, doubts_of
from filmrack.desk.archive.lending_words import lent_words
from filmrack.desk.archive.replies import archive_headline
from filmrack.desk.question import Question
from filmrack.desk.said import Said
from filmrack.desk.session import Session
from filmrack.domain.asking import parse
from filmrack.domain.binder import HIGHEST_BINDER, binder_number
from filmrack.domain.codes import read
from filmrack.domain.counted import counted
from filmrack.domain.journey import why_unsleeved
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.domain.room import Binder, Room
from filmrack.store import rolls, search
from filmrack.store.binders import binder_period, binders_of
from filmrack.store.terms import closed

_NOT_NAMED = "no binder is named yet: type its number, scan its spine, or press Esc"


def _whose(room: Room, binder: Binder) -> str:
    title = period_title(room, binder.period)
    return f"{binder.number} ({title})" if title else str(binder.number)


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
        """Return it as its spine says it: `26F-03`."""
        return f"{self.term}-{self.number:02d}"


class Filing:
    """Files what one desk says; keeps the binder in hand."""

    def __init__(self, session: Session) -> None:
        self._session = session
        self.binder: BinderInHand | None = None
        self._last: dict[tuple[str, int | None], str] = {}
        """The binder in which rolls of a term and a period were filed last."""

    def named(self, text: str) -> tuple[str, int] | None:
        """Return (term, number) of a binder that is typed or scanned by itself."""
        try:
            parts = parse(text)
        except Refused:
            return None
        if len(parts) != 1 or parts[0].kind != "binder":
            return None
        term, _, number = parts[0].value.rpartition("-")
        code = term or self._session.term_in_force
        terms = {each.code for each in self._session.file.room().terms}
        known = code in terms and 1 <= int(number) <= HIGHEST_BINDER
        return (code, int(number)) if known else None

    @property
    def in_hand(self) -> str:
        """Return the binder in hand as people say it; empty for none."""
        return self._called(self.binder) if self.binder is not None else ""

    def _called(self, binder: BinderInHand) -> str:
        return self._session.binder(binder.term, binder.number)

    def to_file(self, roll: Roll | None) -> Roll | None:
        """Return a sleeve if filing comes next, as it does with a binder in hand."""
        if roll is None or roll.place.kind != "sleeve":
            return None
        in_hand = self.binder is not None and self.binder.is_for(roll)
        return roll if roll.sheets or in_hand else None

    def file(self, roll: Roll, *, unprinted: bool = False) -> Said | Question:
        """File a roll in the binder in hand; ask for one when there is none for its period.

        Raises Refused for one that is not sleeved yet: nothing is asked then.
        """
        if why := why_unsleeved(roll):
            raise Refused(why)
        if self.binder is not None and self.binder.is_for(roll):
            return self._put(roll, self.binder)
        number = roll.place.number
        if roll.place.kind == "binder" and number and not self._session.closed_words(roll):
            where = self._session.binder(roll.term, number)
            raise Refused(
                f"{roll.number} is filed in {where} already: to move it say which other binder,"
                f" as “file {number + 1}”"
            )

        def answer(text: str) -> Said | Question:
            return self.file_in(roll, binder_number(text, [roll]), unprinted=unprinted)

        room, known = self._session.file.room(), binders_of(self._session.file.conn, roll.term)
        own = [str(one.number) for one in known if one.period == roll.period]
        last = self._last.get((roll.term, roll.period), "")
        usual = own[-1] if own and last not in own else last
        again = f" Enter: {usual}" if usual else ""
        prompt = f"{archive_headline(self._session, roll)}: which binder of {roll.term}?{again}"
        listed = ", ".join(_whose(room, one) for one in known)
        many = "binder" if len(known) == 1 else "binders"
        words = f"{many} of this term: {listed}" if listed else "it is the first one of this term"
        words += f". A whole stack: Esc, then “binder {usual or 1}”"
        does = f"binder {usual}" if usual else ""
        return Question(
            prompt, answer, words=words, kind="A", usual=usual, does=does, wanted=_NOT_NAMED
        )

    def file_in(self, roll: Roll, number: int, *, unprinted: bool = False) -> Said | Question:
        """File a roll in a binder of its term; one that is not there yet or another period's is
        asked about, and a roll without a contact sheet, unless it was said to be filed `unprinted`.

        Raises Refused for a roll that is not sleeved yet.
        """
        if why := why_unsleeved(roll):
            raise Refused(why)
        binder = BinderInHand(roll.term, number, roll.period)
        called, doubts = self._called(binder), doubts_of(self._session, roll, number)
        if self._last.get((roll.term, roll.period)) == str(number):
            doubts = doubts._replace(whose="")  # it was asked about once
        if self.binder is not None and (self.binder.term, self.binder.number) == binder[:2]:
            doubts = Doubts()  # as the sleeve that is scanned
        doubts = doubts._replace(no_sheet=doubts.no_sheet and not unprinted)
        if not any(doubts):
            return self._put(roll, binder)
        enter, does = "files it there", f"file in {called}"
        if doubts.new:
            enter, does = f"makes {called}", f"make {called}"
        if doubts.no_sheet:
            does += ", without a contact sheet"
        return Question(
            f"Enter {enter}; Esc does not",
            lambda _: self._put(roll, binder),
            headline=f"{archive_headline(self._session, roll)}: {called[:1].upper()}{called[1:]}?",
            words=f"{doubts.words(called, roll.term)}. Nothing is filed yet",
            does=does,
            bare=True,
        )

    def file_unprinted(self, roll: Roll) -> Said | Question:
        """File a roll as `file` does, but ask first where it has no contact sheet yet."""
        waits = roll.place.kind == "sleeve" and not roll.sheets
        if not waits or self.binder is not None or self._session.closed_words(roll):
            return self.file(roll)
        return Question(
            "Enter files it without one; Esc leaves it",
            lambda _: self.file(roll, unprinted=True),
            headline=f"{archive_headline(self._session, roll)}: no contact sheet yet",
            words=f"nothing is filed yet: {SHEET_FIRST}",
            does="file it without a contact sheet",
            bare=True,
        )

    def take_up(self, term: str, number: int) -> Said:
        """Take a binder in hand, for the rolls of its period."""
        period = binder_period(self._session.file.conn, term, number)
        self.binder = BinderInHand(term, number, period)
        stand = counted(rolls.count_in_binder(self._session.file.conn, term, number), "roll")
        return Said(
            self._called(self.binder),
            f"in hand, with {stand} in it. Each sleeve that is scanned now is filed in it; a number"
            " that is typed is shown first, and Enter files it. Esc puts the binder down",
        )

    def _put(self, roll: Roll, binder: BinderInHand) -> Said | Question:
        """File a roll, unless it stands there already; one that is lent is asked about."""
        if roll.place.kind != "out" or roll.term in closed(self._session.file.conn):
            return self._filed(roll, binder)
        called = self._called(binder)
        return Question(
            f"Enter ends the loan and files it in {called}; Esc leaves it lent",
            lambda _: self._filed(roll, binder),
            headline=f"{archive_headline(self._session, roll)}: {lent_words(self._session, roll)}",
            words="is it here again? Nothing is filed yet",
            does=f"end the loan, file in {called}",
            bare=True,
        )

    def _filed(self, roll: Roll, binder: BinderInHand) -> Said:
        said = file_in(self._session, roll, binder_number(str(binder), [roll]))
        if said.done:
            self._last[roll.term, roll.period] = str(binder.number)
        return said

    def takes_scan(self, text: str) -> bool:
        """Tell whether a line is a scanned roll or sleeve while a binder is in hand.

        Its number typed as people read it is none: who types it may only want to look.
        """
        code = read(text)
        return self.binder is not None and code is not None and code.kind in ("R", "S")

    def scan(self, text: str) -> Said | Question:
        """File what was scanned in the binder in hand."""
        assert self.binder is not None
        return self._put(search.which(self._session.file.conn, text), self.binder)

    def looked_at(self, text: str) -> Roll | None:
        """Return the roll whose number alone is typed, if Enter then files it in the binder in
        hand.
        """
        if self.binder is None:
            return None
        try:
            if [part.kind for part in parse(text)] != ["roll"]:
                return None
            filed = self.to_file(search.which(self._session.file.conn, text))
        except Refused:
            return None
        return filed if filed is not None and self.binder.is_for(filed) else None

    def look(self, roll: Roll) -> Said:
        """Show a roll that Enter then files in the binder in hand."""
        words = f"{roll.place}. Enter: file in {self.in_hand}{without_sheet(roll)}"
        return Said(archive_headline(self._session, roll), words, select=roll.id)
