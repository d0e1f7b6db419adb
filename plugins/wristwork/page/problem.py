"""What is wrong in a course, said so that a tutor can find and mend it: one record for all who read it."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass

from wristwork.languages.say import say

# What a problem can be about, beside the names of the checks on the whole course.
PATTERN, ADDRESS, FRONT_MATTER = "pattern", "address", "front-matter"
SETTINGS, PAGE, MARK, SOUND = "settings", "page", "mark", "sound"
# Nothing here can be allowed: it cannot be read, or would be lost.
KINDS = (PAGE, FRONT_MATTER, MARK, PATTERN, SETTINGS, SOUND, ADDRESS)

_LONGEST_LINE = 100
# Categories of characters that act on a terminal, and the marks that set the direction of writing.
_ACTING = ("Cc", "Cs", "Zl", "Zp")
_TURNING = "\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"


@dataclass(frozen=True, slots=True)
class Excerpt:
    """The line of a page that a problem is in: its text, and the index of the place in it (from 0)."""

    text: str
    index: int

    @property
    def shown(self) -> tuple[str, str]:
        """The line as shown, and the blanks that bring a caret under the place."""
        index = max(0, min(self.index, len(self.text)))
        first = max(0, index - _LONGEST_LINE // 2) if len(self.text) > _LONGEST_LINE else 0
        last = first + _LONGEST_LINE
        before, after = ("…" if first else ""), ("…" if last < len(self.text) else "")
        lead = before + _blank(self.text[first:index])
        return before + _blank(self.text[first:last]) + after, " " * sum(_width(char) for char in lead)


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing that is wrong, with its place and its remedy.

    ``line`` and ``column`` count from 1 and are 0 where there is none to name. ``found`` says what is wrong,
    ``remedy`` what to write instead. ``kind`` is one of :data:`KINDS` or the name of a check; ``subject`` what it is
    in (``pattern 'flam-tap'``), ``exercise`` the id or title of that. ``allowed`` is the tutor's reason where a check
    is silenced here.
    """

    path: str
    line: int
    column: int
    found: str
    remedy: str
    kind: str
    subject: str | None = None
    exercise: str | None = None
    excerpt: Excerpt | None = None
    allowed: str | None = None

    @property
    def where(self) -> str:
        numbers = [str(number) for number in (self.line, self.column) if number]
        return printable(":".join([self.path, *numbers]))

    @property
    def headline(self) -> str:
        """The problem in one line."""
        subject = f"{self.subject}: " if self.subject else ""
        return f"{self.where}: {printable(subject + self.found)}{self.label}"

    @property
    def label(self) -> str:
        """The name of the check in brackets, for whoever wants to allow it."""
        return "" if self.kind in KINDS else f" [{self.kind}]"

    def __str__(self) -> str:
        if self.allowed is not None:
            allowed = say("allowed: {reason}", reason=printable(self.allowed))
            return f"{self.headline}\n    {allowed}"
        if self.excerpt is None:
            return f"{self.headline}\n    {printable(self.remedy)}"
        shown, lead = self.excerpt.shown
        return f"{self.headline}\n    {shown}\n    {lead}^ {printable(self.remedy)}"


def open_problems(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """Those that nobody has allowed."""
    return tuple(problem for problem in problems if problem.allowed is None)


def printable(text: str) -> str:
    """Text in which whatever could move a terminal's cursor, or turn what follows, shows as its number."""
    return text if text.isprintable() else "".join(map(_as_number, text))


def _as_number(char: str) -> str:
    if unicodedata.category(char) not in _ACTING and char not in _TURNING:
        return char
    return f"\\x{ord(char):02x}" if ord(char) < 0x100 else f"\\u{ord(char):04x}"


def _blank(text: str) -> str:
    """Text with whatever could move the caret or the terminal's cursor shown as one blank."""
    return "".join(" " if unicodedata.category(char) in (*_ACTING, "Cf") else char for char in text)


def _width(char: str) -> int:
    if unicodedata.combining(char):
        return 0
    return 2 if unicodedata.east_asian_width(char) in "WF" else 1
