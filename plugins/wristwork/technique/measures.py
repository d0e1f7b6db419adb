"""What can be counted in a pattern's strokes, before any tempo: the ground that demand stands on.

Time is counted in ticks, a whole number of them to the beat, so that everything here is exact. A grace
note is counted on the beat of its main note: in a rate it is a stroke of its hand, and the few
milliseconds by which it comes early are never measured as a gap.

A pattern that loops is measured round the loop. One that does not is measured over one pass of the
written bars, so that ``repeat`` changes nothing.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache
from math import lcm

from wristwork.pattern.model import Level, Pattern
from wristwork.pattern.pace import pace
from wristwork.technique.chain import Chain, TimedStroke, gaps_between, placed
from wristwork.technique.rhythm import Rhythm, is_across, rhythm
from wristwork.technique.strokes import Kind, Limb, StrokeName, strokes

# Two strokes, three, five and eight: a pair, a short burst, and what has to be kept up.
BURSTS = (2, 3, 5, 8)
# One motion of the hand gives at most three strokes; the second and third are rebounds.
STROKES_IN_A_MOTION = 3
# A run this long can't come from one motion, so each of its strokes has to be played.
LONG_RUN = STROKES_IN_A_MOTION + 1
# Runs are counted up to here: a hand that plays alone for ever has one as long as this.
LONGEST_RUN_COUNTED = 8


@dataclass(frozen=True, slots=True)
class HighWork:
    """How a hand that has both heights to play gets to the high one and away from it; times in ticks."""

    strokes: int
    shortest_rise: int | None
    shortest_fall: int | None


@dataclass(frozen=True, slots=True)
class HandMeasures:
    """One hand's strokes in one pass. Counts are numbers, times are ticks, None where there is nothing to measure.

    ``bursts`` holds, for each size in :data:`BURSTS`, the least time from its first stroke to its last.
    ``shortest_lift`` and ``shortest_stop`` are the times of up and down strokes alone.
    ``own_gaps`` is how many different gaps lie between the hand's main strokes. ``longest_run`` is how
    many strokes in a row the hand plays with the other one silent; ``long_run_time`` the least time in
    which it plays :data:`LONG_RUN` of them.
    """

    strokes: int
    motions: Fraction
    bursts: tuple[int | None, ...]
    shortest_lift: int | None
    shortest_stop: int | None
    height_changes: int
    high_strokes: int
    high_work: HighWork | None
    drum_changes: int
    shortest_drum_change: int | None
    own_gaps: int
    longest_run: int
    long_run_time: int | None


@dataclass(frozen=True, slots=True)
class FootMeasures:
    """One foot's strokes in one pass, and the least time between two of them in ticks."""

    strokes: int
    shortest_gap: int | None


@dataclass(frozen=True, slots=True)
class Measures:
    """All that is counted in one pass of ``span`` ticks, ``ticks`` to the beat.

    ``most_graces`` is how many grace notes one ornament has at most; ``feet_off_beats`` are the moments between the
    beats at which a foot plays. ``is_across``: do the hands play evenly against each other or against the beats, and
    neither is a whole number of times as fast, as in three over two?
    """

    ticks: int
    span: int
    hands: tuple[HandMeasures, HandMeasures]
    feet: tuple[FootMeasures, FootMeasures]
    limbs: int
    combinations: int
    moments: int
    rhythms: tuple[Rhythm, ...]
    ornaments: int
    grace_notes: int
    most_graces: int
    has_buzz: bool
    feet_off_beats: int
    is_across: bool
    contrast: int
    drums: int


