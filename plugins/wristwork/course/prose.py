"""What a page says besides its patterns: prose, headings and links, each with its line."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from wristwork.page.page import Page
from wristwork.pattern.fences import find_blocks

_FENCE = re.compile(r"^[ \t>]*(?P<marks>`{3,}|~{3,})(?P<info>[^`]*)$")
_EMPHASIS = re.compile(r"[*_`]+(?=\S)|(?<=\S)[*_`]+")
_DEEPEST = 6
_LINK = re.compile(r"\]\(\s*<?(?P<target>[^)\s>]+)>?[^)]*\)")
_DEFINITION = re.compile(r"^ {0,3}\[[^\]^]+\]:\s*<?(?P<target>\S+?)>?(?:\s|$)")
_OWN_ID = re.compile(
    r"\{[^}]*#(?P<id>[\w:.-]+)[^}]*\}|\bid=[\"'](?P<html>[^\"']+)[\"']|\bname=[\"'](?P<name>[^\"']+)[\"']"
)
_CODE = re.compile(r"(`+)(?!`).*?(?<!`)\1(?!`)")
_COMMENT = re.compile(r"<!--(?P<inside>(?:(?!-->).)*)-->")
_WORD = re.compile(r"[^\W\d_]{2,}")


@dataclass(frozen=True, slots=True)
class ProseLine:
    """A line of a page outside front matter, comments and fences, inline code taken out. ``number`` counts from 1."""

    number: int
    text: str

    @property
    def heading(self) -> str | None:
        """The words of a heading, without the marks around it; None for any other line."""
        words = self.text.lstrip("#")
        level = len(self.text) - len(words)
        if not 1 <= level <= _DEEPEST or words[:1] not in (" ", "\t"):
            return None
        return words.strip(" \t").rstrip("#").rstrip(" \t")

    @property
    def is_prose(self) -> bool:
        """Does it say something? Headings, link definitions and attribute lists don't."""
        plain = self.text.strip()
        if self.heading is not None or _DEFINITION.match(self.text) or plain.startswith("{:"):
            return False
        return _WORD.search(plain) is not None

    @property
    def links(self) -> Iterator[str]:
        """The targets of its links and pictures."""
        for found in _LINK.finditer(self.text):
            yield found["target"]
        if definition := _DEFINITION.match(self.text):
            yield definition["target"]


def prose_lines(page: Page) -> tuple[ProseLine, ...]:
    """The lines of a page in which prose can stand."""
    return tuple(ProseLine(line.number, _CODE.sub("", line.text)) for line in _open_lines(page))


def page_heading(page: Page) -> str | None:
    """The words of a page's first heading of the first level, without marks of emphasis; None where it has none."""
    headings = (line.heading for line in _open_lines(page) if line.text.startswith("#") and line.text[1:2] != "#")
    found = next(filter(None, headings), None)
    return _EMPHASIS.sub("", _without_attributes(found)) if found else None


def comments(page: Page) -> Iterator[tuple[int, str, bool]]:
    """The comments of a page that stand in one line: its number, what is in it, whether it is alone there."""
    if "<!--" not in page.text:
        return
    for line in _lines_outside_fences(page):
        plain = _CODE.sub("", line.text)
        for found in _COMMENT.finditer(plain):
            yield line.number, found["inside"], plain.strip() == found[0]


def _open_lines(page: Page) -> Iterator[ProseLine]:
    """The lines of a page outside front matter, comments and fences."""
    in_comment, last_end = False, _last_comment_end(page)
    for line in _lines_outside_fences(page):
        plain, goes_on = _without_comments(line.text, in_comment)
        in_comment = goes_on and line.number < last_end
        yield ProseLine(line.number, plain)


def _lines_outside_fences(page: Page) -> Iterator[ProseLine]:
    """The lines of a page outside front matter and fences; a fence in a comment opens nothing."""
    closing: str | None = None
    in_comment, last_end = False, _last_comment_end(page)
    first = page.front.length
    for number, line in enumerate(page.lines[first:], start=first + 1):
        fence = _FENCE.match(line)
        if closing is not None:
            if fence and fence["marks"].startswith(closing) and not fence["info"].strip():
                closing = None
            continue
        if fence and not in_comment:
            closing = fence["marks"]
            continue
        _, goes_on = _without_comments(line, in_comment)
        in_comment = goes_on and number < last_end
        yield ProseLine(number, line)


def _last_comment_end(page: Page) -> int:
    """The last line (from 1) in which a comment can end; one that is open below it is text."""
    return max((number for number, line in enumerate(page.lines, start=1) if "-->" in line), default=0)


def open_comment(page: Page) -> int | None:
    """The line of a comment that nothing closes: Markdown shows its text. None where there is none."""
    last = _last_comment_end(page)
    for line in _lines_outside_fences(page) if "<!--" in page.text else ():
        if line.number >= last and _CODE.sub("", line.text).rpartition("-->")[2].find("<!--") >= 0:
            return line.number
    return None


def _without_attributes(heading: str) -> str:
    """The words of a heading without a list of attributes at its end."""
    return heading[: heading.rfind("{")].rstrip() if heading.endswith("}") and "{" in heading else heading


def _without_comments(line: str, in_comment: bool) -> tuple[str, bool]:
    kept = ""
    while line:
        if in_comment:
            _, mark, line = line.partition("-->")
            in_comment = not mark
        else:
            before, mark, line = line.partition("<!--")
            kept, in_comment = kept + before, bool(mark)
    return kept, in_comment


def fences_without_text(page: Page) -> set[int]:
    """Which pattern fences of a page (counted from 0) have no prose next to them.

    Next to a fence is what stands between it and the next heading or pattern fence, above and below.
    """
    blocks = find_blocks(page.lines, page.front.length)
    # From top to bottom: a heading, a fence (its number), or prose.
    marks: list[tuple[int, int | str]] = [(block.first + 1, number) for number, block in enumerate(blocks)]
    for line in prose_lines(page):
        if line.heading is not None:
            marks.append((line.number, "heading"))
        elif line.is_prose:
            marks.append((line.number, "prose"))
    kinds = ["heading", *(kind for _, kind in sorted(marks, key=lambda mark: mark[0])), "heading"]
    return {
        kind
        for above, kind, below in zip(kinds, kinds[1:], kinds[2:], strict=False)
        if isinstance(kind, int) and "prose" not in (above, below)
    }


def anchors(lines: Iterable[ProseLine]) -> set[str]:
    """The anchors that a page's headings and own ids make, as Markdown makes them."""
    found: set[str] = set()
    for line in lines:
        for own in _OWN_ID.finditer(line.text):
            found.add(own["id"] or own["html"] or own["name"])
        if line.heading is not None:
            slug = _slug(_without_attributes(line.heading))
            number = 1
            while slug in found:
                slug = re.sub(r"_\d+$", "", slug) + f"_{number}"
                number += 1
            found.add(slug)
    return found


def _slug(words: str) -> str:
    """The anchor of a heading, by the rule of Python-Markdown's table of contents."""
    plain = re.sub(r"\[([^\]]*)\]\([^)]*\)", r"\1", words)
    ascii_only = unicodedata.normalize("NFKD", plain).encode("ascii", "ignore").decode("ascii")
    return re.sub(r"[-\s]+", "-", re.sub(r"[^\w\s-]", "", ascii_only).strip().lower())
