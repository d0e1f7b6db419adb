"""How much a pattern asks of a player at a tempo: rates and times first, then one score and a grade.

The score is an aid for ordering exercises, not a science. ``docs/handbook/demand.md`` says where each
part of it comes from. Every part only grows with what makes playing harder, so the score does too.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import exp, pow

from wristwork.pattern.model import Pattern
from wristwork.technique.measures import BURSTS, LONG_RUN, HandMeasures, Measures, measure

HIGHEST_SCORE = 100
HIGHEST_GRADE = 10


@dataclass(frozen=True, slots=True)
class Weights:
    """Every number of the formula, by the name it has in ``docs/handbook/demand.md``, with its reason there."""

    hand_yardstick: float = 6.0
    hand_power: float = 2.0
    average_strokes: float = 0.30
    fastest_two: float = 0.20
    fastest_three: float = 0.15
    fastest_five: float = 0.10
    fastest_eight: float = 0.10
    motions: float = 0.15
    faster_hand: float = 0.85
    height_yardstick: float = 5.0
    height_power: float = 1.5
    to_or_from_high: float = 0.50
    quickest_rise: float = 0.25
    quickest_fall: float = 0.25
    high_strokes: float = 0.20
    heights: float = 0.50
    contrast_step: float = 0.02
    drum_yardstick: float = 5.0
    drum_power: float = 1.5
    drum_changes: float = 0.50
    quickest_drum_change: float = 0.50
    drum_moves: float = 0.50
    another_drum: float = 0.02
    ornament: float = 0.05
    grace_note: float = 0.05
    foot_yardstick: float = 4.0
    foot_power: float = 1.5
    foot_strokes: float = 0.50
    fastest_foot: float = 0.50
    faster_foot: float = 0.60
    feet: float = 0.50
    foot_off_beat: float = 0.02
    another_limb: float = 0.02
    another_combination: float = 0.0025
    ornament_to_shape: float = 0.12
    several_graces: float = 0.06
    buzz_to_press: float = 0.12
    hands_across: float = 0.16
    another_gap: float = 0.01
    gap_change: float = 0.015
    uneven_gap_change: float = 0.03


WEIGHTS = Weights()


@dataclass(frozen=True, slots=True)
class HandDemand:
    """What one hand does. ``_s`` is seconds; None where there is nothing to measure."""

    strokes_per_second: float
    fastest_strokes_per_second: float | None
    motions_per_second: float
    shortest_lift_s: float | None
    shortest_stop_s: float | None
    height_changes_per_second: float
    drum_changes_per_second: float
    longest_run_strokes: int
    long_run_strokes_per_second: float | None


@dataclass(frozen=True, slots=True)
class Demand:
    """A pattern's demand at ``tempo`` beats a minute.

    ``limb_combinations`` is how many different sets of limbs play together, ``subdivisions`` how many
    different gaps the hands' rhythm has, ``contrast_levels`` the steps from the softest stroke to the
    loudest (0 to 2). ``parts`` are the shares that add up to the load behind the score, by name.
    """

    tempo: int
    right_hand: HandDemand
    left_hand: HandDemand
    limbs: int
    limb_combinations: int
    subdivisions: int
    subdivision_changes_per_second: float
    ornaments_per_second: float
    contrast_levels: int
    parts: tuple[tuple[str, float], ...]
    score: float
    grade: int


@dataclass(frozen=True, slots=True)
class _Clock:
    """Turns counts and ticks into rates and seconds, each by one exact division.

    Two ways of writing the same strokes have the same rates as fractions, so they get the very same figures.
    """

    measures: Measures
    tempo: int

    def rate(self, count: int | Fraction) -> float:
        """So many in a pass, as so many a second."""
        return count.numerator * self.tempo * self.measures.ticks / (60 * self.measures.span * count.denominator)

    def speed(self, ticks: int | None, steps: int = 1) -> float:
        """So many steps in that time, as so many a second; 0 for no time."""
        return steps * self.tempo * self.measures.ticks / (60 * ticks) if ticks else 0.0

    def seconds(self, ticks: int | None) -> float | None:
        return None if ticks is None else 60 * ticks / (self.tempo * self.measures.ticks)


def demand(pattern: Pattern, tempo: int) -> Demand:
    """The demand of a pattern at a tempo in beats a minute."""
    return demand_of(measure(pattern), tempo)


def demand_of(measures: Measures, tempo: int) -> Demand:
    """The demand at a tempo of a pattern that is measured already."""
    clock = _Clock(measures, tempo)
    parts = tuple((name, part(clock)) for name, part in PARTS)
    score = score_of(sum(share for _, share in parts))
    right, left = measures.hands
    return Demand(
        tempo=tempo,
        right_hand=_hand_demand(right, clock),
        left_hand=_hand_demand(left, clock),
        limbs=measures.limbs,
        limb_combinations=measures.combinations,
        subdivisions=measures.rhythms[0].gaps,
        subdivision_changes_per_second=clock.rate(measures.rhythms[0].changes),
        ornaments_per_second=clock.rate(measures.ornaments),
        contrast_levels=measures.contrast,
        parts=parts,
        score=score,
        grade=grade_of(score),
    )


def score_of(load: float) -> float:
    """The score from 0 to 100 for a load: each part more takes the same share of what is left to 100."""
    return round(HIGHEST_SCORE * (1 - exp(-load)), 1)


def grade_of(score: float) -> int:
    """The grade from 1 to 10: one for every ten points of the score."""
    return min(HIGHEST_GRADE, 1 + int(score * HIGHEST_GRADE // HIGHEST_SCORE))


def _hand_demand(hand: HandMeasures, clock: _Clock) -> HandDemand:
    return HandDemand(
        strokes_per_second=clock.rate(hand.strokes),
        fastest_strokes_per_second=clock.speed(hand.bursts[0]) or None,
        motions_per_second=clock.rate(hand.motions),
        shortest_lift_s=clock.seconds(hand.shortest_lift),
        shortest_stop_s=clock.seconds(hand.shortest_stop),
        height_changes_per_second=clock.rate(hand.height_changes),
        drum_changes_per_second=clock.rate(hand.drum_changes),
        longest_run_strokes=hand.longest_run,
        long_run_strokes_per_second=clock.speed(hand.long_run_time, LONG_RUN - 1) or None,
    )


def _both(values: Sequence[float], harder: float = 0.5) -> float:
    """Two hands' (or feet's) values as one: ``harder`` of the greater, the rest of the smaller."""
    return harder * max(values) + (1 - harder) * min(values)


def _hand_speed(hand: HandMeasures, clock: _Clock) -> float:
    """One hand's speed in strokes a second: its average, its bursts and its motions, weighted."""
    weights = (WEIGHTS.fastest_two, WEIGHTS.fastest_three, WEIGHTS.fastest_five, WEIGHTS.fastest_eight)
    bursts = (weights, hand.bursts, BURSTS)
    return (
        WEIGHTS.average_strokes * clock.rate(hand.strokes)
        + sum(weight * clock.speed(ticks, size - 1) for weight, ticks, size in zip(*bursts, strict=True))
        + WEIGHTS.motions * clock.rate(hand.motions)
    )


