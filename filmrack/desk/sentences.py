"""What the line means: sentences of one or two halves, scanned or typed, and the acts they are.

Nothing is ever acted on by a guess: a half that could mean two things is asked about, and the
first half is forgotten after ten seconds.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime, timedelta

from filmrack.acts import archiving, drying, fetching, hanging, owning, undoing
from filmrack.desk.session import Session
from filmrack.domain.asking import Part, code_in, parse
from filmrack.domain.codes import ACTIONS, read
from filmrack.domain.names import Person
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.store import people, rolls, search

PATIENCE = timedelta(seconds=10)

ACTION_WORDS = {word.casefold(): word for word in ACTIONS} | {"fan off": "FANOFF", "off": "FANOFF"}


@dataclass(frozen=True, slots=True)
class Said:
    """What the desk answers: `headline` in large letters, `words` below it.

    `select` is a roll to show, `rod` one to go to; `done` tells that the file was changed.
    """

    headline: str
    words: str = ""
    select: int | None = None
    rod: int | None = None
    done: bool = False
    screen: str | None = None


@dataclass(frozen=True, slots=True)
class Half:
    """The first half of a sentence: exactly one of its fields is set."""

    person: Person | None = None
    clip: int | None = None
    """A clip that is on no roll."""
    roll: Roll | None = None
    rod: int | None = None
    box: int | None = None
    binder: str | None = None
    """A binder as `26F-03`, or a number alone."""


@dataclass(slots=True)
class Sentences:
    """The sentence in hand at one desk."""

    session: Session
    first: Half | None = None
    since: datetime | None = None
    _hung: int | None = field(default=None)
    """The roll that the last scan hung: a rod scanned next says that it hangs there instead."""

    def expire(self, now: datetime) -> bool:
        """Forget the first half when its second did not come; tell whether it did so."""
        if self.first is not None and self.since is not None and now - self.since > PATIENCE:
            self.clear()
            return True
        return False

    def clear(self) -> None:
        """Forget the first half."""
        self.first, self.since, self._hung = None, None, None

    def person(self, person: Person) -> Said:
        """Take a person who was chosen from a list, as if scanned."""
        return self._person(person, self.first)

    def hold(self, roll: Roll) -> Said:
        """Take a roll that was found by name: it is selected, and nothing is done to it."""
        words = f"{roll.place}. Enter for its next step, or say flip, dry, box …"
        headline = f"{roll.clip or roll.number} → {self._whose(roll)}"
        return self._wait(Half(roll=roll), headline, words, select=roll.id)

    def understands(self, line: str) -> bool:
        """Tell whether a line is a sentence, not a name to look for."""
        try:
            return bool(_words(self.session, line))
        except Refused:
            return True

    def say(self, line: str) -> Said:
        """Take a scanned or typed line. Raises Refused for what cannot be meant."""
        said: Said | None = None
        try:
            words = _words(self.session, line)
            for nth, word in enumerate(words, 1):
                said = self._take(word, more=nth < len(words))
        except Refused:
            self.clear()
            raise
        if said is None:
            raise Refused("that says nothing that can be done: scan a clip, or type a name")
        return said

    def _take(self, word: Half | str, *, more: bool) -> Said:
        if isinstance(word, str):
            return self._act(word)
        first, self._hung = self.first, self._hung if word.rod is not None else None
        if word.person is not None:
            return self._person(word.person, first)
        if word.clip is not None:
            return self._free_clip(word.clip, first)
        if word.roll is not None:
            return self._roll(word.roll, first, more=more)
        if word.rod is not None:
            return self._rod(word.rod, first)
        if word.binder is not None:
            return self._binder(word.binder, first)
        assert word.box is not None
        return self._box(word.box, first)

    def _wait(self, half: Half, headline: str, words: str, **shown: int | None) -> Said:
        self.first, self.since = half, self.session.now
        return Said(headline, words, select=shown.get("select"), rod=shown.get("rod"))

    def _person(self, person: Person, first: Half | None) -> Said:
        if first is not None and first.clip is not None:
            return self._load(person, first.clip)
        if first is not None and first.roll is not None and first.roll.person is None:
            return self._claim(first.roll, person)
        if first is not None and first.roll is not None and first.roll.clip is not None:
            return self._load(person, first.roll.clip)
        return self._wait(Half(person=person), person.short, "now the clip pair of the roll")

    def _free_clip(self, clip: int, first: Half | None) -> Said:
        if first is not None and first.person is not None:
            return self._load(first.person, clip)
        words = "nobody's yet: whose is it? (a rod: an unknown roll)"
        return self._wait(Half(clip=clip), f"clip {clip}", _instead(first) + words)

    def _load(self, person: Person, clip: int) -> Said:
        session = self.session
        before = rolls.on_clip(session.file.conn, clip)
        loaded = hanging.load(session.file, session.hand(), person.number, [clip]).rolls[0]
        rod = self.session.file.room().rods_of(loaded.period)
        where = f"rod {rod[0].number}" if rod else "a rod"
        said = self._wait(
            Half(person=person),
            f"{clip} → {person.short}",
            f"loaded. Enter when it hangs on {where}; a second roll: its clip{_lost(before)}",
            select=loaded.id,
        )
        return _done(said)

    def _claim(self, roll: Roll, person: Person) -> Said:
        owning.claim(self.session.file, self.session.hand(), roll.id, person.number)
        self.clear()
        return Said(f"{roll.number} → {person.short}", "claimed", select=roll.id, done=True)

    def _roll(self, roll: Roll, first: Half | None, *, more: bool) -> Said:
        if first is not None and first.person is not None and roll.clip is not None:
            if roll.place.kind == "tank" and roll.person == first.person.number:
                return self._hang(roll)
            return self._load(first.person, roll.clip)
        if first is not None and first.binder is not None:
            return self._filed(roll, first.binder)
        if first is not None and first.box is not None:
            return self._boxed(roll, first.box)
        if roll.place.kind == "tank" and not more:
            return self._hang(roll)
        whose = self._whose(roll)
        return self._wait(
            Half(roll=roll),
            f"{roll.clip or roll.number} → {whose}",
            f"{_instead(first)}{roll.place}. Enter for its next step, or say flip, dry, box …",
            select=roll.id,
        )

    def _hang(self, roll: Roll, rod: int | None = None, position: int | None = None) -> Said:
        hung = hanging.hang(
            self.session.file, self.session.hand(), roll=roll.id, rod=rod, position=position
        )
        said = _done(
            self._wait(
                Half(roll=hung.roll),
                f"{roll.clip or roll.number} → {self._whose(roll)}",
                f"hung on {hung.roll.place}{_dial(hung.dial_hours)}. Elsewhere? Scan that rod",
                select=hung.roll.id,
            )
        )
        self._hung = hung.roll.id
        return said

    def _rod(self, rod: int, first: Half | None) -> Said:
        session = self.session
        if first is not None and first.clip is not None:
            hung = hanging.hang(session.file, session.hand(), clip=first.clip, rod=rod)
            self.clear()
            words = f"unknown roll, hung on {hung.roll.place}{_dial(hung.dial_hours)}"
            return Said(f"clip {first.clip}", words, select=hung.roll.id, done=True)
        if first is not None and first.roll is not None:
            return self._roll_on_rod(first.roll, rod)
        if session.file.room().rod(rod) is None:
            raise Refused(f"there is no rod {rod} in this room: scan a rod's label again")
        return self._wait(Half(rod=rod), f"rod {rod}", "all on it: flip, or box", rod=rod)

    def _roll_on_rod(self, roll: Roll, rod: int) -> Said:
        now = rolls.by_id(self.session.file.conn, roll.id)
        if now.place.kind != "rod":
            return self._hang(now, rod)
        moved = hanging.move(self.session.file, self.session.hand(), roll.id, rod).roll
        self.clear()
        headline = f"{roll.clip or roll.number} → {self._whose(roll)}"
        return Said(headline, f"hangs on {moved.place}", select=roll.id, done=True)

    def _box(self, box: int, first: Half | None) -> Said:
        if first is None or first.roll is None:
            return self._wait(Half(box=box), f"box {box}", "now the clip that went into it")
        return self._boxed(first.roll, box)

    def _boxed(self, roll: Roll, box: int | None) -> Said:
        session = self.session
        boxed = fetching.box(session.file, session.hand(), [roll.id], box_number=box)[0]
        self.clear()
        headline = f"{roll.clip or roll.number} → {self._whose(roll)}"
        return Said(headline, f"in {boxed.place}", select=roll.id, done=True)

    def _binder(self, binder: str, first: Half | None) -> Said:
        if first is None or first.roll is None:
            return self._wait(Half(binder=binder), f"binder {binder}", "now what is filed in it")
        return self._filed(first.roll, binder)

    def _filed(self, roll: Roll, binder: str) -> Said:
        term, _, number = binder.rpartition("-")
        if term and term != roll.term:
            raise Refused(
                f"binder {binder} is of another term than {roll.number}: file it in one of"
                f" {roll.term}"
            )
        session = self.session
        archiving.file_in_binder(session.file, session.hand(), [roll.id], int(number))
        # The binder stays in hand: a whole stack is filed by scanning it once.
        return _done(
            self._wait(
                Half(binder=binder),
                f"{roll.number} → {self._whose(roll)}",
                f"filed in binder {binder}. The next one?",
                select=roll.id,
            )
        )

    def _act(self, action: str) -> Said:
        session, first = self.session, self.first
        if action in ("FAN", "FANOFF"):
            hours = 0.0 if action == "FANOFF" else None
            drying.turn_dial(session.file, session.hand(), hours)
            return Said("fan off" if hours == 0 else "fan on", "kept", done=True)
        if first is not None and first.rod is not None and action in ("FLIP", "BOX"):
            return self._whole_rod(first.rod, action)
        if action == "UNDO":
            return self._undo(first)
        if first is None or first.roll is None:
            raise Refused(f"{action.lower()} what? Scan the clip first, then {action.lower()}")
        return self._on_roll(first.roll, action)

    def _on_roll(self, roll: Roll, action: str) -> Said:
        session, headline = self.session, f"{roll.clip or roll.number} → {self._whose(roll)}"
        if action == "BOX":
            return self._boxed(roll, None)
        if action == "FLIP":
            drying.flip(session.file, session.hand(), [roll.id])
            words = "flipped"
        elif action == "TAKE":
            fetching.take(session.file, session.hand(), roll.id)
            words = "with its owner"
        else:
            dry = action == "DRY"
            drying.touch(session.file, session.hand(), roll.id, dry=dry)
            words = "dry by touch" if dry else "still tacky"
        self.clear()
        return Said(headline, f"{words}. Wrong? Type undo", select=roll.id, done=True)

    def _whole_rod(self, rod: int, action: str) -> Said:
        session = self.session
        there = [roll.id for roll in search.which_all(session.file.conn, ["rod", str(rod)])]
        if action == "FLIP":
            drying.flip(session.file, session.hand(), there)
            words = f"{len(there)} flipped"
        else:
            fetching.box(session.file, session.hand(), there)
            words = f"{len(there)} to their boxes"
        self.clear()
        return Said(f"rod {rod}", f"{words}. Wrong? Type undo", rod=rod, done=True)

    def _undo(self, first: Half | None) -> Said:
        session = self.session
        roll = first.roll.id if first is not None and first.roll is not None else None
        undone = undoing.undo(session.file, session.hand(), roll)
        self.clear()
        acts = ", ".join(dict.fromkeys(act for act, _ in undone.acts if act != "fan")) or "fan"
        select = undone.rolls[0].id if undone.rolls else None
        return Said("taken back", f"{acts}. Again goes one further back", select=select, done=True)

    def _whose(self, roll: Roll) -> str:
        if roll.person is None:
            return "unknown roll"
        return people.read_people(self.session.file.conn, [roll.person])[roll.person].short


def _done(said: Said) -> Said:
    return Said(said.headline, said.words, said.select, said.rod, done=True)


def _instead(first: Half | None) -> str:
    """A second clip cancels the first, and says so."""
    if first is None or (first.roll is None and first.clip is None):
        return ""
    old = first.clip if first.roll is None else first.roll.clip or first.roll.number
    return f"clip {old} is let go. "


def _lost(before: Roll | None) -> str:
    return "" if before is None else f". {before.number}, which had that clip, is missing now"


def _dial(hours: float | None) -> str:
    return "" if hours is None else f". Turn the dial to {hours:g} h"


def _words(session: Session, line: str) -> list[Half | str]:
    """Cut a line into halves and actions; an empty list means that it is a name to look for.

    Raises Refused for a code that is none of ours, or a name that is nobody's or several people's
    behind a clip.
    """
    whole = read(line)
    if whole is not None and whole.kind == "X":
        return [whole.body]
    if whole is None and line.strip().casefold() in ACTION_WORDS:
        return [ACTION_WORDS[line.strip().casefold()]]
    if code_in(line) is not None:
        return [_half(session, parse(line)[0])]
    return _typed(session, line)


def _typed(session: Session, line: str) -> list[Half | str]:
    """`17 mar`, `17 rod 3`, `17 dry`, `rod 3 flip`: a sentence begins with a number or a place."""
    words = line.split()
    action: str | None = None
    for length in (2, 1):
        tail = " ".join(words[-length:]).casefold()
        if len(words) > length and tail in ACTION_WORDS:
            action, words = ACTION_WORDS[tail], words[:-length]
            break
    parts = parse(" ".join(words))
    if not parts or parts[0].kind not in (
        "number",
        "clip",
        "rod",
        "box",
        "roll",
        "person",
        "binder",
    ):
        return []
    if parts[0].kind == "number" and len(parts[0].value) > 3 and len(parts) == 1 and not action:
        return [_half(session, parts[0])]
    halves: list[Half | str] = []
    names = [part.value for part in parts[1:] if part.kind == "name"]
    for part in parts:
        if part.kind != "name":
            halves.append(_half(session, part))
    if names:
        halves.append(Half(person=search.who(session.file.conn, " ".join(names))))
    return [*halves, action] if action else halves


def _half(session: Session, part: Part) -> Half:
    conn = session.file.conn
    match part.kind:
        case "rod":
            return Half(rod=int(part.value))
        case "box":
            return Half(box=int(part.value))
        case "person":
            return Half(person=search.who(conn, part.value))
        case "clip" | "number" if len(part.value) <= 3:
            on_clip = rolls.on_clip(conn, int(part.value))
            if on_clip is not None:
                return Half(roll=on_clip)
            if not 1 <= int(part.value) <= 999:
                raise Refused(f"there is no clip {part.value}: clips are numbered from 1 to 999")
            return Half(clip=int(part.value))
        case "binder":
            return Half(binder=part.value)
        case _:
            return Half(roll=search.which(conn, part.value))
