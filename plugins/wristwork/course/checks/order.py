"""Checks on the order of the course: weeks, and what stands on what."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

from wristwork.course.checks.table import Check, at_exercise, at_week
from wristwork.course.course import Course, Exercise
from wristwork.course.weeks import Week
from wristwork.languages.say import marked, say
from wristwork.page.problem import Problem
from wristwork.wording import nearest

WEEKS, BEFORE, LOOSE, UNKNOWN = "weeks-in-order", "needed-before-taught", "loose-exercise", "unknown-exercise"


def _weeks_in_order(course: Course) -> Iterable[Problem]:
    seen: dict[int, Week] = {}
    for week in course.weeks:
        if week.number in seen:
            first = seen[week.number].path
            yield at_week(
                WEEKS,
                week,
                say("week {number} is there already, in {page}", number=week.number, page=first),
                say("give one of the two another number"),
            )
        seen.setdefault(week.number, week)
    # A course may start anywhere; from there on no number may be left out.
    for before, after in pairwise(sorted(seen)):
        if after > before + 1:
            yield at_week(WEEKS, seen[after], *_missing(before + 1, after - 1))
    if seen and min(seen) != 1:
        first_week = seen[min(seen)]
        found = say("the course begins with week {number}", number=first_week.number)
        yield at_week(WEEKS, first_week, found, say("number it 1"))
    for one, next_one in pairwise(course.weeks):
        if next_one.number < one.number:
            what = say(
                "week {week} comes after week {before} in the order of the pages",
                week=next_one.number,
                before=one.number,
            )
            remedy = say("put the pages in the order of their weeks, in nav or by their names")
            yield at_week(WEEKS, next_one, what, remedy)


def _missing(first: int, last: int) -> tuple[str, str]:
    """What is said of weeks that are not there, and the remedy."""
    if first == last:
        found = say("week {missing} is missing before week {week}", missing=first, week=last + 1)
        return found, say("write week {missing}, or number this week {missing}", missing=first)
    found = say("weeks {first} to {last} are missing before week {week}", first=first, last=last, week=last + 1)
    return found, say("write weeks {first} to {last}, or number this week {first}", first=first, last=last)


def _needed_before_taught(course: Course) -> Iterable[Problem]:
    for exercise in course.exercises.values():
        for name in exercise.needs:
            needed = course.exercises.get(name)
            if needed is not None and _is_later(needed, exercise):
                key = "from" if name == exercise.pattern.grows_from else "requires"
                text = (
                    marked("'{id}' grows out of '{needed}', which comes later ({place})")
                    if key == "from"
                    else marked("'{id}' needs '{needed}', which comes later ({place})")
                )
                yield at_exercise(
                    BEFORE,
                    exercise,
                    say(text, id=exercise.id, needed=name, place=_place(needed)),
                    say("teach '{needed}' first, or take it out of {key}", needed=name, key=key),
                    key,
                )
    for week in course.weeks:
        for name in week.again:
            known = course.exercises.get(name)
            if known is not None and known.week is not None and known.week.number >= week.number:
                remedy = say("take it out of again, or teach it in an earlier week")
                yield at_week(BEFORE, week, _too_early(name, week.number, known.week.number), remedy, "again")


def _too_early(name: str, week: int, taught: int) -> str:
    if taught == week:
        return say("week {week} takes up '{id}' again, but it is new in this very week", week=week, id=name)
    return say("week {week} takes up '{id}' again, but it comes in week {later}", week=week, id=name, later=taught)


def _is_later(needed: Exercise, exercise: Exercise) -> bool:
    """Is what is needed taught after what needs it? A page without a week is there all the time."""
    if needed.week is None or exercise.week is None:
        return needed.path == exercise.path and needed.order > exercise.order
    if needed.week.number != exercise.week.number:
        return needed.week.number > exercise.week.number
    return needed.order > exercise.order


def _place(exercise: Exercise) -> str:
    return say("week {number}", number=exercise.week.number) if exercise.week else exercise.path


def _loose(course: Course) -> Iterable[Problem]:
    if not course.weeks:
        return
    first = course.numbered[0].number
    for exercise in course.exercises.values():
        if exercise.week is not None and exercise.week.number > first and not exercise.needs:
            yield at_exercise(
                LOOSE,
                exercise,
                say("nothing leads to '{id}'", id=exercise.id),
                say("name what a student needs first: requires: an-earlier-exercise"),
            )


def _unknown(course: Course) -> Iterable[Problem]:
    for week in course.weeks:
        for name in week.again:
            if name not in course.exercises:
                near = nearest(name, course.exercises)
                remedy = (
                    say("did you mean {near}?", near=near) if near else say("name the id of an exercise that is there")
                )
                found = say("again: '{id}' is not an exercise of this course", id=name)
                yield at_week(UNKNOWN, week, found, remedy, "again")


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
