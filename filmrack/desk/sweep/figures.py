"""Large figures, to be read from a step away."""

from __future__ import annotations

_PIXELS = {
    "0": ("###", "# #", "# #", "# #", "###"),
    "1": (" # ", "## ", " # ", " # ", "###"),
    "2": ("###", "  #", "###", "#  ", "###"),
    "3": ("###", "  #", "###", "  #", "###"),
    "4": ("# #", "# #", "###", "  #", "  #"),
    "5": ("###", "#  ", "###", "  #", "###"),
    "6": ("###", "#  ", "###", "# #", "###"),
    "7": ("###", "  #", "  #", "  #", "  #"),
    "8": ("###", "# #", "###", "# #", "###"),
    "9": ("###", "# #", "###", "  #", "###"),
}
_HALVES = {("#", "#"): "█", ("#", " "): "▀", (" ", "#"): "▄", (" ", " "): " "}


def large(number: int) -> list[str]:
    """Return a number in five rows, each figure six cells wide."""
    digits = [_PIXELS[digit] for digit in str(number)]
    rows = (
        "  ".join("".join(dot * 2 for dot in digit[row]) for digit in digits) for row in range(5)
    )
    return [row.replace("#", "█") for row in rows]


def small(number: int) -> list[str]:
    """Return a number in three rows, each figure three cells wide."""
    digits = [(*_PIXELS[digit], "   ") for digit in str(number)]
    return [
        " ".join(
            "".join(map(_HALVES.__getitem__, zip(digit[row], digit[row + 1], strict=True)))
            for digit in digits
        )
        for row in (0, 2, 4)
    ]
