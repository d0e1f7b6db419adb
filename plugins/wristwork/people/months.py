"""A month as a tutor types it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date

from wristwork.days import MONTHS

_NUMBERS = re.compile(r"(?P<year>\d{4})-(?P<month>\d{1,2})")
_WORDS = re.compile(r"(?P<month>[a-z]{3,9})\.?(?:\s+(?P<year>\d{4}))?", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Month:
    """A month of a year."""

    year: int
    number: int

    def holds(self, day: date) -> bool:
        return (day.year, day.month) == (self.year, self.number)

    def __str__(self) -> str:
        return f"{MONTHS[self.number - 1]} {self.year}"


def read_month(typed: str, day: date) -> Month | None:
    """The month of ``2026-09``, ``September 2026``, or ``september``: the last one of that name up to a day."""
    text = typed.strip()
    if numbers := _NUMBERS.fullmatch(text):
        number = int(numbers["month"])
        return Month(int(numbers["year"]), number) if 1 <= number <= len(MONTHS) else None
    words = _WORDS.fullmatch(text)
    named = [at for at, name in enumerate(MONTHS, 1) if words and name.lower().startswith(words["month"].lower())]
    if words is None or len(named) != 1:
        return None
    year = int(words["year"]) if words["year"] else day.year - (named[0] > day.month)
    return Month(year, named[0])
