"""Text that remembers where in the page it stands."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass

from wristwork.pattern.model import Place


@dataclass(frozen=True, slots=True)
class SourceLine:
    """One line of a page: ``text`` is what follows the ``skipped`` characters of indentation."""

    number: int
    skipped: int
    text: str

    def place(self, index: int) -> Place:
        """The place of the character at ``index`` of ``text``."""
        return Place(self.number, self.skipped + index + 1)


@dataclass(frozen=True, slots=True)
class Value:
    """A stretch of text, perhaps joined from several lines.

    ``runs`` holds, for each piece of the text that stands together in the page, its offset in
    ``text`` and the place of its first character.
    """

    text: str
    runs: tuple[tuple[int, Place], ...]

    def place(self, index: int = 0) -> Place:
        """The place in the page of the character at ``index``."""
        number = 0 if len(self.runs) == 1 else max(0, bisect_right(self.runs, index, key=lambda run: run[0]) - 1)
        offset, start = self.runs[number]
        return Place(start.line, start.column + index - offset)

    def cut(self, start: int, end: int) -> Value:
        """The part between two offsets, without the blanks around it."""
        while start < end and self.text[start].isspace():
            start += 1
        while end > start and self.text[end - 1].isspace():
            end -= 1
        inside = tuple((offset - start, place) for offset, place in self.runs if start < offset < end)
        return Value(self.text[start:end], ((0, self.place(start)), *inside))

    def joined(self, other: Value) -> Value:
        """This text, one space, and another text."""
        shift = len(self.text) + 1
        return Value(
            f"{self.text} {other.text}",
            (*self.runs, *((offset + shift, place) for offset, place in other.runs)),
        )

    def split(self, mark: str) -> Iterator[Value]:
        """The parts between the marks, each without the blanks around it."""
        start = 0
        for part in self.text.split(mark):
            yield self.cut(start, start + len(part))
            start += len(part) + len(mark)


def value_of(line: SourceLine, start: int) -> Value:
    """The rest of a line from ``start`` on, without the blanks around it."""
    return Value(line.text, ((0, line.place(0)),)).cut(start, len(line.text))
