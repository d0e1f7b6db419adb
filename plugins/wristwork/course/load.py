"""How much a day of practice is: minutes, and strokes for each hand."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from wristwork.course.plan import Session
from wristwork.pattern.model import Side

# Our own cautious setting. Suddenly increased playing load is named as a cause of trouble (Chan & Ackermann,
# Frontiers in Psychology 5:706, 2014), but no source says how much is sudden.
GROWS_AT_MOST = 0.30
# Below these a day is so light that doubling it is no burden. Our own setting too.
MINUTES_FLOOR = 20
STROKES_FLOOR = 2000


@dataclass(frozen=True, slots=True)
class DayLoad:
    """The heaviest day of a week: minutes of the session, and strokes of each hand played without a pause."""

    minutes: int
    right_strokes: int
    left_strokes: int


class Measure(StrEnum):
    """What a load is measured by."""

    MINUTES = "minutes a session"
    RIGHT_STROKES = "strokes of the right hand in a session"
    LEFT_STROKES = "strokes of the left hand in a session"


@dataclass(frozen=True, slots=True)
class Growth:
    """A measure of the load that grew too fast: what it is, and its two values."""

    measure: Measure
    before: int
    after: int

    @property
    def percent(self) -> int:
        return round(100 * (self.after - self.before) / self.before)


def day_load(week: Sequence[Session]) -> DayLoad | None:
    """The load of a week's heaviest session, None where there is no plan."""
    if not week:
        return None
    return DayLoad(
        minutes=max(session.minutes for session in week),
        right_strokes=max(session.strokes(Side.RIGHT) for session in week),
        left_strokes=max(session.strokes(Side.LEFT) for session in week),
    )


def sudden_growth(before: DayLoad, after: DayLoad) -> tuple[Growth, ...]:
    """What grew by more than the limit and is past its floor."""
    measures = (
        (Measure.MINUTES, before.minutes, after.minutes, MINUTES_FLOOR),
        (Measure.RIGHT_STROKES, before.right_strokes, after.right_strokes, STROKES_FLOOR),
        (Measure.LEFT_STROKES, before.left_strokes, after.left_strokes, STROKES_FLOOR),
    )
    return tuple(
        Growth(measure, was, now)
        for measure, was, now, floor in measures
        if was > 0 and now > floor and now > was * (1 + GROWS_AT_MOST)
    )
