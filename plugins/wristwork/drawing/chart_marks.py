"""What a chart has over and under its notes: sections and words above the staff, dynamics and hairpins below."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple

from wristwork.drawing.lettering import BEAT, SMALL, free_width, width
from wristwork.drawing.score import Cut
from wristwork.drawing.spacing import Extent, SpacedRow
from wristwork.drawing.svg import escape, num, path
from wristwork.drawing.tempo_mark import draw_tempo, tempo_number
from wristwork.pattern.model import Dynamic, Hairpin, Pattern, Tempo, TempoAt, WordsAt

WORDS_ABOVE, TEMPOS_ABOVE, DYNAMICS_BELOW = 18.0, 24.0, 16.0
"""What each of them takes of the band of the notes, where there are any."""
_WORDS_BASE, _DYNAMICS_BASE = 12.0, 5.0
_BOX, _BETWEEN = 4.0, 6.0
_AROUND = 2 * _BOX + _BETWEEN
_ROOM = 150.0  # for all words of a cut, which a phone must hold
_LEAST = 4.0  # for each of them, however many there are
_GAP = 6.0
_OPENING = 4.0  # half the open end of a hairpin
_STUB = 14.0  # less of a hairpin than this is no hairpin any more
_CLEAR = 4.0


def words_in(cut: Cut, pattern: Pattern) -> list[WordsAt]:
    """The sections and words that begin in a cut."""
    return [words for words in pattern.words if cut.start <= words.at < cut.end]


def dynamics_in(cut: Cut, pattern: Pattern) -> list[Dynamic]:
    """The dynamics that begin in a cut."""
    return [dynamic for dynamic in pattern.dynamics if cut.start <= dynamic.at < cut.end]


class LaidWords(NamedTuple):
    """Words with their left edge ``after`` pixels from the column of their moment, and how wide they are set."""

    words: WordsAt
    after: float
    width: float
    is_squeezed: bool


def laid_words(cut: Cut, pattern: Pattern) -> list[LaidWords]:
    """The words of a cut, those of one moment after each other, squeezed where a phone would not hold them."""
    by_moment: dict[Fraction, list[WordsAt]] = {}
    for words in words_in(cut, pattern):
        by_moment.setdefault(words.at, []).append(words)
    laid: list[LaidWords] = []
    for together in by_moment.values():
        natural = sum(_width(words) for words in together)
        room = max(_LEAST * len(together), _ROOM / len(by_moment) - _AROUND * len(together))
        share = min(1.0, room / natural)
        after = -_BOX
        for words in together:
            wide = _width(words) * share
            edge = _BOX if words.is_section else 0
            laid.append(LaidWords(words, after + edge, wide, share < 1))
            after += wide + 2 * edge + _BETWEEN
    return laid


def chart_rows(cut: Cut, pattern: Pattern) -> Iterator[SpacedRow]:
    """The room that they need in a cut."""
    reach: dict[Fraction, float] = {}
    for laid in laid_words(cut, pattern):
        reach[laid.words.at] = laid.after + laid.width + _BOX
    yield SpacedRow([Extent(float(at) - cut.start, _BOX, wide) for at, wide in reach.items()], _GAP)
    letters = [
        (float(each.at) - cut.start, width(each.loudness, BEAT, bold=True)) for each in dynamics_in(cut, pattern)
    ]
    yield SpacedRow([Extent(cut_beat, wide / 2, wide / 2) for cut_beat, wide in letters], _GAP)
    tempos = [Extent(float(mark.at) - cut.start, _BOX, wide) for mark, _, wide in tempos_in(cut, pattern)]
    yield SpacedRow(tempos, _GAP)


def tempos_in(cut: Cut, pattern: Pattern) -> list[tuple[TempoAt, str, int]]:
    """The tempos of sections that begin in a cut, as they are drawn, and how wide."""
    found = []
    for mark in pattern.tempos:
        if cut.start <= mark.at < cut.end:
            number = tempo_number(pattern, mark)
            found.append((mark, *draw_tempo(pattern.time, Tempo(number, number))))
    return found


def _width(words: WordsAt) -> float:
    return free_width(words.words, BEAT if words.is_section else SMALL, bold=words.is_section)


def draw_words(found: list[tuple[LaidWords, float]], top: float) -> str:
    """Sections in a box and words, each with the x of its moment; ``top`` is where their line begins."""
    drawn: list[str] = []
    for (words, after, wide, is_squeezed), x in found:
        left = x + after
        css = "ww-said ww-section" if words.is_section else "ww-said"
        if words.is_section:
            box = f"M{num(left - _BOX)} {num(top)}h{num(wide + 2 * _BOX)}v15h-{num(wide + 2 * _BOX)}z"
            drawn.append(path(box, _LINES))
        squeezed = f' textLength="{num(wide)}" lengthAdjust="spacingAndGlyphs"' if is_squeezed else ""
        place = f'x="{num(left)}" y="{num(top + _WORDS_BASE)}"'
        drawn.append(f'<text class="{css}" {place}{squeezed}>{escape(words.words)}</text>')
    return "".join(drawn)


_LINES = ' class="ww-lines"'


def draw_dynamics(found: list[tuple[Dynamic, float]], bottom: float) -> str:
    """The letters of the dynamics, each round its x; ``bottom`` is where their line ends."""
    y = num(bottom - _DYNAMICS_BASE)
    return "".join(f'<text class="ww-dynamic" x="{num(x)}" y="{y}">{each.loudness}</text>' for each, x in found)


def hairpins(pattern: Pattern) -> list[tuple[Dynamic, Dynamic]]:
    """Each dynamic that leads to the next one, with that."""
    return [(here, there) for here, there in pairwise(pattern.dynamics) if here.hairpin is not None]


def draw_hairpin(hairpin: Hairpin, ends: tuple[float, float], span: tuple[float, float], bottom: float) -> str:
    """The part of a hairpin from ``ends`` to ``ends`` that lies within ``span``, in pixels from the span's left.

    No stub of it stands at the start or end of a span, which may be alone on its line.
    """
    left, right = ends[0] + _CLEAR, ends[1] - _CLEAR
    first, last = max(left, span[0]), min(right, span[1])
    if first >= last or (last - first < _STUB and right - left >= 2 * _STUB):
        return ""
    y = bottom - _DYNAMICS_BASE - 4
    half = [_OPENING * (x - left) / (right - left) for x in (first, last)]
    if hairpin is Hairpin.FADING:
        half = [_OPENING - each for each in half]
    start, end = first - span[0], last - span[0]
    lines = "".join(f"M{num(start)} {num(y + sign * half[0])}L{num(end)} {num(y + sign * half[1])}" for sign in (-1, 1))
    return path(lines, ' class="ww-lines ww-hairpin"')
