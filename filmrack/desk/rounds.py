"""What a desk does because time passes, and not because somebody does something at it."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from filmrack.acts.drying import Silence
from filmrack.desk import daily
from filmrack.desk.errands import clock_question, power_question, power_told
from filmrack.desk.face import FIRST
from filmrack.desk.hearing import Hearing
from filmrack.desk.notices import Notices, missing_words
from filmrack.desk.now import Now
from filmrack.desk.said import Said


class Rounds:
    """Looks after the file, the clock, the answers and the lock.

    `beside` runs long work in a thread of its own and then tells what it returns, if anything.
    """

    def __init__(
        self,
        hearing: Hearing,
        notices: Notices,
        beside: Callable[[Callable[[], str | None]], None],
    ) -> None:
        self._hearing = hearing
        self._session = hearing.session
        self._role = hearing.role
        self._telling = hearing.telling
        self._face = hearing.face
        self._notices = notices
        self._beside = beside
        self._daily = daily.Daily(self._session)
        self._silence: Silence | None = None
        """What the teacher is to be asked about, who may not be there yet."""

    def begin(self) -> None:
        """Ask about a clock that is doubted, else tell a teacher how many rolls are missing, where
        that does not take the card away; then begin to be alive.
        """
        with self._telling.heeding():
            doubted = clock_question(self._session)
            if doubted is not None:
                self._hearing.ask(doubted)
            elif self._role.teacher and not self._face.is_low:
                missing = missing_words(self._session)
                if missing:
                    self._telling.tell(Said("", missing))
        self.beat()

    def beat(self) -> None:
        """Keep that this desk is alive; ask about a power cut, begin the backup of the day."""
        with self._telling.heeding():
            silence = self._session.beat()
            if silence is not None:
                self._silence = silence
                if not self._role.teacher:
                    self._telling.tell(power_told(self._session, silence))
            if self._daily.due():
                self._beside(partial(daily.make, self._session.path, self._session.now))

    def watch(self, now: Now) -> bool:
        """Let answers fade, lock a desk that nobody touches, say what is due; tell whether the
        bell rings for it.
        """
        hearing, telling, face = self._hearing, self._telling, self._face
        not_loaded = hearing.dispatch.sentences.in_hand.loading
        expired = hearing.dispatch.sentences.in_hand.expire(now.at)
        asked = hearing.dispatch.question
        if asked is not None and telling.faded(now.at):
            telling.say_what_is_asked(asked)
        elif expired or telling.faded(now.at):
            telling.hush()
        if expired and not_loaded is not None:
            hearing.tell_of_no_load(not_loaded)
        if self._role.idle(now.at):
            hearing.forget()
            face.line.clear()
            telling.tell(Said("Student desk", "locked, for nobody was here"))
        asked = hearing.dispatch.question
        if asked is not None and asked.kind and self._role.left_alone(now.at):
            hearing.forget()
            telling.tell(Said("", f"“{asked.prompt}” is not answered, for nobody was here"))
        if not self._role.shows(face.entry):
            face.go(FIRST)
        if self._silence is not None and self._role.teacher and not hearing.dispatch.question:
            silence, self._silence = self._silence, None
            hearing.ask(power_question(self._session, silence))
        busy = hearing.dispatch.question is not None or face.answer.display
        notice = self._notices.heed(now, busy=busy)
        if notice is None:
            return False
        telling.tell(notice)
        return self._notices.bell
