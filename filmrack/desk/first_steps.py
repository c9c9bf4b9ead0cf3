"""What an empty desk says: what comes first in a room that has no roster, no clips or no rolls."""

from __future__ import annotations

from filmrack.desk.session import Now, Session
from filmrack.store import clips, terms


def first_steps(session: Session, now: Now) -> list[str]:
    """Return what to do first, a sentence each; one alone where only nothing is selected."""
    conn = session.file.conn
    if now.hanging or now.tank:
        return ["Nothing selected."]
    load = "Type a clip and a name, as in “17 mara”: clip 17 carries Mara's roll."
    hang = "Enter when it hangs."
    if session.by != "teacher":
        return ["Nothing hangs.", load, hang]
    term = now.room.term_at(now.at)
    if term is None:
        return ["No term has begun: “filmrack term open CODE” opens one."]
    steps = []
    if not terms.enrolled(conn, term.code):
        steps.append("Nobody is enrolled yet: “filmrack roster FILE.csv” takes a roster in.")
    if not clips.all_clips(conn):
        steps.append("“filmrack labels clips 1-60” prints clip tags.")
    return [*steps, load, hang] if steps else ["Nothing hangs.", load, hang]
