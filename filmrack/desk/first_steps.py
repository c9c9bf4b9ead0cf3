"""What comes first in a room that has no roster yet; the screens say how to go on from there."""

from __future__ import annotations

from filmrack.desk.now import Now
from filmrack.desk.session import Session
from filmrack.store import clips, terms


def first_steps(session: Session, now: Now) -> list[str]:
    """Return what to do first, a sentence each; only that nothing is selected when all is done."""
    term = now.room.term_at(now.at)
    if now.hanging or now.tank or session.by != "teacher":
        return ["Nothing selected."]
    if term is None:
        return ["No term has begun: “open term” opens one."]
    if terms.enrolled(session.file.conn, term.code):
        return ["Nothing selected."]
    steps = ["Nobody is enrolled yet: type “roster” and the path of the school's list."]
    if not clips.all_clips(session.file.conn):
        steps.append("“labels clips 1-60” prints clip tags.")
    return [
        *steps,
        "Then type a clip and a name, as in “17 juniper”: clip 17 carries Juniper's roll.",
    ]
