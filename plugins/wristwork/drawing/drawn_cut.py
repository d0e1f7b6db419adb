"""One cut as SVG: the rows in their bands."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import lru_cache

from wristwork.drawing.bands import (
    COUNT_BASE,
    DRUM_LINE,
    FEET_BASE,
    LANE_HEAD,
    NAMES_BASE,
    STICKING_BASE,
    Bands,
)
from wristwork.drawing.engraving import OVERLAP, engrave
from wristwork.drawing.heights import Curve, Touch, bead_line, clipped, path_data
from wristwork.drawing.labels import HANDS, Label, letter_size
from wristwork.drawing.lettering import LETTER
from wristwork.drawing.plan import CutPlan, PlacedLabel, Plan
from wristwork.drawing.svg import escape, group, num, path
from wristwork.drawing.ties import Tie
from wristwork.pattern.model import Level, Row
from wristwork.technique.strokes import Limb

_TOUCH_CLASS = {Level.ACCENT: ' class="ww-accent"', Level.TAP: "", Level.GHOST: ' class="ww-ghost"'}
_LANES = {limb: f"ww-lane-{limb.split()[0]}" for limb in HANDS}
_escaped = lru_cache(maxsize=256)(escape)  # the same few words stand in all diagrams
_RADIUS = {Level.ACCENT: "4", Level.TAP: "2.8", Level.GHOST: "2.4"}


def draw_cut(plan: Plan, number: int, bands: Bands, beads: Mapping[Limb, Sequence[Curve]], ties: Sequence[Tie]) -> str:
    """The inside of one cut's SVG, its left edge at x 0 and its top at y 0."""
    cut = plan.cuts[number]
    drawn = [group("ww-row-count", _texts(cut.count, COUNT_BASE))] if bands.count else []
    if bands.notation:
        staff = engrave(plan, number, bands.above, bands.below, ties)
        drawn.append(group("ww-row-notation", staff, 0, bands.notation_top + bands.middle))
    if bands.sticking:
        drawn.append(group("ww-row-sticking", _sticking(cut), 0, bands.sticking_top))
    for index, limb in enumerate(HANDS):
        lane = _LANES[limb]
        top = bands.right_top + index * bands.lane_pitch
        if bands.lane and Row.HEIGHTS in plan.rows:
            drawn.append(group(f"ww-row-heights {lane}", _lane(plan, number, limb, beads[limb]), 0, top))
        if bands.names and Row.NAMES in plan.rows:
            drawn.append(group(f"ww-row-names {lane}", _names(cut, limb), 0, top + bands.lane))
    return "".join(drawn)


def bead_lines(plan: Plan) -> dict[Limb, list[Curve]]:
    """The line of each hand over the strip of all cuts."""
    return {limb: _bead_line(plan, limb) for limb in HANDS}


def _bead_line(plan: Plan, limb: Limb) -> list[Curve]:
    touches = [
        Touch(offset + x, level)
        for cut, offset in zip(plan.cuts, plan.offsets, strict=False)
        for x, level, _ in _touches(cut, limb)
    ]
    pattern = plan.score.pattern
    first = touches[0].level if touches else Level.TAP
    # Where more passes follow, the first pass leads to the start of the next; the last stroke of all ends low.
    after = first if pattern.repeat > 1 else Level.TAP
    return bead_line(touches, plan.offsets[-1], first, after, pattern.loop)


def _touches(cut: CutPlan, limb: Limb) -> Iterator[tuple[float, Level, str]]:
    """Where the bead of a hand meets the head in a cut, how loud, and the marks of that stroke."""
    for hit in cut.cut.hands.hits.get(limb, ()):
        yield cut.spacing.x(hit.at) + hit.shift, hit.stroke.level, hit.marks


def _sticking(cut: CutPlan) -> str:
    size = letter_size(cut.cut)
    letters = _texts(cut.sticking, STICKING_BASE)
    if size != LETTER:
        letters = f'<g font-size="{size}">{letters}</g>' if letters else ""
    feet = _texts(cut.foot_letters, FEET_BASE)
    return letters + (f'<g class="ww-feet">{feet}</g>' if feet else "")


def _names(cut: CutPlan, limb: Limb) -> str:
    drums = _texts(cut.drums[limb], NAMES_BASE + DRUM_LINE)
    return _texts(cut.names[limb], NAMES_BASE) + group("ww-drums", drums)


def _texts(row: Sequence[PlacedLabel], y: float) -> str:
    """The texts of a row, those of its first line at ``y``."""
    return "".join(_text(label, x, num(y + DRUM_LINE * line)) for label, x, line in row)


def _text(label: Label, x: float, y: str) -> str:
    css = f' class="{label.css}"' if label.css else ""
    return f'<text{css} x="{x:.5g}" y="{y}"{label.marks}>{_escaped(label.text)}</text>'


def _lane(plan: Plan, number: int, limb: Limb, bead: Sequence[Curve]) -> str:
    cut = plan.cuts[number]
    offset, width = plan.offsets[number], cut.spacing.width
    line = path_data(clipped(bead, offset, offset + width), offset, LANE_HEAD)
    run_on = 0 if cut.is_last else OVERLAP
    run_on_line = f"h{run_on}" if run_on else ""
    area = f"{line}{run_on_line}V{num(LANE_HEAD)}H0z"
    touches = [
        f'<circle{_TOUCH_CLASS[level]} cx="{x:.5g}" cy="{LANE_HEAD}" r="{_RADIUS[level]}"{marks}/>'
        for x, level, marks in _touches(cut, limb)
    ]
    return (
        path(area, ' class="ww-fill"')
        + path(f"M0 {num(LANE_HEAD)}h{width + run_on}", ' class="ww-lines"')
        + path(line + run_on_line, ' class="ww-bead"')
        + "".join(touches)
    )
