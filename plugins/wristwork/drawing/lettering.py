"""Sizes and widths of the text in a diagram.

A page may be read in any sans-serif face, so widths are those of a wide one (DejaVu Sans, as it is
installed on many systems): what fits in it fits in the others.
"""

from __future__ import annotations

from functools import cache

SMALL = 12  # CSS pixels, which are 9 pt on paper: no text is smaller
BEAT = 13
LETTER = 16
NARROW_LETTER = 13
GRACE_LETTER = 12

# Thousandths of the font size, regular and bold.
_REGULAR = {
    "a": 613, "b": 635, "c": 550, "d": 635, "e": 615, "f": 352, "g": 635, "h": 634, "i": 278, "k": 579, "l": 278,
    "m": 974, "n": 634, "o": 612, "p": 635, "r": 411, "s": 521, "t": 392, "u": 634, "v": 592, "w": 818, "y": 592,
    "R": 695, "L": 557, "B": 686, "F": 575, "D": 770, "T": 611, "U": 732, "(": 390, ")": 390, "&": 780, "-": 361,
    "·": 318, " ": 318, "×": 838, "=": 838, "+": 838,
}  # fmt: skip
_BOLD = {
    "a": 675, "b": 716, "c": 593, "d": 716, "e": 678, "f": 435, "g": 716, "h": 712, "i": 343, "k": 665, "l": 343,
    "m": 1042, "n": 712, "o": 687, "p": 716, "r": 493, "s": 595, "t": 478, "u": 712, "v": 652, "w": 924, "y": 652,
    "R": 770, "L": 637, "B": 762, "F": 683, "D": 830, "T": 682, "U": 812, "(": 457, ")": 457, "&": 872, "-": 415,
    "·": 380, " ": 348, "×": 838, "=": 838, "+": 838,
}  # fmt: skip
_DIGIT, _BOLD_DIGIT = 636, 696


@cache
def width(text: str, size: float, bold: bool = False) -> float:
    """Width of a text in CSS pixels, never less than what a browser makes of it."""
    widths, other = (_BOLD, _BOLD_DIGIT) if bold else (_REGULAR, _DIGIT)
    return sum(widths.get(char, other) for char in text) * size / 1000


@cache
def free_width(text: str, size: float, bold: bool = False) -> float:
    """Width of a text in any letters, those that are not in the table as wide as they are high."""
    widths = _BOLD if bold else _REGULAR
    return sum(widths.get(char, 1000) for char in text) * size / 1000
