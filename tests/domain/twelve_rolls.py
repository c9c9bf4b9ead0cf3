"""The touch checks of twelve rolls of one cabinet, in effective minutes: (a, b, dry)."""

from filmrack.domain.touch import TimedCheck

TWELVE_ROLLS = [
    [TimedCheck(a, b, dry) for a, b, dry in roll]
    for roll in [
        [(4, 5, True)],
        [(4, 6, True)],
        [(5, 6, True)],
        [(12, 0, False), (15, 0, True)],
        [(3, 3, False)],
        [(4, 3, False), (4, 5, True)],
        [(10, 0, False)],
        [(9, 0, False), (9, 3, True)],
        [(4, 4, False)],
        [(3, 5, False), (3, 7, True)],
        [(14, 0, True)],
        [(4, 4, True)],
    ]
]
