"""The rhythm of a limb, or of the hands together, before any tempo: its gaps, and what it stands across.

Time is counted in ticks, a whole number of them to the beat.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from wristwork.technique.chain import Chain, gaps_between


@dataclass(frozen=True, slots=True)
class Rhythm:
    """The gaps between the moments at which a limb (or the hands together) plays.

    ``uneven_changes`` counts the changes between two gaps of which neither holds the other a whole
    number of times, as between a sixteenth and a triplet.
    """

    gaps: int
    changes: int
    uneven_changes: int


def rhythm(moments: Sequence[int], span: int, loops: bool) -> Rhythm:
    """The gaps between some moments, round the seam where the pattern loops."""
    gaps = gaps_between(moments, span, loops)
    following = gaps[1:] + gaps[:1] if loops else gaps[1:]
    changes = [(here, there) for here, there in zip(gaps, following, strict=False) if here != there]
    uneven = sum(max(pair) % min(pair) != 0 for pair in changes)
    return Rhythm(len(set(gaps)), len(changes), uneven)


def is_across(right: Chain, left: Chain, together: Chain, ticks: int) -> bool:
    """Does an even rhythm stand against another, hand against hand or hands against beats, as three over two?"""
    on_beats = [moment for moment in together.moments if moment % ticks == 0]
    of_both = sorted(set(right.main_moments) & set(left.main_moments))
    against_beats = any(
        _stand_across(_even_parts(together.main_moments, start, end), (end - start) // ticks)
        for start, end in _stretches(on_beats, together)
    )
    return against_beats or any(
        _stand_across(*(_even_parts(hand.main_moments, start, end) for hand in (right, left)))
        for start, end in _stretches(of_both, together)
    )


def _stretches(moments: Sequence[int], chain: Chain) -> list[tuple[int, int]]:
    """From each moment to the next one, round the seam where the pattern loops."""
    return list(pairwise([*moments, moments[0] + chain.span] if moments and chain.loops else moments))


def _stand_across(one: int, other: int) -> bool:
    return min(one, other) > 1 and one % other > 0 and other % one > 0


def _even_parts(moments: Sequence[int], start: int, end: int) -> int:
    """Into how many equal parts the moments divide the stretch; 0 where they are not equal."""
    inside = [moment for moment in moments if start <= moment < end]
    gaps = {after - before for before, after in pairwise([*inside, end])}
    return len(inside) if len(gaps) == 1 else 0
