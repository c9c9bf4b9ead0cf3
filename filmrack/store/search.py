"""Finding rolls and people from one typed or scanned line."""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence

from filmrack.domain.asking import Part, code_in, parse
from filmrack.domain.names import Person, is_one_of, tokens
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.store import ledger, people, rolls
from filmrack.store.matching import borrowed_by, matching, named
from filmrack.store.spelling import meant_by

MOST = 50
_FEW = 3
_FEW_LETTERS = 2
"""Letters that find somebody, and that nothing is done by."""
_EVERYBODY = 9999
"""The most people a file holds: of two who are called the same, none may be overlooked."""
_JUST_NOW = 200
"""How many of the last entries tell what was just cut."""


def find(conn: sqlite3.Connection, line: str, *, limit: int = MOST) -> list[Roll]:
    """Return the rolls that a line asks for: those on their way first, then the newest, at the end
    what somebody of that name has borrowed now.

    Where few are found, names with a typing error count too. Raises Refused as `parse` does.
    """
    parts = parse(line)
    found = find_parts(conn, parts, limit=limit)
    if all(part.kind == "name" for part in parts):
        known = {roll.id for roll in found}
        lent = borrowed_by(conn, [part.value for part in parts])
        found += [roll for roll in lent if roll.id not in known]
    return found[:limit]


def find_parts(conn: sqlite3.Connection, parts: list[Part], *, limit: int = MOST) -> list[Roll]:
    """Return the rolls that all parts of a question agree on: see `find`."""
    if not parts:
        return []
    found = matching(conn, parts, {}, limit)
    if len(found) < _FEW and any(part.kind == "name" for part in parts):
        names = {part.value for part in parts if part.kind == "name"}
        similar = {name: meant_by(conn, name) for name in names}
        known = {roll.id for roll in found}
        more = matching(conn, parts, similar, limit)
        found += [roll for roll in more if roll.id not in known]
    return found[:limit]


def who(conn: sqlite3.Connection, text: str, *, short: bool = False) -> Person:
    """Return the one person who is meant by a name or part of it, a school's number or a code.

    Who is called just so goes before those whose names only begin so: `ana` is Ana, not Anabel.
    Raises Refused, with the choices, when nobody or more than one can be meant; with `short` their
    family names are not told.
    """
    code = code_in(text)
    if code is not None and code.kind == "P":
        return people.person_meant(conn, int(code.body))
    typed = text.strip()
    by_number = people.by_school_id(conn, typed) if typed.isprintable() else None
    if by_number is not None:
        return by_number
    number = typed.casefold().removeprefix("person").strip()
    if number.isascii() and number.isdecimal() and len(number) <= 4:
        return people.person_meant(conn, int(number))
    words = tokens(typed)
    found = people.with_words(conn, words, limit=_EVERYBODY)
    for exact in (
        [one for one in found if is_one_of(typed, one.whole_names)],
        [one for one in found if is_one_of(typed, one.single_names)],
    ):
        if len(exact) == 1:
            return exact[0]
    if len(found) == 1:
        refuse_guess(found[0], typed)
        return found[0]
    if not found:
        raise Refused(f"nobody here is called “{typed[:40]}”: check the spelling or the roster")
    from filmrack.domain.counted import listed  # a lookup that finds somebody says no such thing

    choices = listed(
        [f"{person.short if short else person.full} (person {person.number})" for person in found],
        8,
    )
    raise Refused(
        f"“{typed[:40]}” can be {choices}: type more of the name, or “person” and the number"
    )


def is_guess(person: Person, text: str) -> bool:
    """Tell whether a text is no more than one or two letters of somebody's names."""
    words = tokens(text)
    whole = {word for name in person.single_names for word in tokens(name)}
    longer = any(len(word) > _FEW_LETTERS or word in whole for word in words)
    return not longer and not any(map(str.isdecimal, text))


def refuse_guess(person: Person, text: str) -> None:
    """Raise Refused where somebody would be acted on by a beginning that may be another word."""
    if is_guess(person, text):
        raise Refused(
            f"“{text.strip()[:40]}” may be no name: type three letters of {person.short}'s name"
        )


