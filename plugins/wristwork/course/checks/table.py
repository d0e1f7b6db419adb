"""What a check is and what it finds."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any

from wristwork.course.course import Course, Exercise
from wristwork.course.weeks import Week


@dataclass(frozen=True, slots=True)
class Finding:
    """Something to look at: where it stands, what it is, what to do.

    ``allowed`` is the tutor's reason where the check is silenced here.
    """

    check: str
    path: str
    line: int
    week: int | None
    exercise: str | None
    what: str
    remedy: str
    allowed: str | None = None

    @property
    def where(self) -> str:
        return f"{self.path}:{self.line}"

    def __str__(self) -> str:
        end = f"\n    allowed: {self.allowed}" if self.allowed else f"\n    {self.remedy}"
        return f"{self.where}: {self.what} [{self.check}]{end}"


@dataclass(frozen=True, slots=True)
class Check:
    """One check: its name (by which ``allow`` silences it), what it looks for, its limit with the reason, the work."""

    name: str
    looks_for: str
    limit: str
    find: Callable[[Course], Iterable[Finding]]


def at_week(check: str, week: Week, what: str, remedy: str, key: str = "week") -> Finding:
    """A finding about a week, at a line of its front matter."""
    return Finding(check, week.path, week.line_of(key), week.number, None, what, remedy)


def at_exercise(check: str, exercise: Exercise, what: str, remedy: str, key: str = "id") -> Finding:
    """A finding about an exercise, at a line of its pattern."""
    week = exercise.week.number if exercise.week else None
    return Finding(check, exercise.path, exercise.line_of(key), week, exercise.id, what, remedy)


def finding_data(finding: Finding) -> dict[str, Any]:
    """The finding as plain JSON values."""
    return {
        "check": finding.check,
        "page": finding.path,
        "line": finding.line,
        "week": finding.week,
        "exercise": finding.exercise,
        "what": finding.what,
        "remedy": finding.remedy,
        "allowed": finding.allowed,
    }
