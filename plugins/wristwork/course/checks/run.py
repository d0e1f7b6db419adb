"""The table of checks, and running it."""

from __future__ import annotations

from collections.abc import Container, Iterable
from dataclasses import replace

from wristwork.course.checks import load, order, pages, steepness
from wristwork.course.checks.table import Check, Finding
from wristwork.course.course import Course
from wristwork.course.weeks import Allowance

CHECKS: tuple[Check, ...] = (*order.CHECKS, *steepness.CHECKS, *load.CHECKS, *pages.CHECKS)
_NAMES = frozenset(check.name for check in CHECKS)
ALLOW = "allow"


def check_course(course: Course, leave_out: Container[str] = ()) -> tuple[Finding, ...]:
    """Everything the checks find, in the order of the pages; what is allowed carries the reason.

    ``leave_out`` names checks that somebody else does.
    """
    found = [finding for check in CHECKS if check.name not in leave_out for finding in check.find(course)]
    allowances = [*course.allow, *(allowance for week in course.weeks for allowance in week.allow)]
    judged = [_judged(finding, allowances, course) for finding in found]
    pages = {path: number for number, path in enumerate(course.pages)}
    return tuple(
        sorted(
            [*judged, *_unknown(allowances)],
            key=lambda finding: (pages.get(finding.path, len(pages)), finding.line, finding.check),
        )
    )


def open_findings(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """The findings that nobody has allowed."""
    return tuple(finding for finding in findings if finding.allowed is None)


def _judged(finding: Finding, allowances: Iterable[Allowance], course: Course) -> Finding:
    for allowance in allowances:
        if _covers(allowance, finding, course):
            return replace(finding, allowed=allowance.reason)
    return finding


def _covers(allowance: Allowance, finding: Finding, course: Course) -> bool:
    """An allowance of a page covers that page, one of the course's settings every page; both can be narrowed."""
    if allowance.check != finding.check:
        return False
    if allowance not in course.allow and allowance.path != finding.path:
        return False
    return allowance.only in (None, finding.exercise, f"week {finding.week}")


def _unknown(allowances: Iterable[Allowance]) -> Iterable[Finding]:
    for allowance in allowances:
        if allowance.check not in _NAMES:
            yield Finding(
                ALLOW,
                allowance.path,
                allowance.line,
                None,
                None,
                f"there is no check called '{allowance.check}' to allow",
                f"the checks are {', '.join(check.name for check in CHECKS)}",
            )
