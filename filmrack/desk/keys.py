"""The keys of the line: footer and help read this one list, and a person may change each."""

from collections.abc import Mapping
from typing import NamedTuple

from filmrack.domain.refusal import Refused


class KeyEntry(NamedTuple):
    """A key of the line: `id` is its name below `[keys]` in `desk.toml`, `words` what the footer
    says.
    """

    id: str
    keys: tuple[str, ...]
    words: str
    footer: bool = False


KEYS = (
    KeyEntry("next_screen", ("tab", "f3"), "next screen", footer=True),
    KeyEntry("screen_before", ("shift+tab", "f2"), "screen before"),
    KeyEntry("up", ("up",), "select the one above"),
    KeyEntry("down", ("down",), "select the one below"),
    KeyEntry("page_up", ("pageup",), "a page up"),
    KeyEntry("page_down", ("pagedown",), "a page down"),
    KeyEntry("left", ("left",), "select the one to the left"),
    KeyEntry("right", ("right",), "select the one to the right"),
    KeyEntry("first", ("home",), "the first one"),
    KeyEntry("last", ("end",), "the last one"),
    KeyEntry("back", ("escape",), "clear, back", footer=True),
    KeyEntry("help", ("question_mark", "f1"), "help", footer=True),
    KeyEntry("colours", ("f8",), "other colours"),
    KeyEntry("quit", ("ctrl+q", "ctrl+c"), "leave"),
)


def key_map(changed: Mapping[str, str | list[str]] | None = None) -> dict[str, str]:
    """Return the id of each key, with a person's own keys in place of the usual ones.

    Raises Refused for an id that is none, and for a key that is needed twice or for typing.
    """
    changed = changed or {}
    unknown = set(changed) - {entry.id for entry in KEYS}
    if unknown:
        known = ", ".join(entry.id for entry in KEYS)
        raise Refused(
            f"there is no key called “{sorted(unknown)[0]}”: remove it, or name one of {known}"
        )
    by_key: dict[str, str] = {}
    for entry in KEYS:
        own = changed.get(entry.id, list(entry.keys))
        for key in [own] if isinstance(own, str) else own:
            if len(key) == 1 or key in ("enter", "space", "backspace"):
                raise Refused(
                    f"the key “{key}” is needed for typing: choose another for {entry.id}"
                )
            if by_key.setdefault(key, entry.id) != entry.id:
                raise Refused(
                    f"the key “{key}” is given twice, to {by_key[key]} and {entry.id}: choose"
                    " another for one of them"
                )
    return by_key
