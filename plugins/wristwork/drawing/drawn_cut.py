"""One cut as SVG: the rows in their bands."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Mapping, Sequence
from fractions import Fraction
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
from wristwork.drawing.bar_lines import draw_endings, endings_above
from wristwork.drawing.chart_marks import (
    TEMPOS_ABOVE,
    draw_dynamics,
    draw_hairpin,
    draw_words,
    dynamics_in,
    hairpins,
    laid_words,
    tempos_in,
)
from wristwork.drawing.engraving import OVERLAP, engrave
from wristwork.drawing.heights import Curve, Touch, bead_line, clipped, path_data
from wristwork.drawing.labels import HANDS, Label, letter_size
from wristwork.drawing.layout import CutLayout, Layout
from wristwork.drawing.lettering import BEAT, LETTER, width
from wristwork.drawing.naming import PlacedLabel
from wristwork.drawing.svg import escape, group, num, path
from wristwork.drawing.ties import Tie
from wristwork.pattern.model import DiagramRow, Hairpin, Level
from wristwork.technique.strokes import Height, Kind, Limb, Stroke

_TEMPO_BEFORE = 4.0  # from the left edge of a tempo to the column where it begins
_TOUCH_CLASS = {Level.ACCENT: ' class="ww-accent"', Level.TAP: "", Level.GHOST: ' class="ww-ghost"'}
_LANES = {limb: f"ww-lane-{limb.split()[0]}" for limb in HANDS}
_escaped = lru_cache(maxsize=256)(escape)  # the same few words stand in all diagrams
_RADIUS = {Level.ACCENT: "4", Level.TAP: "2.8", Level.GHOST: "2.4"}


def draw_cut(
    layout: Layout, number: int, bands: Bands, beads: Mapping[Limb, Sequence[Curve]], ties: Sequence[Tie]
) -> str:
    """The inside of one cut's SVG, its left edge at x 0 and its top at y 0."""
    cut = layout.cuts[number]
    drawn = [group("ww-row-count", _texts(cut.count, COUNT_BASE))] if bands.count else []
    if bands.notation:
        staff = engrave(layout, number, bands.above, bands.below, ties) + _chart(layout, number, bands)
        drawn.append(group("ww-row-notation", staff, 0, bands.notation_top + bands.middle))
    if bands.sticking:
        drawn.append(group("ww-row-sticking", _sticking(cut), 0, bands.sticking_top))
    for index, limb in enumerate(layout.lanes):
        lane = _LANES[limb]
        top = bands.lanes_top + index * bands.lane_pitch
        if bands.lane and DiagramRow.HEIGHTS in layout.rows:
            drawn.append(group(f"ww-row-heights {lane}", _lane(layout, number, limb, beads[limb]), 0, top))
        if bands.names and DiagramRow.NAMES in layout.rows:
            drawn.append(group(f"ww-row-names {lane}", _names(cut, limb), 0, top + bands.lane))
    return "".join(drawn)


def _chart(layout: Layout, number: int, bands: Bands) -> str:
    """Words over the staff of a cut, dynamics and hairpins under it; the staff's middle line is y 0."""
    pattern, cut, offset = layout.score.pattern, layout.cuts[number], layout.offsets[number]
    under_tempos = -bands.middle + (TEMPOS_ABOVE if pattern.tempos else 0)
    over = draw_endings(layout.score, cut, under_tempos)
    for mark, drawn_tempo, _ in tempos_in(cut.cut, pattern):
        left = cut.spacing.x(float(mark.at) - cut.cut.start) - _TEMPO_BEFORE
        over += f'<g transform="translate({num(left)} {num(-bands.middle)})">{drawn_tempo}</g>'
    if not pattern.words and not pattern.dynamics:
        return over

    def x(at: Fraction) -> float:
        return cut.spacing.x(float(at) - cut.cut.start)

    bottom = bands.notation - bands.middle
    words = [(laid, x(laid.words.at)) for laid in laid_words(cut.cut, pattern)]
    letters = [(dynamic, x(dynamic.at)) for dynamic in dynamics_in(cut.cut, pattern)]
    drawn = over + draw_words(words, under_tempos + 1 + endings_above(pattern)) + draw_dynamics(letters, bottom)
    for here, there in hairpins(pattern):
        ends = tuple(
            _on_strip(layout, dynamic.at) + sign * width(dynamic.loudness, BEAT, bold=True) / 2
            for dynamic, sign in ((here, 1), (there, -1))
        )
        span = offset, offset + cut.spacing.width
        drawn += draw_hairpin(here.hairpin or Hairpin.GROWING, (ends[0], ends[1]), span, bottom)
    return drawn


