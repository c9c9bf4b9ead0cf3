"""What a typed line could mean, looked for in the file, among screens and among commands."""

from __future__ import annotations

from typing import NamedTuple

from filmrack.desk.by_initials import seen_by_initials
from filmrack.desk.done_to import can_be_done
from filmrack.desk.halves import ACTION_WORDS, TYPED_WORDS
from filmrack.desk.hit_order import Listed, as_they_are_fetched, newest_terms_first, sleeved_first
from filmrack.desk.registry import CALLED, SCREENS, CommandEntry, ScreenEntry, open_to
from filmrack.desk.session import Session
from filmrack.domain.asking import parse
from filmrack.domain.attention import Standing
from filmrack.domain.names import Person, begin_names, is_one_of, only_by_family, tokens
from filmrack.domain.refusal import Refused
from filmrack.store import people
from filmrack.store.standings import Seen, look_for

_PEOPLE = 12
_AS_BY_CLIP = ("TAKE", "BOX", "FLIP", "DRY", "TACKY", "WET", "MISSING")
_LEAST_LETTERS = 2


class Hit(NamedTuple):
    """One thing that is meant: exactly one of the first four fields is set."""

    standing: Standing | None = None
    person: Person | None = None
    screen: str | None = None
    command: str | None = None
    near: bool = False
    """Whether its owner is called so only but for typing errors."""
    verb: str = ""
    """What is to be done to a roll, as typed beside its owner's name."""
    guest: str = ""
    """Who has borrowed it, where it was found by their name and not by its owner's."""
    one_of_several: bool = False
    """Whether the same letters fit another roll of its owner too, and nobody chose between them."""
    certain: bool = False
    """Whether nobody else and no other roll can be meant by that, so that it is done unasked."""


def hits_for(
    session: Session, line: str, *, whose: bool = False, listed: Listed | None = None
) -> tuple[list[Hit], Seen]:
    """Return what a typed line could mean at this desk: a command typed whole, then rolls, then
    people. Refusals of codes find nothing. `whose` when the desk asked whose a clip is, `listed`
    where rolls of the archive are looked for first, those before others that it is true of.

    Where a line begins nobody's name, those whose initials it is are meant.

    A student desk finds what is on its way, by more than one letter: it is no list of people.
    """
    typed, words = line.strip().casefold(), tokens(line)
    if one_letter(line) and session.by != "teacher":
        words, line = [], ""
    try:
        seen = look_for(session.file, line, session.now)
    except Refused:
        return [], Seen((), {})
    by_number = any(character.isdigit() for character in typed)
    standings = _in_order(session, seen, by_number=by_number, listed=listed)
    some = people.with_words(session.file.conn, words)
    some = sorted(some, key=lambda person: only_by_family(person, words))[:_PEOPLE]
    hits = _owners(standings, some, words) if whose else _of_each(standings, some)
    hits += _begin_so(session.by, typed)
    if typed not in ACTION_WORDS:  # somebody may be called Fan, and no dial was turned then
        hits.sort(key=lambda hit: not _whole(hit, typed))
    hits = [_found_by(hit, seen, line) for hit in hits]
    hits.sort(key=lambda hit: hit.near)
    named = some or any(hit.standing is not None and not hit.near for hit in hits)
    if named or whose:
        return hits, seen
    return _or_by_initials(session, words, hits, seen)


def _or_by_initials(
    session: Session, words: list[str], hits: list[Hit], seen: Seen
) -> tuple[list[Hit], Seen]:
    """Return the rolls of those whose initials a line is, or else what was found before.

    They stand behind screens and commands, and in place of names that are only nearly so.
    """
    theirs = seen_by_initials(session, words)
    if not theirs.standings:
        return hits, seen
    standings = _in_order(session, theirs, by_number=False, listed=None)
    left = [hit for hit in hits if not hit.near]
    return [*left, *(Hit(standing=each) for each in standings)], theirs


def _in_order(
    session: Session, seen: Seen, *, by_number: bool, listed: Listed | None
) -> list[Standing]:
    """Return the rolls that this desk may show, as they are come for."""
    terms = [term.code for term in session.file.room().terms]
    standings = [each for each in seen.standings if session.by == "teacher" or each.roll.live]
    if not by_number:  # a number means just that one
        standings = newest_terms_first(as_they_are_fetched(standings), terms)
    return standings if listed is None else sleeved_first(standings, terms, listed)


