"""What a name that is being typed could mean: rolls, people, screens and commands."""

from __future__ import annotations

from collections.abc import Collection
from typing import NamedTuple

from rich.text import Text

from filmrack.desk.done_to import can_be_done
from filmrack.desk.halves import ACTION_WORDS
from filmrack.desk.hit_order import as_they_are_fetched, newest_terms_first, sleeved_first
from filmrack.desk.ink import fitted, ground, state_style, state_word, style
from filmrack.desk.lines import Lines, Spot
from filmrack.desk.others import others_fit
from filmrack.desk.registry import CALLED, SCREENS, open_to, screen_entry
from filmrack.desk.said import capital
from filmrack.desk.session import Session
from filmrack.desk.themes import PALETTES
from filmrack.desk.verbs import looked_for
from filmrack.domain.asking import parse
from filmrack.domain.attention import Standing
from filmrack.domain.names import Person, only_by_family, tokens
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import ARCHIVED
from filmrack.store import people
from filmrack.store.standings import Seen, look_for

_PEOPLE = 12
_FEW_OWNERS = 3
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


def hits_for(
    session: Session, line: str, *, whose: bool = False, archived: bool = False
) -> tuple[list[Hit], Seen]:
    """Return what a typed line could mean at this desk: a command typed whole, then rolls, then
    people. Refusals of codes find nothing. `whose` when the desk asked whose a clip is, `archived`
    where rolls of the archive are looked for first.

    A student desk finds what is on its way, by more than one letter: it is no list of people.
    """
    typed = line.strip().casefold()
    words = tokens(line)
    teacher = session.by == "teacher"
    if one_letter(line) and not teacher:
        words, line = [], ""
    try:
        seen = look_for(session.file, line, session.now)
    except Refused:
        return [], Seen((), {})
    standings = [each for each in seen.standings if teacher or each.roll.live]
    if not any(character.isdigit() for character in typed):  # a number means just that one
        terms = [term.code for term in session.file.room().terms]
        standings = newest_terms_first(as_they_are_fetched(standings), terms)
    if archived:
        standings = sleeved_first(standings, [term.code for term in session.file.room().terms])
    some = people.with_words(session.file.conn, words)
    some = sorted(some, key=lambda person: only_by_family(person, words))[:_PEOPLE]
    ranks = {each.roll.person: nth for nth, each in reversed(list(enumerate(standings)))}
    owners = sorted(
        some,
        key=lambda person: (
            only_by_family(person, words),
            ranks.get(person.number, len(standings)),
        ),
    )
    hits = [Hit(person=person) for person in owners] if whose else _of_each(standings, some)
    for screen in SCREENS:
        if any(name.startswith(typed) for name in screen.names) and open_to(screen, session.by):
            hits.append(Hit(screen=screen.id))
    for command in CALLED:
        if any(name.startswith(typed) for name in command.names) and open_to(command, session.by):
            hits.append(Hit(command=command.words))
    if typed not in ACTION_WORDS:  # somebody may be called Fan, and no dial was turned then
        hits.sort(key=lambda hit: not _whole(hit, typed))
    hits = [hit._replace(near=_is_near(hit, seen, line)) for hit in hits]
    hits.sort(key=lambda hit: hit.near)
    return hits, seen


def _is_near(hit: Hit, seen: Seen, line: str) -> bool:
    owner = None if hit.standing is None else seen.owner(hit.standing.roll)
    if owner is None:
        return False
    names = tokens(f"{owner.given} {owner.called or ''} {owner.family}")
    words = [part.value for part in parse(line) if part.kind == "name"]
    return not all(any(name.startswith(word) for name in names) for word in words)


def _fitting(hits: list[Hit], verb: str) -> list[Hit]:
    return [hit for hit in hits if hit.standing and can_be_done(verb, hit.standing)]


