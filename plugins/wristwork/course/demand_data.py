"""An exercise's demand as data: what `x/<id>/exercise.json` holds of it."""

from __future__ import annotations

from typing import Any

from wristwork.pattern.model import Pattern
from wristwork.technique.demand import Demand, HandDemand, demand_of
from wristwork.technique.measures import measure


def demand_data(pattern: Pattern) -> dict[str, Any]:
    """The demand as plain JSON values: at the goal tempo, and under ``at_start`` at the starting tempo."""
    measures = measure(pattern)
    return {
        **_data(demand_of(measures, pattern.tempo.goal)),
        "at_start": _data(demand_of(measures, pattern.tempo.start)),
    }


def _data(found: Demand) -> dict[str, Any]:
    return {
        "tempo": found.tempo,
        "right_hand": _hand_data(found.right_hand),
        "left_hand": _hand_data(found.left_hand),
        "limbs": found.limbs,
        "score": found.score,
        "grade": found.grade,
    }


def _hand_data(hand: HandDemand) -> dict[str, float | None]:
    return {
        "strokes_per_second": round(hand.strokes_per_second, 3),
        "fastest_strokes_per_second": _rounded(hand.fastest_strokes_per_second),
        "motions_per_second": round(hand.motions_per_second, 3),
        "shortest_lift_s": _rounded(hand.shortest_lift_s),
        "shortest_stop_s": _rounded(hand.shortest_stop_s),
        "height_changes_per_second": round(hand.height_changes_per_second, 3),
        "drum_changes_per_second": round(hand.drum_changes_per_second, 3),
    }


def _rounded(value: float | None) -> float | None:
    return None if value is None else round(value, 3)
