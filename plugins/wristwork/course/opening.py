"""Weeks that open on a day: what stands in their place before it, and what may not lean on them."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from datetime import date

from wristwork.course.course import Course
from wristwork.course.weeks import Week
from wristwork.days import day_words
from wristwork.languages.say import say
from wristwork.page.problem import FRONT_MATTER, PATTERN, Problem
from wristwork.pattern.course import Located


def is_closed(week: Week | None, day: date) -> bool:
    """Is it a week that opens after this day?"""
    return week is not None and week.opens is not None and day < week.opens


def closed_page(week: Week) -> str:
    """The page that says when a week opens, and nothing of what it holds but its title."""
    assert week.opens is not None, "only a week with a day is closed"
    day = day_words(week.opens)
    aim = say("Opens on {day}.", day=day)
    # JSON's quotes are YAML's too, whatever the title holds.
    head = [
        f"week: {week.number}",
        f"title: {json.dumps(week.title)}",
        f"aim: {json.dumps(aim)}",
    ]
    return "\n".join(
        [
            "---",
            *head,
            "---",
            "",
            say("This week opens on {day}. Until then go on with the weeks before it.", day=day),
            "",
        ]
    )


def opening_problems(course: Course) -> Iterator[Problem]:
    """What would be open while something that it stands on is still closed: told whatever day it is."""
    weeks = {week.path: week for week in course.weeks}
    for fence in course.text.fences:
        yield from _leaning_fence(fence, weeks.get(fence.path), course)
    for week in course.weeks:
        for name, later in _later(week.again, week, course):
            found = _found("again", name, later)
            yield Problem(week.path, week.line_of("again"), 0, found, _remedy(week), FRONT_MATTER)


def _leaning_fence(fence: Located, week: Week | None, course: Course) -> Iterator[Problem]:
    if fence.pattern is None:
        return
    grows_from = [fence.pattern.grows_from] if fence.pattern.grows_from else []
    for key, names in (("from", grows_from), ("requires", fence.pattern.requires)):
        for name, later in _later(names, week, course):
            found = _found(key, name, later)
            place = fence.places.get(key, fence.place)
            yield Problem(fence.path, place.line, 0, found, _remedy(week), PATTERN)


def _later(names: Iterable[str], week: Week | None, course: Course) -> Iterator[tuple[str, Week]]:
    """Those of some exercises whose week opens after this one, and that week."""
    for name in names:
        exercise = course.exercises.get(name)
        other = exercise.week if exercise else None
        if other is None or other.opens is None or other is week:
            continue
        if week is None or week.opens is None or week.opens < other.opens:
            yield name, other


def _found(key: str, name: str, later: Week) -> str:
    assert later.opens is not None, "it is one with a day"
    return say(
        "{key}: '{id}' is of week {week}, which opens on {day}, after this",
        key=key,
        id=name,
        week=later.number,
        day=day_words(later.opens),
    )


def _remedy(week: Week | None) -> str:
    if week is None:
        return say("let this page open no earlier, or that week no later")
    return say("let this week open no earlier, or that week no later")
