"""The week as its page's front matter says it.

````yaml
week: 3
title: Paradiddles
aim: One sentence that says what is different on Sunday.
grade: 3                # the tutor's own, beside the one worked out
minutes: 25             # of one session
days: 5                 # sessions in the week
again: [walking-accent] # exercises of earlier weeks that come back
surface: practice pad
protection: SNR 25      # what is worn while practising
allow:                  # checks that the tutor knows better than, each with a reason
  steep-rise: The groove is known from the lessons.
  hand-speed flam-tap: For two bars only.
````
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Any, TypeVar

import yaml

from wristwork.course.safety.exposure import UNPROTECTED, ExposureError, Protection, Surface, read_protection, surface

GRADES = range(1, 11)
DAYS = range(1, 8)
DEFAULT_DAYS = 5
# A session shorter than this has no room for warming up and easing off; a longer one is no single session.
MINUTES = range(5, 241)
WEEKS = range(1, 1000)

_FRONT_MATTER = re.compile(r"\A\ufeff?---[ \t]*\r?\n(?P<yaml>.*?)^(?:---|\.\.\.)[ \t]*\r?$", re.DOTALL | re.MULTILINE)
_HEADING = re.compile(r"^#[ \t]+(?P<words>.+?)[ \t]*#*[ \t]*(?:\{[^}]*\})?[ \t]*$", re.MULTILINE)
_EMPHASIS = re.compile(r"[*_`]+(?=\S)|(?<=\S)[*_`]+")
_Loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class WeekProblem:
    """Something in a page's front matter that cannot be meant, with its place and remedy."""

    path: str
    line: int
    found: str
    remedy: str

    def __str__(self) -> str:
        return f"{self.path}:{self.line}: {self.found}\n    {self.remedy}"


@dataclass(frozen=True, slots=True)
class Allowance:
    """A check that is silenced, and why. ``only`` narrows it to an exercise's id or to ``week N``."""

    check: str
    only: str | None
    reason: str
    path: str
    line: int


@dataclass(frozen=True, slots=True)
class Week:
    """One week of the course. ``minutes`` are those of one session, ``days`` the number of sessions.

    ``lines`` holds the line of each key of the front matter.
    """

    path: str
    number: int
    title: str
    aim: str | None = None
    grade: int | None = None
    minutes: int | None = None
    days: int = DEFAULT_DAYS
    again: tuple[str, ...] = ()
    surface: Surface | None = None
    protection: Protection = UNPROTECTED
    allow: tuple[Allowance, ...] = ()
    lines: Mapping[str, int] = field(default_factory=dict, compare=False, repr=False)

    def line_of(self, key: str) -> int:
        """The line of a key in the page, or of the week's number where the key is not there."""
        return self.lines.get(key, self.lines.get("week", 1))


@dataclass(frozen=True, slots=True)
class FrontMatter:
    """The settings at the head of a page, each with its line; empty where there are none."""

    values: Mapping[str, Any]
    lines: Mapping[str, int]


# Many ask for the same page: what it is called, which week it is, what it says of safe practice.
@lru_cache(maxsize=2048)
def read_front_matter(path: str, text: str) -> tuple[FrontMatter, tuple[WeekProblem, ...]]:
    """The front matter of a page's text, or what keeps it from being read."""
    found = _FRONT_MATTER.match(text)
    if found is None:
        return FrontMatter({}, {}), ()
    try:
        loader = _Loader(found["yaml"])
        node = loader.get_single_node()
        values = loader.construct_document(node) if node is not None else {}
    except yaml.YAMLError as error:
        mark = getattr(error, "problem_mark", None)
        reason = getattr(error, "problem", None) or "it is not YAML"
        problem = WeekProblem(
            path,
            mark.line + 2 if mark else 1,
            f"front matter that cannot be read: {reason}",
            "put a text that holds a colon in quotes",
        )
        return FrontMatter({}, {}), (problem,)
    if not isinstance(values, dict):
        problem = WeekProblem(path, 1, "front matter that is no list of settings", "write lines such as week: 3")
        return FrontMatter({}, {}), (problem,)
    # The text begins after the line of dashes, and YAML counts from 0.
    lines = {str(key.value): key.start_mark.line + 2 for key, _ in node.value} if node is not None else {}
    return FrontMatter({str(key): value for key, value in values.items()}, lines), ()


