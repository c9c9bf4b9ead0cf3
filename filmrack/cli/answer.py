"""What an act answers: the rolls as they are now."""

from __future__ import annotations

from collections.abc import Sequence

from filmrack.cli.call import Call
from filmrack.cli.output import print_json, print_rolls, roll_json, say, sentence
from filmrack.domain.roll import Roll
from filmrack.store.file import DarkroomFile
from filmrack.store.standings import see


def answer(
    call: Call, file: DarkroomFile, rolls: Sequence[Roll], *, as_json: bool, several: bool = False
) -> None:
    """Print rolls as an act left them: one as `show` does, several as a list."""
    seen = see(file, rolls, call.now(file))
    if several:
        print_rolls(seen, file.room(), as_json=as_json)
    elif as_json:
        print_json(roll_json(seen.standings[0], seen, file.room()))
    else:
        say(sentence(seen.standings[0], seen))
