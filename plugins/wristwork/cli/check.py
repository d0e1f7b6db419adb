"""``wristwork check``: everything to look at in a course, for people or for machines."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from wristwork.cli.course_files import CourseFiles, read_files, read_whole
from wristwork.cli.paint import Paint
from wristwork.course.checks import check_course
from wristwork.course.course import Course
from wristwork.page.problem import Problem, open_problems, printable
from wristwork.wording import counted


def check(folder: Path, as_json: bool, paint: Paint) -> int:
    """Check a course; 1 where anything is wrong that nobody has allowed."""
    files = read_files(folder)
    course, problems = read_whole(files)
    wrong = [*problems, *course.text.problems, *course.text.warnings]
    findings = () if files.checks_are_off else check_course(course)
    if as_json:
        paint.line(json.dumps(_data(course, [*wrong, *findings], files), ensure_ascii=False, indent=2))
    else:
        _tell(course, wrong, findings, files, paint)
    return 1 if wrong or open_problems(findings) else 0


def _data(course: Course, told: Sequence[Problem], files: CourseFiles) -> dict[str, Any]:
    weeks = {week.path: week.number for week in course.weeks}
    return {
        "course": files.folder.as_posix(),
        "checks": "off" if files.checks_are_off else "on",
        "findings": [_problem_data(problem, weeks) for problem in told],
        "open": len(open_problems(told)),
        "allowed": len(told) - len(open_problems(told)),
    }


def _problem_data(problem: Problem, weeks: Mapping[str, int]) -> dict[str, Any]:
    """A problem as plain JSON values; ``weeks`` are the numbers of the week pages."""
    return {
        "check": problem.kind,
        "page": problem.path,
        "line": problem.line,
        "column": problem.column or None,
        "week": weeks.get(problem.path),
        "exercise": problem.exercise,
        "what": problem.found,
        "remedy": problem.remedy,
        "allowed": problem.allowed,
    }


def _tell(
    course: Course, wrong: Sequence[Problem], findings: Sequence[Problem], files: CourseFiles, paint: Paint
) -> None:
    for problem in wrong:
        headline, *rest = str(problem).splitlines()
        paint.line(paint.styled("wrong", headline))
        for line in rest:
            paint.line(line)
        paint.line()
    for finding in open_problems(findings):
        paint.line(_finding_line(finding, "strong", paint))
        paint.line(f"    {printable(finding.remedy)}")
        paint.line()
    allowed = [finding for finding in findings if finding.allowed]
    if allowed:
        paint.line("Allowed:")
        for finding in allowed:
            paint.line(f"  {_finding_line(finding, 'quiet', paint)}")
            paint.line(f"    because: {printable(finding.allowed or '')}")
        paint.line()
    _sum_up(len(wrong) + len(open_problems(findings)), len(allowed), course, files, paint)


def _finding_line(finding: Problem, style: str, paint: Paint) -> str:
    where = paint.styled(style, f"{finding.where}:")
    return f"{where} {printable(finding.found)}{paint.styled('quiet', finding.label)}"


def _sum_up(count: int, allowed: int, course: Course, files: CourseFiles, paint: Paint) -> None:
    read = f"{counted(len(course.weeks), 'week')}, {counted(len(course.exercises), 'exercise')}"
    if files.checks_are_off:
        paint.line(f"The checks of the course are turned off in {files.settings}.")
    if count:
        things = "thing is" if count == 1 else "things are"
        paint.line(paint.styled("wrong", f"{count} {things} to be looked at") + f" ({read}).")
        hint = "Know better? Write allow: at the top of the page, with the name in brackets and your reason."
        paint.line(paint.styled("quiet", hint))
    else:
        also = f", {allowed} allowed" if allowed else ""
        paint.line(paint.styled("good", "All is well") + f" ({read}{also}).")
