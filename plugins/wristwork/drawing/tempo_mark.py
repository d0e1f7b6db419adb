"""The tempo mark: the note of one beat, and how many there are in a minute."""

from __future__ import annotations

from fractions import Fraction

from wristwork.drawing import glyphs
from wristwork.drawing.glyphs import SPACE
from wristwork.drawing.lettering import BEAT, width
from wristwork.drawing.staff_positions import Head, head_glyph, head_shape
from wristwork.drawing.svg import num, path, rect
from wristwork.languages.say import say
from wristwork.pattern.model import Pattern, Swing, Tempo, TempoAt, TimeSignature
from wristwork.pattern.values import Piece

HEIGHT = 24
_FLAGS = {3: "flag8thUp", 4: "flag16thUp"}
_SIZE, _SMALL = 0.8, 0.62
_BETWEEN = 16
_SIXTEENTH = Fraction(1, 16)
_APART = 13.0  # from note to note in the figure of a swing
_STEM_TOP = 3.0
_HEAD_Y, _TEXT_Y = 16.0, 18.0
_STEM = 2.9 * SPACE * _SIZE


def tempo_words(tempo: Tempo) -> str:
    """``60``, or ``60 to 100``."""
    return (
        f"{tempo.start}" if tempo.start == tempo.goal else say("{start} to {goal}", start=tempo.start, goal=tempo.goal)
    )


def tempo_number(pattern: Pattern, mark: TempoAt) -> int:
    """Beats a minute of a section, where the whole is played at its goal."""
    return round(mark.share * pattern.tempo.goal)


def draw_marks(pattern: Pattern) -> tuple[str, int]:
    """The tempo mark and how the pattern swings, their left edge at x 0 and their top at y 0, and their width."""
    drawn, wide = draw_tempo(pattern.time, pattern.tempo)
    if pattern.swing is None:
        return drawn, wide
    mark, more = _swing_mark(pattern.swing)
    return f'{drawn}<g transform="translate({wide + _BETWEEN})">{mark}</g>', wide + _BETWEEN + more


def _swing_mark(swing: Swing) -> tuple[str, int]:
    """``swing``, and two even notes made equal to a triplet's long and short one, or the ratio that is written."""
    ratio = "" if swing.ratio is None else f"{swing.ratio[0]}:{swing.ratio[1]}"
    if not ratio:
        words = say("swing")
    elif swing.unit == _SIXTEENTH:
        words = say("swing {ratio} sixteenths", ratio=ratio)
    else:
        words = say("swing {ratio}", ratio=ratio)
    text = f'<text class="ww-pulse" x="0" y="{num(_TEXT_Y)}">{words}</text>'
    end = width(words, BEAT, bold=True) + 6
    if swing.ratio is not None:
        return text, round(end)
    even, long = end + 4, end + 42
    drawn = _note(even) + _note(even + _APART) + _note(long) + _note(long + _APART)
    for level in range(2 if swing.unit == _SIXTEENTH else 1):
        drawn += rect(_stem_x(even) - 0.5, _STEM_TOP + 4 * level, _APART + 1, 2.6)
    if swing.unit == _SIXTEENTH:
        drawn += rect(_stem_x(long) - 0.5, _STEM_TOP, _APART + 1, 2.6)
        drawn += rect(_stem_x(long + _APART) - 5, _STEM_TOP + 4, 5.5, 2.6)
    else:
        drawn += glyphs.glyph("flag8thUp", _stem_x(long + _APART), _STEM_TOP, _SMALL)
    drawn += glyphs.glyph("timeSig3", long + _APART / 2 + 3, _STEM_TOP - 4, 0.42, 0.2)
    equal = f'<text class="ww-pulse" x="{num(even + _APART + 7)}" y="{num(_TEXT_Y)}">=</text>'
    return text + path(drawn) + equal, round(long + _APART + 13)


def _note(x: float) -> str:
    """A small note with its stem, for the figure of a swing."""
    head = glyphs.glyph(head_glyph(Head.PLAIN, 2), x, _HEAD_Y, _SMALL)
    return head + rect(_stem_x(x) - 0.5, _STEM_TOP, 1, _HEAD_Y - _STEM_TOP - 1)


def _stem_x(x: float) -> float:
    return x + 0.535 * SPACE * _SMALL


def draw_tempo(time: TimeSignature, tempo: Tempo) -> tuple[str, int]:
    """The mark, its left edge at x 0 and its top at y 0, and its width."""
    beat = Piece(Fraction(0), Fraction(1), time.beat, 0)
    half = head_shape(Head.PLAIN, beat.halvings).half_width * SPACE * _SIZE
    x = half + 1
    drawn = glyphs.glyph(head_glyph(Head.PLAIN, beat.halvings), x, _HEAD_Y, _SIZE)
    end = x + half
    stem = x + 0.535 * SPACE * _SIZE
    drawn += rect(stem - 0.5, _HEAD_Y - _STEM, 1, _STEM - 1)
    if beat.halvings in _FLAGS:
        drawn += glyphs.glyph(_FLAGS[beat.halvings], stem, _HEAD_Y - _STEM, _SIZE)
        end = stem + 7
    if beat.dotted:
        drawn += glyphs.glyph("augmentationDot", end + 3, _HEAD_Y - 1, _SIZE)
        end += 5
    words = f"= {tempo_words(tempo)}"
    text = f'<text class="ww-pulse" x="{num(end + 5)}" y="{num(_TEXT_Y)}">{words}</text>'
    return path(drawn) + text, round(end + 8 + width(words, BEAT, bold=True))
