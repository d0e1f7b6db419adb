"""What stands outside the stems of a voice: accents, the o of an open hi-hat, tuplet numbers and brackets.

Marks are stacked outward from the ends of the stems, on the same heights in every cut of a diagram:
accents first, then the o (in the accents' line where no note has both), then the numbers (nearer
where no mark is in the way of any of them).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from wristwork.drawing import glyphs
from wristwork.drawing.glyphs import SPACE
from wristwork.drawing.layout import CutLayout, Layout
from wristwork.drawing.noteheads import PlacedChord
from wristwork.drawing.svg import num, rect
from wristwork.pattern.drums import Opening

_FROM_STEM = 3.0
_HEAD = 4.0
_ACCENT, _OPEN, _NUMBER = 8.0, 7.0, 9.0
_BETWEEN = 2.0
NUMBER_SIZE, NUMBER_LEAN = 0.55, 0.2
_NUMBER_STEP = 7.0  # from digit to digit
_HOOK = 5.0
_LINE = 1.1
_SLUR_DEPTH, _SLUR_THICK = 6.0, 2.6


@dataclass(frozen=True, slots=True)
class Tuplet:
    """The number of a tuplet at its middle, or of a roll's strokes at its stem; ``bracket`` has the ends of one."""

    number: int
    middle: float
    bracket: tuple[float, float] | None


@dataclass(frozen=True, slots=True)
class MarkHeights:
    """Middles of the marks of one voice, and the highest and lowest that any of them reaches."""

    accent: float
    open: float
    number: float
    top: float
    bottom: float


def tuplets(layout: CutLayout, up: bool) -> list[Tuplet]:
    """The tuplets of one voice of a cut, and its rolls."""
    voice, placed, found_runs = (
        (layout.cut.hands, layout.hands, layout.hand_runs) if up else (layout.cut.feet, layout.feet, layout.foot_runs)
    )
    found = []
    for number, group in voice.groups.items():
        if group.ratio is None:
            continue
        covering = next((run for run in found_runs if number in run.groups and run.covers), None)
        inside = [chord for chord in placed if chord.chord.piece.group == number]
        if covering:
            first, last = inside[0], inside[-1]
            middle = (layout.column(first.chord) + first.stem + layout.column(last.chord) + last.stem) / 2
            found.append(Tuplet(group.ratio.actual, middle, None))
            continue
        first_slot = float(group.start) - layout.cut.start
        last_slot = first_slot + float(group.beats - group.slot_length)
        ends = (layout.spacing.x(first_slot) - 0.7 * SPACE, layout.spacing.x(last_slot) + 0.9 * SPACE)
        found.append(Tuplet(group.ratio.actual, sum(ends) / 2, ends))
    rolls = [chord for chord in placed if chord.chord.roll]
    return found + [Tuplet(chord.chord.roll, layout.column(chord.chord) + chord.stem, None) for chord in rolls]


def mark_heights(layout: Layout, up: bool) -> MarkHeights:
    """Where the marks of the hands (``up``) or of the feet stand in this diagram.

    Feet that play alone have their accents above the heads, as all accents stand above where they can.
    """
    stems = layout.staff.up_end if up else layout.staff.down_end
    chords = [chord for cut in layout.cuts for chord in (cut.hands if up else cut.feet)]
    sign = -1 if up else 1
    near = stems + sign * _FROM_STEM
    accent_sign, accent_from = sign, near
    if not up and not layout.staff.two_voices and chords:
        highest = min(chord.heads[-1].y for chord in chords)
        accent_sign, accent_from = -1, min(highest - _HEAD, -layout.staff.lines[-1]) - _FROM_STEM
    accents = any(chord.accented for chord in chords)
    opens = any(chord.opening is not Opening.NONE for chord in chords)
    both = accents and opens and any(chord.accented and chord.opening is not Opening.NONE for chord in chords)
    open_from = accent_from + accent_sign * (_ACCENT + _BETWEEN if both else 0)
    reach = max(
        _ACCENT if accents else 0.0,
        abs(open_from - accent_from) + _OPEN if opens else 0.0,
    )
    outside = accent_from + accent_sign * reach
    found = [(cut, tuplet) for cut in layout.cuts for tuplet in tuplets(cut, up)]
    in_the_way = accent_sign == sign and any(_meets(cut, tuplet, up) for cut, tuplet in found)
    number_from = outside + sign * _BETWEEN if in_the_way else near
    number_end = number_from + sign * _NUMBER if found else near
    return MarkHeights(
        accent_from + accent_sign * _ACCENT / 2,
        open_from + accent_sign * _OPEN / 2,
        number_from + sign * _NUMBER / 2,
        min(stems, outside, number_end),
        max(stems, outside, number_end),
    )


