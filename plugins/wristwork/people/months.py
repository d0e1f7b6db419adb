"""A month as a tutor types it."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from wristwork.days import MONTHS
from wristwork.languages.numbers import month_names, month_of_year

_NUMBERS = re.compile(r"(?P<year>\d{4})-(?P<month>\d{1,2})")
_WORDS = re.compile(r"(?P<month>[^\W\d_]{3,})\.?(?:\s+(?P<year>\d{4}))?")


@dataclass(frozen=True, slots=True)
class Month:
    """A month of a year."""

    year: int
    number: int

    def holds(self, day: date) -> bool:
        return (day.year, day.month) == (self.year, self.number)

    def __str__(self) -> str:
        return month_of_year(date(self.year, self.number, 1))


def read_month(typed: str, day: date) -> Month | None:
    """The month of ``2026-09``, ``September 2026``, or ``september``: the last one of that name up to a day.

    Names are those of the spoken language, or English.
    """
    text = typed.strip()
    if numbers := _NUMBERS.fullmatch(text):
        number = int(numbers["month"])
        return Month(int(numbers["year"]), number) if 1 <= number <= len(MONTHS) else None
    words = _WORDS.fullmatch(text)
    named = _named(words["month"]) if words else None
    if words is None or named is None:
        return None
    year = int(words["year"]) if words["year"] else day.year - (named > day.month)
    return Month(year, named)


def _named(typed: str) -> int | None:
    """The one month whose name begins so, in the spoken language or in English."""
    begun = typed.casefold()
    english = ((name,) for name in MONTHS)
    for months in (month_names(), english):
        found = [number for number, names in enumerate(months, 1) if _begins(names, begun)]
        if found:
            return found[0] if len(found) == 1 else None
    return None


def _begins(names: Iterable[str], begun: str) -> bool:
    return any(name.casefold().startswith(begun) for name in names)
