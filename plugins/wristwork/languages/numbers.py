"""Numbers and days as the spoken language writes them."""

from __future__ import annotations

import re
from datetime import date
from decimal import Decimal

from babel.dates import format_date, format_skeleton, get_month_names
from babel.numbers import format_decimal

from wristwork.languages.say import spoken


def decimal(value: float, digits: int) -> str:
    """A number with so many digits after its point, which is a comma in most languages."""
    return format_decimal(Decimal(f"{value:.{digits}f}"), f"0.{'0' * digits}", locale=spoken().locale)


def number(value: float) -> str:
    """A number with what digits after its point it has, three at most."""
    return format_decimal(value, "#,##0.###", locale=spoken().locale)


def whole_day(day: date) -> str:
    """``20 January 2027``."""
    return format_date(day, "long", locale=spoken().locale)


def day_of_year(day: date) -> str:
    """``20 January``."""
    return format_skeleton("MMMMd", day, locale=spoken().locale)


def month_of_year(day: date) -> str:
    """``January 2027``."""
    return format_skeleton("yMMMM", day, locale=spoken().locale)


def month_names() -> tuple[tuple[str, ...], ...]:
    """The names of each month: as it stands alone, and as it stands in a day where that is another form."""
    alone, in_days = (get_month_names("wide", context, locale=spoken().locale) for context in ("stand-alone", "format"))
    return tuple((alone[number], in_days[number]) for number in range(1, 13))


def short_day(day: date) -> str:
    """``20 Jan 2027``."""
    if spoken().is_source:
        return f"{day.day} {month_of_year(day)[:3]} {day.year}"  # three letters, where others have four for September
    return format_date(day, "medium", locale=spoken().locale)


def read_whole_day(text: str) -> date | None:
    """The day that :func:`whole_day` writes so; None for anything else."""
    months = get_month_names("wide", locale=spoken().locale)
    days = re.findall(r"(?<!\d)\d{1,2}(?!\d)", text)
    years = re.findall(r"(?<!\d)\d{4}(?!\d)", text)
    named = [number for number, name in months.items() if name.casefold() in text.casefold()]
    if len(days) != 1 or len(years) != 1 or len(named) != 1:
        return None
    try:
        return date(int(years[0]), named[0], int(days[0]))
    except ValueError:
        return None
