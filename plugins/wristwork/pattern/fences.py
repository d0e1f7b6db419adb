"""Find the pattern fences of a Markdown page, with the place of every line.

Fences stand at the margin or nested in a list item, an admonition, a content tab or a quotation. A fence
inside another fence, in an HTML comment or in an indented code block is only shown, not read.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from wristwork.pattern.model import Place
from wristwork.pattern.text import SourceLine

_FENCE = re.compile(r"^(?P<prefix>[ \t>]*)(?P<marks>`{3,}|~{3,})[ \t]*(?P<info>[^`]*)$")
_PATTERN_INFO = re.compile(r"^(?:pattern|\{\s*\.pattern\s*\})(?=\s|$)(?P<extra>.*)$")
# What opens a container whose content is indented: list items, admonitions, details, tabs,
# definitions, footnotes.
_CONTAINER = re.compile(r"^[ \t>]*(?:[-*+]|\d+[.)]|!!!|\?\?\?\+?|===[!+]?|:|\[\^[^\]]+\]:)(?:[ \t]|$)")
_FRONT_MATTER_EDGE = re.compile(r"^(?:-{3}|\.{3})[ \t]*$")
_TAB_WIDTH = 4


@dataclass(frozen=True, slots=True)
class Block:
    """One pattern fence.

    ``first`` and ``last`` are the indexes (from 0) of the lines of the two fences in the page;
    ``closed`` is false where the second one is missing, and then ``last`` equals ``first``.
    ``extra`` is what stands after the word ``pattern``.
    """

    prefix: str
    fence: SourceLine
    lines: tuple[SourceLine, ...]
    first: int
    last: int
    closed: bool
    extra: str

    @property
    def place(self) -> Place:
        return self.fence.place(0)

    @property
    def text(self) -> str:
        return "\n".join(line.text for line in self.lines)


def split_lines(text: str) -> list[str]:
    """The lines of a page as an editor numbers them, without a byte-order mark."""
    return re.split(r"\r\n|\n|\r", text.removeprefix("\ufeff"))


def find_blocks(lines: Sequence[str]) -> list[Block]:
    """Every pattern fence among the lines of a page, in order."""
    found: list[Block] = []
    index = _after_front_matter(lines)
    in_comment = False
    while index < len(lines):
        line = lines[index]
        opening = None if in_comment else _FENCE.match(line)
        if opening is None:
            in_comment = _comment_goes_on(line, in_comment)
            index += 1
            continue
        if not _is_fence_here(lines, index, opening["prefix"]):
            index += 1
            continue
        info = _PATTERN_INFO.match(opening["info"].strip())
        closing = _closing(lines, index, opening)
        if info is not None:
            found.append(_block(lines, index, closing, opening, info["extra"].strip()))
        index = index + 1 if closing is None else closing + 1
    return found


def _after_front_matter(lines: Sequence[str]) -> int:
    if not lines or not re.match(r"^-{3}[ \t]*$", lines[0]):
        return 0
    for index in range(1, len(lines)):
        if _FRONT_MATTER_EDGE.match(lines[index]):
            return index + 1
    return 0


def _comment_goes_on(line: str, in_comment: bool) -> bool:
    """Whether an HTML comment is open at the end of this line."""
    while True:
        start = 0 if in_comment else line.find("<!--")
        if start < 0:
            return False
        end = line.find("-->", start)
        if end < 0:
            return True
        line, in_comment = line[end + 3 :], False


def _width(prefix: str) -> int:
    """How far a line's text stands from the margin, a quotation's marks not counted."""
    return (
        len(prefix.replace(">", " ").expandtabs(_TAB_WIDTH))
        if ">" not in prefix
        else len(prefix[prefix.rindex(">") + 1 :].expandtabs(_TAB_WIDTH))
    )


def _indent(line: str) -> str:
    return line[: len(line) - len(line.lstrip(" \t>"))]


def _is_fence_here(lines: Sequence[str], index: int, prefix: str) -> bool:
    """False where the line belongs to an indented code block: far from the margin and in no container."""
    width = _width(prefix)
    if width < _TAB_WIDTH:
        return True
    for above in reversed(lines[:index]):
        if not above.strip():
            continue
        indent = _width(_indent(above))
        if indent >= width:
            continue
        if _CONTAINER.match(above):
            return True
        if indent == 0:
            return False
        width = indent
    return False


def _closing(lines: Sequence[str], first: int, opening: re.Match[str]) -> int | None:
    """The index of the line that closes a fence, or None where nothing does."""
    marks = opening["marks"]
    width = _width(opening["prefix"])
    is_pattern = _PATTERN_INFO.match(opening["info"].strip()) is not None
    for index in range(first + 1, len(lines)):
        line = lines[index]
        other = _FENCE.match(line)
        if other is not None:
            same = other["marks"][0] == marks[0] and len(other["marks"]) >= len(marks)
            if same and not other["info"].strip():
                return index
            # A pattern holds no fence: the tutor forgot to close this one.
            if is_pattern and other["info"].strip():
                return None
        if line.strip() and _width(_indent(line)) < width and width >= _TAB_WIDTH:
            return None
    return None


def _block(lines: Sequence[str], first: int, closing: int | None, opening: re.Match[str], extra: str) -> Block:
    prefix = opening["prefix"]
    last = first if closing is None else closing
    inside = tuple(_source_line(number, lines[number], prefix) for number in range(first + 1, last))
    return Block(
        prefix=prefix,
        fence=_source_line(first, lines[first], prefix),
        lines=inside,
        first=first,
        last=last,
        closed=closing is not None,
        extra=extra,
    )


def _source_line(index: int, line: str, prefix: str) -> SourceLine:
    """The line without the indentation that its fence has."""
    skipped = _skip(line, prefix)
    return SourceLine(index + 1, skipped, line[skipped:])


def _skip(line: str, prefix: str) -> int:
    if line.startswith(prefix):
        return len(prefix)
    width = len(prefix.expandtabs(_TAB_WIDTH))
    for index, char in enumerate(line):
        if char not in " \t>" or len(line[: index + 1].expandtabs(_TAB_WIDTH)) > width:
            return index
    return len(line)
