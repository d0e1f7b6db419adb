"""The checks on the whole course as a build has them: which of them it does, and what the tutor allows."""

from __future__ import annotations

import logging
from collections.abc import Container
from pathlib import Path

from mkdocs.config.defaults import MkDocsConfig

from wristwork.course.checks import CAUSES, check_course
from wristwork.course.checks.pages import LINK
from wristwork.course.course import Course
from wristwork.course.weeks import Allowance, allow_line, read_allowances
from wristwork.page.problem import Problem, open_problems
from wristwork.site.mkdocs.config import WristworkConfig

OFF = "off"


def course_findings(
    course: Course, settings: WristworkConfig, has_problems: bool, leave_out: Container[str] = (LINK,)
) -> tuple[Problem, ...]:
    """What the checks find, unless they are off; MkDocs itself follows the links between pages.

    Where something cannot be read, or is probably misspelt, what is missing in the course may only follow from that:
    then just causes are told.
    """
    if settings.checks == OFF:
        return ()
    causes = check_course(course, leave_out, CAUSES)
    return causes if has_problems or open_problems(causes) else check_course(course, leave_out)


def course_allowances(
    settings: WristworkConfig, config: MkDocsConfig
) -> tuple[tuple[Allowance, ...], tuple[Problem, ...]]:
    """What the course's settings allow everywhere, and what is wrong with that."""
    if not settings.allow:
        return (), ()
    file = Path(config.config_file_path)
    return read_allowances(settings.allow, file.name, allow_line(file.read_text(encoding="utf-8", errors="replace")))


def mind_anchors(config: MkDocsConfig, settings: WristworkConfig) -> None:
    """Let MkDocs warn of links to headings and exercises that are not there, as our checks would."""
    # It only mentions them by default; a tutor who wants to hear nothing of them has said so.
    if settings.checks != OFF and config.validation.links.anchors == logging.INFO:
        config.validation.links.anchors = logging.WARNING


class AnyAnchor(set[str]):
    """The anchors of a page that is not open yet: links to what it is going to hold are right."""

    def __contains__(self, anchor: object) -> bool:
        return True
