"""A page of the course as the course sees it: its front matter, checked."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

import yaml
from mkdocs.utils.meta import get_data

_FRONT_MATTER = re.compile(r"\A\ufeff?---[ \t]*\r?\n(.*?)^(?:---|\.\.\.)[ \t]*$", re.DOTALL | re.MULTILINE)
_HEADING = re.compile(r"^#[ \t]+(?P<words>.+?)[ \t]*#*[ \t]*(?:\{[^}]*\})?[ \t]*$", re.MULTILINE)
_EMPHASIS = re.compile(r"[*_`]+(?=\S)|(?<=\S)[*_`]+")
GRADES = range(1, 11)
LONGEST_SESSION = 24 * 60


@dataclass(frozen=True, slots=True)
class PageProblem:
    """Something wrong in a page's front matter, with its place and remedy."""

    path: str
    line: int
    found: str
    remedy: str

    def __str__(self) -> str:
        return f"{self.path}:{self.line}:1: {self.found}\n    {self.remedy}"


@dataclass(frozen=True, slots=True)
class LessonPage:
    """A Markdown page. ``path`` is how errors name it, ``url`` its address from the site's root.

    ``week``, ``grade``, ``minutes`` (of one session) and ``aim`` are None where the page does not say.
    ``meta`` holds the whole front matter as read.
    """

    src_uri: str
    path: str
    url: str
    title: str
    week: int | None = None
    grade: int | None = None
    minutes: int | None = None
    aim: str | None = None
    meta: Mapping[str, Any] = field(default_factory=dict, compare=False, repr=False)

    @property
    def name(self) -> str:
        """The page in a word or two: ``Week 3``, else its title."""
        return f"Week {self.week}" if self.week is not None else self.title


def read_lesson(src_uri: str, path: str, url: str, text: str) -> tuple[LessonPage, list[PageProblem]]:
    """Read a page's front matter; what is wrong in it is left out of the page and told."""
    problems: list[PageProblem] = []
    body, meta = get_data(text)
    front = _FRONT_MATTER.match(text)
    if front is not None and not meta:
        problems += _unreadable(path, front[1])

    def number(key: str, allowed: range) -> int | None:
        value = meta.get(key)
        if value is None:
            return None
        if isinstance(value, int) and not isinstance(value, bool) and value in allowed:
            return value
        problems.append(
            PageProblem(
                path,
                line_of(key, text),
                f"{key}: expected a whole number from {allowed.start} to {allowed.stop - 1}, found {value!r}",
                f"write it as in {key}: {allowed.start}",
            )
        )
        return None

    lesson = LessonPage(
        src_uri=src_uri,
        path=path,
        url="" if url in (".", "./") else url,
        title=_one_line(meta.get("title")) or _heading(body) or _from_name(src_uri),
        week=number("week", range(1, 1000)),
        grade=number("grade", GRADES),
        minutes=number("minutes", range(1, LONGEST_SESSION + 1)),
        aim=_one_line(meta.get("aim")),
        meta=meta,
    )
    return lesson, problems


def _unreadable(path: str, front: str) -> list[PageProblem]:
    """Front matter that is no YAML mapping: MkDocs would print it into the page without a word."""
    try:
        value = yaml.safe_load(front)
    except yaml.YAMLError as error:
        mark = getattr(error, "problem_mark", None)
        line = mark.line + 2 if mark else 1
        found = f"front matter that cannot be read: {getattr(error, 'problem', None) or 'it is not YAML'}"
        return [PageProblem(path, line, found, "quote a text that holds a colon")]
    if value is None or isinstance(value, dict):
        return []
    return [PageProblem(path, 1, "front matter that is no list of settings", "write lines such as week: 3")]


def line_of(key: str, text: str) -> int:
    """The line of the page on which a key of its front matter stands, 1 where none is found."""
    for number, line in enumerate(text.splitlines(), start=1):
        if line.startswith(f"{key}:"):
            return number
    return 1


def _one_line(value: object) -> str | None:
    return " ".join(str(value).split()) or None if value is not None else None


def _heading(body: str) -> str | None:
    found = _HEADING.search(body)
    return _EMPHASIS.sub("", found["words"]) if found else None


def _from_name(src_uri: str) -> str:
    parts = src_uri.removesuffix(".md").split("/")
    name = parts[-2] if parts[-1] in ("index", "README") and len(parts) > 1 else parts[-1]
    words = name.replace("-", " ").replace("_", " ")
    return words.capitalize() if words.islower() else words
