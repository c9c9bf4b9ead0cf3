"""What an act answers: the rolls as they are now."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from filmrack.cli.call import Call
from filmrack.cli.output import print_json, print_rolls, roll_json, say, sentence, tell_warnings
from filmrack.domain.roll import Roll
from filmrack.store.file import DarkroomFile
from filmrack.store.standings import see


def answer(
    call: Call,
    file: DarkroomFile,
    rolls: Sequence[Roll],
    *,
    as_json: bool,
    several: bool = False,
    warnings: Mapping[int, Sequence[str]] | None = None,
) -> None:
    """Print rolls as an act left them: one as `show` does, several as a list.

    `warnings` are what is to be heeded, by roll, of an act that has such.
    """
    seen = see(file, rolls, call.now(file))
    if as_json:
        documents = [roll_json(each, seen, file.room()) for each in seen.standings]
        if warnings is not None:
            for roll, document in zip(rolls, documents, strict=True):
                document["warnings"] = list(warnings[roll.id])
        print_json(documents if several else documents[0])
        return
    if several:
        print_rolls(seen, file.room(), as_json=False)
    else:
        say(sentence(seen.standings[0], seen))
    for words in (warnings or {}).values():
        tell_warnings(words)
