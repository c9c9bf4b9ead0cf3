"""What a teacher says in the archive of a roll: cut, printed, filed, lent, missing, handed back."""

from __future__ import annotations

from collections.abc import Callable

from filmrack.acts import archiving, lending, owning
from filmrack.desk.ahead import sleeved_words, without_sheet
from filmrack.desk.archive.contact_sheet import contact_sheet
from filmrack.desk.archive.filing import Filing
from filmrack.desk.archive.lending_words import lend, lend_which
from filmrack.desk.archive.order_examples import for_another_roll, select_or_name
from filmrack.desk.archive.orders import (
    OF_SLEEVES,
    TERM_VERBS,
    Order,
    by_whose_it_is,
    of_a_clip,
    read_order,
)
from filmrack.desk.archive.paper_words import page_and_frames, paper_and_picks, paper_called
from filmrack.desk.archive.picking import pick, unpick
from filmrack.desk.archive.replies import archive_headline, done
from filmrack.desk.archive.whose_roll import Several, lendable_roll_of
from filmrack.desk.question import Question
from filmrack.desk.replies import found_words
from filmrack.desk.said import WRONG, Said
from filmrack.desk.session import Session
from filmrack.domain.binder import binder_number
from filmrack.domain.clock import clock
from filmrack.domain.counted import frames_words
from filmrack.domain.outlook import how_not_dry
from filmrack.domain.picks import refuse_picks
from filmrack.domain.refusal import Hopeless, Refused
from filmrack.domain.roll import Roll
from filmrack.store import search
from filmrack.store.archive import WhichRolls
from filmrack.store.terms import closed

_ORDINALS = {1: "second", 2: "third"}
"""Which contact sheet it would be, by how many a roll has."""


