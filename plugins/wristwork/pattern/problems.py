"""What is wrong in a pattern, gathered while it is read."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from typing import TypeVar

from wristwork.languages.say import say
from wristwork.page.problem import PATTERN, Excerpt, Problem
from wristwork.pattern.model import Place
from wristwork.pattern.text import SourceLine

T = TypeVar("T")


class PatternError(Exception):
    """Raised where a caller asked for one good pattern and the text holds none."""

    def __init__(self, problems: tuple[Problem, ...]) -> None:
        super().__init__("\n".join(str(problem) for problem in problems))
        self.problems = problems


@dataclass(slots=True)
class Report:
    """Gathers the problems of one pattern while it is read."""

    path: str
    lines: dict[int, SourceLine]
    pattern: str | None = None
    problems: list[Problem] = field(default_factory=list)

    def add(self, place: Place, found: str, remedy: str) -> None:
        self.problems.append(self.problem(place, found, remedy))

    def problem(self, place: Place, found: str, remedy: str, kind: str = PATTERN) -> Problem:
        line = self.lines.get(place.line)
        excerpt = None if line is None else Excerpt(line.text, place.column - 1 - line.skipped)
        return Problem(
            self.path, place.line, place.column, found, remedy, kind, _subject(self.pattern), self.pattern, excerpt
        )

    def named(self, pattern: str | None) -> None:
        """Give the pattern's name to what was found before the name was known."""
        self.pattern = pattern
        self.problems = [replace(each, subject=_subject(pattern), exercise=pattern) for each in self.problems]


def all_read(parts: Iterable[T | None]) -> tuple[T, ...] | None:
    """All parts, or None where one could not be read. Each is asked for, so that all errors are told."""
    each = tuple(parts)
    read = tuple(part for part in each if part is not None)
    return read if len(read) == len(each) else None


def _subject(pattern: str | None) -> str:
    return say("pattern '{name}'", name=pattern) if pattern else say("pattern")
