"""Swing: where a written moment sounds when of two even notes the first is played longer.

The share of the first note is written, or follows the tempo: a triplet's two thirds where there is time for
it, and at a fast tempo more even, since the second note hardly gets shorter than a tenth of a second (Friberg
and Sundström, Music Perception 19, 2002, measured that on the ride cymbals of jazz drummers).
"""

from __future__ import annotations

from fractions import Fraction

from wristwork.pattern.model import Pattern, Swing

TRIPLET = Fraction(2, 3)
EVEN = Fraction(1, 2)
SHORTEST = Fraction(1, 10)  # seconds


def pair_beats(pattern: Pattern, swing: Swing) -> Fraction:
    """How many beats two of the notes that swing fill."""
    return 2 * swing.unit / pattern.time.beat


def first_share(swing: Swing, pair: Fraction, tempo: int) -> Fraction:
    """The share of a pair that its first note takes at ``tempo`` beats a minute."""
    if swing.ratio is not None:
        return Fraction(swing.ratio[0], sum(swing.ratio))
    seconds = pair * 60 / tempo
    return max(EVEN, min(TRIPLET, 1 - SHORTEST / seconds))


def swung(at: Fraction, pattern: Pattern, tempo: int) -> Fraction:
    """Where a moment ``at`` beats from the start sounds; thirds, fifths and the like of a pair stay where they are."""
    swing = pattern.swing
    if swing is None:
        return at
    pair = pair_beats(pattern, swing)
    start, place = at // pair * pair, at / pair % 1
    if place == 0 or place.denominator & (place.denominator - 1):
        return at
    share = first_share(swing, pair, tempo)
    moved = 2 * place * share if place <= EVEN else share + (2 * place - 1) * (1 - share)
    return start + moved * pair
