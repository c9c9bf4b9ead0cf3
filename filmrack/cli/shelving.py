"""Sleeves from before Filmrack, one after the other."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import click

from filmrack.cli.answer import answer
from filmrack.cli.call import Call, json_option
from filmrack.domain.asking import code_in
from filmrack.domain.binder import binder_number
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.domain.termcode import term_code
from filmrack.store.file import DarkroomFile


@click.command()
@click.option("--binder", required=True, metavar="N", help="Its number in the term, or its code.")
@click.option(
    "--owner", "owners", multiple=True, metavar="TEXT", help="Whoever it says; one for each sleeve."
)
@click.option(
    "--owners",
    "listed",
    type=click.File(encoding="utf-8", errors="replace"),
    metavar="FILE",
    help="Sleeve after sleeve: an owner a line, an empty line for an unknown one; - is the keys.",
)
@click.option("--term", metavar="T", help="The sleeve's term, else the one in force.")
@click.option("--film", metavar="135-36", help="Else the room's usual film.")
@click.option("--frames", type=int, metavar="N", help="The pictures on it.")
@click.option("--pages", type=int, default=1, metavar="N", help="The sleeve pages of one roll.")
@json_option
@click.pass_obj
def shelve(
    call: Call,
    *,
    binder: str,
    owners: tuple[str, ...],
    listed: Iterable[str] | None,
    term: str | None,
    film: str | None,
    frames: int | None,
    pages: int,
    as_json: bool,
) -> None:
    """Take a sleeve that has no history into a binder. Its label is queued."""
    from filmrack.acts import shelving

    several = listed is not None or len(owners) > 1
    wanted = [*owners] if owners or listed is not None else [""]
    with call.writing() as file:
        number = binder_number(binder)
        term = _term_of(binder, term)

        def one(owner: str) -> Roll:
            hand = call.hand(file)
            return shelving.shelve(
                file, hand, number, owner=owner, term=term, film=film, frames=frames, pages=pages
            )

        done = [one(owner) for owner in wanted]
        for owner in _lines(listed):
            shelved = one(owner)
            if not as_json:
                # Told at once, so that the number can be written on while the next is in hand.
                _tell(call, file, [shelved])
            done.append(shelved)
        if as_json:
            answer(call, file, done, as_json=True, several=several)
        elif wanted:
            _tell(call, file, done[: len(wanted)])


def _tell(call: Call, file: DarkroomFile, done: list[Roll]) -> None:
    answer(call, file, done, as_json=False, several=len(done) > 1)


def _lines(listed: Iterable[str] | None) -> Iterator[str]:
    for line in listed or ():
        if line.strip() == ".":
            return
        yield line.strip()


def _term_of(binder: str, term: str | None) -> str | None:
    code = code_in(binder)
    if code is None or code.kind != "A":
        return term
    if term is not None and term_code(term) != code.parts[0]:
        raise Refused(
            f"that binder is of term {code.parts[0]}, not {term[:20]}: name one of the two"
        )
    return code.parts[0]
