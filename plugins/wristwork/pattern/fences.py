"""Find the pattern fences of a Markdown page, with the place of every line.

Fences stand at the margin or nested in a list item, an admonition, a content tab or a quotation. A fence
inside another fence, in an HTML comment or in an indented code block is only shown, not read.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from difflib import get_close_matches

from wristwork.languages.say import marked, say
from wristwork.pattern.model import Place
from wristwork.pattern.outline import PATTERN_INFO, TAB_WIDTH, Outline, indent_of, is_pattern, width_of
from wristwork.pattern.text import SourceLine

_NAME = "pattern"
_THREE = marked("begin it with three backticks: ```pattern")
# Marks that are taken for backticks, or too few of them.
_NO_FENCE = re.compile(r"^(?P<prefix>[ \t>]*)(?P<marks>[`´'‘’‛′\"“”]+)[ \t]*pattern[ \t]*$")
_LANE = re.compile(r"^[ \t>]*(?:hands|right|left|feet|from)[ \t]*:", re.MULTILINE)


@dataclass(frozen=True, slots=True)
class FenceFault:
    """Why a fence can't be read."""

    place: Place
    found: str
    remedy: str


@dataclass(frozen=True, slots=True)
class Block:
    """One pattern fence.

    ``first`` and ``last`` are the indexes (from 0) of the lines of the two fences in the page; where
    the second one is missing ``last`` equals ``first``, and ``fault`` says why. ``extra`` is what
    stands after the word ``pattern``.
    """

    prefix: str
    fence: SourceLine
    lines: tuple[SourceLine, ...]
    first: int
    last: int
    extra: str = ""
    fault: FenceFault | None = None

    @property
    def place(self) -> Place:
        return self.fence.place(0)

    @property
    def text(self) -> str:
        return "\n".join(line.text for line in self.lines)


def split_lines(text: str) -> list[str]:
    """The lines of a page as an editor numbers them, without a byte-order mark."""
    return re.split(r"\r\n|\n|\r", text.removeprefix("\ufeff"))


def find_blocks(lines: Sequence[str], first: int = 0) -> list[Block]:
    """Every pattern fence among the lines of a page from ``first`` on (below its front matter), in order."""
    outline = Outline(lines)
    found: list[Block] = []
    index = first
    while index < len(lines):
        if (end := _end_of_comment(lines, index, outline)) is not None:
            hidden = _hidden(lines, index, end, outline)
            found += [hidden] if hidden else []
            index = index + 1 if hidden else end + 1
            continue
        opening = outline.fences.get(index)
        if opening is None and (unopened := _unopened(lines, index, outline)) is not None:
            found.append(unopened)
            index = unopened.last + 1
            continue
        if opening is None or not outline.is_fence_here(index):
            index += 1
            continue
        closing = _closing(index, opening, outline)
        block = _block(lines, index, closing, opening, outline)
        if block is not None:
            found.append(block)
        index = (index if closing is None else closing) + 1
    return found


def _end_of_comment(lines: Sequence[str], index: int, outline: Outline) -> int | None:
    """The index of the line that ends an HTML comment which begins in this line and goes on below it."""
    if index in outline.fences or not _comment_goes_on(lines[index]):
        return None
    return outline.next_comment_end(index)


def _hidden(lines: Sequence[str], first: int, last: int, outline: Outline) -> Block | None:
    """What to say of a comment that hides a pattern because its own end is missing: it ends with a later one's."""
    again = next((number for number in range(first + 1, last + 1) if "<!--" in lines[number]), None)
    fence = outline.next_pattern(first)
    if again is None or fence is None or fence >= again:
        return None
    line = _source_line(first, lines[first], "")
    found = say("a comment that is not closed before the pattern in line {line}", line=fence + 1)
    fault = FenceFault(line.place(line.text.rindex("<!--")), found, say("end it with -->"))
    return Block("", line, (), first, first, fault=fault)


def _comment_goes_on(line: str) -> bool:
    """Whether an HTML comment that begins in this line is open at its end."""
    if "<!--" not in line:
        return False
    shown = re.sub(r"(`+).+?\1", "", line)  # a comment's marks in code are only shown
    return shown.rfind("<!--") > shown.rfind("-->")


def _closing(first: int, opening: re.Match[str], outline: Outline) -> int | None:
    """The index of the line that closes a fence, or None where nothing does."""
    closing = outline.next_closing(first, opening["marks"])
    if closing is None or closing > outline.limit(first):
        return None
    # A pattern holds no fence: the tutor forgot to close this one.
    inside = outline.next_opening(first) if is_pattern(opening) else outline.next_pattern(first, opening["marks"])
    return None if inside is not None and inside < closing else closing


