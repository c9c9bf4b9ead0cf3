"""Clip pairs on the screen Room: which there are, what is wrong with some, whether they do."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from filmrack.acts import clips as acts
from filmrack.desk.clip_words import NOT_YOURS, add_clips, say_of_clip, says_of_clip
from filmrack.desk.question import Question
from filmrack.desk.room.changing import Changing
from filmrack.desk.room.row import RoomPlace, RoomRow
from filmrack.desk.said import WRONG, Said
from filmrack.domain.busiest import LOOKED_BACK, Busiest
from filmrack.domain.clip import Clip
from filmrack.domain.clock import day_words
from filmrack.domain.ranges import ranges_of
from filmrack.domain.refusal import Refused
from filmrack.domain.room import Room
from filmrack.store.clips import all_clips, busiest, in_use, read_clip


def rows(changing: Changing) -> Iterator[RoomRow]:
    """Return the ranges of clip pairs, whether they are enough, and each that has something."""
    session = changing.session
    conn, room = session.file.conn, changing.room
    known, used = all_clips(conn), in_use(conn)
    usable = [clip.number for clip in known if not clip.retired]
    if not known:
        yield RoomRow(
            "", "No clip is known yet: print tags on the screen Labels, or add them here."
        )
    else:
        yield RoomRow("there are", ranges_of(clip.number for clip in known))
        yield RoomRow("in use", f"{len(used)} of {len(usable)} on a roll now")
        yield RoomRow(
            "a busy day", _busy_day(busiest(conn, room.timetable, session.now), len(usable))
        )
        yield RoomRow("a full dryer", _full_dryer(room, len(usable)))
    yield RoomRow(
        "add clips …", "a range, such as 61-80", "add clips", partial(_ask_range, changing)
    )
    yield RoomRow(
        "something is lost …",
        "or type it: clip 17 hook A lost, clip 17 retired",
        "say which clip",
        partial(_ask_clip, changing),
    )
    odd = [clip for clip in known if clip.says]
    if odd:
        yield RoomRow("Not as they should be", heading=True)
    for clip in odd:
        yield _odd_row(changing, clip)


def clip_rows(changing: Changing, number: int) -> Iterator[RoomRow]:
    """Return what can be said of one clip pair. Raises Refused for one that is not known."""
    clip = read_clip(changing.session.file.conn, number)
    if clip is None:
        raise Refused(f"clip {number} is not known: look at the list again")
    yield RoomRow(f"clip {number}", clip.says or "whole and in use", heading=True)
    for words in ("hook A lost", "hook B lost", "tag A lost", "tag B lost"):
        if words.removesuffix(" lost") not in map(str, clip.lost):
            yield _saying(changing, number, words)
    if not clip.retired:
        yield _saying(changing, number, "retired")
    if clip.says:
        yield _saying(changing, number, "whole")


def _busy_day(day: Busiest | None, usable: int) -> str:
    """Return whether the pairs do for a day like the busiest that the record saw."""
    weeks = LOOKED_BACK.days // 7
    if day is None:
        return f"no roll is noted on a clip in the last {weeks} weeks"
    more = day.more_than(usable)
    enough = f"{more} more are needed" if more else "enough"
    if day.at_once == usable:
        enough = "just enough, or too few: with all in use the record sees no more"
    return (
        f"{enough}: {day.at_once} on rolls at once on {day_words(day.day, day.day)}, the most"
        f" that the record saw in {weeks} weeks, from loading to sleeving"
    )


def _full_dryer(room: Room, usable: int) -> str:
    """Return whether the pairs do for every position of every rod, and nothing in a box."""
    positions = sum(rod.positions for rod in room.rods)
    more = max(0, positions - usable)
    enough = f"{more} more are needed" if more else f"enough, and {usable - positions} for boxes"
    return f"{enough}: {positions} positions on the rods; rolls in a box keep their pair as well"


def _saying(changing: Changing, number: int, words: str) -> RoomRow:
    say = partial(say_of_clip, changing.session, f"clip {number} {words}")
    return RoomRow(words, does=f"keep: {words}", enter=say)


def _odd_row(changing: Changing, clip: Clip) -> RoomRow:
    place = RoomPlace("clips", ("clip", str(clip.number)))
    retire = partial(_retire, changing, clip.number)
    return RoomRow(f"clip {clip.number}", clip.says, "open it", lambda: place, remove=retire)


def _retire(changing: Changing, number: int) -> Said:
    changing.session.refuse_students(NOT_YOURS)
    session = changing.session
    acts.retire(session.file, session.hand(), number)
    return Said(f"Clip {number}", f"retired. {WRONG}", done=True)


def _ask_range(changing: Changing) -> Question:
    return Question(
        "their numbers, such as 61-80",
        partial(add_clips, changing.session),
        headline="Which clip pairs are there?",
        words="numbers with tags A and B; printing tags makes them known as well",
        verbatim=True,
    )


def _ask_clip(changing: Changing) -> Question:
    def answer(text: str) -> Said:
        if not says_of_clip(text):
            raise Refused(f"“{text[:30]}” says nothing of a clip: type “clip 17 hook A lost”")
        return say_of_clip(changing.session, text)

    return Question(
        "clip 17 hook A lost · clip 17 tag B lost · clip 17 retired · clip 17 whole",
        answer,
        headline="What is it?",
        words="which clip pair, and what it lost",
        verbatim=True,
    )
