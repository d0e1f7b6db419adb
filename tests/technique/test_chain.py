"""The strokes of a limb as a chain in time."""

from fractions import Fraction

import pytest

from wristwork.pattern.model import Drum, Level
from wristwork.technique.chain import Chain, TimedStroke, gaps_between, placed
from wristwork.technique.strokes import Kind, Limb, Stroke

HAND = Limb.RIGHT_HAND


def stroke(at, kind=Kind.MAIN):
    return Stroke(Fraction(at), HAND, Level.TAP, kind, Drum.SNARE, Fraction(1), 0)


def chain(*ticks, span=48, loops=True, graces=()):
    """Main strokes at these ticks, and a grace note before each of those named."""
    strokes = []
    for tick in ticks:
        if tick in graces:
            strokes.append(TimedStroke(tick, -1, stroke(0, Kind.GRACE)))
        strokes.append(TimedStroke(tick, 0, stroke(0)))
    return Chain(tuple(strokes), span, loops)


def test_gaps_lead_to_the_next_stroke_and_round():
    assert chain(0, 12, 36).gaps() == [12, 24, 12]
    assert chain(6, 12, 36).gaps() == [6, 24, 18]
    assert chain(0, 12, 36, loops=False).gaps() == [12, 24, None]
    assert chain(5).gaps() == [48]
    assert chain().gaps() == []
    assert chain().times() == []
    assert chain(0, 12, graces=(12,)).gaps() == [12, 0, 36]


def test_inside_an_ornament_a_hand_has_the_time_before_it():
    assert chain(0, 12, graces=(12,)).times() == [12, 12, 36]
    assert chain(0, 12, graces=(0,)).times() == [36, 12, 36]
    assert chain(0, 12, graces=(0,), loops=False).times() == [None, 12, None]
    two = Chain((TimedStroke(0, 0, stroke(0)), *(TimedStroke(24, order, stroke(0)) for order in (-2, -1, 0))), 48, True)
    assert two.times() == [24, 24, 24, 24]


def test_moments_are_each_there_once():
    both = chain(0, 12, graces=(12,))
    assert both.moments == [0, 12]
    graces = Chain((TimedStroke(4, -1, stroke(0, Kind.GRACE)), TimedStroke(9, 0, stroke(0))), 48, True)
    assert (graces.moments, graces.main_moments) == ([4, 9], [9])
    assert [one.key for one in graces.strokes] == [(4, -1), (9, 0)]


@pytest.mark.parametrize(
    ("size", "loops", "least"),
    [
        *((2, True, 3), (3, True, 9), (4, True, 24), (5, True, 48), (6, True, 51), (9, True, 96)),
        *((2, False, 3), (3, False, 9), (4, False, 33), (5, False, None)),
    ],
)
def test_a_burst_is_the_least_time_for_so_many_strokes(size, loops, least):
    assert chain(3, 27, 30, 36, loops=loops).burst(size) == least


def test_a_burst_of_nothing_and_of_a_single_stroke():
    assert chain().burst(2) is None
    assert chain(7).burst(2) == 48
    assert chain(7).burst(3) == 96
    assert chain(7, loops=False).burst(2) is None


def test_strokes_are_placed_with_what_is_yet_to_come_of_their_ornament():
    played = [stroke(0), *(stroke("1/2", Kind.GRACE) for _ in range(2)), stroke("1/2"), stroke("2/3", Kind.GRACE)]
    found = placed(played, 12)
    assert [one.tick for one in found] == [0, 6, 6, 6, 8]
    assert [one.order for one in found] == [0, -2, -1, 0, -1]
    assert [one.stroke for one in found] == played
    assert [one.is_main for one in found] == [True, False, False, True, False]
    assert placed([], 12) == ()
    again = placed([stroke(0, Kind.GRACE), stroke(0), stroke(1, Kind.GRACE), stroke(1)], 4)
    assert [one.order for one in again] == [-1, 0, -1, 0]


def test_gaps_between_moments():
    assert gaps_between([2, 5, 9], 12, True) == [3, 4, 5]
    assert gaps_between([2, 5, 9], 12, False) == [3, 4]
    assert gaps_between([], 12, True) == []
    assert gaps_between([3], 12, True) == [12]
