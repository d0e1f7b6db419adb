"""``wristwork check``: everything to look at in a course, for people or for machines."""

from __future__ import annotations

import json
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from wristwork.cli.course_files import CourseFiles, read_files, read_whole
from wristwork.cli.paint import Paint
from wristwork.course.checks import Finding, check_course, finding_data, open_findings
from wristwork.course.course import Course
from wristwork.course.weeks import WeekProblem
from wristwork.pattern.problems import Problem
from wristwork.wording import counted

PATTERN, ADDRESS, FRONT_MATTER = "pattern", "address", "front-matter"


def check(folder: Path, as_json: bool, paint: Paint) -> int:
    """Check a course; 1 where anything is wrong that nobody has allowed."""
    files = read_files(folder)
    course, problems = read_whole(files)
    wrong = _wrong(course, problems)
    findings = () if files.checks_are_off else check_course(course)
    is_open = bool(wrong or open_findings(findings))
    if as_json:
        paint.line(json.dumps(_data(wrong, findings, files), ensure_ascii=False, indent=2))
    else:
        _tell(course, problems, findings, files, paint)
    return 1 if is_open else 0


def _wrong(course: Course, problems: Iterable[WeekProblem]) -> list[Finding]:
    """What cannot be read: in patterns and in front matter."""
    weeks = {week.path: week.number for week in course.weeks}

    def finding(check_name: str, problem: Problem) -> Finding:
        return Finding(
            check_name,
            problem.path,
            problem.place.line,
            weeks.get(problem.path),
            problem.pattern,
            problem.found,
            problem.remedy,
        )

    found = [finding(PATTERN, problem) for problem in course.text.problems]
    found += [finding(ADDRESS, warning) for warning in course.text.warnings]
    found += [
        Finding(FRONT_MATTER, each.path, each.line, weeks.get(each.path), None, each.found, each.remedy)
        for each in problems
    ]
    return found


def _data(wrong: Iterable[Finding], findings: Iterable[Finding], files: CourseFiles) -> dict[str, Any]:
    told = [*wrong, *findings]
    return {
        "course": files.folder.as_posix(),
        "checks": "off" if files.checks_are_off else "on",
        "findings": [finding_data(finding) for finding in told],
        "open": len(open_findings(told)),
        "allowed": len(told) - len(open_findings(told)),
    }


def _tell(
    course: Course, problems: Iterable[WeekProblem], findings: tuple[Finding, ...], files: CourseFiles, paint: Paint
) -> None:
    unread = [*course.text.problems, *course.text.warnings, *problems]
    for problem in unread:
        headline, *rest = str(problem).splitlines()
        paint.line(paint.styled("wrong", headline))
        for line in rest:
            paint.line(line)
        paint.line()
    for finding in open_findings(findings):
        paint.line(f"{paint.styled('strong', f'{finding.where}:')} {finding.what} {_label(finding, paint)}")
        paint.line(f"    {finding.remedy}")
        paint.line()
    allowed = [finding for finding in findings if finding.allowed]
    if allowed:
        paint.line("Allowed:")
        for finding in allowed:
            paint.line(paint.styled("quiet", f"  {finding.where}: {finding.what} {_label(finding, paint)}"))
            paint.line(f"    because: {finding.allowed}")
        paint.line()
    _sum_up(len(unread) + len(open_findings(findings)), len(allowed), course, files, paint)


def _label(finding: Finding, paint: Paint) -> str:
    return paint.styled("quiet", f"[{finding.check}]")


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
