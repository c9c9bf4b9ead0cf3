"""From box to binder."""

from __future__ import annotations

import click

from filmrack.acts import archiving
from filmrack.acts.inscriptions import sleeve_numbers
from filmrack.cli.answer import answer
from filmrack.cli.call import Call, json_option
from filmrack.cli.output import print_json, say
from filmrack.domain.binder import binder_number
from filmrack.domain.clock import clock_or_dash
from filmrack.domain.counted import counted, frames_words
from filmrack.domain.cutting import FIT_WORDS, cut_words, paper_words, pocket_words, rule_words
from filmrack.domain.picks import picks_in
from filmrack.domain.refusal import Refused
from filmrack.store import search


@click.command()
@click.argument("roll", nargs=-1, required=True, metavar="ROLL")
@click.option("--page", metavar="7x5", help="Strips x frames a strip; else the room's, by format.")
@click.option("--frames", type=int, metavar="N", help="Pictures on it, where the film has others.")
@json_option
@click.pass_obj
def sleeve(
    call: Call, *, roll: tuple[str, ...], page: str | None, frames: int | None, as_json: bool
) -> None:
    """Cut and sleeve a roll: says where to cut, queues its labels."""
    with call.writing() as file:
        found = search.which(file.conn, " ".join(roll))
        sleeved = archiving.sleeve(file, call.hand(file), found.id, page, frames)
        numbers = sleeve_numbers(sleeved.roll)
        cut = sleeved.cut
        strips = [strip for each in cut.strips for strip in each]
        pockets = sum(len(each.strips) + each.free_pockets for each in cut.sleeves)
        if as_json:
            print_json(
                {
                    "roll": sleeved.roll.number,
                    "sleeves": numbers,
                    "strips": strips,
                    "pockets": pockets,
                    "fits": cut.fits,
                }
            )
            return
        say(f"{cut_words(cut)}; {pocket_words(cut)}; {counted(pockets, 'pocket')} in all")
        if cut.shortened:
            say(f"{rule_words(cut)}, so the last ones are shorter")
        for number in numbers:
            say(f"sleeve {number}, label queued")
        say(f"{counted(sleeved.waiting, 'label')} {'waits' if sleeved.waiting == 1 else 'wait'}")
        for fit in ("fits", "pictures_only"):
            papers = [paper for paper, how in cut.fits.items() if how == fit]
            if papers:
                say(f"contact sheet on {', '.join(papers)}: {FIT_WORDS[fit]}")


@click.command()
@click.argument("roll", nargs=-1, required=True, metavar="ROLL")
@click.option("--paper", metavar="8x10in", help="Else the room's paper.")
@click.option("--picks", "chosen", default="", metavar="4,11", help="The frames chosen on it.")
@click.option("--again", is_flag=True, help="One more, beside the one that it has.")
@json_option
@click.pass_obj
def contact(
    call: Call, *, roll: tuple[str, ...], paper: str | None, chosen: str, again: bool, as_json: bool
) -> None:
    """Say that a contact sheet was made, and its picks."""
    with call.writing() as file:
        found = search.which(file.conn, " ".join(roll))
        if found.sheets and not again:
            last = found.sheets[-1]
            when = clock_or_dash(last.at, file.room().timetable.zone, call.now(file))
            raise Refused(
                f"{found.number} has a contact sheet already, {when} on {last.paper}: if one more"
                f" was made, add --again; frames on that one are “picks {found.number} 4 11”"
            )
        made = archiving.contact(file, call.hand(file), found.id, paper, picks_in(chosen))
        answer(call, file, [made], as_json=as_json)
        if not as_json:
            say(f"contact sheet {paper_words(made, made.sheets[-1].paper, file.room().materials)}")


@click.command()
@click.argument("roll", metavar="ROLL")
@click.argument("frames", nargs=-1, required=True, metavar="FRAME…")
@json_option
@click.pass_obj
def picks(call: Call, *, roll: str, frames: tuple[str, ...], as_json: bool) -> None:
    """Say which frames of a roll were picked: `picks 0142 4 11`.

    They are kept with the contact sheet that was made last, beside those picked before.
    """
    with call.writing() as file:
        found, chosen = search.which(file.conn, roll), picks_in(" ".join(frames))
        picked = archiving.picks(file, call.hand(file), found.id, chosen)
        answer(call, file, [picked], as_json=as_json)
        if not as_json:
            say(f"picks {frames_words(picked.picks)}")


@click.command()
@click.argument("roll", metavar="ROLL")
@click.argument("frames", nargs=-1, required=True, metavar="FRAME…")
@json_option
@click.pass_obj
def unpick(call: Call, *, roll: str, frames: tuple[str, ...], as_json: bool) -> None:
    """Take back picks that were wrong: `unpick 0142 12`. All others stay."""
    with call.writing() as file:
        found, wrong = search.which(file.conn, roll), picks_in(" ".join(frames))
        left = archiving.unpick(file, call.hand(file), found.id, wrong)
        answer(call, file, [left], as_json=as_json)
        if not as_json:
            say(f"picks {frames_words(left.picks) or 'none'}")


@click.command("file")
@click.argument("rolls", nargs=-1, required=True, metavar="ROLL…")
@click.option("--binder", required=True, metavar="N", help="Its number in the term, or its code.")
@json_option
@click.pass_obj
def file_(call: Call, *, rolls: tuple[str, ...], binder: str, as_json: bool) -> None:
    """File sleeves in a binder of their term."""
    with call.writing() as file:
        found = search.which_all(file.conn, rolls)
        number = binder_number(binder, found)
        filed = archiving.file_in_binder(file, call.hand(file), [roll.id for roll in found], number)
        answer(call, file, filed, as_json=as_json, several=len(filed) > 1)
        bare = [roll.number for roll in filed if not roll.sheets]
        if bare and not as_json:
            say(f"filed without a contact sheet: {' '.join(bare)}")
