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
look-back: no           # sessions of this week bring nothing back by themselves
opens: 2027-01-25       # not on the site before this day
allow:                  # checks that the tutor knows better than, each with a reason
  steep-rise: The groove is known from the lessons.
  hand-speed flam-tap: For two bars only.
````
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from datetime import date
from typing import Any, TypeVar

from wristwork.course.prose import page_heading
from wristwork.course.safety.exposure import UNPROTECTED, ExposureError, Protection, Surface, read_protection, surface
from wristwork.days import read_day
from wristwork.languages.lists import either
from wristwork.languages.say import marked, say
from wristwork.page.front_matter import FrontMatter, Setting, Shape, shape
from wristwork.page.page import Page
from wristwork.page.problem import FRONT_MATTER, SETTINGS, Problem
from wristwork.page.settings import TEXTS_OF_OTHERS

GRADES = range(1, 11)
DAYS = range(1, 8)
DEFAULT_DAYS = 5
# A session shorter than this has no room for warming up and easing off; a longer one is no single session.
MINUTES = range(5, 241)
WEEKS = range(1, 1000)

# A number for each setting, to show how it is written.
_EXAMPLES = {"week": 3, "grade": 3, "minutes": 25, "days": 5}
_EXPOSURES = {"surface": "practice pad", "protection": "SNR 25"}
_LONGEST_SHOWN = 60

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class _Expected:
    """What is told where a setting does not hold what it should: by what stands there instead.

    A text may be anything that is typed, and checks with reasons are a list of settings: these have no words.
    """

    found_list: str
    found_settings: str = ""
    found_value: str = ""


_TEXT = _Expected(
    marked("{key}: expected a text, found a list"),
    marked("{key}: expected a text, found a list of settings"),
)
_NUMBER = _Expected(
    marked("{key}: expected a whole number from {low} to {high}, found a list"),
    marked("{key}: expected a whole number from {low} to {high}, found a list of settings"),
    marked("{key}: expected a whole number from {low} to {high}, found {found}"),
)
_CHOICE = _Expected(
    marked("{key}: expected {words}, found a list"),
    marked("{key}: expected {words}, found a list of settings"),
    marked("{key}: expected {words}, found {found}"),
)
_DAY = _Expected(
    marked("{key}: expected a day, found a list"),
    marked("{key}: expected a day, found a list of settings"),
    marked("{key}: expected a day, found {found}"),
)
_IDS = _Expected(
    marked("{key}: expected ids of exercises, found a list"),
    marked("{key}: expected ids of exercises, found a list of settings"),
    marked("{key}: expected ids of exercises, found {found}"),
)
_ALLOWANCES = _Expected(
    marked("{key}: expected checks, each with a reason, found a list"),
    found_value=marked("{key}: expected checks, each with a reason, found {found}"),
)


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
    """One week of the course. ``minutes`` are those of one session, ``days`` the number of sessions."""

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
    revises: bool = True
    opens: date | None = None
    allow: tuple[Allowance, ...] = ()
    front: FrontMatter = field(default=FrontMatter(), compare=False, repr=False)

    def line_of(self, key: str) -> int:
        """The line of a key in the page, or of the week's number where the key is not there."""
        return self.front.line(key if key in self.front.settings else "week")


def read_week(page: Page, days: int = DEFAULT_DAYS) -> tuple[Week | None, tuple[Problem, ...]]:
    """The week that a page is, None where it is none; what is wrong in any page's lines is left out and told.

    ``days`` is the course's number of sessions a week, for a page that does not say.
    """
    front = page.front
    if page.problems:
        return None, page.problems
    reader = _SettingsReader(page.path, front, FRONT_MATTER)
    title = reader.text("title")
    reader.choice("look-back", ("yes", "no"))
    grade = reader.number("grade", GRADES)
    reader.choice("standard-text", ("yes", "no"))
    for key in TEXTS_OF_OTHERS:
        reader.text(key)
    if "week" not in front.settings:
        return None, tuple(reader.problems)
    number = reader.number("week", WEEKS)
    if front.value("week") is None:
        reader.tell("week", say("week: without a number"), say("write the week's number, as in week: 3"))
    week = Week(
        path=page.path,
        number=number or 0,
        title=title or page_heading(page) or say("Week {number}", number=number),
        aim=reader.text("aim"),
        grade=grade,
        minutes=reader.number("minutes", MINUTES),
        days=reader.number("days", DAYS) or days,
        again=reader.ids("again"),
        surface=reader.exposure("surface", surface),
        protection=reader.exposure("protection", read_protection) or UNPROTECTED,
        opens=reader.day("opens"),
        revises=front.value("look-back") not in (False, "no"),
        allow=reader.allowances("allow"),
        front=front,
    )
    return (week if number else None), tuple(reader.problems)


def page_title(page: Page) -> str | None:
    """The title in a page's front matter, else its first heading; None where it has neither."""
    return " ".join((page.front.typed("title") or "").split()) or page_heading(page)


def read_allowances(value: object, path: str, line: int) -> tuple[tuple[Allowance, ...], tuple[Problem, ...]]:
    """Allowances from ``allow`` in the course's settings."""
    typed = value if isinstance(value, str) else None
    reader = _SettingsReader(path, FrontMatter({"allow": Setting(value, typed, line)}), SETTINGS)
    return reader.allowances("allow"), tuple(reader.problems)


