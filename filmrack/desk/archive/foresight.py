"""What a line that is being typed in the archive would come to, before Enter."""

from __future__ import annotations

from filmrack.desk.ahead import plan_words, without_sheet
from filmrack.desk.archive.filing_doubts import whose_else
from filmrack.desk.archive.lending_words import foretell_loan
from filmrack.desk.archive.one_by_one import refuse_many
from filmrack.desk.archive.orders import Order, by_whose_it_is, read_order
from filmrack.desk.archive.paper_words import page_and_frames, paper_and_picks
from filmrack.desk.archive.picking import unpick_words
from filmrack.desk.archive.roll_orders import RollOrders
from filmrack.desk.archive.shelving_words import foretell_shelving
from filmrack.desk.archive.term_closing import foretell_closing
from filmrack.desk.done_to import clip_to_cut
from filmrack.domain.binder import binder_number
from filmrack.domain.counted import frames_words
from filmrack.domain.cutting import cut_of, paper_words
from filmrack.domain.journey import why_not
from filmrack.domain.picks import picks_in, refuse_picks, refuse_unpicked
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll


def foretold(orders: RollOrders, line: str, selected: Roll | None, term: str) -> str:
    """Return what a line would do; empty for what is no order, or is done as it stands.

    A line that would be refused tells why, as far as it is typed. `term` is the one shown.
    """
    try:
        refuse_many(orders.session, line)
        order = read_order(line)
        if order is None:
            return _paper(orders, line, selected)
        if clip_to_cut(orders.session, order) is not None:
            return ""  # a clip is meant, or it is asked
        of_the_term = _of_the_term(orders, order, term)
        roll = orders.meant(order, selected) if not of_the_term else None
        return of_the_term or (_of_a_roll(orders, order, roll) if roll is not None else "")
    except Refused as refused:
        return str(refused)


def _of_the_term(orders: RollOrders, order: Order, term: str) -> str:
    match order.verb:
        case "shelve":
            return foretell_shelving(orders.session, order.rest, term)
        case "close term":
            return foretell_closing(orders.session, order.rest or term)
        case _:
            return ""


def _of_a_roll(orders: RollOrders, order: Order, roll: Roll) -> str:
    materials = orders.session.file.room().materials
    match order.verb:
        case "sleeve" if roll.sleeved_at is None:
            page, frames = page_and_frames(order.rest)
            told = "; ".join(plan_words(cut_of(roll.film, materials, page, frames)))
        case "contact":
            paper, picks = paper_and_picks(order.rest, orders.session.file.room().materials)
            name = paper or orders.paper or materials.paper
            told = f"contact sheet {paper_words(roll, name, materials)}"
            told += f", picks {frames_words(picks)}" if picks else ""
        case "picks":
            if why := why_not(roll, "picks"):
                raise Refused(why)
            chosen = picks_in(order.rest)
            refuse_picks(roll, chosen)
            told = f"picked on its contact sheet: {frames_words(chosen)}"
        case "unpick":
            wrong = picks_in(order.rest)
            refuse_unpicked(roll, wrong)
            told = unpick_words(wrong, [frame for frame in roll.picks if frame not in wrong])
        case "lend":
            told = foretell_loan(orders.session, order.rest)
            told = f"{roll.number}: {told}" if by_whose_it_is(order) else told
        case "file" if order.rest:
            number = binder_number(order.rest, [roll])
            told = f"file in {orders.session.binder(roll.term, number)}{without_sheet(roll)}"
            whose = whose_else(orders.session, roll, number)
            told += f"; it is {whose}'s binder" if whose else ""
        case _:
            return ""
    return told


def _paper(orders: RollOrders, line: str, selected: Roll | None) -> str:
    paper = orders.paper_in(line)
    if not paper:
        return ""
    if selected is None:
        return f"contact sheets on {paper}"
    return f"contact sheets {paper_words(selected, paper, orders.session.file.room().materials)}"
