"""A number right behind a verb, which may be a clip's, a frame's, or that of a roll."""

from __future__ import annotations

from filmrack.desk.archive.order_examples import verb_typed
from filmrack.desk.archive.orders import Order, begins_with_a_clip
from filmrack.desk.session import Session
from filmrack.store import rolls, search


def is_no_serial(order: Order) -> bool:
    """Tell whether an order for film on a clip, or just cut from it, has a number behind it that
    is no roll's: those have four figures.
    """
    return not order.roll and order.verb in ("contact", "sleeve") and begins_with_a_clip(order)


def whose_number(session: Session, order: Order, text: str) -> str:
    """Return how to say which roll is meant; of a clip that film was just cut from how that roll is
    named since.
    """
    conn, verb = session.file.conn, verb_typed(order, text)
    number = int(order.rest.split()[0])
    pick = f"; for frame {number} “{verb} picks {number}”" if order.verb == "contact" else ""
    cut = None if rolls.on_clip(conn, number) else search.just_cut(conn, number)
    if cut is None:
        return f"say first which roll you mean: for clip {number} “{number} {verb}”{pick}"
    then = f", as “{cut.serial:04d} {verb}”" if order.verb == "contact" else ""
    return f"{search.why_free(conn, number)}{then}{pick}"