def allow_line(settings: str) -> int:
    """The line of ``allow`` in the text of the course's settings, 1 where it is not there."""
    lines = settings.splitlines()
    return next((number for number, line in enumerate(lines, start=1) if line.strip().startswith("allow:")), 1)


class _SettingsReader:
    """Takes values out of front matter, each checked, and keeps what is wrong with them."""

    def __init__(self, path: str, front: FrontMatter, kind: str) -> None:
        self._path = path
        self._front = front
        self._kind = kind
        self.problems: list[Problem] = []

    def tell(self, key: str, found: str, remedy: str) -> None:
        self.problems.append(Problem(self._path, self._front.line(key), 0, found, remedy, self._kind))

    def text(self, key: str) -> str | None:
        """A text on one line, as typed."""
        if shape(self._front.value(key)):
            remedy = say('write one text; one that holds brackets in quotes, as in {key}: "Two [2] hands"', key=key)
            self._unexpected(key, _TEXT, remedy)
        return " ".join((self._front.typed(key) or "").split()) or None

    def number(self, key: str, allowed: range) -> int | None:
        value, typed = self._front.value(key), self._front.typed(key)
        if value is None:
            return None
        # As typed, for YAML reads 010 as eight and 08 as no number at all.
        if typed is not None and re.fullmatch(r"[0-9]{1,9}", typed) and int(typed) in allowed:
            return int(typed)
        meant = re.search(r"[0-9]{1,9}", typed or "")
        right = int(meant[0]) if meant and int(meant[0]) in allowed else None
        remedy = (
            say("write {key}: {value}", key=key, value=right)
            if right
            else say("write one of these numbers, as in {key}: {number}", key=key, number=_EXAMPLES[key])
        )
        self._unexpected(key, _NUMBER, remedy, low=allowed.start, high=allowed.stop - 1)
        return None

    def choice(self, key: str, words: tuple[str, ...]) -> None:
        """Yes or no in YAML's words, or one of ``words``; tells only, for the value is read where it is wanted."""
        value = self._front.value(key)
        if value is not None and not isinstance(value, bool) and self._front.typed(key) not in words:
            remedy = say("write {key}: {value}, or leave the line out", key=key, value=words[0])
            self._unexpected(key, _CHOICE, remedy, words=either(words))

    def _unexpected(self, key: str, expected: _Expected, remedy: str, **limits: object) -> None:
        """Tell what was expected and what stands there instead: a value as typed, or a list of some kind."""
        typed = self._front.typed(key)
        if typed is not None:
            shown = typed[:_LONGEST_SHOWN]
            shown = repr(shown) if isinstance(self._front.value(key), str) else shown
            found = say(expected.found_value, key=key, found=shown, **limits)
        elif shape(self._front.value(key)) is Shape.SETTINGS:
            found = say(expected.found_settings, key=key, **limits)
        else:
            found = say(expected.found_list, key=key, **limits)
        self.tell(key, found, remedy)

    def day(self, key: str) -> date | None:
        """A day, written as an ISO date."""
        if self._front.value(key) is None:
            return None
        day = read_day(self._front.typed(key) or "")
        if day is None:
            remedy = say("write the year, the month and the day, as in {key}: 2027-01-25", key=key)
            self._unexpected(key, _DAY, remedy)
        return day

    def ids(self, key: str) -> tuple[str, ...]:
        """Ids as a list, or as one text with commas."""
        value = self._front.value(key)
        names = value.split(",") if isinstance(value, str) else value
        if names is None:
            return ()
        if not isinstance(names, list) or not all(isinstance(name, (str, int)) for name in names):
            self._unexpected(key, _IDS, say("write {key}: [first-id, second-id]", key=key))
            return ()
        return tuple(dict.fromkeys(str(name).strip() for name in names if str(name).strip()))

    def exposure(self, key: str, read: Callable[[str], T]) -> T | None:
        if self._front.value(key) is None:
            return None
        if shape(self._front.value(key)):
            self._unexpected(key, _TEXT, say("write {key}: {value}", key=key, value=_EXPOSURES[key]))
            return None
        try:
            return read(self._front.typed(key) or "")
        except ExposureError as error:
            self.tell(key, str(error), say("or leave the line {key}: out", key=key))
            return None

    def allowances(self, key: str) -> tuple[Allowance, ...]:
        """Checks with reasons, as a mapping or as a list of them."""
        value: Any = self._front.value(key)
        entries = value if isinstance(value, list) else [] if value is None else [value]
        if not all(isinstance(entry, dict) for entry in entries):
            remedy = say("write the check's name, a colon and the reason, as in steep-rise: the reason")
            self._unexpected(key, _ALLOWANCES, remedy)
            return ()
        return tuple(allowance for entry in entries for allowance in self._allowances(entry.items()))

    def _allowances(self, entries: Iterable[tuple[Any, Any]]) -> Iterable[Allowance]:
        line = self._front.line("allow")
        for name, reason in entries:
            check, _, only = str(name).strip().partition(" ")
            if not isinstance(reason, str) or not reason.strip():
                found = say("allow: {check} has no reason", check=name)
                self.tell("allow", found, say("write {check}: and the reason in a sentence", check=name))
                continue
            yield Allowance(check, only.strip() or None, " ".join(reason.split()), self._path, line)
