"""Terms: which there are, opening one, and what belongs to its end."""

from __future__ import annotations

from datetime import datetime

import click

from filmrack.cli import closing, finding_aids
from filmrack.cli.call import Call, json_option
from filmrack.cli.output import iso, print_json, print_table, say
from filmrack.domain.clock import span_words
from filmrack.domain.counted import counted
from filmrack.store import terms

_DAY = click.DateTime(["%Y-%m-%d"])


@click.group()
def term() -> None:
    """List the terms, open one, report on one, close and reopen it."""


@term.command("list")
@json_option
@click.pass_obj
def list_(call: Call, *, as_json: bool) -> None:
    """List the terms, oldest first, and how many rolls each has."""
    with call.reading() as file:
        room = file.room()
        rolls, closed = terms.counts(file.conn), terms.closed(file.conn)
        running = room.term_at(call.moment(file))
    if as_json:
        print_json(
            [
                {
                    "term": one.code,
                    "starts": str(one.starts),
                    "ends": str(one.ends),
                    "rolls": rolls[one.code],
                    "running": one == running,
                    "closed": iso(closed.get(one.code), room.timetable.zone),
                }
                for one in room.terms
            ]
        )
        return
    print_table(
        [
            (
                one.code,
                span_words(one.starts, one.ends),
                counted(rolls[one.code], "roll"),
                "closed" if one.code in closed else "in force" if one == running else "",
            )
            for one in room.terms
        ]
    )


@term.command("open")
@click.argument("code")
@click.option("--from", "starts", type=_DAY, metavar="DAY", help="Its first day: 2027-01-11.")
@click.option("--to", "ends", type=_DAY, metavar="DAY", help="Its last day.")
@json_option
@click.pass_obj
def open_(
    call: Call, *, code: str, starts: datetime | None, ends: datetime | None, as_json: bool
) -> None:
    """Open a term: 27S is January to June, 27F July to December. Other days can be given."""
    from filmrack.acts.terms import open_term

    with call.writing() as file:
        opened = open_term(
            file,
            call.hand_now(file),
            code,
            starts=starts.date() if starts else None,
            ends=ends.date() if ends else None,
        )
    if as_json:
        print_json({"term": opened.code, "starts": str(opened.starts), "ends": str(opened.ends)})
    else:
        say(f"term {opened.code} is open from {span_words(opened.starts, opened.ends)}")


for command in (
    closing.report,
    finding_aids.hand_back,
    closing.close,
    closing.reopen,
    finding_aids.finding_aid,
):
    term.add_command(command)
