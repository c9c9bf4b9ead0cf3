"""What the columns of a roster are called, and what is meant by each."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from filmrack.domain.names import tokens

Meaning = Literal["family", "given", "called", "full", "school_id", "period"]

IN_WORDS: dict[Meaning, str] = {
    "family": "family name",
    "given": "given name",
    "called": "called-by name",
    "full": "whole name",
    "school_id": "school id",
    "period": "period",
}
"""What a column is said to be."""

# Headings as schools and spreadsheets write them (common practice), without signs and spaces.
_WORDS: dict[Meaning, str] = {
    "family": "family familyname last lastname surname studentlastname legallastname"
    " nachname familienname apellido apellidos nomdefamille cognome achternaam sobrenome",
    "given": "given givenname givennames first firstname forename forenames studentfirstname"
    " legalfirstname vorname prenom nombre nombres prenome voornaam",
    "called": "called calledby calledname preferred preferredname preferredfirstname nickname"
    " knownas goesby rufname apodo surnom roepnaam",
    "full": "name fullname student studentname studentsname pupil pupilname learner learnername"
    " names schuler schulerin nameofstudent displayname namelastfirst lastnamefirstname",
    "school_id": "id schoolid studentid studentnumber studentno idnumber pupilid pupilnumber"
    " learnerid personid localid number no nr schulernummer matricula sid",
    "period": "period classperiod per pd block class section lesson bell hour group course"
    " stunde klasse kurs bloque periodo clase",
}
_MEANINGS: dict[str, Meaning] = {
    word: meaning for meaning, words in _WORDS.items() for word in words.split()
}


def _meaning_of(heading: str, period_word: str = "period") -> Meaning | None:
    """Return what a column of that heading holds, or None where it says nothing known.

    >>> _meaning_of("Last Name"), _meaning_of("E-mail")
    ('family', None)
    """
    word = "".join(tokens(heading))
    if word and word == "".join(tokens(period_word)):
        return "period"
    return _MEANINGS.get(word)


def columns_of(headings: Sequence[str], period_word: str) -> dict[Meaning, int]:
    """Return which column holds what; the first of two that mean the same.

    A whole name is set aside where family and given name have columns of their own.
    """
    columns: dict[Meaning, int] = {}
    for number, heading in enumerate(headings):
        meaning = _meaning_of(heading, period_word)
        if meaning is not None:
            columns.setdefault(meaning, number)
    if "family" in columns and "given" in columns:
        columns.pop("full", None)
    elif "full" in columns:
        columns.pop("family", None)
        columns.pop("given", None)
    return columns