# A build asks for the same pattern in its data file, its week's plan and the checks.
@lru_cache(maxsize=2048)
def measure(pattern: Pattern) -> Measures:
    """Count one pass of a pattern."""
    own_pace = pace(pattern)
    played = strokes(replace(pattern, repeat=1))
    if not own_pace.is_even:
        played = tuple(stroke._replace(at=own_pace.elapsed(stroke.at)) for stroke in played)
    beats = own_pace.elapsed(Fraction(pattern.played_beats))
    ticks = lcm(beats.denominator, *(stroke.at.denominator for stroke in played))
    span = int(beats * ticks)
    timed = placed(played, ticks)
    chains = {limb: Chain(tuple(one for one in timed if one.stroke.limb is limb), span, pattern.loop) for limb in Limb}
    right, left = chains[Limb.RIGHT_HAND], chains[Limb.LEFT_HAND]
    together = Chain(tuple(one for one in timed if one.stroke.limb.is_hand), span, pattern.loop)
    combinations = _combinations(timed)
    shortest = together.burst(2)
    feet = (chains[Limb.RIGHT_FOOT], chains[Limb.LEFT_FOOT])
    return Measures(
        ticks=ticks,
        span=span,
        hands=(_measure_hand(right, left, shortest), _measure_hand(left, right, shortest)),
        feet=(_measure_foot(feet[0]), _measure_foot(feet[1])),
        limbs=sum(1 for chain in chains.values() if chain.strokes),
        combinations=len(set(combinations.values())),
        moments=len(combinations),
        rhythms=tuple(rhythm(chain.main_moments, span, pattern.loop) for chain in (together, *feet)),
        ornaments=_ornaments(timed),
        grace_notes=sum(not one.is_main for one in timed),
        most_graces=max((-one.order for one in timed), default=0),
        has_buzz=any(one.stroke.kind is Kind.BUZZ for one in timed),
        feet_off_beats=len({moment for foot in feet for moment in foot.moments if moment % ticks}),
        is_across=is_across(right, left, together, ticks),
        contrast=_contrast(together),
        drums=len({one.stroke.on for one in together.strokes}),
    )


def _measure_hand(hand: Chain, other: Chain, shortest: int | None) -> HandMeasures:
    times = hand.times()
    names = [one.stroke.name for one in hand.strokes]
    moves = [time for time, moved in zip(times, _moved(hand), strict=True) if moved]
    run, run_time = _run(hand, other)
    return HandMeasures(
        strokes=len(hand.strokes),
        motions=_motions(hand, other, shortest),
        bursts=tuple(hand.burst(size) for size in BURSTS),
        shortest_lift=_least(time for time, name in zip(times, names, strict=True) if name is StrokeName.UP),
        shortest_stop=_least(time for time, name in zip(times, names, strict=True) if name is StrokeName.DOWN),
        height_changes=sum(name in (StrokeName.UP, StrokeName.DOWN) for name in names),
        high_strokes=sum(one.stroke.level is Level.ACCENT for one in hand.strokes),
        high_work=_high_work(hand, times),
        drum_changes=len(moves),
        shortest_drum_change=_least(moves),
        own_gaps=len(set(gaps_between(hand.main_moments, hand.span, hand.loops))),
        longest_run=run,
        long_run_time=run_time,
    )


def _high_work(hand: Chain, times: Sequence[int | None]) -> HighWork | None:
    """None for a hand that stays at one height: it has no way to go."""
    if len({one.stroke.level is Level.ACCENT for one in hand.strokes}) < 2:
        return None
    named = [(one.stroke.name, time) for one, time in zip(hand.strokes, times, strict=True)]
    return HighWork(
        strokes=sum(name is not StrokeName.TAP for name, _ in named),
        shortest_rise=_least(time for name, time in named if name in (StrokeName.UP, StrokeName.FULL)),
        shortest_fall=_least(time for name, time in named if name in (StrokeName.DOWN, StrokeName.FULL)),
    )


def _measure_foot(foot: Chain) -> FootMeasures:
    return FootMeasures(len(foot.strokes), foot.burst(2))


def _least(times: Iterable[int | None]) -> int | None:
    """The shortest of some times, those left out that nothing follows."""
    return min((time for time in times if time is not None), default=None)


