"""The diagram of a link-preview card: whole bars, as many as can be read where the card is shown small."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import replace
from typing import NamedTuple

from wristwork.drawing.diagram import Diagram, diagram
from wristwork.pattern.model import DiagramRow, Pattern

ROOM = (1072.0, 356.0)
"""Pixels that a card has for it."""
_ROWS = (DiagramRow.NOTATION, DiagramRow.STICKING, DiagramRow.HEIGHTS)
_READABLE = 1.45  # of its natural size; a chat shows a card at a third of its own


class CardDiagram(NamedTuple):
    """A stand-alone SVG, and how many of the pattern's bars it shows."""

    svg: str
    bars: int


def card_diagram(pattern: Pattern, show: Collection[DiagramRow] | None = None) -> CardDiagram:
    """Draw a pattern for its card, with the rows of ``show`` that a card has room for."""
    wanted = pattern.show or show or _ROWS
    rows = tuple(row for row in _ROWS if row in wanted) or tuple(wanted)
    drawn = diagram(replace(pattern, show=rows))
    _, bars, width_beats = _best(drawn, pattern)
    return CardDiagram(drawn.svg(width_beats, bars, with_tempo=False), bars)


def _best(drawn: Diagram, pattern: Pattern) -> tuple[float, int, int]:
    """Scale, bars and beats to a line: the most bars that can be read, else as few as there are."""
    largest = (0.0, 1, pattern.time.beats)
    for bars in _fewer_and_fewer(pattern.full_bars):
        layouts = [(_scale(drawn, bars, line), bars, line) for line in _line_lengths(bars, pattern.time.beats)]
        largest = max(layouts)
        if largest[0] >= _READABLE:
            break
    return largest


def _fewer_and_fewer(bars: int) -> Iterator[int]:
    """All bars, then the first half of them, and so on to the first one."""
    while bars > 1:
        yield bars
        bars = (bars + 1) // 2
    yield 1


def _line_lengths(bars: int, beats: int) -> Iterator[int]:
    """Beats to a line: one bar, two, four, all of them."""
    yield from sorted({min(bars, count) * beats for count in (1, 2, 4, bars)})


def _scale(drawn: Diagram, bars: int, width_beats: int) -> float:
    """How large a layout is drawn when it fills the card's room."""
    width, height = drawn.size(width_beats, bars, with_tempo=False)
    return min(ROOM[0] / width, ROOM[1] / height)