def _to_do(hits: list[Hit], verb: str) -> list[Hit]:
    """Return the rolls that a verb can be meant of, if there are any; else all that was found."""
    some = _fitting(hits, verb) or [hit for hit in hits if hit.standing]
    return [hit._replace(verb=verb) for hit in some] or hits


def _whole(hit: Hit, typed: str) -> bool:
    """Tell whether a command or a screen was typed whole, by one of its names."""
    meant = [each.names for each in CALLED if each.words == hit.command]
    meant += [each.names for each in SCREENS if each.id == hit.screen]
    return any(typed in names for names in meant)


def one_letter(line: str) -> bool:
    """Tell whether a line is one letter: it begins too many names to mean anything."""
    words = tokens(line)
    return bool(words) and max(map(len, words)) < _LEAST_LETTERS and not words[0][0].isdigit()


def _of_each(standings: list[Standing], some: list[Person]) -> list[Hit]:
    """Return rolls in their order; whoever's it is can be given a further one right behind it.

    While letters mean many people still, rolls stand closer together and people at the end.
    """
    hits: list[Hit] = []
    left = {person.number: person for person in some}
    if len({each.roll.person for each in standings} & left.keys()) > _FEW_OWNERS:
        return [*(Hit(standing=each) for each in standings), *(Hit(person=one) for one in some)]
    for each in standings:
        hits.append(Hit(standing=each))
        owner = left.pop(each.roll.person or 0, None)
        if owner is not None:
            hits.append(Hit(person=owner))
    return [*hits, *(Hit(person=person) for person in left.values())]


