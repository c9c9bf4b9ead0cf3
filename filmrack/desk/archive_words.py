"""What a teacher says in the archive of a roll; the binder and the paper in hand."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from filmrack.acts import archiving, lending, owning
from filmrack.acts.inscriptions import period_title
from filmrack.desk.ahead import contact_words, sleeved_words, without_sheet
from filmrack.desk.archive_orders import TERM_VERBS, Order, order_of
from filmrack.desk.ink import at
from filmrack.desk.lending_words import lend
from filmrack.desk.paper_words import page_and_frames, paper_and_picks, paper_called
from filmrack.desk.question import Question
from filmrack.desk.said import WRONG, Said
from filmrack.desk.session import Session
from filmrack.domain.asking import code_in, parse
from filmrack.domain.binder import binder_number
from filmrack.domain.names import called
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.store import search
from filmrack.store.binders import binder_period, binders_of
from filmrack.store.standings import see, written_on
from filmrack.store.terms import closed

_ORDINALS = {1: "second", 2: "third"}
"""Which contact sheet it would be, by how many a roll has."""


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
        self.paper = ""
        """The paper that was chosen for contact sheets; empty for the room's."""
        self._last: dict[tuple[str, int | None], str] = {}
        """The binder in which rolls of a term and a period were filed last."""

    def understands(self, text: str) -> bool:
        """Tell whether a line is one of these words, a paper, or a scan that is the binder's."""
        try:
            order = order_of(text)
        except Refused:
            return False
        if order is not None:
            return order.verb not in TERM_VERBS
        known = self.binder_in(text) is not None or self._scanned(text) is not None
        return known or bool(self.paper_in(text))

    def say(self, text: str, selected: Roll | None) -> Said | Question:
        """Do what a line says, with the selected roll where it names none.

        Raises Refused when it cannot be meant.
        """
        binder = self.binder_in(text)
        if binder is not None:
            return self._take_up(*binder)
        scanned = self._scanned(text)
        if scanned is not None and self.binder is not None:
            return self._put(search.which(self.session.file.conn, scanned), self.binder)
        order = order_of(text)
        if order is None:
            return self._choose_paper(self.paper_in(text))
        roll = self.meant(order, selected)
        if roll is None:
            raise Refused(f"{text[:20]} what? Select a roll, or name it: {order.verb} 26F-0142")
        return self._do(order, roll)

    def in_hand(self) -> str:
        """Return what is in hand: a binder, or a paper; empty for neither."""
        if self.binder is not None:
            return f"binder {self.binder} in hand: scan sleeve after sleeve; esc puts it down"
        return f"contact sheets on {self.paper}; esc puts it down" if self.paper else ""

    def put_down(self) -> None:
        """Put the binder down, else the paper."""
        if self.binder is None:
            self.paper = ""
        self.binder = None

    def to_file(self, roll: Roll | None) -> Roll | None:
        """Return a sleeve if filing comes next, as it does with a binder in hand."""
        if roll is None or roll.place.kind != "sleeve":
            return None
        in_hand = self.binder is not None and self.binder.is_for(roll)
        return roll if roll.sheets or in_hand else None

    def meant(self, order: Order, selected: Roll | None) -> Roll | None:
        """Return the roll that an order is about. Raises Refused for one that is not there."""
        return search.which(self.session.file.conn, order.roll) if order.roll else selected

    def file(self, roll: Roll) -> Said | Question:
        """File a roll in the binder in hand; ask for one when there is none for its period."""
        if self.binder is not None and self.binder.is_for(roll):
            return self._put(roll, self.binder)

        def answer(text: str) -> Said | Question:
            return self._file_in(roll, binder_number(text, [roll]), keep=True)

        last = self._last.get((roll.term, roll.period), "")
        again = f" Enter: {last}" if last else ""
        prompt = f"{self._headline(roll)}: which binder of {roll.term}?{again}"
        room, known = self.session.file.room(), binders_of(self.session.file.conn, roll.term)
        listed = ", ".join(
            f"{one.number} {period_title(room, one.period)}".strip() for one in known
        )
        words = f"there are {listed}" if listed else "it is the first one of this term"
        return Question(prompt, answer, words=words, kind="A", usual=last)

    def _file_in(self, roll: Roll, number: int, *, keep: bool = False) -> Said | Question:
        """File a roll in a binder of its term; one that is not there yet is asked about."""
        binder = BinderInHand(roll.term, number, roll.period)
        room, known = self.session.file.room(), binders_of(self.session.file.conn, roll.term)
        there = next((one for one in known if one.number == number), None)

        def put() -> Said:
            said = self._put(roll, binder)
            self.binder = binder if keep else self.binder
            whose = there.period if there else None
            if whose is None or whose == roll.period:
                return said
            return said._replace(words=f"{said.words}. It is {period_title(room, whose)}'s binder")

        if there is not None or not known or roll.term in closed(self.session.file.conn):
            return put()
        return Question(
            f"Enter makes binder {binder}; esc does not",
            lambda _: put(),
            headline=f"Binder {binder}?",
            words=f"there is none of that number yet in term {roll.term}",
            does=f"make binder {binder}",
        )

    def _sleeve(self, roll: Roll, more: str) -> Said | Question:
        """Cut and sleeve a roll; one that hangs and is not dry by the record is asked about."""
        file, session = self.session.file, self.session
        page, frames = page_and_frames(more)

        def cut(_: str = "") -> Said:
            sleeved = archiving.sleeve(file, session.hand(), roll.id, page, frames)
            return self._done(roll, sleeved_words(sleeved))

        if see(file, [roll], session.now).standings[0].state in (None, "dry"):
            return cut()
        return Question(
            "Enter: it is cut all the same; esc leaves it",
            cut,
            headline=f"{self._headline(roll)}: not dry by the record",
            words=f"it hangs on {roll.place}: wet film sticks to its sleeve",
            does="cut it all the same",
        )

    def contact(self, roll: Roll, more: str = "") -> Said | Question:
        """Keep that a contact sheet was made: on a paper behind the word, with picks behind it.

        A second one is asked about.
        """
        paper, picks = paper_and_picks(more, self.session.file.room().materials)
        chosen = paper or self.paper or None

        def make(_: str = "") -> Said:
            made = archiving.contact(self.session.file, self.session.hand(), roll.id, chosen, picks)
            picked = f", picks {', '.join(map(str, picks))}" if picks else ""
            return self._done(roll, f"contact sheet {contact_words(self.session, made)}{picked}")

        if not roll.sheets or roll.term in closed(self.session.file.conn):
            return make()
        another = _ORDINALS.get(len(roll.sheets), "further")
        return Question(
            f"Enter keeps a {another} contact sheet; esc does not",
            make,
            headline=f"{self._headline(roll)}: it has {self._sheets(roll)}",
            words=f"a {another} one stands beside it on the record, if it was made as well",
            does=f"{another} contact sheet made",
        )

    def _sheets(self, roll: Roll) -> str:
        """Return what contact sheets a roll has: how many, or the day and paper of the one."""
        if len(roll.sheets) > 1:
            return f"{len(roll.sheets)} contact sheets"
        room, sheet = self.session.file.room(), roll.sheets[0]
        made = at(sheet.at, room, self.session.now)
        return f"a contact sheet, {made} on {sheet.paper}"

    def claim(self, roll: Roll, name: str = "") -> Said | Question:
        """Say whose a roll is, or ask for it."""

        def claimed(text: str) -> Said:
            person = search.who(self.session.file.conn, text)
            owning.claim(self.session.file, self.session.hand(), roll.id, person.number)
            words = f"claimed by {person.full}. {WRONG}"
            return Said(f"{roll.number} → {person.full}", words, select=roll.id, done=True)

        if name:
            return claimed(name)
        return Question(f"{self._headline(roll)}: whose is it?", claimed, kind="P")

    def binder_in(self, text: str) -> tuple[str, int] | None:
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

    def paper_in(self, text: str) -> str:
        """Return the name of the paper that a text is; empty for none."""
        return paper_called(text, self.session.file.room().materials)

    def _do(self, order: Order, roll: Roll) -> Said | Question:
        file, session, number, rest = self.session.file, self.session, roll.id, order.rest
        match order.verb:
            case "back":
                there = lending.back(file, session.hand(), [number])[0]
                return self._done(roll, f"loan ended, {there.place}")
            case "found":
                there = lending.found(file, session.hand(), number)
                return self._done(roll, f"found, {there.place}")
            case "mark missing":
                there = lending.missing(file, session.hand(), [number])[0]
                return self._done(roll, f"missing, last seen {there.seen}")
            case "hand back":
                lending.release(file, session.hand(), [number])
                return self._done(roll, "handed back to its owner for good")
            case "lend":
                return lend(session, roll, rest, self._headline(roll))
            case "sleeve":
                return self._sleeve(roll, rest)
            case "contact":
                return self.contact(roll, rest)
            case "claim":
                return self.claim(roll, rest)
            case "file" if rest:
                return self._file_in(roll, binder_number(rest, [roll]))
            case "file":
                return self.file(roll)
            case _:
                return self._written(order.verb, roll, rest)

    def _written(self, verb: str, roll: Roll, text: str) -> Said | Question:
        """Discard a roll, or note something about it; words that are missing are asked for."""
        file, session = self.session.file, self.session

        def discard(why: str) -> Said:
            lending.discard(file, session.hand(), roll.id, why)
            return self._done(roll, "discarded")

        def note(words: str) -> Said:
            owning.note(file, session.hand(), roll.id, words)
            return self._done(roll, "noted")

        if verb == "note":
            return note(text) if text else self._ask(roll, "what is worth knowing?", note)
        if not text and roll.filed_at is None:
            return self._ask(roll, "why is it thrown away?", discard)
        return discard(text)

    def _choose_paper(self, paper: str) -> Said:
        room = self.session.file.room()
        self.paper = "" if paper == room.materials.paper else paper
        return Said(f"Paper {paper}", "chosen: Enter makes contact sheets on it; esc puts it down")

    def _ask(self, roll: Roll, words: str, answer: Callable[[str], Said | Question]) -> Question:
        return Question(f"{self._headline(roll)}: {words}", answer)

    def _take_up(self, term: str, number: int) -> Said:
        period = binder_period(self.session.file.conn, term, number)
        self.binder = BinderInHand(term, number, period)
        return Said(f"binder {self.binder}", "in hand. Now scan sleeve after sleeve")

    def _put(self, roll: Roll, binder: BinderInHand) -> Said:
        number = binder_number(str(binder), [roll])
        archiving.file_in_binder(self.session.file, self.session.hand(), [roll.id], number)
        self._last[roll.term, roll.period] = str(binder.number)
        return self._done(roll, f"filed in binder {binder}{without_sheet(roll)}")

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
        conn = self.session.file.conn
        said = written_on(conn, [roll]).get(roll.id)
        return f"{roll.number} → {called(self.session.owner(roll), said)}"

    def _done(self, roll: Roll, words: str) -> Said:
        return Said(self._headline(roll), f"{words}. {WRONG}", select=roll.id, done=True)
