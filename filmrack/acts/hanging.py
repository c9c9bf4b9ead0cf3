"""Loading a tank with dry hands, and hanging wet film."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import NamedTuple, TypedDict, Unpack

from filmrack.acts.clips import cautions
from filmrack.acts.drying import assume_the_fan
from filmrack.acts.group import Group, Hand, one_group
from filmrack.acts.placing import choose, crowded, where_it_hung
from filmrack.domain.attention import Standing
from filmrack.domain.bell import DryByBell, start_developing_by
from filmrack.domain.clip import refuse_other_clips
from filmrack.domain.film import film_named, too_long
from filmrack.domain.places import ChosenPlace
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Detail, Roll
from filmrack.store import people, rolls, terms
from filmrack.store.clips import know_clips
from filmrack.store.file import DarkroomFile
from filmrack.store.lessons import dryers_for, learned_by


class Loaded(NamedTuple):
    """Rolls that are in the tank now, one a clip pair in the order the clips were named."""

    rolls: tuple[Roll, ...]
    displaced: tuple[int, ...]
    """Rolls that the record had on these clips: missing now."""
    warnings: tuple[str, ...] = ()
    """What is to be heeded, of the clips: nothing was refused for it."""
    bell: datetime | None = None
    """When the class that is on ends; None when none is."""
    start_by: datetime | None = None
    """Until when to start developing for the film to leave likely dry with that class."""


class Hung(NamedTuple):
    """A roll that hangs now; `dial_hours` when the dial is to be turned, and assumed to be."""

    roll: Roll
    dial_hours: float | None
    before_bell: DryByBell | None
    """Whether it will be dry before the bell; None when no class is on."""
    displaced: tuple[int, ...]
    """Rolls that the record had in its place: missing now."""
    warnings: tuple[str, ...] = ()
    """What is to be heeded, of its clips, its length and its place: nothing was refused for it."""


def load(
    file: DarkroomFile, hand: Hand, person: int, clips: Sequence[int], film: str | None = None
) -> Loaded:
    """Say whose rolls get which clip pairs: one roll a clip, of the room's film where none is said.

    Raises Refused for a clip named twice, for no film, before the first term and in a closed one.
    """
    twice = next((clip for nth, clip in enumerate(clips) if clip in clips[:nth]), None)
    if twice is not None:
        raise Refused(f"clip {twice} is named twice: each roll needs a clip pair of its own")
    with one_group(file, hand) as group:
        numbers = [_load(group, person, clip, film) for clip in clips]
        states = group.settle()
        heed = [words for clip in clips for words in cautions(group.conn, clip)]
        loaded = tuple(states[number] for number in numbers)
        return Loaded(loaded, tuple(group.displaced), tuple(heed), *_bell_and_start(group, loaded))


class HangingAsTold(TypedDict, total=False):
    """What somebody says of a hanging: which roll or whose, and where; all may be left out.

    Without a roll one is loaded and hung at once, its `film` and `clue` told with it. Without a rod
    the owner's is chosen, without a position the first free one. `tacky` puts back a roll that was
    taken down too early: where it hung, if nothing is said of that and the place is free.
    """

    roll: int | None
    person: int | None
    clip: int | None
    rod: int | None
    position: int | None
    film: str | None
    clue: str
    tacky: bool


def hang(file: DarkroomFile, hand: Hand, **told: Unpack[HangingAsTold]) -> Hung:
    """Hang a roll as it is told; one that hangs already is moved when a rod or position is named.

    Raises Refused when the rod or position does not exist, the rod is full, or there is nothing to
    say which roll it is.
    """
    with one_group(file, hand) as group:
        told["roll"] = meant = _meant(group, told)
        rod, position = told.get("rod"), told.get("position")
        if meant is not None and not told.get("tacky") and (rod, position) != (None, None):
            state = group.roll(meant)
            if state.place.kind == "rod":
                return _move(group, state, rod, position, told.get("clip"))
        known, rod_taken = put_up(group, **told)
        return _hung(group, known, assume_the_fan(group, rod_taken))


def put_up(
    group: Group, until: datetime | None = None, **told: Unpack[HangingAsTold]
) -> tuple[int, int]:
    """Append a hanging to a group, see `hang`; return the roll and its rod.

    `until` is when it was taken down again, where that is known already. Raises Refused as `hang`
    does.
    """
    known, clip, rod = _meant(group, told), told.get("clip"), told.get("rod")
    if known is None:
        if clip is None:
            raise Refused("that roll is not loaded yet: say which clip pair it hangs on")
        person, film, clue = told.get("person"), told.get("film"), told.get("clue", "")
        period = group.room.period_of_rod(rod) if person is None else None
        known = _load(group, person, clip, film, clue=clue, assumed=True, period=period)
    state = group.roll(known)
    back = told.get("tacky") and (rod, told.get("position")) == (None, None)
    place = (where_it_hung(group, state) if back else None) or choose(
        group, state, rod, told.get("position"), until
    )
    detail = _detail(group, state, place, clip)
    if told.get("tacky"):
        detail["tacky"] = True
    group.append("hang", known, detail)
    return known, place.rod


def move(file: DarkroomFile, hand: Hand, roll: int, rod: int, position: int | None = None) -> Hung:
    """Say that a hanging roll hangs elsewhere now. Raises Refused as `hang` does."""
    with one_group(file, hand) as group:
        return _move(group, group.roll(roll), rod, position, None)


def _move(
    group: Group, state: Roll, rod: int | None, position: int | None, clip: int | None
) -> Hung:
    place = choose(group, state, rod, position)
    group.append("move", state.id, _detail(group, state, place, clip))
    dryer_of = group.room.dryer_of
    stays = state.place.number is not None and dryer_of(state.place.number) == dryer_of(place.rod)
    # Another dryer has a fan of its own.
    hours = None if stays else assume_the_fan(group, place.rod)
    return _hung(group, state.id, hours)


def _hung(group: Group, number: int, hours: float | None) -> Hung:
    hung = group.settle()[number]
    warnings: list[str] = []
    if (rod := hung.place.rod) is not None:
        dryer = group.room.dryer_of(rod)
        long = too_long(film_named(hung.film), dryer.clear_height_mm, dryer.name)
        warnings += [
            *cautions(group.conn, hung.clip),
            *([long] if long else []),
            *crowded(group, hung),
        ]
    before = _before_bell(group, hung)
    return Hung(hung, hours, before, tuple(group.displaced), tuple(warnings))


def _detail(group: Group, state: Roll, place: ChosenPlace, clip: int | None) -> Detail:
    detail = Detail(rod=place.rod, position=place.position)
    if place.sent:
        detail["sent"] = True
    if clip is not None and clip != state.clip:
        _know_clip(group, clip)
        detail["clip"] = clip
    return detail


def _bell_and_start(
    group: Group, loaded: Sequence[Roll]
) -> tuple[datetime | None, datetime | None]:
    room = group.room
    meeting = room.timetable.meeting_at(group.hand.at)
    if meeting is None or not loaded:
        return None, None
    rods = room.rods_of(loaded[0].period)
    learned = learned_by(group.conn, rods[0].dryer if rods else room.dryers[0].number)
    rules = room.rules
    return meeting.ends, start_developing_by(
        meeting.ends,
        learned,
        process_minutes=rules.process_minutes,
        lag_minutes=rules.drying_lag_minutes,
    )


def _before_bell(group: Group, hung: Roll) -> DryByBell | None:
    if group.room.timetable.meeting_at(group.hand.at) is None:
        return None
    dryers = dryers_for(group.conn, group.room, [hung])
    return Standing(hung, group.room, dryers, group.hand.at).before_bell


def load_unknown(group: Group, clip: int, rod: int | None) -> int:
    """Append the beginning of a roll that was found and that no record explains."""
    period = group.room.period_of_rod(rod)
    return _load(group, None, clip, None, assumed=True, period=period)


def _meant(group: Group, told: HangingAsTold) -> int | None:
    """Return the roll that is told of, or None when a new one is."""
    roll = told.get("roll")
    return roll if roll is not None else _loaded(group, told.get("person"), told.get("clip"))


def _loaded(group: Group, person: int | None, clip: int | None) -> int | None:
    """Return the roll of a person that is meant, or None when a new one is.

    It is in the tank, or hangs already on that very clip.
    """
    if person is None:
        return None
    own = group.as_they_were(rolls.on_their_way(group.conn, person))
    if clip is not None:
        own = [roll for roll in own if roll.clip == clip and roll.place.kind in ("tank", "rod")]
    else:
        own = [roll for roll in own if roll.place.kind == "tank"]
    if len(own) > 1:
        which = ", ".join(f"clip {roll.clip}" if roll.clip else roll.number for roll in own)
        raise Refused(f"{len(own)} rolls of that person are loaded: say which one of {which}")
    return own[0].id if own else None


def _load(
    group: Group,
    person: int | None,
    clip: int,
    film: str | None,
    *,
    clue: str = "",
    assumed: bool = False,
    period: int | None = None,
) -> int:
    room, at = group.room, group.hand.at
    term = room.term_meant(None, at)
    terms.refuse_closed(group.conn, term.code)
    if person is not None:
        period = people.period_of(group.conn, person, term.code)
    if period is None:
        meeting = room.timetable.meeting_at(at)
        period = meeting.period if meeting else None
    _know_clip(group, clip)
    kind = film_named(film or room.materials.film).text
    number, serial = rolls.begin(group.conn, term.code, at)
    detail = Detail(
        term=term.code, serial=serial, person=person, period=period, film=kind, clip=clip
    )
    if clue:
        detail["clue"] = people.add_note(group.conn, clue)
    if assumed:
        detail["assumed"] = True
    group.append("load", number, detail)
    return number


def _know_clip(group: Group, clip: int) -> None:
    refuse_other_clips(clip)
    know_clips(group.conn, [clip])