class Hits(Lines):
    """The list of hits, over the screen while something is typed."""

    def __init__(self, session: Session) -> None:
        super().__init__(id="hits")
        self.session = session
        self.hits: list[Hit] = []
        self.at: int | None = None
        self._line = ""
        self._archived = False
        self._picked = False
        """Whether somebody chose among them, and so has read them."""
        self._which = ""
        """A verb that can be meant of several of these rolls."""
        self._shut: Collection[str] = ()
        self._seen = Seen((), {})

    def look(self, line: str, *, whose: bool = False, archived: bool = False) -> None:
        """Look for what is typed now; the first hit is the chosen one, behind one letter or where
        nobody is called quite so none.

        A line that begins or ends with a verb looks for the rest when nothing is called as the
        whole.
        """
        self._line, self._archived, self._which = line.strip(), archived, ""
        self._picked = False
        self.hits, self._seen = hits_for(self.session, line, whose=whose, archived=archived)
        verb, rest = looked_for(line)
        if verb and not self.sure:
            hits, seen = hits_for(self.session, rest, whose=whose or verb == "load")
            if hits:
                self._line, self._seen, self._archived = rest, seen, False
                self.hits = hits if verb in ("load", "find") else _to_do(hits, verb)
                several = verb not in ("load", "find") and len(_fitting(hits, verb)) > 1
                self._which = verb if several else ""
        self.at = None if one_letter(line) or not self.sure or self._which else 0

    @property
    def sure(self) -> bool:
        """Tell whether something is called as was typed; the others are only near."""
        return bool(self.hits) and not self.hits[0].near

    @property
    def doubt(self) -> str:
        """Return what to say of a line that nobody is called by, while none is chosen."""
        if self.at is None and self.sure and self._which:
            return f"{self._which} which of these? Choose with the arrows, then press Enter"
        if self.at is not None or not self.hits or self.sure:
            return ""
        return f"nobody is called “{self._line[:40]}”: choose one of these with the arrows"

    @property
    def chosen(self) -> Hit | None:
        """Return the hit that Enter takes."""
        return None if self.at is None else self.hits[self.at]

    @property
    def others(self) -> str:
        """Return whom else the letters fit, for an answer about the hit that nobody picked."""
        chosen = self.chosen
        if chosen is None or self._picked:
            return ""
        return others_fit(self._line, chosen, self.hits, self._seen)

    def pick(self, nth: int) -> None:
        """Choose a hit by its place in the list."""
        self.at, self._picked = nth, True

    def move(self, step: int) -> None:
        """Choose another hit; a single step goes round at the ends."""
        if not self.hits:
            return
        self._picked = True
        at = (-1 if step > 0 else 0) if self.at is None else self.at
        last = len(self.hits) - 1
        self.at = (at + step) % (last + 1) if abs(step) == 1 else max(0, min(last, at + step))

    def draw(self) -> None:
        """Show the hits."""
        line = self._line
        palette = PALETTES[self.app.theme]
        if not self.hits:
            words = f"Nothing is called “{line}”."
            if one_letter(line):
                words = f"“{line}” begins many names."
            less = "Type one more letter." if one_letter(line) else "Try fewer letters."
            self.show([Text(words, style=style(palette.text, bold=True)), Text(less)])
            return
        width = self.content_size.width
        self._shut = self.session.closed_terms()
        lines = [self._row(nth, width) for nth in range(len(self.hits))]
        head = []
        if self._which:
            words = f"{capital(self._which)} which of these? Choose with the arrows."
            head = [Text(words, style=style(palette.text, bold=True)), Text("")]
        if not self.sure:
            words = f"Nobody is called “{line}”. These are near: choose with the arrows."
            head = [Text(words, style=style(palette.text, bold=True)), Text("")]
        elif self._otherwise_than_elsewhere():
            words = "Here what is sleeved comes first; on other screens what is on its way does."
            head = [Text(words, style=style(palette.quiet)), Text("")]
        above = len(head)
        spots = [Spot(above + nth, 0, above + nth + 1, width, nth) for nth in range(len(lines))]
        self.show([*head, *lines], spots, keep=0 if self.at is None else above + self.at)

    def _otherwise_than_elsewhere(self) -> bool:
        """Tell whether the order is the archive's own: it has both kinds of rolls."""
        kinds = [each.standing.roll.place.kind for each in self.hits if each.standing is not None]
        some = {kind in ARCHIVED for kind in kinds}
        return self._archived and len(some) > 1

    def _next(self, standing: Standing) -> str:
        term = standing.roll.term
        return f"term {term} is closed" if term in self._shut else standing.next.words

    def _row(self, nth: int, width: int) -> Text:
        hit, chosen = self.hits[nth], nth == self.at
        palette = PALETTES[self.app.theme]
        text, quiet = style(palette.text, bold=chosen), style(palette.quiet)
        mark = ("▸ " if chosen else "  ", text)
        if hit.standing is not None:
            roll, owner = hit.standing.roll, self._seen.owner(hit.standing.roll)
            row = Text.assemble(
                mark,
                fitted(owner.short if owner else self._seen.whose(roll), 24, text),
                fitted(f"clip {roll.clip}" if roll.clip else "", 10, text),
                fitted(self._seen.place(roll), 22, text),
                fitted(state_word(hit.standing), 7, state_style(hit.standing, palette)),
                fitted(roll.number, 13, quiet),
                fitted(self._next(hit.standing), max(0, width - 78), quiet),
            )
        elif hit.person is not None:
            above = self.hits[nth - 1].standing if nth else None
            again = above is not None and above.roll.person == hit.person.number
            name = "" if again else hit.person.short
            words = f"load another roll of {hit.person.short}" if again else "load a roll of theirs"
            row = Text.assemble(
                mark, fitted(name, 24, text), (f"{words}: then its clip", text if again else quiet)
            )
        elif hit.screen is not None:
            entry = screen_entry(hit.screen)
            row = Text.assemble(mark, fitted(entry.title, 24, text), (entry.purpose, quiet))
        else:
            command = next(each for each in CALLED if each.words == hit.command)
            row = Text.assemble(mark, fitted(command.words, 24, text), (command.does, quiet))
        if chosen:
            row.stylize(ground(palette))
        return row
