"""Pattern → diagram: a row of small SVGs that wraps like text, or one stand-alone SVG file."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from wristwork.drawing.bands import Bands, read_bands
from wristwork.drawing.drawn_cut import bead_lines, draw_cut
from wristwork.drawing.gutter import GUTTER, draw_gutter, draw_staying
from wristwork.drawing.layout import CutLayout, Layout, lay_out
from wristwork.drawing.lettering import BEAT, GRACE_LETTER, LETTER, SMALL
from wristwork.drawing.score import read_score
from wristwork.drawing.svg import escape, num
from wristwork.drawing.tempo_mark import HEIGHT as TEMPO_HEIGHT
from wristwork.drawing.tempo_mark import draw_marks
from wristwork.drawing.ties import read_ties
from wristwork.drawing.words import Words, tell
from wristwork.languages.say import say
from wristwork.pattern.model import DiagramRow, Pattern

_LINE_GAP = 18
_MARGIN = 12
_MOST_GROWN = 1.12  # of the lines of a file: a shorter last line stays as it is
_ALWAYS_FITS = 190  # cuts up to this width fit a phone even in a list or a box
# From the line that the cut before has drawn a pixel too far to a pixel beyond the right edge: it hides gutters.
_PAPER = '<rect class="ww-paper" x="1" width="100%" height="100%"/>'
_STANDALONE_STYLE = f"""
svg{{fill:#10262b;font-family:"DejaVu Sans",Manrope,system-ui,sans-serif;font-size:{SMALL}px}}
text{{text-anchor:middle}}
.ww-lines{{stroke:#5b757b;fill:none}}
.ww-bead{{stroke:#10262b;stroke-width:1.7px;fill:none;stroke-linejoin:round;stroke-linecap:round}}
.ww-fill{{fill:#dceaea}}
.ww-ghost{{stroke:#10262b;stroke-width:1.3px;fill:#fff}}
.ww-row-count text,.ww-side,.ww-drums{{fill:#4a6469}}
.ww-row-count .ww-strong,.ww-end{{fill:#10262b;font-weight:700;font-size:{BEAT}px}}
.ww-row-sticking{{font-size:{LETTER}px}}
.ww-row-sticking .ww-grace{{font-size:{GRACE_LETTER}px}}
.ww-feet,.ww-row-sticking .ww-side{{font-size:{SMALL}px}}
.ww-accent{{fill:#a34c0c}}
text.ww-accent,.ww-hand,.ww-pulse{{font-weight:700}}
.ww-drums{{font-style:italic}}
.ww-side,.ww-hand,.ww-end{{text-anchor:end}}
.ww-pulse{{text-anchor:start;font-size:{BEAT}px}}
""".replace("\n", "")
_CHART_STYLE = f"""
.ww-said{{text-anchor:start}}
.ww-section,.ww-dynamic{{font-weight:700;font-size:{BEAT}px}}
.ww-dynamic{{font-style:italic}}
""".replace("\n", "")


@dataclass(frozen=True, slots=True)
class _Phrase:
    """Cells that stay on a line together where there is room for them, and their width."""

    width: int
    html: str


def _joined(parts: Sequence[_Phrase]) -> _Phrase:
    if len(parts) == 1:
        return parts[0]
    width = sum(part.width for part in parts)
    inside = "".join(part.html for part in parts)
    return _Phrase(width, f'<span class="ww-phrase" style="--w:{width}">{inside}</span>')


def _in_twos(parts: Sequence[_Phrase]) -> list[_Phrase]:
    """Each two joined, so that four bars break into two and two and never into three and one."""
    return [_joined(parts[start : start + 2]) for start in range(0, len(parts), 2)]


def _sized(width: float, height: str) -> str:
    """A size that a page may change: what is drawn grows with the width."""
    return f' width="{num(width)}" viewBox="0 0 {num(width)} {height}"'


class _FileLine(NamedTuple):
    """The cuts on one line of a file, and how much it is grown to be as wide as the widest."""

    cuts: Sequence[int]
    scale: float


class _FileLayout(NamedTuple):
    """A file: the tempo mark, where the lines begin, and the size in pixels."""

    tempo: str
    top: float
    lines: tuple[_FileLine, ...]
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class Diagram:
    """A pattern drawn once, to be set in a page or a file."""

    layout: Layout
    bands: Bands
    gutters: tuple[str, ...]
    cuts: tuple[str, ...]

    @property
    def words(self) -> Words:
        """The same in words."""
        return tell(self.layout.score)

    def html(self, label: str | None = None) -> str:
        """The row of small SVGs, cut by cut, for the inside of ``.ww-diagram``.

        To a screen reader it is one picture called ``label``; what is in it is told by
        :attr:`words`, which belongs beside it on the page.
        """
        title = self.layout.score.pattern.title
        name = label or (
            say("Sticking diagram of {title}; the same is told in words with it", title=title)
            if title
            else say("Sticking diagram; the same is told in words with it")
        )
        tempo, tempo_width = draw_marks(self.layout.score.pattern)
        mark = ""
        if DiagramRow.NOTATION in self.layout.rows:
            box = f'viewBox="0 0 {tempo_width} {TEMPO_HEIGHT}" width="{tempo_width}" height="{TEMPO_HEIGHT}"'
            mark = f'<svg class="ww-tempo-mark" {box}>{tempo}</svg>'
        css = "ww-beats" if all(cut.spacing.width <= _ALWAYS_FITS for cut in self.layout.cuts) else "ww-beats ww-fixed"
        bars = [self._bar(numbers) for numbers in self._lines(1)]
        cells = "".join(phrase.html for phrase in _in_twos(_in_twos(bars)))
        return (
            f'<div role="img" aria-label="{escape(name)}">{mark}'
            f'<div class="{css}" style="{self._heights()}">{cells}</div></div>'
        )

    def _bar(self, numbers: list[int]) -> _Phrase:
        """The cells of a bar. A line breaks between bars, else at the half of a bar, else between beats."""
        cells = [_Phrase(self.layout.cuts[number].spacing.width, self._cell(number)) for number in numbers]
        half = self.layout.score.time.beats / 2
        beats = self.layout.score.time.beats
        first = self.layout.cuts[numbers[0]].cut.start // beats * beats
        for index, number in enumerate(numbers):
            if half >= 2 and self.layout.cuts[number].cut.start == first + half:
                return _joined([_joined(cells[:index]), _joined(cells[index:])])
        return _joined(cells)

    def _heights(self) -> str:
        """Heights of the rows in pixels, for a style sheet that hides or swaps some of them."""
        bands = self.bands
        sizes = (bands.count, bands.notation, bands.sticking, bands.lane, bands.names, bands.middle, bands.height)
        names = ("count", "notation", "sticking", "heights", "names", "middle", "whole")
        style = ";".join(f"--ww-{name}:{num(size)}" for name, size in zip(names, sizes, strict=True))
        return style + (";--ww-sides:1" if bands.lanes == 1 else "")

    def _cell(self, number: int) -> str:
        cut = self.layout.cuts[number]
        width, height = cut.spacing.width, num(self.bands.height)
        wide = width > _ALWAYS_FITS
        gutter = f'<svg class="ww-gutter" viewBox="0 0 {GUTTER} {height}">{self.gutters[number]}</svg>'
        drawn = _PAPER + self.cuts[number]
        size = _sized(width, height)
        if wide:
            size = f' width="{width}" height="{height}"'
            condensed = f'<svg width="100%" height="999" viewBox="0 0 {width} 999" preserveAspectRatio="none">'
            drawn = f"{_PAPER}{condensed}{self.cuts[number]}</svg>"
        beat = f'<svg class="ww-beat"{size}{_times(cut)}>{drawn}</svg>'
        css = "ww-cell ww-wide" if wide else "ww-cell"
        return f'<span class="{css}" style="--w:{width}">{gutter}{beat}</span>'

    def svg(self, width_beats: int = 8, bars: int | None = None, with_tempo: bool = True) -> str:
        """The diagram as one SVG file: whole bars, as many to a line as make up ``width_beats`` (one at least).

        ``bars`` is how many of them are drawn, from bar 1 (and its pick-up); all without it.
        """
        file = self._file_layout(width_beats, bars, with_tempo)
        drawn = [f'<g transform="translate({GUTTER})">{file.tempo}</g>'] if file.tempo else []
        y = file.top
        for line in file.lines:
            drawn.append(f'<g transform="translate(0 {num(y)}) scale({num(line.scale)})">{self._line(line.cuts)}</g>')
            y += self.bands.height * line.scale + _LINE_GAP
        width, height = num(file.width), num(file.height)
        title = self.layout.score.pattern.title or say("Sticking diagram")
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}" height="{height}" '
            f'viewBox="0 0 {width} {height}" role="img" aria-labelledby="t d">'
            f'<title id="t">{escape(title)}</title><desc id="d">{escape(self.words.text)}</desc>'
            f'<style>{self._style}</style><path fill="#fff" d="M0 0h{width}v{height}H0z"/>'
            f'<g transform="translate({_MARGIN} {_MARGIN})">{"".join(drawn)}</g></svg>\n'
        )

    @property
    def _style(self) -> str:
        pattern = self.layout.score.pattern
        is_chart = pattern.words or pattern.dynamics or pattern.repeats or pattern.tempos
        return _STANDALONE_STYLE + (_CHART_STYLE if is_chart else "")

    def line_width(self, numbers: Sequence[int]) -> float:
        """Pixels that the cuts of these numbers take on a line of their own."""
        return GUTTER + sum(self.layout.cuts[number].spacing.width for number in numbers)

    def line_svg(self, numbers: Sequence[int], with_tempo: bool) -> str:
        """One line of the diagram as an SVG without a margin: the cuts of these numbers."""
        tempo, tempo_width = draw_marks(self.layout.score.pattern) if with_tempo else ("", 0.0)
        top = TEMPO_HEIGHT + 4 if tempo else 0
        width = num(max(self.line_width(numbers), GUTTER + tempo_width))
        height = num(top + self.bands.height)
        mark = f'<g transform="translate({GUTTER})">{tempo}</g>' if tempo else ""
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}" height="{height}" viewBox="0 0 {width} {height}">'
            f'<style>{self._style}</style>{mark}<g transform="translate(0 {top})">{self._line(numbers)}</g></svg>'
        )

    def size(self, width_beats: int = 8, bars: int | None = None, with_tempo: bool = True) -> tuple[float, float]:
        """Width and height of the file that :meth:`svg` makes."""
        file = self._file_layout(width_beats, bars, with_tempo)
        return file.width, file.height

    def _file_layout(self, width_beats: int, bars: int | None, with_tempo: bool) -> _FileLayout:
        tempo, tempo_width = draw_marks(self.layout.score.pattern)
        if not with_tempo or DiagramRow.NOTATION not in self.layout.rows:
            tempo, tempo_width = "", 0
        top = TEMPO_HEIGHT + 4 if tempo else 0
        numbers = self._lines(width_beats, bars)
        widths = [GUTTER + sum(self.layout.cuts[number].spacing.width for number in line) for line in numbers]
        widest = max(widths)
        scales = [widest / width if widest <= _MOST_GROWN * width else 1.0 for width in widths]
        lines = [_FileLine(line, scale) for line, scale in zip(numbers, scales, strict=True)]
        height = top + sum(self.bands.height * scale + _LINE_GAP for scale in scales) - _LINE_GAP
        width = max(widest, GUTTER + tempo_width)
        return _FileLayout(tempo, top, tuple(lines), width + 2 * _MARGIN, height + 2 * _MARGIN)

    def _lines(self, width_beats: int, bars: int | None = None) -> list[list[int]]:
        """Numbers of the cuts on each line."""
        bar = self.layout.score.time.beats
        beats = max(1, width_beats // bar) * bar
        before_1 = self.layout.score.pattern.bars_before_1 * bar
        lines: list[list[int]] = []
        for number, cut in enumerate(self.layout.cuts):
            if bars is not None and cut.cut.start >= bars * bar + before_1:
                break
            of_bars = cut.cut.start - before_1
            if not lines or (of_bars > 0 and of_bars % beats == 0):
                lines.append([])
            lines[-1].append(number)
        return lines

    def _line(self, numbers: Sequence[int]) -> str:
        drawn = [self.gutters[numbers[0]]]
        x = GUTTER
        for number in numbers:
            drawn.append(f'<g transform="translate({x})">{self.cuts[number]}</g>')
            x += self.layout.cuts[number].spacing.width
        return "".join(drawn)


def diagram(pattern: Pattern, show: Collection[DiagramRow] | None = None) -> Diagram:
    """Draw a pattern, with the rows it asks for itself, else those of ``show``, else all."""
    rows = frozenset(pattern.show or show or DiagramRow)
    layout = lay_out(read_score(pattern), rows)
    bands = read_bands(layout)
    beads, ties = bead_lines(layout), read_ties(layout)
    cuts = tuple(draw_cut(layout, number, bands, beads, ties) for number in range(len(layout.cuts)))
    gutter = draw_gutter(layout, bands)
    gutters = tuple(gutter + draw_staying(layout, bands, number) for number in range(len(cuts)))
    return Diagram(layout, bands, gutters, cuts)


def _times(cut: CutLayout) -> str:
    """When a cut begins and ends, and where a moment stands: ``start + pace * (t - from)`` pixels from the left."""
    places = f'data-ww-start="{num(cut.spacing.start)}" data-ww-pace="{num(cut.spacing.pace)}"'
    return f' data-from="{cut.cut.start}/1" data-to="{cut.cut.end}/1" {places}'
