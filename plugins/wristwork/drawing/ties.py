"""Ties: curves from head to head, in two halves where a cut lies between."""

from __future__ import annotations

from collections.abc import Sequence

from wristwork.drawing.glyphs import SPACE
from wristwork.drawing.noteheads import PlacedChord, PlacedHead
from wristwork.drawing.plan import CutPlan
from wristwork.drawing.shape import Staff
from wristwork.drawing.svg import num

_DEPTH = 5.0
_THICK = 1.7
_FROM_HEAD = 5.6


def draw_ties(cut: CutPlan, placed: Sequence[PlacedChord], up: bool, staff: Staff) -> str:
    """Path data of all ties of one voice that begin, end or pass in a cut. They curve away from the stems."""
    drawn = []
    right_edge = cut.spacing.width
    for index, chord in enumerate(placed):
        x = cut.column(chord.chord)
        if chord.chord.ties_back and index == 0:
            drawn += [_second_half(x + _near(head), *_curve(chord, head, up)) for head in chord.heads]
        if not chord.chord.ties_on:
            continue
        for head in chord.heads:
            start = x - _near(head)
            if index + 1 < len(placed):
                drawn.append(_whole(start, cut.column(placed[index + 1].chord) + _near(head), *_curve(chord, head, up)))
            else:
                drawn.append(_first_half(start, right_edge + 1, *_curve(chord, head, up)))
    over = (cut.cut.hands if up else cut.cut.feet).tied_over
    if over:
        for drum, _ in over.heads:
            sign = 1 if up else -1
            drawn.append(_middle(right_edge + 1, staff.y(drum) + sign * (_FROM_HEAD + _DEPTH), sign))
    return "".join(drawn)


def _near(head: PlacedHead) -> float:
    """Ties begin and end a little inside the edge of the head (from its middle, leftward)."""
    return -0.45 * head.shape.half_width * SPACE


def _curve(chord: PlacedChord, head: PlacedHead, up: bool) -> tuple[float, int]:
    """Height at the head, and 1 for a curve that hangs, -1 for one that stands."""
    hangs = up if len(chord.heads) == 1 else head is chord.heads[0]
    sign = 1 if hangs else -1
    return head.y + sign * _FROM_HEAD, sign


def _whole(start: float, end: float, y: float, sign: int) -> str:
    quarter = (end - start) / 4
    outer, inner = y + sign * _DEPTH * 4 / 3, y + sign * (_DEPTH * 4 / 3 - _THICK * 4 / 3)
    return (
        f"M{num(start)} {num(y)}C{num(start + quarter)} {num(outer)} {num(end - quarter)} {num(outer)} {num(end)} {num(y)}"
        f"C{num(end - quarter)} {num(inner)} {num(start + quarter)} {num(inner)} {num(start)} {num(y)}z"
    )


def _first_half(start: float, edge: float, y: float, sign: int) -> str:
    reach = edge - start
    outer, inner = y + sign * _DEPTH, y + sign * (_DEPTH - _THICK)
    return (
        f"M{num(start)} {num(y)}C{num(start + 0.4 * reach)} {num(outer)} {num(edge - 0.4 * reach)} {num(outer)} "
        f"{num(edge)} {num(outer)}V{num(inner)}C{num(edge - 0.4 * reach)} {num(inner)} {num(start + 0.45 * reach)} "
        f"{num(inner)} {num(start)} {num(y)}z"
    )


def _second_half(end: float, y: float, sign: int) -> str:
    outer, inner = y + sign * _DEPTH, y + sign * (_DEPTH - _THICK)
    return (
        f"M{num(end)} {num(y)}C{num(0.6 * end)} {num(outer)} {num(0.4 * end)} {num(outer)} 0 {num(outer)}"
        f"V{num(inner)}C{num(0.4 * end)} {num(inner)} {num(0.55 * end)} {num(inner)} {num(end)} {num(y)}z"
    )


def _middle(edge: float, outer: float, sign: int) -> str:
    return f"M0 {num(outer)}H{num(edge)}v{num(-sign * _THICK)}H0z"
