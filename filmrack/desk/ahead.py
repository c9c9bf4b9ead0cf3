"""What the next step of a roll will come to, said before Enter, and what it came to."""

from __future__ import annotations

from filmrack.acts.archiving import Sleeved
from filmrack.acts.inscriptions import sleeve_numbers
from filmrack.desk.session import Session
from filmrack.domain.counted import counted
from filmrack.domain.cutting import (
    Cut,
    cut_of,
    cut_words,
    fit_on,
    paper_words,
    pocket_words,
    rule_words,
)
from filmrack.domain.roll import Roll
from filmrack.domain.roomrules import Materials
from filmrack.store import labelling


def ahead(roll: Roll, act: str | None, materials: Materials, paper: str = "") -> list[str]:
    """Return what a step will come to: the cut plan and its page, or the paper and its fit.

    `paper` is one that was chosen, else it is the room's.
    """
    match act:
        case "sleeve":
            return plan_words(cut_of(roll.film, materials))
        case "contact":
            name = paper or materials.paper
            words = [paper_words(roll, name, materials)]
            if fit_on(roll, name, materials) in ("no", "pictures_only"):
                others = _other_papers(roll, materials)
                told = "it fits on" if papers_asked(roll, materials) else "type another:"
                none = "no paper of this room takes all of it"
                words += [f"{told} {', '.join(others)}" if others else none]
            return words
        case _:
            return []


def plan_words(cut: Cut) -> list[str]:
    """Return where to cut, and into what it goes."""
    return [each for each in (cut_words(cut), pocket_words(cut), rule_words(cut)) if each]


def papers_asked(roll: Roll, materials: Materials) -> list[str]:
    """Return the papers to choose from where the room's does not take a roll's page; none where it
    does, or where no other takes it either.
    """
    no_fit = fit_on(roll, materials.paper, materials) == "no"
    return _other_papers(roll, materials) if no_fit else []


def _other_papers(roll: Roll, materials: Materials) -> list[str]:
    """Return the papers that take the whole of a roll's page."""
    if roll.page_name is None:
        return []
    cut = cut_of(roll.film, materials, roll.page_name)
    return [name for name, fit in cut.fits.items() if fit == "fits"]


def sleeved_words(sleeved: Sleeved) -> str:
    """Return where to cut, the number of each sleeve, and which word makes which labels."""
    numbers = sleeve_numbers(sleeved.roll)
    many, one = len(numbers), len(numbers) == 1
    which = f"{'sleeve' if one else 'sleeves'} {' and '.join(numbers)}"
    labels = f"{counted(many, 'label')} queued"
    if sleeved.waiting > many:
        these = "this one" if one else f"these {many}"
        labels += f", {sleeved.waiting} wait in all"
        labels += f"; “label” then Enter makes the PDF of {these}, “print sleeves” of all"
    else:
        labels += f"; “label” then Enter makes {'its' if one else 'their'} PDF"
    return f"{cut_words(sleeved.cut)}; {which}; {labels}"


def labels_wait(session: Session, roll: Roll) -> str:
    """Return which word makes the labels of a roll that wait still, as the end of a sentence."""
    many = labelling.queued_of(session.file.conn, roll.id)
    return f"; “label” makes its {'label' if many == 1 else counted(many, 'label')}" if many else ""


def contact_words(session: Session, roll: Roll) -> str:
    """Return the paper of the sheet that was just made, and how it took the sleeve."""
    return paper_words(roll, roll.sheets[-1].paper, session.file.room().materials)


def without_sheet(roll: Roll) -> str:
    """Return that a roll is filed before its contact sheet, as the end of a sentence."""
    return "" if roll.sheets else ", without a contact sheet"
