"""The load of a day, and when it grows too fast."""

from __future__ import annotations

from fractions import Fraction

from wristwork.course.load import MINUTES_FLOOR, STROKES_FLOOR, DayLoad, day_load, sudden_growth
from wristwork.course.plan import PlannedExercise, sessions
from wristwork.course.weeks import Week
from wristwork.pattern.model import Tempo


def growth(before, after):
    return [(each.measure.split()[0:4], each.percent) for each in sudden_growth(DayLoad(*before), DayLoad(*after))]


def test_the_heaviest_session_counts():
    piece = PlannedExercise("one", "One", Tempo(60, 100, 4), Fraction(2), Fraction(1, 2))
    load = day_load(sessions(Week("w.md", 1, "A week", minutes=25), [piece]))
    # the last session: 18 minutes at 100
    assert load == DayLoad(25, 18 * 100 * 2, 18 * 100 // 2)


def test_a_week_without_a_plan_has_no_load():
    assert day_load(()) is None


def test_minutes_that_grow_by_more_than_30_percent():
    assert growth((20, 0, 0), (26, 0, 0)) == []
    assert growth((20, 0, 0), (27, 0, 0)) == [(["minutes", "a", "session"], 35)]


def test_strokes_of_each_hand():
    assert growth((25, 2000, 2000), (25, 2601, 2600)) == [(["strokes", "of", "the", "right"], 30)]
    assert growth((25, 2000, 2000), (25, 2600, 4000)) == [(["strokes", "of", "the", "left"], 100)]


def test_below_the_floor_nothing_is_said():
    assert growth((10, 100, 100), (MINUTES_FLOOR, STROKES_FLOOR, STROKES_FLOOR)) == []
    assert len(growth((10, 100, 100), (MINUTES_FLOOR + 1, STROKES_FLOOR + 1, STROKES_FLOOR + 1))) == 3


def test_a_hand_that_starts_to_play_grows_from_nothing_and_has_no_percentage():
    assert growth((25, 3000, 0), (25, 3000, 3000)) == []
