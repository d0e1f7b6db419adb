"""A week on one or two pages: the plan to tick, the exercises in short with their codes, room to write."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from wristwork.course.plan import MOVE_UP, Session
from wristwork.course.safety.safe_practice import STOP_RULE
from wristwork.course.week_sheet import sheet_rows
from wristwork.languages.say import say
from wristwork.paper.parts import ROOM_TO_WRITE, Rows, code_for, drawn_pattern, sticking
from wristwork.paper.press import Paper, Press
from wristwork.pattern.model import DiagramRow, Pattern

# Left and right together, and what a code takes of an exercise's line.
_MARGINS, _CODE = 32, 22  # mm
# Diagrams on a week's pages are small: each exercise has a sheet of its own.
_SMALLER = 0.72
_ROWS = (DiagramRow.COUNT, DiagramRow.NOTATION, DiagramRow.STICKING)


@dataclass(frozen=True, slots=True)
class WeekExercise:
    """An exercise of a week, and the address of its own page."""

    pattern: Pattern
    address: str | None = None


@dataclass(frozen=True, slots=True)
class WeekPaper:
    """What a week's pages hold. ``facts`` are short, as in ``21 minutes a session``."""

    name: str
    title: str
    aim: str | None
    facts: tuple[str, ...]
    sessions: Sequence[Session]
    exercises: tuple[WeekExercise, ...]
    address: str | None = None
    show: Rows = None


def week_pdf(press: Press, week: WeekPaper, paper: Paper) -> bytes:
    """The week as a PDF."""
    data = {
        "title": week.title,
        "eyebrow": week.name,
        "aim": week.aim,
        "facts": week.facts,
        "plan": _plan(week.sessions) if week.sessions else None,
        "exercises": [_short(exercise, week.show, paper) for exercise in week.exercises],
        "exercises-words": say("The exercises in short"),
        "code": code_for(week.address),
        "stop": say(STOP_RULE),
        "room-words": say(ROOM_TO_WRITE),
    }
    return press.pdf("week", data, paper)


def _plan(sessions: Sequence[Session]) -> dict[str, Any]:
    rows = sheet_rows(sessions)
    return {
        "sessions": [session.number for session in sessions],
        "minutes-word": say("Minutes"),
        "tempo-words": say("Beats a minute in session"),
        "lines": [{"minutes": row.minutes, "name": row.name, "cells": row.cells} for row in rows],
        "minutes": sessions[0].minutes,
        "in-all": say("minutes in all"),
        "clean": say("Clean and easy?"),
        "rule": say(MOVE_UP),
    }


def _short(exercise: WeekExercise, show: Rows, paper: Paper) -> dict[str, Any]:
    """An exercise in short: the first line of its diagram stands for the rest."""
    pattern = exercise.pattern
    rows = [row for row in _ROWS if row in (pattern.show or show or _ROWS)] or show
    small = replace(pattern, show=None)
    drawn = drawn_pattern(small, paper, paper.room(_MARGINS + _CODE), rows, _SMALLER, most=1)
    return {**drawn, "sticking": sticking(pattern), "code": code_for(exercise.address)}
