"""Whoever a typed name is: one person of the school, or words that are kept as they stand."""

from __future__ import annotations

import sqlite3

from filmrack.domain.asking import code_in
from filmrack.domain.names import Person, tokens
from filmrack.domain.refusal import Refused
from filmrack.store import people, search


def person_or_words(conn: sqlite3.Connection, text: str, other: str) -> Person | str:
    """Return the one person of the school who is meant, or the text where nobody is called so.

    `other` is how somebody else's name is typed all the same. Raises Refused where several people
    can be meant, for the number or code of none, and for a name that is nobody's but nearly
    somebody's: an act is never done by a guess.
    """
    typed = " ".join(text.split())
    try:
        return search.who(conn, typed)
    except Refused as refused:
        several = bool(people.with_words(conn, tokens(typed), limit=1))
        if several:
            raise Refused(f"{refused}; {other}") from None
        number = typed.casefold().removeprefix("person").strip()
        if code_in(typed) or number.isdecimal():
            raise
    near = search.nearly(conn, typed)
    if near:
        raise Refused(
            f"“{typed[:40]}” is nobody here, but {near[0].full} is nearly called so: type the name"
            f" again, {other}"
        )
    return typed
