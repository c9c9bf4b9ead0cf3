"""What a student desk answers to a line that means something at the teacher's desk alone.

>>> is_the_teachers("archive", "student desk"), is_the_teachers("archive", "teacher")
(True, False)
>>> is_the_teachers("close term 26F", "student desk"), is_the_teachers("mara", "student desk")
(True, False)
>>> is_the_teachers("labels clips 1-3", "student desk"), is_the_teachers("undo", "student desk")
(True, False)
"""

from __future__ import annotations

from filmrack.desk.archive.orders import order_if_readable
from filmrack.desk.archive.which_rolls import names_rolls_anywhere
from filmrack.desk.plain_questions import asked_about
from filmrack.desk.registry import CALLED, SCREENS, CommandEntry, ScreenEntry, open_to, screen_entry
from filmrack.desk.terminal_words import labels_line
from filmrack.domain.refusal import Refused


def is_the_teachers(text: str, by: str) -> bool:
    """Tell whether a line is, or begins with, what only the teacher's desk opens or does."""
    if by == "teacher":
        return False
    words = text.casefold().split()
    begins = {" ".join(words[:end]) for end in range(1, len(words) + 1)}
    entries: tuple[ScreenEntry | CommandEntry, ...] = (*SCREENS, *CALLED)
    if any(begins & set(entry.names) and not open_to(entry, by) for entry in entries):
        return True
    if not open_to(screen_entry("labels"), by) and labels_line(text):
        return True
    if open_to(screen_entry("archive"), by):
        return False
    return order_if_readable(text) is not None or names_rolls_anywhere(asked_about(text))


def refuse_the_teachers(text: str, by: str) -> None:
    """Raise Refused for such a line."""
    if is_the_teachers(text, by):
        raise Refused(f"“{text[:40]}” is the teacher's: ask the teacher, who types “teacher” first")
