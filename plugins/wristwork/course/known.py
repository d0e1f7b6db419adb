"""What a student knows when a week begins: all that the exercises of the weeks before it have taught.

A warm-up asks for nothing else. Single strokes, one a beat, are where everybody starts.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from fractions import Fraction
from itertools import pairwise

from wristwork.course.techniques import techniques
from wristwork.pattern.model import Pattern
from wristwork.technique.strokes import Kind, Limb, Stroke, strokes

ACCENTS, GHOSTS = "accents", "ghost notes"
TWO_A_BEAT, DOUBLES, PARADIDDLE = "two notes a beat", "doubles", "paradiddles"
ORDER = (TWO_A_BEAT, ACCENTS, DOUBLES, PARADIDDLE, GHOSTS)

_HALF = Fraction(1, 2)
_PARADIDDLES = {"RLRR", "LRLL"}


def known(patterns: Iterable[Pattern]) -> tuple[str, ...]:
    """What these patterns have taught, as far as warm-ups ask for it."""
    found = {name for pattern in patterns for name in _taught_by(pattern)}
    return tuple(name for name in ORDER if name in found)


def _taught_by(pattern: Pattern) -> set[str]:
    played = [stroke for stroke in strokes(pattern) if stroke.limb.is_hand and stroke.ahead_ms is None]
    return {*({ACCENTS, GHOSTS} & {*techniques(pattern)}), *_shapes(played)}


def _shapes(played: list[Stroke]) -> Iterable[str]:
    quick = [0 < other.at - one.at <= _HALF for one, other in pairwise(played)]
    if any(quick):
        yield TWO_A_BEAT
    hands = "".join("R" if stroke.limb is Limb.RIGHT_HAND else "L" for stroke in played)
    if any(stroke.kind is Kind.DIDDLE for stroke in played) or all(_has_double(hand, hands, quick) for hand in "RL"):
        yield DOUBLES
    if _even_fours(played) >= _PARADIDDLES:
        yield PARADIDDLE


def _even_fours(played: list[Stroke]) -> set[str]:
    """The hands of each four single strokes in a row that are equally far apart."""
    fours = zip(played, played[1:], played[2:], played[3:], strict=False)
    even = [
        four
        for four in fours
        if all(stroke.kind is Kind.MAIN for stroke in four) and len({b.at - a.at for a, b in pairwise(four)}) == 1
    ]
    return {"".join("R" if stroke.limb is Limb.RIGHT_HAND else "L" for stroke in four) for four in even}


def _has_double(hand: str, hands: str, quick: list[bool]) -> bool:
    """Does the hand play two in a row, and no more, the second right after the first?"""
    runs = [(found.start(), found.end()) for found in re.finditer(f"{hand}+", hands)]
    return any(end - start == 2 and quick[start] for start, end in runs)
