"""The grade that the tool works out for a week."""

from __future__ import annotations

from wristwork.course.course import Course
from wristwork.course.weeks import Week


def own_grade(course: Course, week: Week) -> int | None:
    """The grade of the week's hardest new exercise at its goal (of what it repeats, where nothing is new).

    None for a week without exercises. It is no exam's grade.
    """
    exercises = course.taught_in(week) or course.met_again_in(week)
    return max((exercise.at_goal.grade for exercise in exercises), default=None)
