"""A week's sessions side by side, as a sheet to print: a line for each part, a column for each session."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from wristwork.course.plan import Activity, Session, SessionPart, activity_name
from wristwork.languages.say import say

# What a part is, and which of several of its kind: a break, or an exercise that a break cuts, comes twice.
_Key = tuple[Activity, str | None, int]


@dataclass(frozen=True, slots=True)
class SheetLine:
    """A part of the week's sessions: one entry for each session, None where it is left out of one."""

    parts: tuple[SessionPart | None, ...]

    @property
    def part(self) -> SessionPart:
        """The part as the first session that has it plays it."""
        return next(part for part in self.parts if part is not None)

    @property
    def minutes(self) -> int | None:
        """Its minutes, None where they are not the same in every session."""
        minutes = {part.minutes if part else 0 for part in self.parts}
        return minutes.pop() if len(minutes) == 1 else None


def sheet_lines(week: Sequence[Session]) -> tuple[SheetLine, ...]:
    """The lines of a week's sheet in the order of its sessions; what only a later one has stands where that has it."""
    keyed = [dict(_keyed(session)) for session in week]
    order: list[_Key] = []
    for session in keyed:
        index = 0
        for key in session:
            if key in order:
                index = order.index(key) + 1
            else:
                order.insert(index, key)
                index += 1
    return tuple(SheetLine(tuple(session.get(key) for session in keyed)) for key in order)


@dataclass(frozen=True, slots=True)
class SheetRow:
    """A line in words: ``minutes`` are empty where each session has its own, a cell holds a tempo."""

    minutes: str
    name: str
    cells: tuple[str, ...]


def sheet_rows(week: Sequence[Session]) -> tuple[SheetRow, ...]:
    """The lines of a week's sheet in words."""
    return tuple(map(_row, sheet_lines(week)))


def _row(line: SheetLine) -> SheetRow:
    shown, minutes = line.part, line.minutes
    name = shown.title or "" if shown.activity is Activity.EXERCISE else activity_name(shown.activity)
    cells = tuple(_cell(each, minutes is None) for each in line.parts)
    return SheetRow("" if minutes is None else str(minutes), name, cells)


def _cell(shown: SessionPart | None, with_minutes: bool) -> str:
    """A part in one session: its tempo, after its minutes where they are not the same in all."""
    if shown is None:
        return "–"
    tempo = "" if shown.tempo is None else str(shown.tempo)
    if not with_minutes:
        return tempo
    if not tempo:
        return say("{minutes} min", minutes=shown.minutes)
    return say("{minutes} min at {tempo}", minutes=shown.minutes, tempo=tempo)


def _keyed(session: Session) -> list[tuple[_Key, SessionPart]]:
    seen: dict[tuple[Activity, str | None], int] = {}
    keyed: list[tuple[_Key, SessionPart]] = []
    for part in session.parts:
        what = (part.activity, part.exercise)
        keyed.append(((*what, seen.get(what, 0)), part))
        seen[what] = seen.get(what, 0) + 1
    return keyed
