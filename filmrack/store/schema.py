"""The steps from one version of the darkroom file to the next, the first from an empty one.

`user_version` counts the steps a file has had. A step is never edited once released: a change is
a further step.
"""

from __future__ import annotations

from filmrack.store.first_rolls import LEDGER, ROLLS, VIEWS
from filmrack.store.first_room import PEOPLE, PLACES

STEPS: tuple[str, ...] = (PLACES + PEOPLE + ROLLS + LEDGER + VIEWS,)
"""Step n brings a file from `user_version` n to n + 1."""
