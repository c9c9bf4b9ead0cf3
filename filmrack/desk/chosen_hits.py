"""What a hit comes to that was chosen from the list below a typed line, or that Enter means."""

from __future__ import annotations

from filmrack.desk.archive.orders import order_if_readable
from filmrack.desk.done_to import do_to
from filmrack.desk.errands import errand
from filmrack.desk.halves import ACTION_WORDS
from filmrack.desk.hit_search import Hit
from filmrack.desk.notices import Notices
from filmrack.desk.plain_questions import asked_about
from filmrack.desk.registry import ROOM_SECTIONS
from filmrack.desk.replies import NOT_BY_LOOKING, NOT_TAKEN_BACK
from filmrack.desk.role import Role
from filmrack.desk.said import Said
from filmrack.desk.sentences import Sentences
from filmrack.desk.session import Session
from filmrack.desk.view import View
from filmrack.desk.wish import Outcome, Wish


class ChosenHits:
    """Opens the screen, does the command, and takes the person or the roll that a hit is."""

    def __init__(
        self, session: Session, role: Role, notices: Notices, sentences: Sentences
    ) -> None:
        self.session = session
        self.role = role
        self.notices = notices
        self.sentences = sentences

    def take(self, hit: Hit, typed: str, view: View) -> Outcome:
        """Return what a hit comes to; `typed` is the line that it was found by.

        Raises Refused for what cannot be meant.
        """
        return self._told_there(hit, typed, view) or self._done(hit, typed)

    def _told_there(self, hit: Hit, typed: str, view: View) -> Said | None:
        """Return what a screen that is not left says of a roll that was looked for by name alone;
        None where a sentence in hand wants the name, something is to be done to the roll, or the
        line asks to be shown it: `find mara`.
        """
        self.sentences.in_hand.expire(self.session.now)
        wanted = self.sentences.in_hand.first is not None
        if hit.standing is None or hit.verb or wanted or asked_about(typed):
            return None
        told = view.tells_of(hit.standing.roll)
        if told is not None:
            self.sentences.in_hand.remember_name(hit.standing.roll.id)
        return told

    def _done(self, hit: Hit, typed: str) -> Outcome:
        if hit.screen is not None:
            return Wish("go", hit.screen)
        if hit.command is not None:
            return self._command(hit.command)
        if hit.person is not None:
            return self.sentences.person(hit.person, typed)
        assert hit.standing is not None
        roll = hit.standing.roll
        if hit.certain:
            return self.sentences.say(f"{roll.clip} {hit.verb}")
        if hit.verb:
            return do_to(self.sentences, roll, hit.verb)
        act = hit.standing.next.act
        unsure = act in NOT_BY_LOOKING or (hit.one_of_several and act in NOT_TAKEN_BACK)
        return self.sentences.near(roll) if hit.near or unsure else self.sentences.hold(roll)

    def _command(self, words: str) -> Outcome:
        """Do a command of the registry, wherever it is done: by the desk, a screen, a sentence."""
        if words in ("help", "colours", "quit"):
            return Wish(words)
        if self.role.teacher and order_if_readable(words) is not None:
            return Wish("say", "archive", words)
        if words in {section.words for section in ROOM_SECTIONS}:
            return Wish("say", "room", words)
        if words == "unknown":
            return self.sentences.unknown()
        if words in ACTION_WORDS:
            return self.sentences.act(ACTION_WORDS[words])
        return errand(words, self.session, self.role, self.notices)
