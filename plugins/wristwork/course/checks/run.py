"""The table of checks, and running it."""

from __future__ import annotations

from collections.abc import Container, Iterable
from dataclasses import replace

from wristwork.course.checks import load, order, pages, steepness, unseen
from wristwork.course.checks.table import Check
from wristwork.course.course import Course
from wristwork.course.weeks import Allowance
from wristwork.languages.say import say
from wristwork.page.problem import Problem
from wristwork.wording import nearest

CHECKS: tuple[Check, ...] = (*order.CHECKS, *steepness.CHECKS, *load.CHECKS, *unseen.CHECKS, *pages.CHECKS)
NAMES = frozenset(check.name for check in CHECKS)
ALLOW = "allow"
# What is a cause and never a consequence: said even where a page cannot be read.
CAUSES = (pages.LINE,)


def check_course(course: Course, leave_out: Container[str] = (), only: Container[str] = NAMES) -> tuple[Problem, ...]:
    """Everything the checks find, in the order of the pages; what is allowed carries the reason.

    ``leave_out`` names checks that somebody else does, ``only`` those that are to be done.
    """
    wanted = [check for check in CHECKS if check.name in only and check.name not in leave_out]
    found = [finding for check in wanted for finding in check.find(course)]
    allowances = [*course.allow, *(allowance for week in course.weeks for allowance in week.allow)]
    judged = [_judged(finding, allowances, course) for finding in found]
    pages = {path: number for number, path in enumerate(course.pages)}
    return tuple(
        sorted(
            [*judged, *_unknown(allowances, course)],
            key=lambda finding: (pages.get(finding.path, len(pages)), finding.line, finding.kind),
        )
    )


def _judged(finding: Problem, allowances: Iterable[Allowance], course: Course) -> Problem:
    for allowance in allowances:
        if _covers(allowance, finding, course):
            return replace(finding, allowed=allowance.reason)
    return finding


def _covers(allowance: Allowance, finding: Problem, course: Course) -> bool:
    """An allowance of a page covers that page, one of the course's settings every page; both can be narrowed."""
    if allowance.check != finding.kind:
        return False
    if allowance not in course.allow and allowance.path != finding.path:
        return False
    week = next((week.number for week in course.weeks if week.path == finding.path), None)
    return allowance.only in (None, finding.exercise, f"week {week}")


def _unknown(allowances: Iterable[Allowance], course: Course) -> Iterable[Problem]:
    for allowance in allowances:
        if allowance.check not in NAMES:
            yield Problem(
                allowance.path,
                allowance.line,
                0,
                say("there is no check called '{check}' to allow", check=allowance.check),
                _which(allowance.check),
                ALLOW,
            )
        elif allowance.only is not None and not _is_there(allowance.only, course):
            near = nearest(allowance.only, course.exercises)
            remedy = (
                say("did you mean {near}?", near=near)
                if near
                else say("name the id of an exercise, or a week as in week 3")
            )
            found = say(
                "there is no exercise '{id}' to allow {check} for",
                id=allowance.only,
                check=allowance.check,
            )
            yield Problem(allowance.path, allowance.line, 0, found, remedy, ALLOW)


def _is_there(only: str, course: Course) -> bool:
    """Is what an allowance is narrowed to an exercise or a week of the course?"""
    return only in course.exercises or only in {f"week {week.number}" for week in course.weeks}


def _which(name: str) -> str:
    near = nearest(name, NAMES)
    if near:
        return say("did you mean {near}?", near=near)
    return say("the checks are {names}", names=", ".join(check.name for check in CHECKS))
