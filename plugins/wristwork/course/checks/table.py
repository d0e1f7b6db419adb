"""What a check is and what it finds."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from wristwork.course.course import Course, Exercise
from wristwork.course.weeks import Week
from wristwork.page.problem import Problem


@dataclass(frozen=True, slots=True)
class Check:
    """One check: its name (by which ``allow`` silences it), what it looks for, its limit with the reason, the work."""

    name: str
    looks_for: str
    limit: str
    find: Callable[[Course], Iterable[Problem]]


def at_week(check: str, week: Week, found: str, remedy: str, key: str = "week") -> Problem:
    """A finding about a week, at a line of its front matter."""
    return Problem(week.path, week.line_of(key), 0, found, remedy, check)


def at_exercise(check: str, exercise: Exercise, found: str, remedy: str, key: str = "id") -> Problem:
    """A finding about an exercise, at a line of its pattern."""
    return Problem(exercise.path, exercise.line_of(key), 0, found, remedy, check, exercise=exercise.id)
