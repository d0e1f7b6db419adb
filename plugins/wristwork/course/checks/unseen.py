"""A check on what is taught and then left."""

from __future__ import annotations

from collections.abc import Iterable

from wristwork.course.checks.table import Check, at_exercise
from wristwork.course.course import Course
from wristwork.course.revision import LONGEST_UNSEEN, longest_gap
from wristwork.languages.say import say
from wristwork.page.problem import Problem

UNSEEN = "left-behind"


def _left_behind(course: Course) -> Iterable[Problem]:
    if not any(course.plans.values()):
        return
    last = course.numbered[-1].number
    for name, numbers in course.revision.seen.items():
        first, until = longest_gap(numbers, last)
        if until - first > LONGEST_UNSEEN:
            found = say("'{id}' is not met from week {first} to week {last}", id=name, first=first, last=until)
            remedy = say(
                "take it up between them (again: [{id}]), or give those weeks more minutes or fewer exercises", id=name
            )
            yield at_exercise(UNSEEN, course.exercises[name], found, remedy)


CHECKS = (
    Check(
        UNSEEN,
        "exercises that are taught and then left",
        f"An exercise, or one that stands on it, is met at least every {LONGEST_UNSEEN} weeks. Our own setting: what "
        "is left for longer has to be learnt anew.",
        _left_behind,
    ),
)