def _speed(clock: _Clock) -> float:
    # The faster hand decides; the other one adds a little.
    speed = _both([_hand_speed(hand, clock) for hand in clock.measures.hands], WEIGHTS.faster_hand)
    return pow(speed / WEIGHTS.hand_yardstick, WEIGHTS.hand_power)


def _height_work(hand: HandMeasures, clock: _Clock) -> float:
    """One hand's work with heights: its ways up and down where it has both, and a little for every high stroke."""
    work = WEIGHTS.high_strokes * clock.rate(hand.high_strokes)
    if hand.high_work is None:
        return work
    return (
        work
        + WEIGHTS.to_or_from_high * clock.rate(hand.high_work.strokes)
        + WEIGHTS.quickest_rise * clock.speed(hand.high_work.shortest_rise)
        + WEIGHTS.quickest_fall * clock.speed(hand.high_work.shortest_fall)
    )


def _heights(clock: _Clock) -> float:
    work = _both([_height_work(hand, clock) for hand in clock.measures.hands])
    steps = clock.measures.contrast
    return WEIGHTS.heights * pow(work / WEIGHTS.height_yardstick, WEIGHTS.height_power) + WEIGHTS.contrast_step * steps


def _drum_moves(clock: _Clock) -> float:
    moves = _both(
        [
            WEIGHTS.drum_changes * clock.rate(hand.drum_changes)
            + WEIGHTS.quickest_drum_change * clock.speed(hand.shortest_drum_change)
            for hand in clock.measures.hands
        ]
    )
    more = max(0, clock.measures.drums - 1)
    return WEIGHTS.drum_moves * pow(moves / WEIGHTS.drum_yardstick, WEIGHTS.drum_power) + WEIGHTS.another_drum * more


