"""Film that is lent, lost and found, handed back or thrown away."""

from __future__ import annotations

import click

from filmrack.acts import lending
from filmrack.cli.answer import answer
from filmrack.cli.call import Call, json_option
from filmrack.domain.loans import loan_line
from filmrack.domain.refusal import Refused
from filmrack.store import search

_HANGS_AGAIN = (
    "it is not dry by the record, so it hangs again: if it is in its box, say so with “box”, if it"
    " is on another rod with “move”"
)


@click.command()
@click.argument("roll", metavar="ROLL")
@click.argument("words", nargs=-1, metavar="[WHO] [DATE]")
@click.option("--to", "who", default="", metavar="WHO", help="Whoever borrows it, also a guest.")
@click.option(
    "--until",
    metavar="DATE",
    help="The day it is due, or how long: 4 dec, friday, 2 weeks; else by the room's rule.",
)
@click.option("--guest", is_flag=True, help="WHO is nobody of the school: kept as written.")
@json_option
@click.pass_obj
def lend(
    call: Call,
    *,
    roll: str,
    words: tuple[str, ...],
    who: str,
    until: str | None,
    guest: bool,
    as_json: bool,
) -> None:
    """Lend a sleeve: `lend 26F-0142-09 Ms Novak 4 dec`.

    Without a date, or a length such as `2 weeks` or `5 school days`, it is due after as many school
    days as the room's rule says. A name that nobody of the school has is a guest's.
    """
    with call.writing() as file:
        roll_id, hand = search.which(file.conn, roll).id, call.hand(file)
        timetable = file.room().timetable
        typed = loan_line(" ".join(words), timetable.local_date(hand.at), timetable.days)
        name = who or typed.who
        if not name or (who and typed.who):
            raise click.UsageError("say once who borrows it, behind the roll or with --to")
        said = typed._replace(who=name, quoted=guest or typed.quoted)
        lent = lending.lend_as_said(file, hand, roll_id, said, until)
        answer(call, file, [lent], as_json=as_json)


@click.command()
@click.argument("rolls", nargs=-1, required=True, metavar="ROLL…")
@json_option
@click.pass_obj
def back(call: Call, *, rolls: tuple[str, ...], as_json: bool) -> None:
    """End the loan of sleeves that are here again."""
    with call.writing() as file:
        numbers = [roll.id for roll in search.which_all(file.conn, rolls)]
        there = lending.back(file, call.hand(file), numbers)
        answer(call, file, there, as_json=as_json, several=len(there) > 1)


@click.group()
def end() -> None:
    """End a loan: `end loan 26F-0142-09`, as `back` does."""


end.add_command(back, "loan")


@click.command("hand-back")
@click.argument("rolls", nargs=-1, required=True, metavar="ROLL…")
@json_option
@click.pass_obj
def hand_back(call: Call, *, rolls: tuple[str, ...], as_json: bool) -> None:
    """Hand rolls back to their owners, for good."""
    with call.writing() as file:
        numbers = [roll.id for roll in search.which_all(file.conn, rolls)]
        gone = lending.release(file, call.hand(file), numbers)
        answer(call, file, gone, as_json=as_json, several=len(gone) > 1)


@click.command()
@click.argument("rolls", nargs=-1, required=True, metavar="ROLL…")
@json_option
@click.pass_obj
def missing(call: Call, *, rolls: tuple[str, ...], as_json: bool) -> None:
    """Say that rolls are not where they should be."""
    with call.writing() as file:
        numbers = [roll.id for roll in search.which_all(file.conn, rolls)]
        gone = lending.missing(file, call.hand(file), numbers)
        answer(call, file, gone, as_json=as_json, several=len(gone) > 1)


@click.command()
@click.argument("roll", nargs=-1, required=True, metavar="ROLL")
@click.option("--box", metavar="N", help="Into this box, where it is not sleeved yet.")
@json_option
@click.pass_obj
def found(call: Call, *, roll: tuple[str, ...], box: str | None, as_json: bool) -> None:
    """Say that a missing roll turned up. It is in its period's box or its sleeve then; film that
    hung and is not dry by the record hangs again.
    """
    with call.writing() as file:
        roll_id = search.which(file.conn, " ".join(roll)).id
        into = None if box is None else _box_number(box)
        there = lending.found(file, call.hand(file), roll_id, box=into)
        heed = [_HANGS_AGAIN] if there.place.kind == "rod" else []
        answer(call, file, [there], as_json=as_json, warnings={there.id: heed} if heed else None)


@click.command()
@click.argument("roll", nargs=-1, required=True, metavar="ROLL")
@click.option("--why", default="", metavar="TEXT", help="Needed as long as it is not filed.")
@json_option
@click.pass_obj
def discard(call: Call, *, roll: tuple[str, ...], why: str, as_json: bool) -> None:
    """Say that film was thrown away."""
    with call.writing() as file:
        roll_id = search.which(file.conn, " ".join(roll)).id
        gone = lending.discard(file, call.hand(file), roll_id, why)
        answer(call, file, [gone], as_json=as_json)


def _box_number(text: str) -> int:
    number = text.casefold().removeprefix("box").strip()
    if not (number.isascii() and number.isdecimal()):
        raise Refused(f"“{text[:40]}” is no box: give its number")
    return int(number[:9])
