"""An exercise's demand as data: what `x/<id>/exercise.json` holds of it."""

from __future__ import annotations

from wristwork.course.exercise_form import DemandFigures, DemandForm, HandForm
from wristwork.pattern.model import Pattern
from wristwork.technique.demand import Demand, HandDemand, demand_of
from wristwork.technique.measures import measure


def demand_data(pattern: Pattern) -> DemandForm:
    """The demand at the goal tempo, and at the starting tempo."""
    measures = measure(pattern)
    goal, start = (demand_of(measures, tempo) for tempo in (pattern.tempo.goal, pattern.tempo.start))
    right, left = _hand(goal.right_hand), _hand(goal.left_hand)
    return DemandForm(goal.tempo, right, left, goal.limbs, goal.score, goal.grade, _figures(start))


def _figures(found: Demand) -> DemandFigures:
    right, left = _hand(found.right_hand), _hand(found.left_hand)
    return DemandFigures(found.tempo, right, left, found.limbs, found.score, found.grade)


def _hand(hand: HandDemand) -> HandForm:
    return HandForm(
        strokes_per_second=round(hand.strokes_per_second, 3),
        fastest_strokes_per_second=_rounded(hand.fastest_strokes_per_second),
        motions_per_second=round(hand.motions_per_second, 3),
        shortest_lift_s=_rounded(hand.shortest_lift_s),
        shortest_stop_s=_rounded(hand.shortest_stop_s),
        height_changes_per_second=round(hand.height_changes_per_second, 3),
        drum_changes_per_second=round(hand.drum_changes_per_second, 3),
    )


def _rounded(value: float | None) -> float | None:
    return None if value is None else round(value, 3)
