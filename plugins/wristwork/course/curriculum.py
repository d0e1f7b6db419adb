"""The whole course at a glance, as plain values for a page to show."""

from __future__ import annotations

from dataclasses import dataclass

from wristwork.course.course import Course, Exercise
from wristwork.course.grades import own_grade
from wristwork.course.load import DayLoad, day_load
from wristwork.course.weeks import Week


@dataclass(frozen=True, slots=True)
class CurriculumWeek:
    """One week as the curriculum shows it: the tutor's grade beside the tool's own, what is new, what comes back."""

    week: Week
    own_grade: int | None
    new: tuple[Exercise, ...]
    again: tuple[Exercise, ...]
    load: DayLoad | None


def curriculum(course: Course) -> tuple[CurriculumWeek, ...]:
    """The weeks by their number."""
    return tuple(
        CurriculumWeek(
            week=week,
            own_grade=own_grade(course, week),
            new=course.taught_in(week),
            again=course.met_again_in(week),
            load=day_load(course.plans[week.path]),
        )
        for week in course.numbered
    )
