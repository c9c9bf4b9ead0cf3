"""The prints of one desk: one that runs beside the line, and the latest one that was saved."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

from filmrack.desk.labels.choice import Choice
from filmrack.desk.labels.hand_over import (
    HandOver,
    hand_on,
    to_viewer,
    what_to_do_with_it,
    what_was_printed,
)
from filmrack.desk.labels.press import Press, Printout, print_folder
from filmrack.desk.said import Said
from filmrack.desk.session import Session
from filmrack.domain.refusal import FileTrouble, Refused


class Ended(NamedTuple):
    """How a print came to its end: with a file, or with a reason why there is none.

    What was to be handed on by `then` may be in its file and have got no further: `why` says so.
    """

    printout: Printout | None
    why: str = ""
    then: HandOver | None = None


class Prints:
    """Begins a print, works on it in a thread, hands it over; one at a time, and the line is free.

    Behind a print Enter rests, so that one more does not save the same again.
    """

    def __init__(
        self, session: Session, own: Path | None, beside: Callable[[Callable[[], None]], object]
    ) -> None:
        """`own` is the folder of own stock; `beside` does work in a thread."""
        self._session = session
        self._own = own
        self._beside = beside
        self.press = Press()
        self.latest: Printout | None = None
        self._chosen: Choice | None = None
        """What was chosen for the latest print, its place on the sheet left out."""
        self._rests = False

    def begin(self, choice: Choice, then: HandOver | None, tell: Callable[[Ended], object]) -> None:
        """Begin to print what is chosen, on its stock, and hand it on to `then`.

        `tell` is told in the thread how it ended; who hears of it calls `keep` outside of that.
        Raises Refused while another print runs.
        """
        if self.press.running:
            raise Refused("something is being printed: wait for it, or stop it with Esc")
        path, moment, folder = self._session.path, self._session.now, print_folder(self._session)
        self.press.begin()

        def work() -> None:
            try:
                printout = self.press.run(path, choice, moment, folder)
            except (Refused, FileTrouble) as trouble:
                tell(Ended(None, str(trouble)))
            else:
                tell(Ended(printout, hand_on(printout, then), then))

        self._beside(work)

    def keep(self, ended: Ended, choice: Choice) -> Said:
        """Keep a print that has ended; return where it is, or why there is none.

        `choice` is what is chosen from now on: Enter rests as long as it stays so.
        """
        self.press.running = False
        if ended.printout is None:
            return Said("Not printed", ended.why)
        self.latest, self._chosen, self._rests = ended.printout, choice, True
        words = ended.why or what_to_do_with_it(ended.printout, self._own, ended.then)
        return Said(what_was_printed(ended.printout), words, done=True)

    def hand_over(self, then: HandOver, tell: Callable[[str], object]) -> Said:
        """Hand the latest print to the viewer or the printer; `tell` is told in the thread why
        that failed.
        """
        printout = self.latest
        assert printout is not None

        def work() -> None:
            why = hand_on(printout, then)
            if why:
                tell(why)

        self._beside(work)
        return Said("To the viewer" if then is to_viewer else "To the printer", str(printout.path))

    def goes_on(self) -> None:
        """Hear that something is chosen anew, so that Enter prints it."""
        self._rests = False

    @property
    def rests(self) -> bool:
        """Tell whether nothing was chosen since the latest print."""
        return self._rests and self.latest is not None

    def holds(self, choice: Choice) -> bool:
        """Tell whether Enter rests: not where further sleeves may wait since."""
        return self.rests and not choice.is_the_queue

    def is_again(self, choice: Choice) -> bool:
        """Tell whether a choice is what was printed last."""
        return self.latest is not None and choice == self._chosen

    def is_new(self, choice: Choice) -> bool:
        """Tell whether there is no file yet of what is chosen."""
        return not self.is_again(choice) or self.latest is None or not self.latest.path.exists()