def _block(
    lines: Sequence[str], first: int, closing: int | None, opening: re.Match[str], outline: Outline
) -> Block | None:
    """The pattern fence that opens here, or None where it is another kind of fence."""
    info = PATTERN_INFO.match(opening["info"].strip())
    end = closing if closing is not None else _end_of_text(lines, first, outline)
    prefix = opening["prefix"]
    inside = tuple(_source_line(number, lines[number], prefix) for number in range(first + 1, end))
    block = Block(
        prefix, _source_line(first, lines[first], prefix), inside, first, first if closing is None else closing
    )
    if info is None:
        return _misspelt(block, opening) or _swallowing(block, closing, opening, outline)
    if closing is None:
        return replace(block, fault=_unclosed(lines, block, opening, outline))
    return replace(block, extra=f"{(info['inside'] or '').strip()} {info['extra'].strip()}".strip())


def _end_of_text(lines: Sequence[str], first: int, outline: Outline) -> int:
    """Where the text of a fence that is not closed may end: at the next fence or blank line."""
    for index in range(first + 1, len(lines)):
        if not lines[index].strip() or index in outline.fences:
            return index
    return len(lines)


def _unclosed(lines: Sequence[str], block: Block, opening: re.Match[str], outline: Outline) -> FenceFault:
    """Why a fence is not closed: no closing line, or a line that leaves its container before that."""
    index = outline.limit(block.first)
    following = outline.next_fence(block.first)
    closings = (lines[closing] for closing in outline.closings(index - 1, opening["marks"]))
    leaves = index < len(lines) and (following is None or index <= following)
    if leaves and not all(_stands_out(closing, block.prefix) for closing in closings):
        place = Place(index + 1, len(indent_of(lines[index], ">" in block.prefix)) + 1)
        return FenceFault(
            place, say("a line further left than the fence it stands in"), say("indent it like the fence")
        )
    return FenceFault(block.place, say("a pattern fence that is not closed"), say("end it with a line of ```"))


def _stands_out(line: str, prefix: str) -> bool:
    """Whether a line stands further left than the nested fence it would be in."""
    width = width_of(prefix)
    return width >= TAB_WIDTH and bool(line.strip()) and width_of(indent_of(line, ">" in prefix)) < width


def _swallowing(block: Block, closing: int | None, opening: re.Match[str], outline: Outline) -> Block | None:
    """A fence of another kind that is open where a pattern begins, and would hide it."""
    pattern = outline.next_pattern(block.first, opening["marks"])
    if closing is not None or pattern is None or pattern > outline.limit(block.first):
        return None
    before = outline.next_closing(block.first, opening["marks"])
    if before is not None and before < pattern:
        return None
    marks = opening["marks"]
    fault = FenceFault(
        block.place,
        say("a fence that is not closed before line {line}, where a pattern begins", line=pattern + 1),
        say(
            "end it with a line of {marks}; to show a pattern as text, put one more {mark} here and at its end",
            marks=marks,
            mark=marks[0],
        ),
    )
    return replace(block, lines=(), fault=fault)


def _misspelt(block: Block, opening: re.Match[str]) -> Block | None:
    """A fence that holds a lane under a name like ``pattern`` is one: nobody else writes lanes."""
    named = re.search(r"[\w-]+", opening["info"])
    word = named[0] if named else ""
    alike = get_close_matches(word.lower(), [_NAME], cutoff=0.75)
    if not alike or not _LANE.search(block.text):
        return None
    fault = FenceFault(
        block.fence.place(block.fence.text.index(word)),
        say("a fence called '{name}'", name=word),
        say("write the word {word}", word=_NAME),
    )
    return replace(block, fault=fault)


def _unopened(lines: Sequence[str], first: int, outline: Outline) -> Block | None:
    """A pattern below marks that open no fence; None where no lane follows, or what opens the next fence."""
    typed = _NO_FENCE.match(lines[first])
    last = outline.next_fence(first) if typed else None
    if typed is None or last is None or outline.fences[last]["info"].strip():
        return None
    prefix = typed["prefix"]
    inside = tuple(_source_line(number, lines[number], prefix) for number in range(first + 1, last))
    line = _source_line(first, lines[first], prefix)
    block = Block(prefix, line, inside, first, last)
    if not _LANE.search(block.text):
        return None
    found = say("{marks}pattern, which opens no fence", marks=typed["marks"])
    return replace(block, fault=FenceFault(block.place, found, say(_THREE)))


def _source_line(index: int, line: str, prefix: str) -> SourceLine:
    """The line without the indentation that its fence has."""
    skipped = _skip(line, prefix)
    return SourceLine(index + 1, skipped, line[skipped:])


def _skip(line: str, prefix: str) -> int:
    if line.startswith(prefix):
        return len(prefix)
    width = len(prefix.expandtabs(TAB_WIDTH))
    blanks = " \t>" if ">" in prefix else " \t"
    for index, char in enumerate(line):
        if char not in blanks or len(line[: index + 1].expandtabs(TAB_WIDTH)) > width:
            return index
    return len(line)
