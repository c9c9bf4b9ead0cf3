"""Whoever sweeps at this desk: what Enter and a line do, at a rod, in a box and at the end."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from filmrack.desk.question import Question
from filmrack.desk.said import Said
from filmrack.desk.sweep.asked import changed_elsewhere
from filmrack.desk.sweep.at_rod import AtRod
from filmrack.desk.sweep.course import SweepCourse
from filmrack.desk.sweep.end import finish, look_up
from filmrack.desk.sweep.lines_typed import Meant, hangs_on_rod, is_print, meant, so_many_hang
from filmrack.desk.sweep.names import by_clip, clip_found_wet, name_and_word, tell_place
from filmrack.desk.sweep.place import SweepPlace
from filmrack.desk.sweep.rod_words import all_there, leave_words, wanted
from filmrack.desk.sweep.slips import Slips
from filmrack.desk.sweep.taking_back import undo
from filmrack.desk.taking_back import doubted, refuse_to_reach_past
from filmrack.domain.codes import read
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.store import rolls


class EnterHere(NamedTuple):
    """What Enter does, in the words that the page and the footer both say."""

    words: str
    do: Callable[[], Said]


class Sweeper:
    """Does what keys and lines say, at the place where this desk is."""

    def __init__(self, place: SweepPlace) -> None:
        self.session = place.session
        self._place = place
        self._at_rod = AtRod(place)
        self._slips = Slips(place.session)

    # Enter.

    def enter_does(self) -> str:
        """Return what Enter does; nothing where it does nothing."""
        return self._enter_here().words

    def enter(self) -> Said:
        """Do what Enter does; if another desk changed what it would do, say so instead."""
        shown = self.enter_does(), self._place.shown
        if self.session.changed() and shown != (self.enter_does(), self._place.shown):
            return changed_elsewhere(self._place)
        if self._place.is_enter_of_rod_before():
            what = "the end" if self._place.rod is None else f"rod {self._place.rod}"
            return Said(what, f"the rod before is through. Enter here: {self.enter_does()}")
        return self._enter_here().do()

    def _enter_here(self) -> EnterHere:
        """Return what Enter does at this rod, in this box, or at the end."""
        course, turn = self._place.look(), self._place.turn
        if course.finished and not self._place.at_end:
            return EnterHere("back to the result", self._back)
        if course.finished:
            new = "new" if course.changed else "the"
            saved = self._slips.are_saved(course)
            words = "" if saved else f"save {new} slips for the boxes as a PDF"
            return EnterHere(words, lambda: self._slips.save(course))
        if self._place.box is not None:
            return EnterHere(
                f"back to rod {self._place.rod}" if turn else "back to the end", self._back
            )
        if turn is None:
            missing = f": {len(course.missing)} missing" if course.missing else ""
            return EnterHere(f"finish{missing}", self._finish)
        if turn.count is None:
            return EnterHere(all_there(turn), lambda: self._at_rod.all_hang(turn))
        if turn.explained or turn.only_strays:
            return EnterHere(all_there(turn), lambda: self._at_rod.the_rest_hang(turn))
        return EnterHere(leave_words(turn), lambda: self._at_rod.leave(turn))

    # Lines.

    def reads(self, text: str) -> str:
        """Return `red wet` as `79 wet` where that strip hangs on the rod in hand, and `9 hang` as
        the number alone, but for a loaded clip: that one hangs now.

        Raises Refused where not just one strip of the rod is meant.
        """
        turn = self._place.turn
        if turn is None or self._place.box is not None or self._place.look().finished:
            return text
        many = so_many_hang(text)
        if many is not None:
            on_clip = rolls.on_clip(self.session.file.conn, many)
            return text if on_clip and on_clip.place.kind == "tank" else str(many)
        named = name_and_word(text)
        return text if named is None else by_clip(self.session, turn, *named)

    def tells_of(self, roll: Roll) -> Said | None:
        """Say where a roll is that was found by name; a sweep under way is not left for it."""
        course = self._place.look()
        if course.number is None or course.finished:
            return None
        return tell_place(self.session, self._place.turn, roll)

    def takes(self, text: str) -> bool:
        """Scans, counts and places are the sweep's; names and other sentences are not. Where no rod
        is in hand “missing” alone is the list of what is missing.
        """
        if is_print(text):
            return self._place.look().finished
        if self._found_wet_untold(text) is not None or self._found_hanging(text) is not None:
            return True
        line = meant(text)
        if line is None or (line.kind == "missing" and not line.value and self._place.turn is None):
            return False
        if line.kind == "box" and read(text) is None:
            return self._looks_into_boxes()
        sentence = line.kind == "clips" or line.box is not None
        return not (sentence and self._place.look().finished)

    def take(self, text: str) -> Said | Question | None:
        """Take a count, a clip or roll, a rod or a box; what is costly is asked about first.

        Raises Refused for what cannot be.
        """
        line, course = meant(text), self._place.look()
        if is_print(text):
            return self._slips.save(course, again=True)
        wet, turn = self._found_wet_untold(text), self._place.turn
        if wet is not None and turn is not None:
            return self._at_rod.strips.found_wet(turn, wet)
        told = self._found_hanging(text)
        if told is not None:
            return self._at_rod.strips.hangs_on(told[1], told[0])
        if line is None:
            return None
        match line.kind:
            case "undo":
                return self._undo(course)
            case "missing":
                return self._at_rod.strips.missing(line.value)
            case "rod":
                self._place.to_rod(int(line.value))
                return Said("")
            case "box":
                self._place.to_box(int(line.value))
                return Said("")
        return self._finished(line, text) if course.finished else self._going_on(line, text)

    def hint(self) -> str:
        """Say what is wanted of the hand at the cabinet; what Enter does is said in the footer."""
        turn = self._place.turn
        if self._place.look().finished:
            return "another sweep: type “sweep again”"
        if self._place.box is not None:
            return f"scan what lies in box {self._place.box}"
        return "a rod's number goes there" if turn is None else wanted(turn)

    def _found_wet_untold(self, text: str) -> int | None:
        """Return the clip of a strip on the rod in hand that is wet, and that no record explains or
        that was hung and not told.
        """
        if self._place.turn is None or self._place.box is not None or self._place.look().finished:
            return None
        clip = clip_found_wet(text)
        on_clip = None if clip is None else rolls.on_clip(self.session.file.conn, clip)
        return clip if on_clip is None or on_clip.last_in_tank else None

    def _found_hanging(self, text: str) -> tuple[str, int] | None:
        """Return a roll and the rod of which it is said that it hangs there, where a count asks
        for that: it is one of those that were counted, and was not hung since.
        """
        told, course = hangs_on_rod(text), self._place.look()
        turn = None if told is None else course.turn(told[1])
        if course.finished or self._place.box is not None or turn is None:
            return None
        return told if turn.asks_what_hangs else None

    def _looks_into_boxes(self) -> bool:
        """Tell whether a typed box is where a hand looks for strips now; else it is to be seen."""
        course, turn = self._place.look(), self._place.turn
        looks = self._place.box is not None or (turn.scanning if turn else bool(course.missing))
        return looks and not course.finished

    def _going_on(self, line: Meant, text: str) -> Said | Question:
        """Take a line while the sweep goes on, or before it begins."""
        place = self._place
        match line.kind:
            case "sweep again":
                raise Refused(
                    "this sweep goes on still: go to the end of the list and finish it first"
                )
            case "slips":
                raise Refused("the slips tell what went into each box: finish the sweep first")
            case "stop":
                stays = "stays as it is, at every desk: Tab leaves it"
                return Said("the sweep", f"{stays}, “sweep” comes back, “finish” ends it")
            case "next":
                place.pass_by()
                return Said("")
            case "done" if not place.at_end:
                raise Refused(
                    f"done with this, or with the sweep? Press Enter ({self.enter_does()}), or type"
                    " “finish” for the end of the sweep"
                )
            case "finish" | "done":
                return self._to_end()
            case "box dry":
                return self._at_rod.box_dry()
            case "box all":
                return self._at_rod.box_all()
            case "count":
                return self._count(line)
            case "number" if place.at_end:
                # No rod is shown there, so a bare number is one that was left out, and no clip.
                place.to_rod(int(line.value))
                return Said("")
            case "number" if place.turn is not None and place.box is None:
                return self._at_rod.number(place.turn, int(line.value))
            case "clips":
                return self._at_rod.strips.several(line.value.split())
            case _:
                return self._at_rod.strips.found(line.kind, text)

    def _finished(self, line: Meant, text: str) -> Said:
        """Take a line behind the end of the sweep: nothing is counted and nothing boxed by it."""
        match line.kind:
            case "sweep again":
                self._place.begin_another()
                return Said(
                    "another sweep", "it begins with the first rod that is counted or scanned"
                )
            case "slips":
                return self._slips.save(self._place.look(), again=True)
            case "stop":
                return Said("the sweep", "is finished: Tab goes to another screen")
            case "finish" | "done" | "next":
                raise Refused("this sweep is finished already: type “sweep again” for another one")
            case "count" | "box dry" | "box all":
                raise Refused(
                    "the sweep is finished, so nothing is counted: type “sweep again” first"
                )
            case _:
                return look_up(self.session, text)

    def _count(self, line: Meant) -> Said | Question:
        if line.rod is not None:
            self._place.to_rod(line.rod)
        turn = self._place.turn
        if turn is None:
            raise Refused("which rod was counted is not said: go to it, or scan its label")
        return self._at_rod.count(turn, int(line.value))

    def _to_end(self) -> Said:
        """Go to where Enter finishes; who is there already, finishes."""
        if self._place.at_end:
            return self._finish()
        self._place.to(None)
        return Said("")

    def _finish(self) -> Said:
        said = finish(self.session, self._place.look())
        self._place.look_again()
        return said

    def _back(self) -> Said:
        self._place.back()
        return Said("")

    def _undo(self, before: SweepCourse) -> Said | Question:
        """Take back the last act of this desk; one that may not be meant is asked about first.

        Raises Refused once where the last thing done here is out of its reach.
        """
        refuse_to_reach_past(self.session)
        doubt = doubted(self.session, None)
        if doubt is None:
            return self._take_back(before)
        return doubt.asked(lambda: self._take_back(before))

    def _take_back(self, before: SweepCourse) -> Said:
        said = undo(self.session, before)
        after = self._place.look_again()
        self._place.follow(before, after)
        if before.finished and not after.finished and after.number is not None:
            return said._replace(
                words=f"{said.words}. The sweep goes on again: finish it once more"
            )
        return said
