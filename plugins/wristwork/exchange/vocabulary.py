"""The words of MusicXML that writer and reader share: note values, heads, sticking letters, names of fields.

MusicXML 4.0 is a format of the W3C Music Notation Community Group; the elements named here are described in its
reference.
"""

from __future__ import annotations

from fractions import Fraction

from wristwork.drawing.linear import FOOT_LETTERS
from wristwork.pattern.drums import Drum, Head
from wristwork.pattern.model import Side
from wristwork.technique.strokes import Limb

TYPES = {
    -1: "breve", 0: "whole", 1: "half", 2: "quarter", 3: "eighth", 4: "16th", 5: "32nd", 6: "64th", 7: "128th",
}  # fmt: skip
"""The name of a note value, by how often a whole note is halved to it."""

HEADS = {
    Head.PLAIN: "normal",
    Head.CROSS: "x",
    Head.DIAMOND: "diamond",
    Head.TRIANGLE: "triangle",
    Head.SLASHED: "slashed",
    Head.SWEEP: "slash",
}

STEPS = "CDEFGAB"
# What a percussion clef shows stands where a treble clef has it: B4 is the middle line of five, E4 the lowest line,
# which is the only one of a staff of one line.
MIDDLE_LINE, ONLY_LINE = STEPS.index("B") + 7 * 4, STEPS.index("E") + 7 * 4

HAND_LETTERS = {Limb.RIGHT_HAND: "R", Limb.LEFT_HAND: "L"}
FOOT_WORDS = {Limb.RIGHT_FOOT: "RF", Limb.LEFT_FOOT: "LF"}
LIMBS = {letters: limb for limb, letters in (HAND_LETTERS | FOOT_WORDS).items()}
PEDALS = {drum: limb for limb, drum in FOOT_LETTERS}
"""The foot that plays a pedal where no letter says otherwise."""
PEDAL_LETTERS = {drum: letter for (_, drum), letter in FOOT_LETTERS.items()}

JOIN = "+"
"""Between the letters of both hands on one drum."""

QUARTER = Fraction(1, 4)
PART = "P1"
FIELD = "wristwork "
"""Begins the name of each field in which a score keeps a line of its pattern that notes don't hold."""


def side_of(limb: Limb) -> Side:
    """Right or left."""
    return Side.RIGHT if limb in (Limb.RIGHT_HAND, Limb.RIGHT_FOOT) else Side.LEFT


def staff_place(drum: Drum, one_line: bool) -> tuple[str, int]:
    """Where a drum stands: step and octave, as a treble clef would have it."""
    octave, step = divmod(ONLY_LINE if one_line else MIDDLE_LINE + drum.row.step, 7)
    return STEPS[step], octave


def instrument_id(drum: Drum) -> str:
    """What a drum is called within a file."""
    return f"{PART}-{drum.replace(' ', '-')}"
