"""What a page says besides its patterns: prose, headings and links, each with its line."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from wristwork.pattern.fences import after_front_matter, find_blocks, split_lines

_FENCE = re.compile(r"^[ \t>]*(?P<marks>`{3,}|~{3,})(?P<info>[^`]*)$")
_HEADING = re.compile(r"^#{1,6}[ \t]+(?P<words>.*?)[ \t]*#*[ \t]*$")
_LINK = re.compile(r"\]\(\s*<?(?P<target>[^)\s>]+)>?[^)]*\)")
_DEFINITION = re.compile(r"^ {0,3}\[[^\]^]+\]:\s*<?(?P<target>\S+?)>?(?:\s|$)")
_OWN_ID = re.compile(
    r"\{[^}]*#(?P<id>[\w:.-]+)[^}]*\}|\bid=[\"'](?P<html>[^\"']+)[\"']|\bname=[\"'](?P<name>[^\"']+)[\"']"
)
_CODE = re.compile(r"(`+)(?!`).*?(?<!`)\1(?!`)")
_WORD = re.compile(r"[^\W\d_]{2,}")


@dataclass(frozen=True, slots=True)
class Line:
    """A line of a page outside front matter, comments and fences, inline code taken out. ``number`` counts from 1."""

    number: int
    text: str

    @property
    def heading(self) -> str | None:
        found = _HEADING.match(self.text)
        return found["words"] if found else None

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


def prose_lines(text: str) -> tuple[Line, ...]:
    """The lines of a page in which prose can stand."""
    lines = split_lines(text)
    found: list[Line] = []
    closing: str | None = None
    in_comment = False
    for index in range(after_front_matter(lines), len(lines)):
        fence = _FENCE.match(lines[index])
        if closing is not None:
            if fence and fence["marks"].startswith(closing) and not fence["info"].strip():
                closing = None
            continue
        if fence and not in_comment:
            closing = fence["marks"]
            continue
        plain, in_comment = _without_comments(lines[index], in_comment)
        found.append(Line(index + 1, _CODE.sub("", plain)))
    return tuple(found)


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


def fences_without_text(text: str, lines: Iterable[Line]) -> set[int]:
    """Which pattern fences of a page (counted from 0) have no prose next to them.

    Next to a fence is what stands between it and the next heading or pattern fence, above and below.
    """
    blocks = find_blocks(split_lines(text))
    # From top to bottom: a heading, a fence (its number), or prose.
    marks: list[tuple[int, int | str]] = [(block.first + 1, number) for number, block in enumerate(blocks)]
    for line in lines:
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


def anchors(lines: Iterable[Line]) -> set[str]:
    """The anchors that a page's headings and own ids make, as Markdown makes them."""
    found: set[str] = set()
    for line in lines:
        for own in _OWN_ID.finditer(line.text):
            found.add(own["id"] or own["html"] or own["name"])
        if line.heading is not None:
            slug = _slug(re.sub(r"\{[^}]*\}\s*$", "", line.heading))
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
