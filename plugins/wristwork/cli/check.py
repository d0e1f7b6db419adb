"""``wristwork check``: everything to look at in a course, for people or for machines."""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from wristwork.cli.course_files import CourseFiles, from_folder, read_files
from wristwork.cli.paint import Paint
from wristwork.cli.trouble import Trouble
from wristwork.course.addresses import FILE_NAME
from wristwork.languages.say import say, say_count
from wristwork.page.problem import Problem, open_problems, printable


def check(folder: Path, as_json: bool, keep_addresses: bool, paint: Paint) -> int:
    """Check a course; 1 where anything is wrong that nobody has allowed.

    ``keep_addresses`` writes the record of addresses, as a build would, where nothing stands against it.
    """
    files = read_files(folder)
    if keep_addresses and not files.wrong:
        _keep(files)
    if as_json:
        for line in json.dumps(_data(files), ensure_ascii=True, indent=2).splitlines():
            paint.line(line)
    else:
        _tell(files, paint)
    return 1 if files.problems or open_problems(files.findings) else 0


def _keep(files: CourseFiles) -> None:
    try:
        files.book.write()
    except OSError as error:
        found = say("{file} can't be written ({reason})", file=FILE_NAME, reason=error.strerror or error)
        raise Trouble(found, say("nothing was changed")) from error


def _data(files: CourseFiles) -> dict[str, Any]:
    weeks = {from_folder(files.folder, week.path): week.number for week in files.course.weeks}
    told = [*files.problems, *files.findings]
    return {
        "course": files.folder.as_posix(),
        "checks": "off" if files.checks_are_off else "waiting" if files.wrong else "on",
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


def _tell(files: CourseFiles, paint: Paint) -> None:
    for problem in files.problems:
        headline, *rest = str(problem).splitlines()
        paint.line(paint.styled("wrong", headline))
        for line in rest:
            paint.line(line)
        paint.line()
    for finding in open_problems(files.findings):
        paint.line(_finding_line(finding, "strong", paint))
        paint.line(f"    {printable(finding.remedy)}")
        paint.line()
    allowed = [finding for finding in files.findings if finding.allowed]
    if allowed:
        paint.line(say("Allowed:"))
        for finding in allowed:
            paint.line(f"  {_finding_line(finding, 'quiet', paint)}")
            because = say("because: {reason}", reason=printable(finding.allowed or ""))
            paint.line(f"    {because}")
        paint.line()
    for note in files.notes:
        paint.line(paint.styled("quiet", printable(note)))
    _sum_up(files, len(allowed), paint)


def _finding_line(finding: Problem, style: str, paint: Paint) -> str:
    where = paint.styled(style, f"{finding.where}:")
    return f"{where} {printable(finding.found)}{paint.styled('quiet', finding.label)}"


def _sum_up(files: CourseFiles, allowed: int, paint: Paint) -> None:
    course = files.course
    read = [
        say_count("{count} week", "{count} weeks", len(course.weeks)),
        say_count("{count} exercise", "{count} exercises", len(course.exercises)),
    ]
    found = open_problems(files.findings)
    if files.checks_are_off:
        paint.line(say("The checks of the course are turned off in {settings}.", settings=files.settings))
    elif files.wrong:
        paint.line(say("The checks of the course wait until all of it can be read."))
    count = len(files.problems) + len(found)
    if count:
        told = say_count(
            "{count} thing is to be looked at ({read}).",
            "{count} things are to be looked at ({read}).",
            count,
            read=", ".join(read),
        )
        paint.line(paint.styled("wrong", told))
    else:
        also = [say_count("{count} allowed", "{count} allowed", allowed)] if allowed else []
        paint.line(paint.styled("good", say("All is well ({read}).", read=", ".join([*read, *also]))))
    if found:
        hint = say("Know better? Write allow: at the top of the page, with the name in brackets and your reason.")
        paint.line(paint.styled("quiet", hint))
