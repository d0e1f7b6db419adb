"""Find the pattern fences of a Markdown page, with the place of every line.

Fences stand at the margin or nested in a list item, an admonition, a content tab or a quotation. A fence
inside another fence, in an HTML comment or in an indented code block is only shown, not read.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from difflib import get_close_matches

from wristwork.pattern.model import Place
from wristwork.pattern.text import SourceLine

_FENCE = re.compile(r"^(?P<prefix>[ \t>]*)(?P<marks>`{3,}|~{3,})[ \t]*(?P<info>[^`]*)$")
_PATTERN_INFO = re.compile(r"^(?:pattern(?=\s|$)|\{\s*\.pattern(?=[\s}])(?P<inside>[^}]*)\})(?P<extra>.*)$")
_NAME = "pattern"
_LANE = re.compile(r"^[ \t>]*(?:hands|feet|from)[ \t]*:", re.MULTILINE)
# What opens a container whose content is indented: list items, admonitions, details, tabs,
# definitions, footnotes.
_CONTAINER = re.compile(r"^[ \t>]*(?:[-*+]|\d+[.)]|!!!|\?\?\?\+?|===[!+]?|:|\[\^[^\]]+\]:)(?:[ \t]|$)")
_FRONT_MATTER_EDGE = re.compile(r"^(?:-{3}|\.{3})[ \t]*$")
_TAB_WIDTH = 4


@dataclass(frozen=True, slots=True)
class Trouble:
    """Why a fence can't be read."""

    place: Place
    found: str
    remedy: str


@dataclass(frozen=True, slots=True)
class Block:
    """One pattern fence.

    ``first`` and ``last`` are the indexes (from 0) of the lines of the two fences in the page; where
    the second one is missing ``last`` equals ``first``, and ``trouble`` says why. ``extra`` is what
    stands after the word ``pattern``.
    """

    prefix: str
    fence: SourceLine
    lines: tuple[SourceLine, ...]
    first: int
    last: int
    extra: str = ""
    trouble: Trouble | None = None

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
    index = after_front_matter(lines)
    last_comment_end = max((n for n, line in enumerate(lines) if "-->" in line), default=-1)
    in_comment = False
    while index < len(lines):
        opening = None if in_comment else _FENCE.match(lines[index])
        if opening is None or not _is_fence_here(lines, index, opening["prefix"]):
            in_comment = _comment_goes_on(lines[index], in_comment) and index < last_comment_end
            index += 1
            continue
        closing = _closing(lines, index, opening)
        block = _block(lines, index, closing, opening)
        if block is not None:
            found.append(block)
        index = (index if closing is None else closing) + 1
    return found


def after_front_matter(lines: Sequence[str]) -> int:
    """The index (from 0) of the first line below a page's front matter; 0 where it has none."""
    if not lines or not re.match(r"^-{3}[ \t]*$", lines[0]):
        return 0
    for index in range(1, len(lines)):
        if _FRONT_MATTER_EDGE.match(lines[index]):
            return index + 1
        # A page may begin with a rule: what holds a fence is no front matter.
        if _FENCE.match(lines[index]):
            return 0
    return 0


def _comment_goes_on(line: str, in_comment: bool) -> bool:
    """Whether an HTML comment is open at the end of this line."""
    if not in_comment:
        line = re.sub(r"(`+).+?\1", "", line)  # a comment's marks in code are only shown
    while True:
        start = 0 if in_comment else line.find("<!--")
        if start < 0:
            return False
        end = line.find("-->", start)
        if end < 0:
            return True
        line, in_comment = line[end + 3 :], False


def _width(indent: str) -> int:
    """How far a line's text stands from the margin, or from the marks of a quotation."""
    return len(indent[indent.rfind(">") + 1 :].expandtabs(_TAB_WIDTH))