def _moved(hand: Chain) -> list[bool]:
    """For each stroke: does the hand go to another drum after it?"""
    drums = [one.stroke.on for one in hand.strokes]
    if not drums:
        return []
    following = [*drums[1:], drums[0] if hand.loops else drums[-1]]
    return [here is not there for here, there in zip(drums, following, strict=True)]


def _motions(hand: Chain, other: Chain, shortest: int | None) -> Fraction:
    """How many motions the hand makes: strokes that rebound from one motion are counted once."""
    joins = _joins(hand, other, shortest)
    if not joins:
        return Fraction(0)
    if all(joins):  # round and round with nothing to break it
        return Fraction(len(joins), STROKES_IN_A_MOTION)
    start = joins.index(False) + 1
    motions, length = 0, 0
    for joined in joins[start:] + joins[:start]:
        length += 1
        if not joined:
            motions += -(-length // STROKES_IN_A_MOTION)
            length = 0
    return Fraction(motions)


def _joins(hand: Chain, other: Chain, shortest: int | None) -> list[bool]:
    """For each stroke: can the hand's next stroke be its rebound?"""
    keys = [one.key for one in other.strokes]
    count = len(hand.strokes)
    joins: list[bool] = []
    for index, (one, gap) in enumerate(zip(hand.strokes, hand.gaps(), strict=True)):
        follower = hand.strokes[(index + 1) % count]
        rebounds = (
            gap in (0, shortest)
            and follower.stroke.level is not Level.ACCENT
            and Kind.BUZZ not in (one.stroke.kind, follower.stroke.kind)
        )
        joins.append(rebounds and not _between(keys, one.key, follower.key, wraps=index + 1 == count))
    return joins


def _between(keys: Sequence[tuple[int, int]], first: tuple[int, int], last: tuple[int, int], wraps: bool) -> bool:
    """Does any of the (sorted) keys lie strictly between two others, round the end where ``wraps`` says so?"""
    after, before = bisect_right(keys, first), bisect_left(keys, last)
    return after < len(keys) or before > 0 if wraps else after < before


def _run(hand: Chain, other: Chain) -> tuple[int, int | None]:
    """The hand's longest run of main strokes without the other hand, and the least time for :data:`LONG_RUN`."""
    mine, others = hand.main_moments, set(other.main_moments)
    moments = sorted({*mine, *others})
    alone = [moment not in others for moment in moments]
    if not any(alone):
        return (1 if mine else 0), None
    if all(alone) and hand.loops:
        return LONGEST_RUN_COUNTED, hand.burst(LONG_RUN)
    times = 2 if hand.loops else 1  # twice round shows a run that crosses the seam
    unrolled = [moment + number * hand.span for number in range(times) for moment in moments]
    longest, length, fastest = 0, 0, None
    for index, is_alone in enumerate(alone * times):
        length = length + 1 if is_alone else 0
        longest = max(longest, length)
        if length >= LONG_RUN:
            time = unrolled[index] - unrolled[index - LONG_RUN + 1]
            fastest = time if fastest is None else min(fastest, time)
    return min(longest, LONGEST_RUN_COUNTED), fastest


def _combinations(timed: Sequence[TimedStroke]) -> dict[int, frozenset[Limb]]:
    """Which limbs play together at each moment, grace notes left out."""
    found: dict[int, frozenset[Limb]] = {}
    for one in timed:
        if one.is_main:
            found[one.tick] = found.get(one.tick, frozenset()) | {one.stroke.limb}
    return found


def _ornaments(timed: Sequence[TimedStroke]) -> int:
    """Flams, drags, ruffs and buzzes."""
    opened = {(one.tick, one.stroke.limb.is_hand) for one in timed if not one.is_main}
    return len(opened) + sum(one.stroke.kind is Kind.BUZZ for one in timed)


def _contrast(hands: Chain) -> int:
    """Steps between the softest and the loudest main stroke of the hands: 0, 1 or 2."""
    order = list(Level)
    levels = [order.index(one.stroke.level) for one in hands.strokes if one.is_main]
    return max(levels) - min(levels) if levels else 0