def _ornaments(clock: _Clock) -> float:
    measures = clock.measures
    return WEIGHTS.ornament * clock.rate(measures.ornaments) + WEIGHTS.grace_note * clock.rate(measures.grace_notes)


def _ways(clock: _Clock) -> float:
    """What a hand has to have learnt before any tempo: ornaments, buzzes, one rhythm against another."""
    measures = clock.measures
    return (
        WEIGHTS.ornament_to_shape * (measures.most_graces > 0)
        + WEIGHTS.several_graces * (measures.most_graces > 1)
        + WEIGHTS.buzz_to_press * measures.has_buzz
        + WEIGHTS.hands_across * measures.is_across
    )


def _feet(clock: _Clock) -> float:
    speeds = [
        WEIGHTS.foot_strokes * clock.rate(foot.strokes) + WEIGHTS.fastest_foot * clock.speed(foot.shortest_gap)
        for foot in clock.measures.feet
    ]
    speed = _both(speeds, WEIGHTS.faster_foot)
    off_beats = WEIGHTS.foot_off_beat * clock.rate(clock.measures.feet_off_beats)
    return WEIGHTS.feet * pow(speed / WEIGHTS.foot_yardstick, WEIGHTS.foot_power) + off_beats


def _limbs(clock: _Clock) -> float:
    """Limbs that have to agree: how many, in how many ways, and how often."""
    measures = clock.measures
    more_limbs = max(0, measures.limbs - 1)
    more_ways = max(0, measures.combinations - 1)
    return WEIGHTS.another_limb * more_limbs + WEIGHTS.another_combination * more_ways * clock.rate(measures.moments)


def _order(clock: _Clock) -> float:
    """What has to be remembered: different gaps within each hand, and in the rhythm of the hands and each foot."""
    hands, rhythms = clock.measures.hands, clock.measures.rhythms
    gaps = [hand.own_gaps for hand in hands] + [rhythm.gaps for rhythm in rhythms]
    return (
        WEIGHTS.another_gap * sum(max(0, count - 1) for count in gaps)
        + WEIGHTS.gap_change * sum(clock.rate(rhythm.changes) for rhythm in rhythms)
        + WEIGHTS.uneven_gap_change * sum(clock.rate(rhythm.uneven_changes) for rhythm in rhythms)
    )


PARTS: tuple[tuple[str, Callable[[_Clock], float]], ...] = (
    ("speed of the hands", _speed),
    ("stick heights", _heights),
    ("moves between drums", _drum_moves),
    ("ornaments", _ornaments),
    ("ways to be learnt", _ways),
    ("feet", _feet),
    ("limbs together", _limbs),
    ("sticking and rhythm", _order),
)
