"""What stands between and in place of bars: bar lines, repeat signs, signs for bars as before, brackets of endings."""

from __future__ import annotations

from wristwork.drawing import glyphs
from wristwork.drawing.glyphs import SPACE
from wristwork.drawing.layout import CutLayout
from wristwork.drawing.score import Score
from wristwork.drawing.svg import num, path, rect
from wristwork.pattern.form import Bars
from wristwork.pattern.model import Pattern

_ENDINGS_ABOVE = 16.0
_THIN, _THICK, _GAP, _DOT = 1.0, 4.0, 3.0, 1.8
_SLANT_X, _SLANT_Y, _SLANT_WIDE = 6.0, 8.0, 4.5
_SIGN_DOT_X, _SIGN_DOT_Y = 7.5, 4.5
_TWO_APART = 7.0
_NUMBER_ABOVE = 9.0
_HOOK, _BRACKET_TOP = 11.0, 2.5
_FROM_BAR_LINE = 3.0


def bar_end(right: float, reach: float, is_thick: bool, leads_back: bool) -> str:
    """A bar line that ends at ``right``; a thick one at an end, with dots where it leads back."""
    if not is_thick:
        return rect(right - _THIN, -reach, _THIN, 2 * reach)
    thick, thin = right - _THICK, right - _THICK - _GAP - _THIN
    drawn = rect(thick, -reach, _THICK, 2 * reach) + rect(thin, -reach, _THIN, 2 * reach)
    return drawn + _dots(thin - _GAP - _DOT) if leads_back else drawn


def repeat_start(reach: float) -> str:
    """The sign at which a repeat begins, its left edge at x 0."""
    thin = _THICK + _GAP
    drawn = rect(0, -reach, _THICK, 2 * reach) + rect(thin, -reach, _THIN, 2 * reach)
    return drawn + _dots(thin + _THIN + _GAP + _DOT)


def _dots(x: float) -> str:
    return "".join(glyphs.glyph("augmentationDot", x, y) for y in (-SPACE / 2, SPACE / 2))


def same_sign(cut: CutLayout, bar: int, reach: float) -> str:
    """The sign for a bar as the one before, in its middle; for two bars it stands on the bar line between them."""
    if cut.cut.same == 1:
        middle = cut.spacing.x((cut.cut.beats - 1) / 2)
        return _slant(middle) + _sign_dots(middle, 0)
    middle = (cut.spacing.x(bar - 1) + cut.spacing.x(bar)) / 2
    line = rect(middle - _THIN / 2, -reach, _THIN, 2 * reach)
    slants = _slant(middle - _TWO_APART / 2) + _slant(middle + _TWO_APART / 2)
    number = glyphs.glyph("timeSig2", middle, -reach - _NUMBER_ABOVE, 0.6)
    return line + slants + _sign_dots(middle, _TWO_APART / 2) + number


def _slant(x: float) -> str:
    left, wide = x - _SLANT_X - _SLANT_WIDE / 2, num(_SLANT_WIDE)
    back = num(x - _SLANT_X + _SLANT_WIDE / 2)
    top = f"M{num(left)} {num(_SLANT_Y)}L{num(x + _SLANT_X - _SLANT_WIDE / 2)} {num(-_SLANT_Y)}h{wide}"
    return f"{top}L{back} {num(_SLANT_Y)}z"


def _sign_dots(x: float, apart: float) -> str:
    left = glyphs.glyph("augmentationDot", x - apart - _SIGN_DOT_X, -_SIGN_DOT_Y)
    return left + glyphs.glyph("augmentationDot", x + apart + _SIGN_DOT_X, _SIGN_DOT_Y)


def endings_above(pattern: Pattern) -> float:
    """What the brackets of endings take of the band of the notes."""
    return _ENDINGS_ABOVE if any(repeat.endings for repeat in pattern.repeats) else 0


def draw_endings(score: Score, cut: CutLayout, top: float) -> str:
    """What a cut has of the brackets over the endings; ``top`` is where their line begins."""
    drawn = ""
    for repeat in score.pattern.repeats:
        for ending, turns in zip(repeat.endings, repeat.turns, strict=True):
            start, end = _beats(score, ending)
            if not (start <= cut.cut.start and cut.cut.end <= end):
                continue
            is_closed = ending is not repeat.endings[-1] or score.cuts[-1].end == end
            drawn += _bracket(cut, top, cut.cut.start == start, is_closed and cut.cut.end == end, turns)
    return drawn


def _beats(score: Score, ending: Bars) -> tuple[int, int]:
    return score.pattern.bar_start(ending.first), score.pattern.bar_start(ending.last + 1)


def _bracket(cut: CutLayout, top: float, begins: bool, closes: bool, turns: tuple[int, ...]) -> str:
    y, right = top + _BRACKET_TOP, cut.spacing.width - (_FROM_BAR_LINE if closes else 0)
    left = _FROM_BAR_LINE if begins else 0
    hook = f"M{num(left)} {num(y + _HOOK)}V{num(y)}" if begins else f"M{num(left)} {num(y)}"
    line = path(f"{hook}H{num(right)}" + (f"V{num(y + _HOOK)}" if closes else ""), ' class="ww-lines"')
    if not begins:
        return line
    words = f"{turns[0]}.–{turns[-1]}." if len(turns) > 2 else " ".join(f"{turn}." for turn in turns)
    return f'{line}<text class="ww-said" x="{num(left + 5)}" y="{num(y + _HOOK)}">{words}</text>'
