"""Checks on the order of the course: weeks, and what stands on what."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

from wristwork.course.checks.table import Check, at_exercise, at_week
from wristwork.course.course import Course, Exercise
from wristwork.course.weeks import Week
from wristwork.page.problem import Problem
from wristwork.wording import nearest

WEEKS, BEFORE, LOOSE, UNKNOWN = "weeks-in-order", "needed-before-taught", "loose-exercise", "unknown-exercise"


def _weeks_in_order(course: Course) -> Iterable[Problem]:
    seen: dict[int, Week] = {}
    for week in course.weeks:
        if week.number in seen:
            first = seen[week.number].path
            yield at_week(
                WEEKS, week, f"week {week.number} is there already, in {first}", "give one of the two another number"
            )
        seen.setdefault(week.number, week)
    # A course may start anywhere; from there on no number may be left out.
    for before, after in pairwise(sorted(seen)):
        if after > before + 1:
            gap = f"week {before + 1}" if after == before + 2 else f"weeks {before + 1} to {after - 1}"
            remedy = f"write {gap}, or number this week {before + 1}"
            verb = "is" if after == before + 2 else "are"
            yield at_week(WEEKS, seen[after], f"{gap} {verb} missing before week {after}", remedy)
    if seen and min(seen) != 1:
        first_week = seen[min(seen)]
        yield at_week(WEEKS, first_week, f"the course begins with week {first_week.number}", "number it 1")
    for one, next_one in pairwise(course.weeks):
        if next_one.number < one.number:
            what = f"week {next_one.number} comes after week {one.number} in the order of the pages"
            yield at_week(WEEKS, next_one, what, "put the pages in the order of their weeks, in nav or by their names")


def _needed_before_taught(course: Course) -> Iterable[Problem]:
    for exercise in course.exercises.values():
        for name in exercise.needs:
            needed = course.exercises.get(name)
            if needed is not None and _is_later(needed, exercise):
                key = "from" if name == exercise.pattern.grows_from else "requires"
                verb = "grows out of" if key == "from" else "needs"
                yield at_exercise(
                    BEFORE,
                    exercise,
                    f"'{exercise.id}' {verb} '{name}', which comes later ({_place(needed)})",
                    f"teach '{name}' first, or take it out of {key}",
                    key,
                )
    for week in course.weeks:
        for name in week.again:
            known = course.exercises.get(name)
            if known is not None and known.week is not None and known.week.number >= week.number:
                when = "is new in this very week" if known.week.number == week.number else f"comes in {_place(known)}"
                what = f"week {week.number} takes up '{name}' again, but it {when}"
                yield at_week(BEFORE, week, what, "take it out of again, or teach it in an earlier week", "again")


def _is_later(needed: Exercise, exercise: Exercise) -> bool:
    """Is what is needed taught after what needs it? A page without a week is there all the time."""
    if needed.week is None or exercise.week is None:
        return needed.path == exercise.path and needed.order > exercise.order
    if needed.week.number != exercise.week.number:
        return needed.week.number > exercise.week.number
    return needed.order > exercise.order


def _place(exercise: Exercise) -> str:
    return f"week {exercise.week.number}" if exercise.week else exercise.path


def _loose(course: Course) -> Iterable[Problem]:
    if not course.weeks:
        return
    first = course.numbered[0].number
    for exercise in course.exercises.values():
        if exercise.week is not None and exercise.week.number > first and not exercise.needs:
            yield at_exercise(
                LOOSE,
                exercise,
                f"nothing leads to '{exercise.id}'",
                "name what a student needs first: requires: an-earlier-exercise",
            )


def _unknown(course: Course) -> Iterable[Problem]:
    for week in course.weeks:
        for name in week.again:
            if name not in course.exercises:
                near = nearest(name, course.exercises)
                remedy = f"did you mean {near}?" if near else "name the id of an exercise that is there"
                yield at_week(UNKNOWN, week, f"again: '{name}' is not an exercise of this course", remedy, "again")


CHECKS = (
    Check(
        WEEKS,
        "weeks that are missing, there twice, or out of order",
        "Numbers go up by one from 1, and pages stand in the order of their weeks.",
        _weeks_in_order,
    ),
    Check(
        BEFORE,
        "something needed before it is taught",
        "What an exercise requires or grows out of stands before it; what a week takes up again was taught earlier.",
        _needed_before_taught,
    ),
    Check(
        LOOSE,
        "exercises that nothing leads to",
        "After the first week every exercise grows out of something or requires something.",
        _loose,
    ),
    Check(UNKNOWN, "ids that are no exercise", "Every id under again is an exercise of the course.", _unknown),
)
