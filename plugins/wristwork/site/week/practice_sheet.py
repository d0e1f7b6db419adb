"""The practice card on paper: the whole week as one table, with a box to tick below each session."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from wristwork.course.plan import Activity, Session, SessionPart
from wristwork.course.week_sheet import SheetLine, sheet_lines
from wristwork.pattern.model import Side
from wristwork.site.figure.demand_details import side_marked
from wristwork.site.templating import markup


@dataclass(frozen=True, slots=True)
class _SheetRow:
    """A line of the table: minutes are empty where each session has its own."""

    minutes: str
    name: str
    cells: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Strokes:
    """One hand's strokes, session by session."""

    hand: Markup
    counts: tuple[str, ...]


def week_sheet(week: Sequence[Session]) -> Markup:
    """The table; on a screen it is hidden, for there the card shows one session after the other."""
    strokes = tuple(_strokes(side, week) for side in Side if any(session.strokes(side) for session in week))
    return markup(
        "week/practice_sheet.html", sessions=week, lines=tuple(map(_line, sheet_lines(week))), strokes=strokes
    )


def _line(line: SheetLine) -> _SheetRow:
    shown, minutes = line.part, line.minutes
    name = shown.title or "" if shown.activity is Activity.EXERCISE else shown.activity.value.capitalize()
    cells = tuple(_cell(each, minutes is None) for each in line.parts)
    return _SheetRow("" if minutes is None else str(minutes), name, cells)


def _cell(shown: SessionPart | None, with_minutes: bool) -> str:
    """A part in one session: its tempo, after its minutes where they are not the same in all."""
    if shown is None:
        return "–"
    tempo = "" if shown.tempo is None else str(shown.tempo)
    minutes = f"{shown.minutes} min" if with_minutes else ""
    return f"{minutes} {f'at {tempo}' if with_minutes and tempo else tempo}".strip()


def _strokes(side: Side, week: Sequence[Session]) -> _Strokes:
    counts = tuple(f"{session.strokes(side):,}" for session in week)
    return _Strokes(side_marked(f"{side.value} hand"), counts)
