"""The practice card on paper: the whole week as one table, with a box to tick below each session."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from wristwork.course.plan import Session
from wristwork.course.week_sheet import sheet_rows
from wristwork.languages.numbers import number
from wristwork.pattern.model import Side
from wristwork.site.figure.demand_details import hand_words
from wristwork.site.templating import markup


@dataclass(frozen=True, slots=True)
class _Strokes:
    """One hand's strokes, session by session."""

    hand: Markup
    counts: tuple[str, ...]


def week_sheet(week: Sequence[Session]) -> Markup:
    """The table; on a screen it is hidden, for there the card shows one session after the other."""
    strokes = tuple(_strokes(side, week) for side in Side if any(session.strokes(side) for session in week))
    return markup("week/practice_sheet.html", sessions=week, lines=sheet_rows(week), strokes=strokes)


def _strokes(side: Side, week: Sequence[Session]) -> _Strokes:
    counts = tuple(number(session.strokes(side)) for session in week)
    return _Strokes(hand_words(side), counts)
