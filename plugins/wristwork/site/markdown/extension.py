"""The Markdown extension ``wristwork``: pattern fences become figures.

Two preprocessors, because two things must hold at once. The fences must be found before white space
is evened out (errors speak of the columns of the file, and an option of the usual fence extension
hides fences from then on), but what Markdown stashes is only safe after it. So the first one puts
a mark in a fence's place and the second one trades marks for stashed HTML. Both keep the fence's
indentation, so lists, admonitions, tabs and quotations hold their figures.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from typing import Protocol
from xml.etree.ElementTree import Element, SubElement

from markdown import Markdown
from markdown.extensions import Extension
from markdown.preprocessors import Preprocessor
from markdown.treeprocessors import Treeprocessor

from wristwork.page.page import read_page
from wristwork.pattern.course import Located, read_patterns
from wristwork.pattern.fences import Block, find_blocks
from wristwork.site.figure.drawn import draw
from wristwork.site.figure.figure import figure, problem_box, waiting_box

# What the pages that every course has are written with.
NEEDED_EXTENSIONS = ("admonition", "attr_list", "footnotes", "tables", "wristwork")
# After snippets have brought in their text (32), before fences may be hidden (31.05).
_FIND = 31.5
# After white space is evened out (30), before fences (25) and raw HTML (20) are taken out.
_STASH = 29
# After attribute lists have set ids (8), around the table of contents, which gives headings theirs (5).
_RESERVE, _RELEASE = 6, 4
_MARK = re.compile("\x0eww(\\d+)\x0f")
_ANCHOR = "ww-anchor"


class Figures(Protocol):
    """Gives the HTML of the pattern fences of one page."""

    def html(self, block: Block) -> str:
        """The figure (or the box with what is wrong) for this fence."""

    @property
    def first(self) -> int:
        """The index of the first line below front matter, which a site generator takes off itself."""

    @property
    def ids(self) -> Sequence[str]:
        """The anchors that figures take on this page."""


class WristworkExtension(Extension):
    """Turns pattern fences into figures, with Markdown alone or for the plugin."""

    def __init__(self, **kwargs: object) -> None:
        self.config = {"figures": [OwnText, "Called with the lines of each text: gives its figures"]}
        super().__init__(**kwargs)

    def extendMarkdown(self, md: Markdown) -> None:
        """Register the processors with Markdown."""
        page = _Conversion(md, self.getConfig("figures"))
        md.preprocessors.register(_Find(page), "wristwork_find", _FIND)
        md.preprocessors.register(_Stash(page), "wristwork_stash", _STASH)
        md.treeprocessors.register(_Reserve(page), "wristwork_reserve", _RESERVE)
        md.treeprocessors.register(_Release(page), "wristwork_release", _RELEASE)


class OwnText:
    """The figures of a text that is read by itself."""

    def __init__(self, lines: Sequence[str]) -> None:
        page = read_page("text", "\n".join(lines))
        self.first = page.front.length
        course = read_patterns([page])
        self._fences = {fence.place: fence for fence in course.fences}
        self.ids = list(course.exercises)

    def html(self, block: Block) -> str:
        return fence_html(self._fences[block.place])


def fence_html(fence: Located) -> str:
    """A fence outside a course, where nothing has an address."""
    if fence.pattern is not None:
        return figure(fence.pattern, draw(fence.pattern))
    if fence.problems:
        return problem_box(fence.problems)
    return waiting_box(fence.name, fence.grows_from)


class _Conversion:
    """What the processors hand on to each other while one text is converted."""

    def __init__(self, md: Markdown, figures: Callable[[list[str]], Figures]) -> None:
        self.md = md
        self._figures = figures
        self.found: list[str] = []
        self.ids: Sequence[str] = ()

    def start(self, lines: list[str]) -> tuple[list[Block], Figures]:
        self.found = []
        figures = self._figures(lines)
        self.ids = figures.ids
        return find_blocks(lines, figures.first), figures


class _Find(Preprocessor):
    def __init__(self, page: _Conversion) -> None:
        super().__init__(page.md)
        self._page = page

    def run(self, lines: list[str]) -> list[str]:
        blocks, figures = self._page.start(lines)
        self._page.found = [figures.html(block) for block in blocks]
        for number, block in reversed(list(enumerate(blocks))):
            lines[block.first : block.last + 1] = _standing_alone(lines, block, f"{block.prefix}\x0eww{number}\x0f")
        return lines


def _standing_alone(lines: Sequence[str], block: Block, mark: str) -> list[str]:
    """The mark as a paragraph of its own, for only a paragraph can become a figure."""
    blank = block.prefix.rstrip()

    def has_words(index: int) -> bool:
        return 0 <= index < len(lines) and bool(lines[index].strip(" \t>"))

    before = [blank] if has_words(block.first - 1) else []
    after = [blank] if has_words(block.last + 1) else []
    return [*before, mark, *after]


class _Stash(Preprocessor):
    def __init__(self, page: _Conversion) -> None:
        super().__init__(page.md)
        self._page = page

    def run(self, lines: list[str]) -> list[str]:
        return [_MARK.sub(self._placeholder, line) if "\x0eww" in line else line for line in lines]

    def _placeholder(self, mark: re.Match[str]) -> str:
        number = int(mark[1])
        return self.md.htmlStash.store(self._page.found[number]) if number < len(self._page.found) else ""


class _Reserve(Treeprocessor):
    """Shows the figures' anchors to the table of contents, so that a heading of the same name gives way."""

    def __init__(self, page: _Conversion) -> None:
        super().__init__(page.md)
        self._page = page

    def run(self, root: Element) -> None:
        ids = set(self._page.ids)
        if not ids:
            return
        for element in root.iter():
            if element.get("id") in ids:
                del element.attrib["id"]
        for name in self._page.ids:
            SubElement(root, _ANCHOR, id=name)


class _Release(Treeprocessor):
    def __init__(self, page: _Conversion) -> None:
        super().__init__(page.md)
        self._page = page

    def run(self, root: Element) -> None:
        for anchor in root.findall(_ANCHOR):
            root.remove(anchor)


def makeExtension(**kwargs: object) -> WristworkExtension:
    """The extension, for Markdown's loader by module name."""
    return WristworkExtension(**kwargs)