def read_week(path: str, text: str, days: int = DEFAULT_DAYS) -> tuple[Week | None, tuple[WeekProblem, ...]]:
    """The week that a page is, None where it is none; what is wrong is left out and told.

    ``days`` is the course's number of sessions a week, for a page that does not say.
    """
    front, problems = read_front_matter(path, text)
    if "week" not in front.values:
        return None, problems
    reader = _Reader(path, front)
    number = reader.number("week", WEEKS)
    week = Week(
        path=path,
        number=number or 0,
        title=reader.text("title") or page_heading(text) or f"Week {number}",
        aim=reader.text("aim"),
        grade=reader.number("grade", GRADES),
        minutes=reader.number("minutes", MINUTES),
        days=reader.number("days", DAYS) or days,
        again=reader.ids("again"),
        surface=reader.exposure("surface", surface),
        protection=reader.exposure("protection", read_protection) or UNPROTECTED,
        allow=reader.allowances("allow"),
        lines=front.lines,
    )
    return (week if number else None), (*problems, *reader.problems)


def page_heading(text: str) -> str | None:
    """The words of a page's first heading of the first level, without marks of emphasis; None where it has none."""
    front = _FRONT_MATTER.match(text)  # in which # begins a comment
    found = _HEADING.search(text, front.end() if front else 0)
    return _EMPHASIS.sub("", found["words"]) if found else None


def read_allowances(value: object, path: str, line: int) -> tuple[tuple[Allowance, ...], tuple[WeekProblem, ...]]:
    """Allowances from ``allow`` in the course's settings."""
    reader = _Reader(path, FrontMatter({"allow": value}, {"allow": line}))
    return reader.allowances("allow"), tuple(reader.problems)


def allow_line(settings: str) -> int:
    """The line of ``allow`` in the text of the course's settings, 1 where it is not there."""
    lines = settings.splitlines()
    return next((number for number, line in enumerate(lines, start=1) if line.strip().startswith("allow:")), 1)


class _Reader:
    """Takes values out of front matter, each checked, and keeps what is wrong with them."""

    def __init__(self, path: str, front: FrontMatter) -> None:
        self._path = path
        self._front = front
        self.problems: list[WeekProblem] = []

    def _tell(self, key: str, found: str, remedy: str) -> None:
        self.problems.append(WeekProblem(self._path, self._front.lines.get(key, 1), found, remedy))

    def text(self, key: str) -> str | None:
        """A text on one line."""
        value = self._front.values.get(key)
        return " ".join(str(value).split()) or None if value is not None else None

    def number(self, key: str, allowed: range) -> int | None:
        value = self._front.values.get(key)
        if value is None:
            return None
        if isinstance(value, int) and not isinstance(value, bool) and value in allowed:
            return value
        limits = f"{allowed.start} to {allowed.stop - 1}"
        self._tell(key, f"{key}: expected a whole number from {limits}, found {value!r}", f"write it as in {key}: 6")
        return None

    def ids(self, key: str) -> tuple[str, ...]:
        """Ids as a list, or as one text with commas."""
        value = self._front.values.get(key)
        names = value.split(",") if isinstance(value, str) else value
        if names is None:
            return ()
        if not isinstance(names, list):
            self._tell(key, f"{key}: expected ids of exercises, found {value!r}", f"write {key}: [first-id, second-id]")
            return ()
        return tuple(dict.fromkeys(str(name).strip() for name in names if str(name).strip()))

    def exposure(self, key: str, read: Callable[[str], T]) -> T | None:
        value = self._front.values.get(key)
        if value is None:
            return None
        try:
            return read(str(value))
        except ExposureError as error:
            self._tell(key, str(error), f"or leave the line {key}: out")
            return None

    def allowances(self, key: str) -> tuple[Allowance, ...]:
        """Checks with reasons, as a mapping or as a list of them."""
        value = self._front.values.get(key)
        entries = value if isinstance(value, list) else [] if value is None else [value]
        if not all(isinstance(entry, dict) for entry in entries):
            remedy = "write the check's name, a colon and the reason, as in steep-rise: the reason"
            self._tell(key, f"{key}: expected checks, each with a reason, found {value!r}", remedy)
            return ()
        return tuple(allowance for entry in entries for allowance in self._allowances(entry.items()))

    def _allowances(self, entries: Iterable[tuple[Any, Any]]) -> Iterable[Allowance]:
        line = self._front.lines.get("allow", 1)
        for name, reason in entries:
            check, _, only = str(name).strip().partition(" ")
            if not isinstance(reason, str) or not reason.strip():
                self._tell("allow", f"allow: {name} has no reason", f"write {name}: and the reason in a sentence")
                continue
            yield Allowance(check, only.strip() or None, " ".join(reason.split()), self._path, line)
