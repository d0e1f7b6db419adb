"""Where things stand from top to bottom: one band for each row, the same in every cut of a diagram."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from wristwork.drawing.bar_lines import endings_above
from wristwork.drawing.chart_marks import DYNAMICS_BELOW, TEMPOS_ABOVE, WORDS_ABOVE
from wristwork.drawing.layout import Layout
from wristwork.drawing.marks import MarkHeights, mark_heights
from wristwork.drawing.shape import rest_reach
from wristwork.pattern.model import DiagramRow

COUNT, STICKING, FEET, LANE, NAMES, DRUM_LINE = 19.0, 24.0, 15.0, 51.0, 12.0, 13.0
COUNT_BASE, STICKING_BASE, FEET_BASE, NAMES_BASE = 13.0, 17.0, 32.0, 6.0
CLOSED_LANE = 9.0
"""What parts the names of the two hands where there are no lanes (in the style sheet too)."""
NAMELESS = 8.0
"""What parts a lane's name from the next lane's mark where strokes have no names (in the style sheet too)."""
LANE_HEAD = 42.5
"""The head of the drum, from the top of its lane."""
_MARGIN = 3.0
_GRACE_ABOVE, _SLUR_BENEATH = 20.0, 10.0
_OWN = 15.0  # what a head, a rest or a tie on the middle line takes


@dataclass(frozen=True, slots=True)
class Bands:
    """Heights in CSS pixels of the rows (0 for one that is not drawn), and where the staff's middle line is."""

    count: float
    notation: float
    sticking: float
    lane: float
    names: float
    middle: float
    above: MarkHeights
    below: MarkHeights
    lanes: int
    """How many hands have a lane."""

    @property
    def notation_top(self) -> float:
        """Top of the staff's band."""
        return self.count

    @property
    def sticking_top(self) -> float:
        """Top of the sticking letters' band."""
        return self.count + self.notation

    @property
    def lanes_top(self) -> float:
        """Top of the first hand's lane; the other one's is :attr:`lane_pitch` further down."""
        return self.sticking_top + self.sticking

    @property
    def lane_pitch(self) -> float:
        """From lane to lane."""
        return self.lane + self.names

    @property
    def height(self) -> float:
        """All of them together."""
        return self.lanes_top + self.lanes * self.lane_pitch


def read_bands(layout: Layout) -> Bands:
    """The bands that hold a layout."""
    above, below = mark_heights(layout, True), mark_heights(layout, False)
    top, bottom = _staff_reach(layout, above, below)
    with_hands = layout.score.pattern.hands is not None
    with_names = DiagramRow.NAMES in layout.rows
    lane = LANE if DiagramRow.HEIGHTS in layout.rows else CLOSED_LANE if with_names else 0
    lines = max((label.line + 1 for cut in layout.cuts for found in cut.drums.values() for label in found), default=0)
    lettered_feet = any(cut.foot_letters for cut in layout.cuts)
    notation = DiagramRow.NOTATION in layout.rows
    return Bands(
        COUNT if DiagramRow.COUNT in layout.rows else 0,
        ceil(-top) + ceil(bottom) + 1 if notation else 0,
        STICKING + (FEET if lettered_feet else 0) if DiagramRow.STICKING in layout.rows else 0,
        lane if with_hands else 0,
        (NAMES + DRUM_LINE * lines if with_names else NAMELESS if lane else 0) if with_hands else 0,
        ceil(-top) + 0.5 if notation else 0,
        above,
        below,
        len(layout.lanes),
    )


def _staff_reach(layout: Layout, above: MarkHeights, below: MarkHeights) -> tuple[float, float]:
    """How far the staff reaches above its middle line (negative) and below."""
    heads = [head for cut in layout.cuts for chord in (*cut.hands, *cut.feet) for head in chord.heads]
    graced = [
        layout.staff.y(hit.stroke.on)
        for cut in layout.cuts
        for chord in (*cut.hands, *cut.feet)
        for hit in chord.chord.graces
    ]
    ys = [head.y for head in heads]
    own = _OWN if layout.staff.one_line else layout.staff.bar_reach
    tops = [above.top, below.top, -own, min(ys, default=0) - 6, min(graced, default=0) - _GRACE_ABOVE]
    bottoms = [above.bottom, below.bottom, own, max(ys, default=0) + 6, max(graced, default=0) + _SLUR_BENEATH]
    for cut in layout.cuts:
        for is_hands, voice in ((True, cut.cut.hands), (False, cut.cut.feet)):
            y = layout.staff.rest_y(is_hands)
            tops += [y - rest_reach(rest.piece)[0] for rest in voice.rests]
            bottoms += [y + rest_reach(rest.piece)[1] for rest in voice.rests]
    pattern = layout.score.pattern
    over = (WORDS_ABOVE if pattern.words else 0) + endings_above(pattern)
    over += TEMPOS_ABOVE if pattern.tempos else 0
    under = DYNAMICS_BELOW if pattern.dynamics else 0
    return min(tops) - _MARGIN - over, max(bottoms) + _MARGIN + under
