"""What is written at the end of a term: its finding aid, and what is to be handed back to whom."""

from __future__ import annotations

from pathlib import Path

import click

from filmrack.cli.call import Call, json_option
from filmrack.cli.closing import group_rows, groups_json, loans_in_words
from filmrack.cli.output import harmless, print_json, print_table, say
from filmrack.domain.counted import counted
from filmrack.store import people


@click.command("hand-back")
@click.argument("code", required=False)
@json_option
@click.pass_obj
def hand_back(call: Call, *, code: str | None, as_json: bool) -> None:
    """List what is to be handed back at the end of a term.

    It goes by period and person.

    Borrowed sleeves stand in it with the day they are due. As pages: labels hand-back.
    """
    from filmrack.acts.end_of_term import hand_back_list

    with call.reading() as file:
        room, now = file.room(), call.moment(file)
        term, groups = hand_back_list(file, code, now)
        owners = people.read_people(file.conn, (person for _, person, _ in groups if person))
        due = room.in_last_week(term, now)
        out = [roll for _, _, some in groups for roll in some if roll.place.kind == "out"]
        lent = loans_in_words(file, out, now)
    if as_json:
        print_json({"term": term, "last_week": due, "hand_back": groups_json(groups, owners)})
        return
    if not groups:
        say(f"nothing of term {term} is to be handed back")
        return
    if not due:
        say(f"this is not the last week of term {term}")
    print_table(group_rows(groups, owners, room, lent))


@click.command("finding-aid")
@click.argument("code")
@click.option(
    "--out", type=click.Path(path_type=Path), metavar="FILE", help="A new .csv or .txt file."
)
@json_option
@click.pass_obj
def finding_aid(call: Call, *, code: str, out: Path | None, as_json: bool) -> None:
    """Describe a closed term for an archive.

    Says what is kept of it, from when, how much, for whom.

    Names are not in it; initials only where the room's rule lets them stand on sleeves.
    """
    from filmrack.acts.end_of_term import as_text, finding_aid_of_term, write_finding_aid
    from filmrack.domain.finding_aid import ELEMENTS

    with call.reading() as file:
        described = finding_aid_of_term(file, code)
    if out is not None:
        write_finding_aid(described, out)
    if as_json:
        rows = [dict(zip(ELEMENTS, each, strict=True)) for each in described]
        print_json({"file": str(out) if out else None, "units": rows})
    elif out is None:
        click.echo(harmless(as_text(described)), nl=False)
    else:
        say(f"{out}: term {described[0].reference_code} and {counted(len(described) - 1, 'roll')}")