def _meets(layout: CutLayout, tuplet: Tuplet, up: bool) -> bool:
    left, right = tuplet.bracket or (tuplet.middle - SPACE, tuplet.middle + SPACE)
    return any(
        left - SPACE < layout.column(chord.chord) < right + SPACE
        for chord in (layout.hands if up else layout.feet)
        if chord.accented or chord.opening is not Opening.NONE
    )


def draw_tuplets(found: Sequence[Tuplet], y: float, up: bool) -> str:
    """Path data of numbers and brackets with their middle at ``y``."""
    return "".join(_draw_tuplet(tuplet, y, up) for tuplet in found)


def _draw_tuplet(tuplet: Tuplet, y: float, up: bool) -> str:
    digits = str(tuplet.number)
    half = len(digits) * _NUMBER_STEP / 2
    first = tuplet.middle - half + _NUMBER_STEP / 2
    drawn = [
        glyphs.glyph(f"timeSig{digit}", first + index * _NUMBER_STEP, y, NUMBER_SIZE, NUMBER_LEAN)
        for index, digit in enumerate(digits)
    ]
    if tuplet.bracket:
        left, right = tuplet.bracket
        half += 2.5
        hook = _HOOK if up else -_HOOK
        top = y - _LINE / 2
        for end, inner in ((left, tuplet.middle - half), (right, tuplet.middle + half)):
            drawn.append(rect(min(end, inner), top, abs(end - inner), _LINE))
            drawn.append(rect(end - _LINE / 2, min(y, y + hook), _LINE, abs(hook)))
    return "".join(drawn)


def small_three(x: float, y: float) -> str:
    """The 3 beside a slash for three strokes."""
    return glyphs.glyph("timeSig3", x, y, NUMBER_SIZE, NUMBER_LEAN)


def draw_open(x: float, y: float, opening: Opening) -> str:
    """The o of an open hi-hat, crossed where it is half open."""
    return glyphs.glyph("pictHalfOpen1" if opening is Opening.HALF else "stringsHarmonic", x, y)


def draw_slur(left: float, right: float, y: float) -> str:
    """The curve from a grace note to its main note, hanging below their heads."""
    middle = (left + right) / 2
    inner, outer = num(y + _SLUR_DEPTH), num(y + _SLUR_DEPTH + _SLUR_THICK)
    start, end = f"{num(left)} {num(y)}", f"{num(right)} {num(y)}"
    return f"M{start}Q{num(middle)} {inner} {end}Q{num(middle)} {outer} {start}z"


def draw_accent(x: float, y: float, strong: bool = False) -> str:
    """An accent, or a strong one."""
    return glyphs.glyph("articMarcatoAbove" if strong else "articAccentAbove", x, y)


def is_strong(chord: PlacedChord) -> bool:
    """Is the accent of a note (of any of its hands) a strong one?"""
    note = chord.chord.note
    return note.strong or (note.left is not None and note.left.strong)


def ledger(x: float, y: float, half_width: float) -> str:
    """Path data of a ledger line (a stroke, like the staff lines)."""
    return f"M{num(x - half_width - 3)} {num(y)}h{num(2 * half_width + 6)}"
