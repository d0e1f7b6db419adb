"""Days as people say them, and which day it is."""

from __future__ import annotations

import os
from datetime import UTC, date, datetime

from wristwork.languages.numbers import whole_day

MONTHS = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip
# Seconds since 1970, by which whoever builds something again says what day it was then.
FIXED_DAY = "SOURCE_DATE_EPOCH"


def today() -> date:
    """The day on the clock of this machine, or the one that ``SOURCE_DATE_EPOCH`` fixes."""
    fixed = os.environ.get(FIXED_DAY, "")
    return datetime.fromtimestamp(int(fixed), UTC).date() if fixed.isdecimal() else date.today()


def day_words(day: date) -> str:
    """``20 January 2027``, in the language that is spoken."""
    return whole_day(day)


def read_day(text: str) -> date | None:
    """The day that is written ``2027-01-20``; None for anything else."""
    try:
        return date.fromisoformat(text) if len(text) == len("2027-01-20") else None
    except ValueError:
        return None
