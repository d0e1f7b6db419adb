"""Swing: where a written moment sounds when of two even notes the first is played longer.

The share of the first note is written, or follows the tempo: a triplet's two thirds where there is time for
it, and at a fast tempo more even, since the second note hardly gets shorter than a tenth of a second (Friberg
and Sundström, Music Perception 19, 2002, measured that on the ride cymbals of jazz drummers).
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from wristwork.pattern.model import Pattern, Swing
from wristwork.technique.strokes import Limb, Stroke

TRIPLET = Fraction(2, 3)
EVEN = Fraction(1, 2)
SHORTEST = Fraction(1, 10)  # seconds


def pair_beats(pattern: Pattern, swing: Swing) -> Fraction:
    """How many beats two of the notes that swing fill."""
    return 2 * swing.unit / pattern.time.beat


def first_share(swing: Swing, pair: Fraction, tempo: int | Fraction) -> Fraction:
    """The share of a pair that its first note takes at ``tempo`` beats a minute."""
    if swing.ratio is not None:
        return Fraction(swing.ratio[0], sum(swing.ratio))
    seconds = pair * 60 / tempo
    return max(EVEN, min(TRIPLET, 1 - SHORTEST / seconds))


def even_pairs(pattern: Pattern, played: Iterable[Stroke]) -> frozenset[int]:
    """The pairs, numbered from 0, that are played as they are written: moving some of their strokes would mix them up.

    These hold sixths, fifths or the like; or one hand (or foot) has thirds in them and strokes that would move.
    """
    if pattern.swing is None:
        return frozenset()
    pair = pair_beats(pattern, pattern.swing)
    found: set[int] = set()
    moving: set[tuple[int, Limb]] = set()
    thirds: set[tuple[int, Limb]] = set()
    for stroke in played:
        number, share_of_pair = stroke.at // pair, stroke.at / pair % 1
        if _moves(share_of_pair):
            moving.add((number, stroke.limb))
        elif share_of_pair.denominator == 3:
            thirds.add((number, stroke.limb))
        elif share_of_pair:
            found.add(number)
    return frozenset(found | {number for number, _ in moving & thirds})


def _moves(share_of_pair: Fraction) -> bool:
    """Is a place in a pair one of its halves, quarters and so on, but not its start?"""
    return share_of_pair != 0 and not share_of_pair.denominator & (share_of_pair.denominator - 1)


def swung(at: Fraction, pattern: Pattern, tempo: int | Fraction, even: frozenset[int]) -> Fraction:
    """Where a moment ``at`` beats from the start sounds; thirds, and pairs that are ``even``, stay where they are."""
    swing = pattern.swing
    if swing is None:
        return at
    pair = pair_beats(pattern, swing)
    start, share_of_pair = at // pair * pair, at / pair % 1
    if not _moves(share_of_pair) or at // pair in even:
        return at
    share = first_share(swing, pair, tempo)
    moved = 2 * share_of_pair * share if share_of_pair <= EVEN else share + (2 * share_of_pair - 1) * (1 - share)
    return start + moved * pair
