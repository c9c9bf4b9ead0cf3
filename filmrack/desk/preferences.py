"""What a person has changed for their desks, in `desk.toml` of their data folder."""

from pathlib import Path
from typing import NamedTuple

from filmrack.desk.keys import key_map
from filmrack.desk.themes import PALETTES
from filmrack.domain.refusal import Refused

_USUAL_COLOURS = "dim"


class Preferences(NamedTuple):
    """The colours a desk begins with, and the id of each key."""

    colours: str
    keys: dict[str, str]


def preferences_in(path: Path) -> Preferences:
    """Return what a file says, or the usual where there is none.

    Raises Refused for a file that is no TOML, names other colours than there are, or gives a key
    that cannot be given.
    """
    if not path.is_file():
        return Preferences(_USUAL_COLOURS, key_map())
    import tomllib  # most people change nothing

    try:
        table = tomllib.loads(path.read_text(encoding="utf-8"))
    except (tomllib.TOMLDecodeError, UnicodeDecodeError, OSError) as error:
        raise Refused(f"{path} cannot be read as TOML ({error}): mend it or move it away") from None
    colours, keys = table.pop("colours", _USUAL_COLOURS), table.pop("keys", {})
    if table:
        raise Refused(
            f"in {path} “{sorted(table)[0]}” is nothing that can be changed: remove it, only"
            " colours and [keys] can"
        )
    if not isinstance(colours, str) or colours not in PALETTES:
        raise Refused(
            f"in {path} colours is none that there is: choose one of {', '.join(PALETTES)}"
        )
    if not isinstance(keys, dict):
        raise Refused(f"in {path} keys is no table: begin it with [keys], and a line for each")
    for name, given in keys.items():
        several = isinstance(given, list) and all(isinstance(key, str) for key in given)
        if not (isinstance(given, str) or several):
            raise Refused(
                f'in {path} {name} is given no key: write one such as "f5", or a list of them'
            )
    try:
        return Preferences(colours, key_map(keys))
    except Refused as refused:
        raise Refused(f"in {path} {refused}") from None
