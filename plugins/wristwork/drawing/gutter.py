"""What stands at the start of every line: clef, names of the lanes, marks of height.

Every cut carries a gutter at its left. On a page it lies under the paper of the cut before, and so is
seen only where a line begins, without any script (see ``diagram.css``).
"""

from __future__ import annotations

import re
from functools import cache

from wristwork.drawing import glyphs
from wristwork.drawing.bands import FEET_BASE, LANE_HEAD, NAMES_BASE, Bands
from wristwork.drawing.heights import BEAD
from wristwork.drawing.layout import Layout
from wristwork.drawing.lettering import SMALL, width
from wristwork.drawing.svg import group, num, path
from wristwork.languages.names import SIDES
from wristwork.languages.say import say
from wristwork.pattern.model import DiagramRow, Level

GUTTER = 44
_TEXT_END = GUTTER - 5
_TICK = 3
_CLEF_X = GUTTER - 9.0
_NAME_BELOW = 6.5
_DRUM_ROOM = 34  # as much as the name of a hand takes
_LITTLE_SQUEEZED = 1.25
_DRUM_BASES = (10.0, 21.0)
_DOWN_WITHOUT_LANE = 7.0
"""Where no lane is shown the name of the hand stands above (in the style sheet too)."""
_MIDDLE_OF_TEXT = 4.2  # from the middle of a small letter down to its baseline


def draw_gutter(layout: Layout, bands: Bands) -> str:
    """The gutter of a diagram, its left edge at x 0."""
    lanes = ""
    if bands.lane:
        for number, limb in enumerate(layout.lanes):
            lanes += _lane(limb.split()[0], layout, bands, bands.lanes_top + number * bands.lane_pitch)
    return _staff(layout, bands) + _sticking(layout, bands) + lanes


def draw_staying(layout: Layout, bands: Bands, number: int) -> str:
    """What the gutter of a cut holds beside what they all do: the drums that its hands go on with."""
    if DiagramRow.NAMES not in layout.rows:
        return ""
    drawn = ""
    for index, limb in enumerate(layout.lanes):
        drum = layout.cuts[number].stays_on.get(limb)
        if drum is not None:
            down = 0 if DiagramRow.HEIGHTS in layout.rows else _DOWN_WITHOUT_LANE
            words = group("ww-drums", "".join(map(_drum_line, _in_two(say(drum)), _DRUM_BASES)), 0, down)
            top = bands.lanes_top + index * bands.lane_pitch + bands.lane
            drawn += group(f"ww-row-names ww-staying ww-lane-{limb.split()[0]}", words, 0, top)
    return drawn


def _drum_line(words: str, y: float) -> str:
    """A line of the name of a drum, squeezed where it has no room."""
    return _text(words, y, "ww-side", _squeezed(words))


def _squeezed(words: str, *beside: str) -> str:
    """How a text is made to fit; one ``beside`` it that has less room squeezes it as much."""
    wide = width(words, SMALL)
    widest = max(wide, *(width(other, SMALL) for other in beside), 1)
    if widest <= _DRUM_ROOM:
        return ""
    return f' textLength="{num(_DRUM_ROOM * wide / widest)}" lengthAdjust="spacingAndGlyphs"'


@cache
def _in_two(drum: str) -> tuple[str, ...]:
    """The name of a drum in one line, a little squeezed at most, or in two that are as narrow as can be."""
    if width(drum, SMALL) <= _LITTLE_SQUEEZED * _DRUM_ROOM:
        return (drum,)
    cuts = [match.end() for match in re.finditer("[ -]", drum)]
    ways: list[tuple[str, ...]] = [(drum[:cut].rstrip(), drum[cut:]) for cut in cuts] or [(drum,)]
    return min(ways, key=lambda lines: max(width(line, SMALL) for line in lines))


def _staff(layout: Layout, bands: Bands) -> str:
    if not bands.notation:
        return ""
    start = _CLEF_X - 9
    lines = "".join(f"M{num(start)} {line}H{GUTTER}" for line in layout.staff.lines)
    drawn = path(lines, ' class="ww-lines"') + path(glyphs.glyph("unpitchedPercussionClef1", _CLEF_X, 0))
    return group("ww-row-notation", drawn, 0, bands.notation_top + bands.middle)


def _sticking(layout: Layout, bands: Bands) -> str:
    if not any(cut.foot_letters for cut in layout.cuts):
        return ""
    return group("ww-row-sticking", _text(say("feet"), FEET_BASE, "ww-side"), 0, bands.sticking_top)


def _lane(name: str, layout: Layout, bands: Bands, top: float) -> str:
    css = f"ww-row-heights ww-lane-{name}"
    if DiagramRow.HEIGHTS not in layout.rows:
        return _name_alone(name, layout, top + bands.lane)
    ticks, marks = "", ""
    for word, level in ((say("high"), Level.ACCENT), (say("low"), Level.TAP)):
        y = LANE_HEAD - BEAD[level]
        ticks += f"M{GUTTER - _TICK} {num(y)}h{_TICK}"
        marks += _text(word, y + _MIDDLE_OF_TEXT, "ww-side", _squeezed(word))
    head = path(f"M{GUTTER - _TICK} {num(LANE_HEAD)}h{_TICK}" + ticks, ' class="ww-lines"')
    lane = group(css, head + marks + _hand(name, LANE_HEAD + _NAME_BELOW, _hand_class(layout)), 0, top)
    return lane + _name_alone(name, layout, top + bands.lane, ' display="none"')


def _name_alone(name: str, layout: Layout, top: float, hidden: str = "") -> str:
    """The name of a hand beside the names of its strokes, for where its lane is not shown."""
    if DiagramRow.NAMES not in layout.rows:
        return ""
    return group(
        f"ww-row-names ww-lane-{name}",
        _hand(name, NAMES_BASE, f"{_hand_class(layout)} ww-alone", hidden),
        0,
        top,
    )


def _hand(name: str, y: float, css: str, attributes: str = "") -> str:
    """The name of a hand; both are as wide as the wider one lets them be."""
    return _text(say(name), y, css, attributes + _squeezed(say(name), *map(say, SIDES)))


def _hand_class(layout: Layout) -> str:
    """The name of the only lane changes with the reader's hands; of two lanes the contents change places."""
    return "ww-hand ww-named-hand" if len(layout.lanes) == 1 else "ww-hand"


def _text(word: str, y: float, css: str, attributes: str = "") -> str:
    return f'<text class="{css}" x="{_TEXT_END}" y="{num(y)}"{attributes}>{word}</text>'
