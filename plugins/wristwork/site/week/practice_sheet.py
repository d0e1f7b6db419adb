"""The practice card on paper: the whole week as one table, with a box to tick below each session."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape

from wristwork.course.plan import Activity, Part, Session
from wristwork.course.week_sheet import SheetLine, sheet_lines
from wristwork.pattern.model import Side
from wristwork.site.figure.demand_details import side_marked


def week_sheet(week: Sequence[Session]) -> str:
    """The table; on a screen it is hidden, for there the card shows one session after the other."""
    heads = "".join(f'<th scope="col">{session.number}</th>' for session in week)
    lines = "".join(map(_line, sheet_lines(week)))
    strokes = "".join(_strokes(side, week) for side in Side if any(session.strokes(side) for session in week))
    boxes = "<td><i></i></td>" * len(week)
    return (
        '<table class="ww-sheet"><thead><tr><th scope="col">Minutes</th><th scope="col">Beats a minute in session</th>'
        f"{heads}</tr></thead><tbody>{lines}</tbody>"
        f'<tfoot><tr><td>{week[0].minutes}</td><th scope="row">minutes in all</th><td colspan="{len(week)}"></td></tr>'
        f'{strokes}<tr class="ww-ticks"><td></td><th scope="row">Clean and easy?</th>{boxes}</tr></tfoot></table>'
    )


def _line(line: SheetLine) -> str:
    part, minutes = line.part, line.minutes
    title = escape(part.title or "") if part.activity is Activity.EXERCISE else part.activity.value.capitalize()
    cells = "".join(f"<td>{_cell(each, minutes is None)}</td>" for each in line.parts)
    return f'<tr><td>{"" if minutes is None else minutes}</td><th scope="row"><bdi>{title}</bdi></th>{cells}</tr>'


def _cell(part: Part | None, with_minutes: bool) -> str:
    """A part in one session: its tempo, after its minutes where they are not the same in all."""
    if part is None:
        return "–"
    tempo = "" if part.tempo is None else str(part.tempo)
    minutes = f"{part.minutes} min" if with_minutes else ""
    return f"{minutes} {f'at {tempo}' if with_minutes and tempo else tempo}".strip()


def _strokes(side: Side, week: Sequence[Session]) -> str:
    counts = "".join(f"<td>{session.strokes(side):,}</td>" for session in week)
    return f'<tr><td></td><th scope="row">strokes, {side_marked(f"{side.value} hand")}</th>{counts}</tr>'
