"""An exercise's demand as bars, each with its words."""

from __future__ import annotations

from dataclasses import dataclass

from wristwork.languages.numbers import decimal
from wristwork.languages.say import say
from wristwork.technique.demand import Demand, HandDemand


@dataclass(frozen=True, slots=True)
class ChartBar:
    """A measure in words, and how long its bar is in percent of the longest that makes sense."""

    words: str
    percent: float


# What a bar is full at: about the most that a hand, a lift and an ear can follow. Our own settings.
_FULL_STROKES, _FULL_CHANGES = 10, 8


def demand_bars(demand: Demand) -> tuple[ChartBar, ...]:
    """An exercise's demand in words with bars: the score, then each hand that plays, then what else there is."""
    hands = ((say("right hand"), demand.right_hand), (say("left hand"), demand.left_hand))
    total = say("demand {score} of 100, grade {grade}", score=f"{demand.score:.0f}", grade=demand.grade)
    bars = [ChartBar(total, demand.score)]
    for name, hand in hands:
        bars += _hand_bars(name, hand)
    if demand.ornaments_per_second:
        bars.append(_bar(demand.ornaments_per_second, _FULL_CHANGES, say("{value} ornaments a second")))
    return tuple(bars)


def _hand_bars(name: str, hand: HandDemand) -> list[ChartBar]:
    if not hand.strokes_per_second:
        return []
    bars = [_bar(hand.strokes_per_second, _FULL_STROKES, say("{hand} {value} strokes a second"), name)]
    if hand.height_changes_per_second:
        bars.append(
            _bar(hand.height_changes_per_second, _FULL_CHANGES, say("{hand} {value} height changes a second"), name)
        )
    if hand.drum_changes_per_second:
        bars.append(
            _bar(hand.drum_changes_per_second, _FULL_CHANGES, say("{hand} {value} moves between drums a second"), name)
        )
    if hand.shortest_lift_s is not None:
        # The shorter the time, the longer the bar.
        share = 100 / (_FULL_CHANGES * hand.shortest_lift_s)
        lift = decimal(hand.shortest_lift_s, 2)
        told = say("{hand} {seconds} seconds for the quickest lift", hand=name, seconds=lift)
        bars.append(ChartBar(told, min(100, share)))
    return bars


def _bar(value: float, full: float, told: str, name: str = "") -> ChartBar:
    return ChartBar(told.format(hand=name, value=decimal(value, 1)), min(100, 100 * value / full))
