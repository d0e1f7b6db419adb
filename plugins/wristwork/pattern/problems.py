"""What is wrong in a page, said so that a tutor can find and mend it."""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass, field

from wristwork.pattern.model import Place
from wristwork.pattern.text import SourceLine

_LONGEST_LINE = 100


@dataclass(frozen=True, slots=True)
class Problem:
    """One error (or warning) with its place and its remedy.

    ``found`` says what is wrong, ``remedy`` what to write instead. ``line`` is the text of the
    place, shown with a caret under it.
    """

    path: str
    place: Place
    pattern: str | None
    found: str
    remedy: str
    line: SourceLine | None = None

    @property
    def where(self) -> str:
        return f"{self.path}:{self.place.line}:{self.place.column}"

    @property
    def headline(self) -> str:
        """The error in one line."""
        name = f"pattern '{self.pattern}'" if self.pattern else "pattern"
        return f"{self.where}: {name}: {self.found}"

    @property
    def excerpt(self) -> tuple[str, str] | None:
        """The line as shown, and the blanks that bring a caret under the place; None where there is no line."""
        return None if self.line is None else _with_caret(self.line, self.place.column)

    def __str__(self) -> str:
        if self.excerpt is None:
            return f"{self.headline}\n    {self.remedy}"
        shown, lead = self.excerpt
        return f"{self.headline}\n    {shown}\n    {lead}^ {self.remedy}"


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

    def problem(self, place: Place, found: str, remedy: str) -> Problem:
        return Problem(self.path, place, self.pattern, found, remedy, self.lines.get(place.line))

    def named(self, pattern: str | None) -> None:
        """Give the pattern's name to what was found before the name was known."""
        self.pattern = pattern
        self.problems = [Problem(p.path, p.place, pattern, p.found, p.remedy, p.line) for p in self.problems]


def _with_caret(line: SourceLine, column: int) -> tuple[str, str]:
    """The line as shown and the blanks that bring a caret under ``column`` (from 1, of the file)."""
    at = max(0, min(column - 1 - line.skipped, len(line.text)))
    first = max(0, at - _LONGEST_LINE // 2) if len(line.text) > _LONGEST_LINE else 0
    last = first + _LONGEST_LINE
    before, after = ("…" if first else ""), ("…" if last < len(line.text) else "")
    shown = before + _plain(line.text[first:last]) + after
    return shown, " " * sum(_width(char) for char in before + _plain(line.text[first:at]))


def _plain(text: str) -> str:
    """Text with whatever could move the caret or the terminal's cursor shown as one blank."""
    return "".join(" " if unicodedata.category(char) in ("Cc", "Cf", "Zl", "Zp") else char for char in text)


def _width(char: str) -> int:
    if unicodedata.combining(char):
        return 0
    return 2 if unicodedata.east_asian_width(char) in "WF" else 1