def _indent(line: str, quoted: bool = True) -> str:
    """The blanks before a line's text, and the marks of a quotation where the fence stands in one."""
    return line[: len(line) - len(line.lstrip(" \t>" if quoted else " \t"))]


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
    is_pattern = _PATTERN_INFO.match(opening["info"].strip()) is not None
    for index in range(first + 1, len(lines)):
        if _is_closing(lines[index], opening):
            return index
        other = _FENCE.match(lines[index])
        # A pattern holds no fence: the tutor forgot to close this one.
        if is_pattern and other is not None and other["info"].strip():
            return None
        if _stands_out(lines[index], opening["prefix"]):
            return None
    return None


def _is_closing(line: str, opening: re.Match[str]) -> bool:
    marks = opening["marks"]
    other = _FENCE.match(line)
    return (
        other is not None
        and other["marks"][0] == marks[0]
        and len(other["marks"]) >= len(marks)
        and not other["info"].strip()
    )


def _stands_out(line: str, prefix: str) -> bool:
    """Whether a line stands further left than the nested fence it would be in."""
    width = _width(prefix)
    return width >= _TAB_WIDTH and bool(line.strip()) and _width(_indent(line, ">" in prefix)) < width


def _block(lines: Sequence[str], first: int, closing: int | None, opening: re.Match[str]) -> Block | None:
    """The pattern fence that opens here, or None where it is another kind of fence."""
    info = _PATTERN_INFO.match(opening["info"].strip())
    end = closing if closing is not None else _end_of_text(lines, first)
    prefix = opening["prefix"]
    inside = tuple(_source_line(number, lines[number], prefix) for number in range(first + 1, end))
    block = Block(
        prefix, _source_line(first, lines[first], prefix), inside, first, first if closing is None else closing
    )
    if info is None:
        return _misspelt(block, opening)
    if closing is None:
        return replace(block, trouble=_unclosed(lines, block, opening))
    return replace(block, extra=f"{(info['inside'] or '').strip()} {info['extra'].strip()}".strip())


def _end_of_text(lines: Sequence[str], first: int) -> int:
    """Where the text of a fence that is not closed may end: at the next fence or blank line."""
    for index in range(first + 1, len(lines)):
        if not lines[index].strip() or _FENCE.match(lines[index]):
            return index
    return len(lines)


def _unclosed(lines: Sequence[str], block: Block, opening: re.Match[str]) -> Trouble:
    """Why a fence is not closed: no closing line, or a line that leaves its container before that."""
    for index in range(block.first + 1, len(lines)):
        if _stands_out(lines[index], block.prefix):
            if any(_is_closing(line, opening) and not _stands_out(line, block.prefix) for line in lines[index:]):
                place = Place(index + 1, len(_indent(lines[index], ">" in block.prefix)) + 1)
                return Trouble(place, "a line further left than the fence it stands in", "indent it like the fence")
            break
        if _FENCE.match(lines[index]):
            break
    return Trouble(block.place, "a pattern fence that is not closed", "end it with a line of ```")


def _misspelt(block: Block, opening: re.Match[str]) -> Block | None:
    """A fence that holds a lane under a name like ``pattern`` is one: nobody else writes lanes."""
    words = opening["info"].split()
    word = words[0] if words else ""
    alike = get_close_matches(word.lower(), [_NAME], cutoff=0.75)
    if not alike or not _LANE.search(block.text):
        return None
    trouble = Trouble(
        block.fence.place(block.fence.text.index(word)), f"a fence called '{word}'", f"write the word {_NAME}"
    )
    return replace(block, trouble=trouble)


def _source_line(index: int, line: str, prefix: str) -> SourceLine:
    """The line without the indentation that its fence has."""
    skipped = _skip(line, prefix)
    return SourceLine(index + 1, skipped, line[skipped:])


def _skip(line: str, prefix: str) -> int:
    if line.startswith(prefix):
        return len(prefix)
    width = len(prefix.expandtabs(_TAB_WIDTH))
    blanks = " \t>" if ">" in prefix else " \t"
    for index, char in enumerate(line):
        if char not in blanks or len(line[: index + 1].expandtabs(_TAB_WIDTH)) > width:
            return index
    return len(line)