def nearly(conn: sqlite3.Connection, text: str) -> list[Person]:
    """Return who is called like a text but for typing errors, each word in one of their names."""
    words = tokens(text)
    similar = {word: meant_by(conn, word) for word in words}
    if not words or not all(similar.values()):
        return []
    condition, values = named([Part("name", word) for word in words], similar)
    numbers = condition.removeprefix("person IN ")
    rows = conn.execute(f"SELECT id FROM people WHERE id IN {numbers}", values).fetchall()
    here = people.read_people(conn, (row[0] for row in rows))
    return sorted(here.values(), key=lambda person: (person.family, person.known_as))


def which(conn: sqlite3.Connection, text: str) -> Roll:
    """Return the one roll that is meant by its number, its clip or a scanned code.

    Raises Refused when there is none, or a name was typed: an act is never done by a guess.
    """
    parts = parse(text)
    found: list[Roll] = []
    if len(parts) == 1:
        part = parts[0]
        if part.kind == "clip":
            on_clip = rolls.on_clip(conn, int(part.value))
            if on_clip is None:
                raise Refused(why_free(conn, int(part.value)))
            return on_clip
        if part.kind == "roll":
            found = matching(conn, parts, {}, 1)
        elif part.kind == "number":
            found = _by_number(conn, part)
    if not found:
        raise Refused(
            f"“{text.strip()[:40]}” is no roll that is known here: give its number, its clip or"
            " scan it; “find” shows them by name"
        )
    return found[0]


def just_cut(conn: sqlite3.Connection, clip: int) -> Roll | None:
    """Return the roll that was cut from a clip a moment ago, if no other is on it by now."""
    if rolls.on_clip(conn, clip) is not None:
        return None
    from filmrack.domain.holdings import holdings  # a lookup that finds a roll asks for none

    cut = rolls.read(
        conn,
        "sleeved_at IS NOT NULL AND id IN (SELECT roll FROM (SELECT * FROM ledger ORDER BY id DESC"
        " LIMIT ?) WHERE act = 'sleeve') ORDER BY sleeved_at DESC",
        (_JUST_NOW,),
    )
    for roll in cut:
        held = [one for one in holdings(ledger.of_roll(conn, roll.id)) if one.kind == "clip"]
        if held and held[-1].what == clip:
            return roll
    return None


def why_free(conn: sqlite3.Connection, clip: int) -> str:
    """Return why a clip names no roll, and what to say instead."""
    roll = just_cut(conn, clip)
    if roll is None:
        return f"clip {clip} is noted on no roll: say whose it is"
    return (
        f"clip {clip} is free since {roll.number} was cut: name that roll by its number,"
        f" {roll.serial:04d}"
    )


def which_all(conn: sqlite3.Connection, texts: Sequence[str]) -> list[Roll]:
    """Return the rolls that are meant, each once; `rod 3` or a rod's code means every roll on it.

    Raises Refused as `which` does, and for an empty rod.
    """
    found: dict[int, Roll] = {}
    for text in _rejoined(texts):
        parts = parse(text)
        if len(parts) == 1 and parts[0].kind == "rod":
            some = _on_rod(conn, parts[0].value)
        else:
            some = [which(conn, text)]
        found.update({roll.id: roll for roll in some})
    return list(found.values())


def _on_rod(conn: sqlite3.Connection, rod: str) -> list[Roll]:
    found = rolls.on_rod(conn, int(rod))
    if not found:
        raise Refused(f"nothing is noted on rod {rod}: name the rolls")
    return found


def _rejoined(texts: Sequence[str]) -> list[str]:
    """`clip 17` and `rod 3` typed as two words are one thing, `clip 17 A` as three as well."""
    joined: list[str] = []
    for text in texts:
        before = joined[-1].casefold() if joined else ""
        if before in ("clip", "rod") or (
            before.startswith("clip ") and text.casefold() in ("a", "b")
        ):
            joined[-1] += f" {text}"
        else:
            joined.append(text)
    return joined


def _by_number(conn: sqlite3.Connection, part: Part) -> list[Roll]:
    """Up to three digits are a clip's number; four and more a roll's of the newest term."""
    number = int(part.value[:18])
    if part.may_be_a_clip:
        on_clip = rolls.on_clip(conn, number)
        return [on_clip] if on_clip else []
    return rolls.read(conn, "serial = ? AND place <> 'void' ORDER BY id DESC LIMIT 1", (number,))
