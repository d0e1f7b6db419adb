"""The tempo mark: the note of one beat, and how many there are in a minute."""

from __future__ import annotations

from fractions import Fraction

from wristwork.drawing import glyphs
from wristwork.drawing.glyphs import SPACE
from wristwork.drawing.lettering import BEAT, width
from wristwork.drawing.places import Head, head_glyph, head_shape
from wristwork.drawing.svg import num, path, rect
from wristwork.pattern.model import Tempo, TimeSignature
from wristwork.pattern.values import Piece

HEIGHT = 24
_FLAGS = {3: "flag8thUp", 4: "flag16thUp"}
_SIZE = 0.8
_HEAD_Y, _TEXT_Y = 16.0, 18.0
_STEM = 2.9 * SPACE * _SIZE


def tempo_words(tempo: Tempo) -> str:
    """``60``, or ``60 to 100``."""
    return f"{tempo.start}" if tempo.start == tempo.goal else f"{tempo.start} to {tempo.goal}"


def draw_tempo(time: TimeSignature, tempo: Tempo) -> tuple[str, int]:
    """The mark, its left edge at x 0 and its top at y 0, and its width."""
    beat = Piece(Fraction(0), Fraction(1), time.beat, 0)
    half = head_shape(Head.PLAIN, beat.halvings).half_width * SPACE * _SIZE
    x = half + 1
    drawn = glyphs.at(head_glyph(Head.PLAIN, beat.halvings), x, _HEAD_Y, _SIZE)
    end = x + half
    stem = x + 0.535 * SPACE * _SIZE
    drawn += rect(stem - 0.5, _HEAD_Y - _STEM, 1, _STEM - 1)
    if beat.halvings in _FLAGS:
        drawn += glyphs.at(_FLAGS[beat.halvings], stem, _HEAD_Y - _STEM, _SIZE)
        end = stem + 7
    if beat.dotted:
        drawn += glyphs.at("augmentationDot", end + 3, _HEAD_Y - 1, _SIZE)
        end += 5
    words = f"= {tempo_words(tempo)}"
    text = f'<text class="ww-pulse" x="{num(end + 5)}" y="{num(_TEXT_Y)}">{words}</text>'
    return path(drawn) + text, round(end + 8 + width(words, BEAT, bold=True))
