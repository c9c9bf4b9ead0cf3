"""What the line can say of a clip pair: a hook or tag lost, retired, put right again."""

from __future__ import annotations

import re

from filmrack.acts import clips
from filmrack.desk.said import WRONG, Said
from filmrack.desk.session import Session
from filmrack.domain.clip import HIGHEST_CLIP, Clip, clip_number, lost_named
from filmrack.domain.counted import counted
from filmrack.domain.names import folded
from filmrack.domain.ranges import numbers_in, ranges_of
from filmrack.domain.refusal import Refused
from filmrack.store.clips import free, read_clip

NOT_YOURS = "clips are put right by the teacher: put it aside, and ask the teacher"
"""What a student desk says instead."""

_SAID = re.compile(
    r"(?:clip )?(?P<clip>[0-9]{1,3})(?P<tag>[ab]?) (?P<what>retired?|restored?|whole|"
    r"(?:lost (?P<part>hook|tag)(?: (?P<side>[ab]))?)|(?:(?P<part2>hook|tag)(?: (?P<side2>[ab]))?"
    r" lost))"
)


_LOST = re.compile(r"(?:(?:clip )?(?P<clip>[0-9]{1,3}) lost|lost (?:clip )?(?P<clip2>[0-9]{1,3}))")
"""What does not say whether the film is lost or a tag."""


_FREE = re.compile(r"(?:which |the )?(?:free clips?|clips? (?:that )?(?:are |is )?free)\??")


def says_of_clip(text: str) -> bool:
    """Tell whether a line says something of a clip pair itself: `clip 17 hook A lost`.

    >>> says_of_clip("17 tag b lost"), says_of_clip("17 mar")
    (True, False)
    """
    return any(known.fullmatch(folded(text)) for known in (_SAID, _LOST, _FREE))


def say_of_clip(session: Session, text: str) -> Said:
    """Keep what was said of a clip pair, or say which are free. Raises Refused on a student desk
    for what is kept.
    """
    if _FREE.fullmatch(folded(text)):
        numbers = free(session.file.conn)
        none = "no pair that is known is free: take a new number, or see who still has a clip"
        return Said("Free clips", ranges_of(numbers) if numbers else none)
    session.refuse_students(NOT_YOURS)
    lost = _LOST.fullmatch(folded(text))
    if lost is not None:
        clip = int(lost["clip"] or lost["clip2"])
        raise Refused(
            f"“{clip} lost” can be the film or a part of the clip: type “{clip} missing” for the"
            f" film, or “clip {clip} tag A lost”"
        )
    said = _SAID.fullmatch(folded(text))
    assert said is not None
    number, hand = clip_number(said["clip"]), session.hand()
    was = read_clip(session.file.conn, number)
    match said["what"].split()[0]:
        case "retire" | "retired":
            return _told(clips.retire(session.file, hand, number), was)
        case "restore" | "restored" | "whole":
            return _told(clips.restore(session.file, hand, number), was)
    part, side = said["part"] or said["part2"], said["side"] or said["side2"] or said["tag"]
    if not side:
        raise Refused(f"which {part} of clip {number}: say “clip {number} {part} A lost”, or B")
    lost_part = lost_named(f"{part} {side}")
    return _told(clips.lose(session.file, hand, number, lost_part), was)


def add_clips(session: Session, text: str) -> Said:
    """Make clip pairs known that have their tags, by a range: `61-80`."""
    session.refuse_students(NOT_YOURS)
    numbers = numbers_in(text, "clip", HIGHEST_CLIP)
    new = clips.add(session.file, session.hand(), numbers)
    words = f"{counted(len(new), 'pair')} added, {len(numbers) - len(new)} known before"
    undo = f". {WRONG}" if new else ""
    return Said("Clips", f"{words}. Their tags are printed on the screen Labels{undo}", done=True)


def _told(clip: Clip, was: Clip | None) -> Said:
    undo = ", as it was" if clip == was else f". {WRONG}"
    return Said(f"Clip {clip.number}", f"{clip.says or 'whole and in use'}{undo}", done=True)
