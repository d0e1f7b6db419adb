"""The alphabet of the groups: every character that a tutor types in them, once.

The reader of groups, the writer of them, the guess at what a line without a key may be, and (by a test) the search
field of the site take it from here.
"""

from __future__ import annotations

from wristwork.pattern.notes import BOTH, Gap, Side

STROKES = {"R": (Side.RIGHT,), "L": (Side.LEFT,), "B": BOTH}
OWN_STROKE = "x"  # in a line of one hand
GRACES = {"r": Side.RIGHT, "l": Side.LEFT}
OPEN, CLOSE = "(", ")"  # round a ghost note
PART_OPEN, PART_CLOSE = "{", "}"  # round slots that share one
JOIN = "&"
ACCENT, STRONG, SLASH, BUZZ = ">", "^", "/", "z"
MARKS = ACCENT + STRONG + SLASH + BUZZ
SLASHES = {1: "", 2: "/", 3: "/3", 4: "//"}
"""What is typed after a letter for so many strokes in its slot."""
GAPS = "".join(gap.value for gap in Gap)
BAR_LINE = "|"
SAME = {"%": 1, "%%": 2}
"""In place of a bar: as the bar before it, or as the two before, for two bars."""
CHARACTERS = frozenset(
    "".join((*STROKES, *GRACES, OPEN, CLOSE, PART_OPEN, PART_CLOSE, JOIN, MARKS, *SLASHES.values(), GAPS, BAR_LINE)),
)
"""All of them but :data:`OWN_STROKE`, which other words hold too."""
