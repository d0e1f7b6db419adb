"""Where the lines of a page stand: its fences, its comments, and which lines are further left than others."""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cached_property

FENCE = re.compile(r"^(?P<prefix>[ \t>]*)(?P<marks>`{3,}|~{3,})[ \t]*(?P<info>[^`]*)$")
PATTERN_INFO = re.compile(r"^(?:pattern(?=\s|$)|\{\s*\.pattern(?=[\s}])(?P<inside>[^}]*)\})(?P<extra>.*)$")
# What opens a container whose content is indented: list items, admonitions, details, tabs,
# definitions, footnotes.
CONTAINER = re.compile(r"^[ \t>]*(?:[-*+]|\d+[.)]|!!!|\?\?\?\+?|===[!+]?|:|\[\^[^\]]+\]:)(?:[ \t]|$)")
TAB_WIDTH = 4


def width_of(indent: str) -> int:
    """How far a line's text stands from the margin, or from the marks of a quotation."""
    return len(indent[indent.rfind(">") + 1 :].expandtabs(TAB_WIDTH))


def indent_of(line: str, quoted: bool = True) -> str:
    """The blanks before a line's text, and the marks of a quotation where the fence stands in one."""
    return line[: len(line) - len(line.lstrip(" \t>" if quoted else " \t"))]


def is_pattern(opening: re.Match[str]) -> bool:
    """Whether a fence opens a pattern."""
    return PATTERN_INFO.match(opening["info"].strip()) is not None


class Outline:
    """Where the lines of a page stand: its fences, and which lines are further left than others.

    Each question is answered from a list that is made once, so that a page of many open fences takes no longer than
    another.
    """

    def __init__(self, lines: Sequence[str]) -> None:
        self._lines = lines
        marked = (number for number, line in enumerate(lines) if "```" in line or "~~~" in line)
        self.fences = {number: match for number in marked if (match := FENCE.match(lines[number]))}
        self._numbers = list(self.fences)
        self._openings = [number for number, fence in self.fences.items() if fence["info"].strip()]
        self._patterns = [number for number in self._openings if is_pattern(self.fences[number])]

    def next_fence(self, index: int) -> int | None:
        """The first line below that is any fence."""
        return _after(self._numbers, index)

    def next_opening(self, index: int) -> int | None:
        """The first line below that opens a fence of any kind."""
        return _after(self._openings, index)

    def next_pattern(self, index: int, marks: str = "") -> int | None:
        """The first line below that opens a pattern with marks such as these, or longer ones."""
        return _first(self._patterns_by, index, marks)

    def next_closing(self, index: int, marks: str) -> int | None:
        """The first line below that closes a fence of these marks."""
        return _first(self._closings_by, index, marks)

    def closings(self, index: int, marks: str) -> Iterator[int]:
        """All lines below that close a fence of these marks."""
        found = self.next_closing(index, marks)
        while found is not None:
            yield found
            found = self.next_closing(found, marks)

    @cached_property
    def _closings_by(self) -> dict[str, list[int]]:
        return self._by_marks(number for number in self._numbers if not self.fences[number]["info"].strip())

    @cached_property
    def _patterns_by(self) -> dict[str, list[int]]:
        return self._by_marks(self._patterns)

    def _by_marks(self, numbers: Iterable[int]) -> dict[str, list[int]]:
        found: dict[str, list[int]] = {}
        for number in numbers:
            found.setdefault(self.fences[number]["marks"], []).append(number)
        return found

    def next_comment_end(self, index: int) -> int | None:
        """The first line below in which an HTML comment ends."""
        return _after(self._comment_ends, index)

    @cached_property
    def _comment_ends(self) -> list[int]:
        return [number for number, line in enumerate(self._lines) if "-->" in line]

    def limit(self, index: int) -> int:
        """The first line below that stands further left than a nested fence; the page's end for one at the margin."""
        prefix = self.fences[index]["prefix"]
        if width_of(prefix) < TAB_WIDTH:
            return len(self._lines)
        return (self._further_left_quoted if ">" in prefix else self._further_left)[index]

    @cached_property
    def _further_left(self) -> list[int]:
        return _further_left(self._widths(quoted=False))

    @cached_property
    def _further_left_quoted(self) -> list[int]:
        return _further_left(self._widths(quoted=True))

    def _widths(self, quoted: bool) -> list[int | None]:
        return [width_of(indent_of(line, quoted)) if line.strip() else None for line in self._lines]

    def is_fence_here(self, index: int) -> bool:
        """False where a fence belongs to an indented code block: far from the margin and in no container."""
        return width_of(self.fences[index]["prefix"]) < TAB_WIDTH or self._in_container[index]

    @cached_property
    def _in_container(self) -> list[bool]:
        """For each line: does it stand in a container, or further in than one of its lines?"""
        found: list[bool] = []
        above: list[tuple[int, bool]] = []  # width, is it a container or in one
        for line, width in zip(self._lines, self._widths(quoted=True), strict=True):
            if width is None:
                found.append(False)
                continue
            while above and above[-1][0] >= width:
                above.pop()
            found.append(bool(above) and above[-1][1])
            above.append((width, CONTAINER.match(line) is not None or found[-1]))
        return found


def _after(numbers: Sequence[int], index: int) -> int | None:
    number = bisect_right(numbers, index)
    return numbers[number] if number < len(numbers) else None


def _first(by_marks: Mapping[str, Sequence[int]], index: int, marks: str) -> int | None:
    """The first number below ``index`` under marks that begin with these."""
    found = [_after(numbers, index) for each, numbers in by_marks.items() if each.startswith(marks)]
    return min((number for number in found if number is not None), default=None)


def _further_left(widths: Sequence[int | None]) -> list[int]:
    """For each line the first one below that stands further left, the number of lines where none does."""
    found = [len(widths)] * len(widths)
    waiting: list[int] = []
    for index, width in enumerate(widths):
        if width is None:
            continue
        while waiting and (widths[waiting[-1]] or 0) > width:
            found[waiting.pop()] = index
        waiting.append(index)
    return found
