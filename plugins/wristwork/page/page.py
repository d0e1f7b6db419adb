"""A page read once: its lines, its front matter, and what is wrong with that."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from wristwork.languages.say import say
from wristwork.page.causes import Cause, cause, not_closed
from wristwork.page.front_matter import FrontMatter, Unread, front_matter
from wristwork.page.problem import FRONT_MATTER, Excerpt, Problem
from wristwork.page.settings import LINES, is_setting
from wristwork.wording import misspelt

_LINE_ENDS = re.compile(r"\r\n?")
_SETTING = re.compile(r"[ \t]*(?P<key>[\w-]+)[ \t]*(?P<colon>:?)(?P<rest>.*)")
_HEADING = re.compile(r"#{1,6} +\S")
_DASHES = "---"
_CLOSING = (_DASHES, "...")
_LIKE_DASHES = re.compile(r"[ \t]*[-–—_=~*][-–—_=~* \t]*")


@dataclass(frozen=True, slots=True)
class Page:
    """A page's text with plain line ends; ``path`` names it in messages.

    ``front`` is empty, and ``problems`` say why, where the front matter cannot be read.
    """

    path: str
    text: str
    lines: tuple[str, ...]
    front: FrontMatter
    problems: tuple[Problem, ...] = ()

    def problem(self, line: int, found: str, remedy: str, kind: str) -> Problem:
        """A problem in a whole line of this page."""
        shown = self.lines[line - 1] if 0 < line <= len(self.lines) else None
        return Problem(self.path, line, 0, found, remedy, kind, excerpt=None if not shown else Excerpt(shown, 0))


def read_page(path: str, text: str) -> Page:
    """The page that a text is."""
    plain = _LINE_ENDS.sub("\n", text.removeprefix("\ufeff"))
    lines = tuple(plain.split("\n"))
    front = front_matter(plain)
    why = _cause(lines, front)
    page = Page(path, plain, lines, FrontMatter() if isinstance(front, Unread) else front)
    if why is None:
        return page
    found = Problem(path, why.line, 0, why.found, why.remedy, FRONT_MATTER)
    return Page(path, plain, lines, page.front, (found,))


def read_pages(texts: Mapping[str, str]) -> tuple[Page, ...]:
    """The pages of some texts by path."""
    return tuple(read_page(path, text) for path, text in texts.items())


def _cause(lines: tuple[str, ...], front: FrontMatter | Unread) -> Cause | None:
    """What is wrong with a page's front matter, or with what was meant as one."""
    if isinstance(front, Unread):
        return cause(front) if _is_meant(front.lines) else None
    if front.settings and front.has_dashes:
        return _swallowed(lines[: front.length]) or _twice(lines[: front.length])
    if not front.has_dashes and {"week", "safe-practice"} & set(front.settings):
        found = say("settings without a line of --- above them")
        return Cause(1, found, say("put a line of --- above and one below them"))
    first = next((number for number, line in enumerate(lines) if line.strip()), None)
    if first is None or not _is_ours(lines[first + 1 : first + 2]):
        return None
    opening = lines[first]
    if opening.rstrip(" \t") == _DASHES:
        if first:
            return Cause(first + 1, say("front matter below a blank line"), say("put --- in the first line"))
        return _unclosed(lines)
    if _LIKE_DASHES.fullmatch(opening):
        found = say(
            "'{dashes}' above settings, where front matter begins with three dashes at the margin",
            dashes=opening.strip(),
        )
        return Cause(first + 1, found, say("write ---, alone in the first line"))
    return None


def _unclosed(lines: tuple[str, ...]) -> Cause:
    """Front matter with no line of dashes below it, or with one that is none, or that holds no settings."""
    closing = next((number for number, line in enumerate(lines) if number and line.rstrip(" \t") in _CLOSING), None)
    if closing is not None and closing == len(lines) - 1:
        found = say("front matter that ends with the last characters of the page")
        return Cause(closing + 1, found, say("put an empty line below it"))
    last = 1
    for number, line in enumerate(lines[1:], start=2):
        if _LIKE_DASHES.fullmatch(line) and line.rstrip(" \t") not in _CLOSING:
            found = say(
                "'{dashes}' below settings, where front matter ends with three dashes at the margin",
                dashes=line.strip(),
            )
            return Cause(number, found, say("write ---"))
        match = _SETTING.match(line)
        if not line.strip() or match is None or not (match["colon"] or _is_ours([line])):
            break
        last = number
    if closing is not None and closing == last:
        found = say("front matter that is no list of settings: {line}", line=lines[1].strip()[:60])
        return Cause(2, found, _with_colon(lines[1]))
    return not_closed(last)


def _swallowed(lines: tuple[str, ...]) -> Cause | None:
    """Front matter that YAML can read, but with a heading in it and text below that."""
    headings = (number for number, line in enumerate(lines) if _HEADING.match(line) and not lines[number - 1])
    heading = next(headings, None)
    if heading is None or all(_is_setting_or_blank(line) for line in lines[heading + 1 :]):
        return None
    last = max(number for number, line in enumerate(lines[:heading]) if line.strip()) + 1
    return not_closed(last)


def _twice(lines: tuple[str, ...]) -> Cause | None:
    """A setting of ours that stands there a second time: YAML takes the last one without a word."""
    seen: dict[str, int] = {}
    for number, line in enumerate(lines, start=1):
        if number > 1 and line.rstrip(" \t") in _CLOSING:
            break
        key, colon, _ = line.partition(":")
        if not colon or key not in LINES:
            continue
        if key in seen:
            found = say(
                "{key}: stands here a second time, and what line {line} says is lost",
                key=key,
                line=seen[key],
            )
            return Cause(number, found, say("keep one of the two"))
        seen[key] = number
    return None


def _is_setting_or_blank(line: str) -> bool:
    match = _SETTING.match(line)
    return not line.strip() or line.strip() in _CLOSING or (match is not None and bool(match["colon"]))


def _with_colon(line: str) -> str:
    match = _SETTING.match(line)
    value = match["rest"].strip(" \t=") if match else ""
    if match is None or not value:
        return say("write lines such as week: 3")
    key = match["key"] if match["key"] in LINES else misspelt(match["key"], LINES)
    return say("write {key}: {value}", key=key, value=value)


def _is_meant(lines: Iterable[str]) -> bool:
    """Are lines between dashes meant as settings, and no text between two rules?"""
    first = next((line for line in lines if line.strip() and not line.lstrip().startswith("#")), "")
    match = _SETTING.match(first)
    return match is not None and (bool(match["colon"]) or _is_ours([first]))


def _is_ours(lines: Iterable[str]) -> bool:
    """Does the first of some lines begin like a setting of ours?"""
    for line in lines:
        match = _SETTING.match(line)
        if match is None or not is_setting(match["key"]):
            return False
        return match["key"] in LINES or misspelt(match["key"], LINES) is not None
    return False