def _on_strip(layout: Layout, at: Fraction) -> float:
    """Where a moment of the pattern stands on the strip of all cuts."""
    number = bisect_right(layout.cuts, float(at), key=lambda cut: cut.cut.start) - 1
    cut = layout.cuts[number]
    return layout.offsets[number] + cut.spacing.x(float(at) - cut.cut.start)


def bead_lines(layout: Layout) -> dict[Limb, list[Curve]]:
    """The line of each hand that plays over the strip of all cuts."""
    return {limb: _bead_line(layout, limb) for limb in layout.lanes}


def _bead_line(layout: Layout, limb: Limb) -> list[Curve]:
    touches = [
        Touch(offset + cut.spacing.x(hit.cut_beat) + hit.shift, _height(hit.stroke), _end_of_buzz(layout, hit.stroke))
        for cut, offset in zip(layout.cuts, layout.offsets, strict=False)
        for hit in (cut.cut.unseen if cut.cut.same else cut.cut.hands.hits).get(limb, ())
    ]
    pattern = layout.score.pattern
    first = touches[0].level if touches else Level.TAP
    # Where more passes follow, the first pass leads to the start of the next; the last stroke of all ends low.
    after = first if pattern.repeat > 1 else Level.TAP
    return bead_line(touches, layout.offsets[-1], first, after, pattern.loop)


def _height(stroke: Stroke) -> Level:
    """The level from whose height a stroke comes."""
    return Level.ACCENT if stroke.starts is Height.HIGH else stroke.level


def _end_of_buzz(layout: Layout, stroke: Stroke) -> float:
    """Where on the strip of all cuts a buzz ends; 0 for other strokes."""
    if stroke.kind is not Kind.BUZZ:
        return 0.0
    end = float(stroke.at + stroke.length)
    number = bisect_right(layout.cuts, end, key=lambda cut: cut.cut.start) - 1
    cut = layout.cuts[number]
    return min(layout.offsets[number] + cut.spacing.x(end - cut.cut.start), layout.offsets[-1])


def _sticking(cut: CutLayout) -> str:
    size = letter_size(cut.cut)
    letters = _texts(cut.sticking, STICKING_BASE)
    if size != LETTER:
        letters = f'<g font-size="{size}">{letters}</g>' if letters else ""
    feet = _texts(cut.foot_letters, FEET_BASE)
    return letters + (f'<g class="ww-feet">{feet}</g>' if feet else "")


def _names(cut: CutLayout, limb: Limb) -> str:
    drums = _texts(cut.drums[limb], NAMES_BASE + DRUM_LINE)
    return _texts(cut.names[limb], NAMES_BASE) + group("ww-drums", drums)


def _texts(row: Sequence[PlacedLabel], y: float) -> str:
    """The texts of a row, those of its first line at ``y``."""
    first = num(y)
    return "".join([_text(label, x, first if line == 0 else num(y + DRUM_LINE * line)) for label, x, line in row])


def _text(label: Label, x: float, y: str) -> str:
    css = f' class="{label.css}"' if label.css else ""
    return f'<text{css} x="{x:.5g}" y="{y}"{label.marks}>{_escaped(label.text)}</text>'


def _lane(layout: Layout, number: int, limb: Limb, bead: Sequence[Curve]) -> str:
    cut = layout.cuts[number]
    offset, width = layout.offsets[number], cut.spacing.width
    if cut.cut.same:
        return path(f"M0 {num(LANE_HEAD)}h{width + (0 if cut.is_last else OVERLAP)}", ' class="ww-lines"')
    line = path_data(clipped(bead, offset, offset + width), offset, LANE_HEAD)
    run_on = 0 if cut.is_last else OVERLAP
    run_on_line = f"h{run_on}" if run_on else ""
    area = f"{line}{run_on_line}V{num(LANE_HEAD)}H0z"
    touches = [
        f'<circle{_TOUCH_CLASS[hit.stroke.level]} cx="{cut.spacing.x(hit.cut_beat) + hit.shift:.5g}" cy="{LANE_HEAD}" '
        f'r="{_RADIUS[hit.stroke.level]}"{hit.marks}/>'
        for hit in cut.cut.hands.hits.get(limb, ())
    ]
    return (
        path(area, ' class="ww-fill"')
        + path(f"M0 {num(LANE_HEAD)}h{width + run_on}", ' class="ww-lines"')
        + path(line + run_on_line, ' class="ww-bead"')
        + "".join(touches)
    )