def _owners(standings: list[Standing], some: list[Person], words: list[str]) -> list[Hit]:
    """Return people alone, those first whose rolls were found first."""
    ranks = {each.roll.person: nth for nth, each in reversed(list(enumerate(standings)))}

    def order(person: Person) -> tuple[int, int]:
        return only_by_family(person, words), ranks.get(person.number, len(standings))

    return [Hit(person=person) for person in sorted(some, key=order)]


def _begin_so(by: str, typed: str) -> list[Hit]:
    """Return the screens and the commands of a desk whose names begin with what was typed."""

    def begins(entry: ScreenEntry | CommandEntry) -> bool:
        return open_to(entry, by) and any(name.startswith(typed) for name in entry.names)

    screens = [Hit(screen=screen.id) for screen in SCREENS if begins(screen)]
    return [*screens, *(Hit(command=command.words) for command in CALLED if begins(command))]


def _found_by(hit: Hit, seen: Seen, line: str) -> Hit:
    """Return a hit with how it was found, if not by its owner's name as that is written: by the
    name of whoever has borrowed it, or only but for typing errors.
    """
    if hit.standing is None:
        return hit
    roll = hit.standing.roll
    owner, borrower = seen.owner(roll), seen.borrowers.get(roll.id, "")
    words = [part.value for part in parse(line) if part.kind == "name"]
    if owner and begin_names(words, f"{owner.given} {owner.called or ''} {owner.family}"):
        return hit
    by_guest = bool(words and borrower) and begin_names(words, borrower)
    return hit._replace(guest=borrower) if by_guest else hit._replace(near=owner is not None)


def lent_first(hits: list[Hit], *, to_them: bool) -> list[Hit]:
    """Return hits with what is lent before the rest, for that is meant by who asks who has a roll;
    what is lent `to_them` before that where it is asked what they have.
    """

    def is_lent(hit: Hit) -> bool:
        return not hit.near and hit.standing is not None and hit.standing.roll.place.kind == "out"

    return sorted(hits, key=lambda hit: (not (to_them and hit.guest), not is_lent(hit)))


def fitting(hits: list[Hit], verb: str) -> list[Hit]:
    """Return the rolls among hits that a verb can be meant of."""
    return [hit for hit in hits if hit.standing and can_be_done(verb, hit.standing)]


def to_do(session: Session, hits: list[Hit], verb: str, name: str) -> list[Hit]:
    """Return the rolls that a verb can be meant of, if there are any; else all that was found.

    One alone is as certain as by its clip, where one person alone is called by that whole name.
    """
    fit = fitting(hits, verb)
    certain = len(fit) == 1 and TYPED_WORDS.get(verb) in _AS_BY_CLIP
    certain = certain and _one_called(session, name) == _owner_of(fit[0])
    some = fit or [hit for hit in hits if hit.standing]
    return [hit._replace(verb=verb, certain=certain) for hit in some] or hits


def _one_called(session: Session, name: str) -> int | None:
    """Return the number of the one person who is called by a whole name, not by the family's alone;
    None for nobody and for several.
    """
    some = [
        person.number
        for person in people.with_words(session.file.conn, tokens(name))
        if is_one_of(name, (*person.whole_names, person.known_as, person.given))
    ]
    return some[0] if len(some) == 1 else None


def _owner_of(hit: Hit) -> int:
    """Return the number of a roll's owner; -1 for a roll without one or without a clip."""
    roll = None if hit.standing is None else hit.standing.roll
    return -1 if roll is None or roll.clip is None or roll.person is None else roll.person


def _whole(hit: Hit, typed: str) -> bool:
    """Tell whether a command or a screen was typed whole, by one of its names."""
    meant = [each.names for each in CALLED if each.words == hit.command]
    meant += [each.names for each in SCREENS if each.id == hit.screen]
    return any(typed in names for names in meant)


def one_letter(line: str) -> bool:
    """Tell whether a line is one letter: it begins too many names to mean anything."""
    words = tokens(line)
    return len(words) == 1 and len(words[0]) < _LEAST_LETTERS and not words[0][0].isdigit()


def _of_each(standings: list[Standing], some: list[Person]) -> list[Hit]:
    """Return rolls in their order, and below them all whoever can be given a new one: who looks for
    a roll steps over nobody. One arrow up from the first is the last.
    """
    ranks = {each.roll.person: nth for nth, each in reversed(list(enumerate(standings)))}
    people_ = sorted(some, key=lambda person: ranks.get(person.number, len(standings)))
    return [*(Hit(standing=each) for each in standings), *(Hit(person=one) for one in people_)]
