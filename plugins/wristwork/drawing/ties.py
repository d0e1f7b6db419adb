"""Ties: curves from head to head, cut where the cuts end like the lines of the lanes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from wristwork.drawing.glyphs import SPACE
from wristwork.drawing.heights import Curve, clipped
from wristwork.drawing.layout import CutLayout, Layout
from wristwork.drawing.noteheads import PlacedChord, PlacedHead
from wristwork.drawing.svg import num

_THICK = 1.8
_FROM_HEAD = 5.4
_FROM_STEM = 2.0
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


def read_ties(layout: Layout) -> tuple[Tie, ...]:
    """All ties of a pattern: away from the stems, but away from the other voice where there are two."""
    return tuple(tie for up in (True, False) for tie in _voice_ties(layout, up))


def _voice_ties(layout: Layout, up: bool) -> Iterator[Tie]:
    placed = [
        (offset + cut.column(chord.chord), chord)
        for cut, offset in zip(layout.cuts, layout.offsets, strict=False)
        for chord in (cut.hands if up else cut.feet)
    ]
    for (x, chord), (next_x, follower) in pairwise(placed):
        # Where bars as before have a sign, what comes next is no continuation.
        if chord.chord.ties_on and follower.chord.piece.at == chord.chord.piece.end:
            for head, other in zip(chord.heads, follower.heads, strict=True):
                sign = _sign(chord, head, up, layout.staff.two_voices)
                y = head.y + sign * _FROM_HEAD
                start = x + head.x + _inside(head)
                if sign == (-1 if up else 1) and chord.has_stem:
                    start = max(start, x + chord.stem + _FROM_STEM)
                yield Tie(up, start, next_x + other.x - _inside(other), y, sign)


def _inside(head: PlacedHead) -> float:
    """Ties begin and end a little inside the edge of the head."""
    return 0.5 * head.shape.half_width * SPACE


def _sign(chord: PlacedChord, head: PlacedHead, up: bool, two_voices: bool) -> int:
    if len(chord.heads) == 1:
        return 1 if up is not two_voices else -1
    return 1 if head is chord.heads[0] else -1


def draw_ties(ties: Sequence[Tie], up: bool, offset: float, cut: CutLayout) -> str:
    """Path data of what there is of one voice's ties in a cut that begins at ``offset`` on the strip."""
    left, right = offset, offset + cut.spacing.width + (0 if cut.is_last else 1)
    return "".join(_draw(tie, left, right) for tie in ties if tie.up is up and tie.start < right and tie.end > left)


def _draw(tie: Tie, left: float, right: float) -> str:
    depth = max(_FLATTEST, min(_DEEPEST, (tie.end - tie.start) / 9))
    depths = (depth - _THICK, depth) if tie.sign > 0 else (depth, depth - _THICK)  # so that it runs clockwise
    upper, lower = (clipped([tie.curve(each)], left, right)[0] for each in depths)
    there = " ".join(_point(x - left, y) for x, y in upper[1:])
    back = " ".join(_point(x - left, y) for x, y in reversed(lower[:3]))
    return f"M{_point(upper[0][0] - left, upper[0][1])}C{there}L{_point(lower[3][0] - left, lower[3][1])}C{back}z"


def _point(x: float, y: float) -> str:
    return f"{num(x)} {num(y)}"
