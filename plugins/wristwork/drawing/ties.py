"""Ties: curves from head to head, cut where the cuts end like the lines of the lanes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from wristwork.drawing.glyphs import SPACE
from wristwork.drawing.heights import Curve, clipped
from wristwork.drawing.noteheads import PlacedChord, PlacedHead
from wristwork.drawing.plan import CutPlan, Plan
from wristwork.drawing.svg import num

_THICK = 1.8
_FROM_HEAD = 5.4
_FLATTEST, _DEEPEST = 4.0, 8.0  # how far the middle of a tie is from its ends


@dataclass(frozen=True, slots=True)
class Tie:
    """From ``start`` to ``end`` on the strip of all cuts, its ends at ``y``; it hangs (1) or stands (-1)."""

    up: bool
    start: float
    end: float
    y: float
    sign: int

    def curve(self, depth: float) -> Curve:
        """An edge of the tie, so deep in its middle."""
        quarter = (self.end - self.start) / 4
        control = self.y + self.sign * depth * 4 / 3
        return (self.start, self.y), (self.start + quarter, control), (self.end - quarter, control), (self.end, self.y)


def read_ties(plan: Plan) -> tuple[Tie, ...]:
    """All ties of a pattern. They curve away from the stems."""
    return tuple(tie for up in (True, False) for tie in _voice_ties(plan, up))


def _voice_ties(plan: Plan, up: bool) -> Iterator[Tie]:
    placed = [
        (offset + cut.column(chord.chord), chord)
        for cut, offset in zip(plan.cuts, plan.offsets, strict=False)
        for chord in (cut.hands if up else cut.feet)
    ]
    for (x, chord), (next_x, follower) in pairwise(placed):
        if chord.chord.ties_on:
            for head, other in zip(chord.heads, follower.heads, strict=True):
                sign = _sign(chord, head, up)
                y = head.y + sign * _FROM_HEAD
                yield Tie(up, x + head.x + _inside(head), next_x + other.x - _inside(other), y, sign)


def _inside(head: PlacedHead) -> float:
    """Ties begin and end a little inside the edge of the head."""
    return 0.5 * head.shape.half_width * SPACE


def _sign(chord: PlacedChord, head: PlacedHead, up: bool) -> int:
    if len(chord.heads) == 1:
        return 1 if up else -1
    return 1 if head is chord.heads[0] else -1


def draw_ties(ties: Sequence[Tie], up: bool, offset: float, cut: CutPlan) -> str:
    """Path data of what there is of one voice's ties in a cut that begins at ``offset`` on the strip."""
    left, right = offset, offset + cut.spacing.width + (0 if cut.is_last else 1)
    return "".join(_draw(tie, left, right) for tie in ties if tie.up is up and tie.start < right and tie.end > left)


def _draw(tie: Tie, left: float, right: float) -> str:
    depth = max(_FLATTEST, min(_DEEPEST, (tie.end - tie.start) / 9))
    (outer,) = clipped([tie.curve(depth)], left, right)
    (inner,) = clipped([tie.curve(depth - _THICK)], left, right)
    there = " ".join(_point(x - left, y) for x, y in outer[1:])
    back = " ".join(_point(x - left, y) for x, y in reversed(inner[:3]))
    return f"M{_point(outer[0][0] - left, outer[0][1])}C{there}L{_point(inner[3][0] - left, inner[3][1])}C{back}z"


def _point(x: float, y: float) -> str:
    return f"{num(x)} {num(y)}"
