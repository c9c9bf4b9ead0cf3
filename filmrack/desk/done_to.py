"""A roll that was looked for together with a verb: Enter then does that, and nothing else."""

from __future__ import annotations

from filmrack.desk.archive.orders import Order, begins_with_a_clip
from filmrack.desk.enter import comes_words
from filmrack.desk.halves import TYPED_WORDS, Half, halves_of
from filmrack.desk.next_step import touch_question
from filmrack.desk.question import Question
from filmrack.desk.replies import HANGS_ALREADY
from filmrack.desk.said import Said
from filmrack.desk.sentences import Sentences
from filmrack.desk.session import Session
from filmrack.desk.verbs import STEP_OF, looked_for, verb_first
from filmrack.desk.wish import Wish
from filmrack.domain.asking import code_in
from filmrack.domain.attention import Standing
from filmrack.domain.counted import counted
from filmrack.domain.film import film_named
from filmrack.domain.journey import why_not
from filmrack.domain.names import tokens
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import HANGABLE, Roll
from filmrack.domain.student_desk import refuse_act
from filmrack.store import people, rolls

_ON_ENTER = {
    "TAKE": "it is with its owner",
    "BOX": "it is in its box",
    "FLIP": "it is flipped",
    "DRY": "it is dry at both ends",
    "TACKY": "it is still tacky",
    "WET": "it is still wet",
    "MISSING": "it is missing",
    "UNDO": "its last act is taken back",
}


def can_be_done(verb: str, standing: Standing) -> bool:
    """Tell whether a verb can be meant of a roll as it stands."""
    roll, kind = standing.roll, standing.roll.place.kind
    if verb in STEP_OF:
        return standing.next.act == STEP_OF[verb]
    match TYPED_WORDS.get(verb):
        case "TAKE" | "BOX":
            return roll.live
        case "HANG":
            return kind in HANGABLE and roll.live
        case "TACKY" | "WET":
            return kind in ("rod", "box", "owner")
        case "MISSING":
            return kind in ("rod", "box")
        case "UNDO":
            return True
        case _:
            return kind == "rod"


def do_to(sentences: Sentences, roll: Roll, verb: str) -> Said | Question:
    """Ask for what is missing, or whether Enter shall do it; nothing is done yet.

    Raises Refused for what this desk does not do, and where it cannot be done to that roll.
    """
    session = sentences.session
    whom = session.headline(roll)
    action = TYPED_WORDS.get(verb)
    if verb in STEP_OF:
        return _step(sentences, roll, verb)
    if action is None and verb != "find":
        if roll.place.kind != "rod":
            raise Refused(why_not(roll, "touch"))
        if verb == "touch":
            sentences.in_hand.clear()
            return touch_question(session, roll)
        words = f"{roll.place}. Type the rod where it hangs now, as “rod 3”"
        return sentences.show(roll, words)
    if action == "HANG" and roll.place.kind == "rod":
        return sentences.show(roll, f"{roll.place}, {HANGS_ALREADY}")
    if action == "HANG" and roll.place.kind not in ("tank", "rod"):
        return sentences.hang_again(roll)
    if action == "MISSING" and roll.place.kind == "missing":
        return sentences.show(roll, f"missing already, last seen {roll.seen}")
    if action not in _ON_ENTER:
        return sentences.hold(roll)
    if action in ("BOX", "MISSING"):
        refuse_act(session.by, action.lower(), {})
    if action == "TAKE" and roll.place.kind != "owner" and (why := why_not(roll, "take")):
        raise Refused(why)  # else it was asked for one Enter that is refused
    off = action in ("TACKY", "WET") and roll.place.kind != "rod"
    does = f"it is put back as {action.lower()}" if off else _ON_ENTER[action]
    words = f"{roll.place}. Enter: {does}. Esc leaves it"
    asked = Said(whom, words, select=roll.id, go=True, rests=True)
    return sentences.in_hand.ask(roll, asked, does, lambda: sentences.do(roll, action))


def _step(sentences: Sentences, roll: Roll, verb: str) -> Said:
    """Hold a roll whose next step that is, so that Enter does it; else say what is next."""
    session = sentences.session
    standing = session.standing(roll)
    if can_be_done(verb, standing):
        return sentences.hold(roll)
    asked = f"“{verb}” is not its next step"
    if STEP_OF[verb] == "sleeve" and roll.live:
        named = roll.number if roll.clip is None else roll.clip
        asked = f"To cut it all the same type “{named} cut”"
    return sentences.show(roll, f"{roll.place}. {comes_words(standing)}. {asked}")


def names_somebody(session: Session, text: str) -> bool:
    """Tell whether a step's word stands beside a name: the selected roll is not meant then."""
    verb, rest = looked_for(text)
    words = tokens(rest) if verb in STEP_OF and not any(map(str.isdigit, rest)) else []
    return bool(words and people.with_words(session.file.conn, words, limit=1))


def clip_to_cut(session: Session, order: Order | None) -> Roll | None:
    """Return the roll on the clip in `cut 31`, which could be frames of the selected one too."""
    if order is None or order.verb != "sleeve" or order.roll or not begins_with_a_clip(order):
        return None
    return rolls.on_clip(session.file.conn, int(order.rest.split()[0]))


def cut_by_clip(sentences: Sentences, order: Order, roll: Roll, on_card: int | None) -> Said | Wish:
    """Cut the roll on the clip in `cut 31`, as `31 cut` does; ask where that can be the frames of
    the roll on the card as well.
    """
    number, _, more = order.rest.partition(" ")
    other = None if on_card is None else rolls.by_id(sentences.session.file.conn, on_card)
    if more or other is None or not _may_have(other, int(number)):
        sentences.in_hand.clear()  # it is about no roll that was in hand before
        return Wish("say", "archive", f"{number} sleeve {more}".rstrip(), stay=True)
    said, named = _step(sentences, roll, "sleeve"), other.clip or other.number
    frames = f"If you mean {counted(int(number), 'frame')} of {named}: “{named} sleeve {number}”"
    return said.and_also(frames)


def _may_have(roll: Roll, frames: int) -> bool:
    """Tell whether a roll that is still to be cut may have so many frames."""
    return roll.live and roll.sleeved_at is None and frames <= film_named(roll.film).most_frames


def roll_alone(sentences: Sentences, line: str) -> tuple[Roll, str] | None:
    """Return the roll and the verb of a line that wants one thing more: `touch 17`, `move 17`."""
    if code_in(line) is not None:
        return None
    verb = verb_first(line).verb or line.rsplit(maxsplit=1)[-1].casefold()
    if verb not in ("touch", "move"):
        return None
    match halves_of(sentences.session, line):
        case [Half(roll=Roll() as roll)]:
            return roll, verb
        case _:
            return None
