"""What needs what: the exercises of a course and the ways from one to another."""

from __future__ import annotations

from dataclasses import dataclass

from wristwork.course.course import Course


@dataclass(frozen=True, slots=True)
class Need:
    """``later`` stands on ``earlier`` (ids): it grows out of it, or a student needs it first."""

    earlier: str
    later: str
    grows: bool


def needs(course: Course) -> tuple[Need, ...]:
    """Every way between two exercises of the course, in the order of the later ones."""
    return tuple(
        Need(name, exercise.id, grows=name == exercise.pattern.grows_from)
        for exercise in course.exercises.values()
        for name in exercise.needs
        if name in course.exercises
    )
