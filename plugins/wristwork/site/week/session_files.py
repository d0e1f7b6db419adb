"""The sessions of a week as data, for the page that goes through one of them step by step."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from wristwork.course.exercise import json_bytes
from wristwork.course.plan import SessionPart
from wristwork.site.reading.course_site import CourseSite


def session_address(number: int) -> str:
    """Where a week's sessions are, from the site's root."""
    return f"sessions/week-{number}.json"


def session_files(site: CourseSite) -> Iterator[tuple[str, bytes]]:
    """A file for each week that has a plan, by its address; of two weeks with one number the first has it."""
    numbers: set[int] = set()
    for page in site.weeks:
        plan = site.course.plans[page.path]
        if page.week is not None and plan and page.week.number not in numbers:
            numbers.add(page.week.number)
            sessions = [[_part(part) for part in session.parts] for session in plan]
            data = {"schema": 1, "week": page.week.number, "title": page.title, "page": page.url, "sessions": sessions}
            yield session_address(page.week.number), json_bytes(data)


def _part(part: SessionPart) -> dict[str, Any]:
    said = {"kind": part.activity.value.replace(" ", "-"), "minutes": part.minutes}
    return said if part.exercise is None else {**said, "id": part.exercise, "tempo": part.tempo}
