"""A student's file: plain lines that a tutor can type, and notes below them.

::

    name: Jo
    week: 3
    level: 4
    hand: left
    surface: practice pad

    Whatever else stands here is the tutor's own.

    2026-09-14 sent week 3: slow-singles 60 to 72 for 5 minutes

Lines of three dashes may stand around the first ones, a # begins a remark.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import PurePath

from wristwork.course.safety.exposure import SURFACES, ExposureError, surface
from wristwork.course.weeks import GRADES, WEEKS
from wristwork.languages.catalogues import known_languages, language
from wristwork.languages.lists import both
from wristwork.languages.say import marked, say
from wristwork.page.problem import PAGE, Excerpt, Problem
from wristwork.people.notes import HEARD, SENT, Note, read_note
from wristwork.wording import misspelt

NAME, WEEK, LEVEL, HAND, SURFACE = "name", "week", "level", "hand", "surface"
KEYS = (NAME, WEEK, LEVEL, HAND, SURFACE)
HANDS = ("right", "left")
# Stands in every new file, in the language of the course.
HINT = marked("# Words of your own may stand anywhere. What is sent and heard comes below, a line each.")

_SETTING = re.compile(r"[ \t]*(?P<key>[A-Za-z]+)[ \t]*:[ \t]*(?P<value>.*?)[ \t]*")
# What no notes on a student are without; few pages have it, and to know the hint in every language takes long.
_NAMED = re.compile(rf"(?:\A\ufeff?|[\r\n])[ \t]*{NAME}[ \t]*:", re.IGNORECASE)
_NOTED = re.compile(rf"^[ \t]*(?:[-*+][ \t]+)?\d{{4}}-\d\d-\d\d (?:{SENT}|{HEARD}) week \d", re.MULTILINE)
_LINE_END = re.compile(r"\r\n?|\n")


@dataclass(frozen=True, slots=True)
class Student:
    """What a student's file says. ``key`` is the file's name without its ending; ``level`` a grade, 1 to 10.

    ``problems`` say what in it cannot be read.
    """

    key: str
    name: str
    week: int | None = None
    level: int | None = None
    hand: str | None = None
    surface: str | None = None
    notes: tuple[Note, ...] = ()
    problems: tuple[Problem, ...] = ()

    def of(self, verb: str) -> tuple[Note, ...]:
        """The notes of one kind, oldest first."""
        return tuple(sorted((note for note in self.notes if note.verb == verb), key=lambda note: note.day))

    @property
    def last_sent(self) -> Note | None:
        return next(reversed(self.of(SENT)), None)

    @property
    def last_heard(self) -> Note | None:
        return next(reversed(self.of(HEARD)), None)

    @property
    def clean(self) -> Mapping[str, int]:
        """The tempo at which each exercise was clean when it was last heard of, by id."""
        rows = (row for note in self.of(HEARD) for row in note.rows)
        return {row.id: tempo for row in rows if (tempo := row.latest or row.best) is not None}


def read_student(path: str, text: str) -> Student:
    """The student that a file's text tells of; ``path`` names it in problems."""
    lines = _LINE_END.split(text.removeprefix("\ufeff"))
    head = _head_length(lines)
    reader = _Reader(path)
    for number, line in enumerate(lines[:head], start=1):
        reader.setting(number, line)
    for number, line in enumerate(lines[head:], start=head + 1):
        reader.note(number, line)
    said = reader.values
    key = PurePath(path).stem
    return Student(
        key=key,
        name=said.get(NAME) or key,
        week=int(said[WEEK]) if WEEK in said else None,
        level=int(said[LEVEL]) if LEVEL in said else None,
        hand=said.get(HAND),
        surface=said.get(SURFACE),
        notes=tuple(reader.notes),
        problems=tuple(reader.problems),
    )


def is_student_file(text: str) -> bool:
    """Does a text read as notes on a student: a name at its head, and something sent or heard, or our hint, below?"""
    if _NAMED.search(text) is None:
        return False
    is_noted = _NOTED.search(text) is not None or any(hint in text for hint in (*_hints(), say(HINT)))
    return is_noted and bool(read_student("", text).name)


@cache
def _hints() -> frozenset[str]:
    """The hint in every language: a course may speak another one by now."""
    return frozenset(language(code).words.gettext(HINT) for code in known_languages())


def _head_length(lines: list[str]) -> int:
    """How many lines come before the first blank one below a setting, or before the first note."""
    has_setting = False
    for number, line in enumerate(lines):
        if read_note(line) is not None or (has_setting and not line.strip()):
            return number
        has_setting = has_setting or _SETTING.fullmatch(line) is not None
    return len(lines)


class _Reader:
    """Takes lines one by one, and keeps what they say and what is wrong with them."""

    def __init__(self, path: str) -> None:
        self._path = path
        self.values: dict[str, str] = {}
        self.notes: list[Note] = []
        self.problems: list[Problem] = []

    def setting(self, number: int, line: str) -> None:
        found = _SETTING.fullmatch(line)
        if found is None:
            return  # dashes, a remark, a heading, words of the tutor's own
        key, value = found["key"].lower(), _unquoted(found["value"])
        if key not in KEYS:
            near = misspelt(key, KEYS)
            if near:
                self._tell(number, line, f"'{found['key']}:'", say("write {key}:", key=near))
            return
        if key in self.values:
            self._tell(number, line, say("{key}: stands here a second time", key=key), say("keep one of the two"))
            return
        if not value:
            return
        wrong = _wrong(key, value)
        if wrong:
            self._tell(number, line, f"{key}: {value}", wrong)
            return
        self.values[key] = value.lower() if key == HAND else value

    def note(self, number: int, line: str) -> None:
        note = read_note(line)
        if isinstance(note, Note):
            self.notes.append(note)
        elif note is not None:
            self._tell(number, line, *note)

    def _tell(self, number: int, line: str, found: str, remedy: str) -> None:
        self.problems.append(Problem(self._path, number, 0, found, remedy, PAGE, excerpt=Excerpt(line, 0)))


def _unquoted(value: str) -> str:
    is_quoted = len(value) > 1 and value[0] == value[-1] and value[0] in "\"'"
    return value[1:-1].strip() if is_quoted else value


def _wrong(key: str, value: str) -> str | None:
    """What to write instead of a value; None where it is right."""
    if key == HAND and value.lower() not in HANDS:
        return say("write the hand that leads: right or left")
    if key in (WEEK, LEVEL):
        allowed = WEEKS if key == WEEK else GRADES
        if not (value.isdecimal() and value.isascii() and int(value) in allowed):
            if key == WEEK:
                return say("write the number of a week, as in week: 3")
            return say("write a grade from 1 to 10, as in level: 3")
    if key == SURFACE:
        try:
            surface(value)
        except ExposureError:
            return say("write one of these: {names}", names=both(say(each.name) for each in SURFACES))
    return None
