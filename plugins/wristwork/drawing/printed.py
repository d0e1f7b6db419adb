"""A diagram on paper: lines as long as can be read from a music stand, each a picture of its own.

A page may end between two lines, and no line is longer than the paper is wide.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from itertools import chain
from typing import NamedTuple

from wristwork.drawing.diagram import Diagram, diagram
from wristwork.drawing.dyeing import in_colours
from wristwork.pattern.model import DiagramRow, Pattern

# Points of paper to a pixel of the drawing: at the smaller one the smallest letters are 8.5 pt, at the larger 13 pt.
SMALLEST, LARGEST = 0.71, 1.08
# On paper all is black, and grey enough for a copier.
_BLACK = {"ink": "#000", "quiet": "#333", "line": "#555", "fill": "#e3e3e3", "accent": "#000"}
_MOST_GROWN = 1.12  # of a line that is a little shorter than the paper is wide


class PrintedLine(NamedTuple):
    """A stand-alone SVG in black, and how many points wide it is to be."""

    svg: str
    width: float


def printed_lines(
    pattern: Pattern,
    room: float,
    show: Collection[DiagramRow] | None = None,
    enlarged: float = 1.0,
    most: int | None = None,
) -> tuple[PrintedLine, ...]:
    """The lines of a pattern's diagram where there are ``room`` points from margin to margin.

    ``enlarged`` is how much larger than usual they are for somebody who reads large print; ``most`` is how many lines
    there may be, from the first on.
    """
    drawn = diagram(pattern, show)
    lines = lines_of(drawn, room, SMALLEST * enlarged)
    scale = min(LARGEST * enlarged, *(room / drawn.line_width(numbers) for numbers in lines))
    with_tempo = DiagramRow.NOTATION in drawn.layout.rows
    return tuple(
        PrintedLine(
            in_colours(drawn.line_svg(numbers, with_tempo and index == 0), _BLACK),
            _width(drawn.line_width(numbers) * scale, room),
        )
        for index, numbers in enumerate(lines[:most])
    )


def _width(natural: float, room: float) -> float:
    return room if natural <= room <= natural * _MOST_GROWN else natural


def lines_of(drawn: Diagram, room: float, smallest: float) -> list[list[int]]:
    """The numbers of the cuts on each line of so much ``room``: one, two, four or all bars, else parts of a bar.

    None is drawn smaller than at the scale ``smallest``.
    """
    longest = room / smallest
    bars = list(_bars(drawn))
    for count in sorted({len(bars), *(size for size in (8, 4, 3, 2, 1) if size < len(bars))}, reverse=True):
        lines = [list(chain(*bars[start : start + count])) for start in range(0, len(bars), count)]
        # No bar is left over on a line of its own below a long one.
        if 0 < len(bars) % count < count / 2:
            continue
        if all(drawn.line_width(line) <= longest for line in lines):
            return lines
    return [line for bar in bars for line in _parts(drawn, bar, longest)]


def _bars(drawn: Diagram) -> Iterator[list[int]]:
    beats = drawn.layout.score.time.beats
    held: list[int] = []
    for number, cut in enumerate(drawn.layout.cuts):
        if held and cut.cut.start % beats == 0:
            yield held
            held = []
        held.append(number)
    yield held


def _parts(drawn: Diagram, bar: Sequence[int], longest: float) -> Iterator[list[int]]:
    """A bar in as few parts as there is room for, each with about as many cuts as the others."""
    for count in range(1, len(bar) + 1):
        size = -(-len(bar) // count)
        parts = [list(bar[start : start + size]) for start in range(0, len(bar), size)]
        if count == len(bar) or all(drawn.line_width(part) <= longest for part in parts):
            yield from parts
            return