class RollOrders:
    """Does what one desk says of rolls, and keeps what it has in hand for them: a binder, a paper.

    Each act says whom it was about and how it is taken back.
    """

    def __init__(self, session: Session) -> None:
        self.session = session
        self.filing = Filing(session)
        self.paper = ""
        """The paper that was chosen for contact sheets; empty for the room's."""

    def understands(self, text: str) -> bool:
        """Tell whether a line is one of these words, a paper, or a scan that is the binder's."""
        try:
            order = read_order(text)
        except Refused:
            return False
        if order is not None:
            return order.verb not in TERM_VERBS
        filing = self.filing
        known = filing.named(text) is not None or filing.takes_scan(text)
        return known or filing.looked_at(text) is not None or bool(self.paper_in(text))

    def say(self, text: str, selected: Roll | None) -> Said | Question:
        """Do what a line says, with the selected roll where it names none.

        Raises Refused when it cannot be meant.
        """
        binder = self.filing.named(text)
        if binder is not None:
            return self.filing.take_up(*binder)
        if self.filing.takes_scan(text):
            return self.filing.scan(text)
        typed = self.filing.looked_at(text)
        if typed is not None:
            return self.filing.look(typed)
        order = read_order(text)
        if order is None:
            return self._choose_paper(self.paper_in(text))
        try:
            roll = self.meant(order, selected)
        except Several as several:
            return lend_which(self.session, several, order.rest)
        if roll is None:
            raise Refused(select_or_name(order, text, self.session.term_in_force))
        try:
            return self._do(order, roll)
        except Hopeless as why:
            if self.session.closed_words(roll):
                raise
            another = for_another_roll(order, self.session.term_in_force)
            raise Hopeless(f"{why}{another}") from None

    def enter_does(self, roll: Roll | None, which: WhichRolls) -> str | None:
        """Say what Enter does to a roll among those that owe this, see `enter`."""
        if roll is not None and which == "owner" and roll.person is None:
            return "say whose it is"
        filed, held = self.filing.to_file(roll), self.filing.binder
        if filed is None or held is None or not held.is_for(filed):
            return None
        return f"file in {self.filing.in_hand}{without_sheet(filed)}"

    def enter(self, roll: Roll, which: WhichRolls) -> Said | Question | None:
        """Claim, file, or print on the paper in hand; None where only the next step is left."""
        if which == "owner" and roll.person is None:
            return self.claim(roll)
        filed = self.filing.to_file(roll)
        if filed is not None:
            return self.filing.file(filed)
        waits_for_sheet = roll.place.kind in ("sleeve", "binder") and not roll.sheets
        return self.contact(roll) if waits_for_sheet and self.paper else None

    def in_hand(self) -> str:
        """Return what is in hand: a binder, or a paper; empty for neither."""
        if self.filing.binder is not None:
            return "in hand: scan sleeve after sleeve; Esc puts it down"
        return "for contact sheets; Esc puts it down" if self.paper else ""

    @property
    def mark(self) -> str:
        """Return the binder or the paper in hand, as it stands before the line; else nothing."""
        return self.filing.in_hand or self.paper

    def put_down(self) -> None:
        """Put the binder down, else the paper."""
        if self.filing.binder is None:
            self.paper = ""
        self.filing.binder = None

    def meant(self, order: Order, selected: Roll | None) -> Roll | None:
        """Return the roll that an order is about. Raises Refused for one that is not there.

        What is done to sleeves alone may name the clip that one was cut from a moment ago.
        """
        if of_a_clip(order) and order.verb in OF_SLEEVES:
            cut = search.just_cut(self.session.file.conn, int(order.roll.removeprefix("clip ")))
            if cut is not None:
                return cut
        if by_whose_it_is(order):
            return lendable_roll_of(self.session, order.roll)
        return search.which(self.session.file.conn, order.roll) if order.roll else selected

    def _sleeve(self, roll: Roll, more: str) -> Said | Question:
        """Cut and sleeve a roll; one that hangs and is not dry by the record is asked about."""
        file, session = self.session.file, self.session
        page, frames = page_and_frames(more)

        def cut(_: str = "") -> Said:
            sleeved = archiving.sleeve(file, session.hand(), roll.id, page, frames)
            return done(self.session, roll, sleeved_words(sleeved))

        state = session.standing(roll).state
        if state in (None, "dry"):
            return cut()
        return Question(
            "Enter: it is cut all the same; Esc leaves it",
            cut,
            headline=f"{archive_headline(self.session, roll)}: {how_not_dry(state)}",
            words=f"it hangs on {roll.place}: touch both ends first, wet film sticks to its sleeve",
            does="cut it all the same",
            bare=True,
        )

    def contact(self, roll: Roll, more: str = "") -> Said | Question:
        """Keep that a contact sheet was made: on a paper behind the word, with picks behind it.

        A second one is asked about.
        """
        paper, picks = paper_and_picks(more, self.session.file.room().materials)
        refuse_picks(roll, picks)

        def make(_: str = "") -> Said | Question:
            whom = archive_headline(self.session, roll)
            return contact_sheet(self.session, roll, whom, paper or self.paper, picks)

        if not roll.sheets or roll.term in closed(self.session.file.conn):
            return make()
        words = "one stands beside it on the record, if it was made as well"
        if picks:
            words += f"; frames picked on the one it has: Esc, then “picks {frames_words(picks)}”"
        another = _ORDINALS.get(len(roll.sheets), "further")
        return Question(
            f"Enter keeps a {another} contact sheet; Esc does not",
            make,
            headline=f"{archive_headline(self.session, roll)}: it has {self._sheets(roll)}",
            words=f"a {another} {words}",
            does=f"{another} contact sheet made",
            bare=True,
        )

    def _sheets(self, roll: Roll) -> str:
        """Return what contact sheets a roll has: how many, or the day and paper of the one."""
        if len(roll.sheets) > 1:
            return f"{len(roll.sheets)} contact sheets"
        room, sheet = self.session.file.room(), roll.sheets[0]
        made = clock(sheet.at, room.timetable.zone, self.session.now)
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
        return Question(f"{archive_headline(self.session, roll)}: whose is it?", claimed, kind="P")

    def paper_in(self, text: str) -> str:
        """Return the name of the paper that a text is; empty for none."""
        return paper_called(text, self.session.file.room().materials)

    def _do(self, order: Order, roll: Roll) -> Said | Question:
        file, session, roll_id, rest = self.session.file, self.session, roll.id, order.rest
        match order.verb:
            case "back":
                there = lending.back(file, session.hand(), [roll_id])[0]
                return done(self.session, roll, f"loan ended, {there.place}")
            case "found":
                there = lending.found(file, session.hand(), roll_id)
                return done(session, roll, found_words(session, roll, there))
            case "mark missing":
                there = lending.missing(file, session.hand(), [roll_id])[0]
                return done(self.session, roll, f"missing, last seen {there.seen}")
            case "hand back":
                lending.release(file, session.hand(), [roll_id])
                return done(self.session, roll, "handed back to its owner for good")
            case "lend":
                return lend(session, roll, rest)
            case "sleeve":
                return self._sleeve(roll, rest)
            case "contact":
                return self.contact(roll, rest)
            case "picks":
                return pick(session, roll, rest)
            case "unpick":
                return unpick(session, roll, rest)
            case "claim":
                return self.claim(roll, rest)
            case "file" if rest:
                return self.filing.file_in(roll, binder_number(rest, [roll]))
            case "file":
                return self.filing.file_unprinted(roll)
            case _:
                return self._written(order.verb, roll, rest)

    def _written(self, verb: str, roll: Roll, text: str) -> Said | Question:
        """Discard a roll, or note something about it; words that are missing are asked for."""
        file, session = self.session.file, self.session

        def discard(why: str) -> Said:
            lending.discard(file, session.hand(), roll.id, why)
            return done(self.session, roll, "discarded")

        def note(words: str) -> Said:
            owning.note(file, session.hand(), roll.id, words)
            return done(self.session, roll, "noted")

        if verb == "note":
            return note(text) if text else self._ask(roll, "what is worth knowing?", note)
        if not text and roll.filed_at is None:
            return self._ask(roll, "why is it thrown away?", discard)
        return discard(text)

    def _choose_paper(self, paper: str) -> Said:
        room = self.session.file.room()
        self.paper = "" if paper == room.materials.paper else paper
        return Said(f"Paper {paper}", "chosen: Enter makes contact sheets on it; Esc puts it down")

    def _ask(self, roll: Roll, words: str, answer: Callable[[str], Said | Question]) -> Question:
        return Question(f"{archive_headline(self.session, roll)}: {words}", answer)
