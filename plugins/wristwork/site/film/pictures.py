"""The pictures of a film, one after the other."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from wristwork.drawing.diagram import Diagram, diagram
from wristwork.drawing.dyeing import DRAWN_IN, in_colours
from wristwork.drawing.gutter import GUTTER
from wristwork.drawing.printed import lines_of
from wristwork.languages.say import marked, say
from wristwork.pattern.model import DiagramRow, Pattern
from wristwork.site.film.hands import HEIGHT as HAND_HEIGHT
from wristwork.site.film.hands import WIDTH as HAND_WIDTH
from wristwork.site.film.hands import MovingHand, moving_hands
from wristwork.site.film.layout import FilmWords, Shape
from wristwork.site.film.press import FilmPress, Pixels
from wristwork.site.film.timing import FADE, FRAMES_PER_SECOND, FilmTimes, Way
from wristwork.technique.strokes import Limb

_ROWS = (DiagramRow.COUNT, DiagramRow.NOTATION, DiagramRow.STICKING, DiagramRow.HEIGHTS)
_SIDE = 24
_READABLE, _LARGEST = 1.4, 2.3  # of a diagram's natural size
_MARK, _MARK_SHARE = 5, 0.6  # pixels, and how much of what is below it is covered
_TITLES = {Limb.RIGHT_HAND: marked("Right hand"), Limb.LEFT_HAND: marked("Left hand")}


@dataclass(frozen=True, slots=True)
class _Line:
    """A line of the diagram: its picture, its cuts, and how large it is drawn."""

    picture: Pixels
    numbers: Sequence[int]
    scale: float


class Pictures:
    """Draws the pictures of one film."""

    def __init__(self, pattern: Pattern, words: FilmWords, times: FilmTimes, shape: Shape, press: FilmPress,
                 colours: dict[str, str]) -> None:  # fmt: skip
        """``colours`` are those of the light scheme."""
        self._pattern = pattern
        self._words = words
        self._times = times
        self._shape = shape
        self._press = press
        self._colours = colours
        self._way = Way(pattern, times)
        self._hands = moving_hands(pattern, times)
        self._seen: dict[tuple[str, ...], bytes] = {}

    def __iter__(self) -> Iterator[Pixels]:
        closes, fade = float(self._times.closes), float(FADE)
        for number in range(self._times.frames):
            seconds = number / FRAMES_PER_SECOND
            gone = min(1.0, max(0.0, (seconds - closes) / fade))
            if gone >= 1.0:
                yield self._end
            elif gone > 0.0:
                yield _mixed(self._picture(seconds), self._end, gone)
            else:
                yield self._picture(seconds)

    def _picture(self, seconds: float) -> Pixels:
        beat = self._way.written_beat(seconds)
        at = self._line_at(beat)
        picture = self._pages[at // self._at_once].copy()
        if beat is not None:
            self._mark(picture, at, beat)
        if self._hands:
            top = self._shape.hands[0]
            hands = self._hands_at(seconds)
            picture[top : top + len(hands), _SIDE : self._shape.width - _SIDE] = hands
        return picture

    def _mark(self, picture: Pixels, at: int, beat: float) -> None:
        line = self._lines[at]
        x = round(self._left(line) + line.scale * self._x(line, beat))
        top = self._tops[at]
        under = picture[top : top + line.picture.shape[0], x - _MARK // 2 : x + _MARK // 2 + 1]
        under[:] = ((1 - _MARK_SHARE) * under + _MARK_SHARE * _rgb(self._colours["accent"])).astype(np.uint8)

    def _x(self, line: _Line, beat: float) -> float:
        """Pixels of the drawing from the start of its line."""
        x = float(GUTTER)
        for number in line.numbers:
            cut = self._drawn.layout.cuts[number]
            if cut.cut.start <= beat < cut.cut.end:
                return x + cut.spacing.start + cut.spacing.pace * (beat - cut.cut.start)
            x += cut.spacing.width
        return x

    def _line_at(self, beat: float | None) -> int:
        cuts = self._drawn.layout.cuts
        if beat is None:
            return 0
        for at, line in enumerate(self._lines):
            if beat < cuts[line.numbers[-1]].cut.end:
                return at
        return len(self._lines) - 1

    @cached_property
    def _drawn(self) -> Diagram:
        rows = tuple(row for row in _ROWS if row in (self._pattern.show or _ROWS)) or self._pattern.show
        return diagram(replace(self._pattern, show=rows))

    @cached_property
    def _lines(self) -> tuple[_Line, ...]:
        room, height = self._shape.width - 2 * _SIDE, self._shape.diagram[1] - self._shape.diagram[0] - 16
        lines = lines_of(self._drawn, room, _READABLE)
        widest = max(self._drawn.line_width(numbers) for numbers in lines)
        scale = min(_LARGEST, room / widest, height / self._drawn.bands.height)
        return tuple(self._line(numbers, scale) for numbers in lines)

    def _line(self, numbers: Sequence[int], scale: float) -> _Line:
        svg = in_colours(self._drawn.line_svg(numbers, with_tempo=False), {**DRAWN_IN, **self._colours})
        width, height = self._drawn.line_width(numbers), self._drawn.bands.height
        drawn = self._press.picture("drawing", round(width * scale), round(height * scale), svg=svg)
        return _Line(drawn, numbers, scale)

    def _left(self, line: _Line) -> int:
        """All lines begin where the widest one does."""
        return (self._shape.width - max(one.picture.shape[1] for one in self._lines)) // 2

    @cached_property
    def _at_once(self) -> int:
        """How many lines are seen at once."""
        room = self._shape.diagram[1] - self._shape.diagram[0]
        return max(1, min(len(self._lines), room // (self._lines[0].picture.shape[0] + 16)))

    @cached_property
    def _tops(self) -> tuple[int, ...]:
        """Where each line stands in its picture."""
        start, end = self._shape.diagram
        height, count = self._lines[0].picture.shape[0], self._at_once
        gap = (end - start - count * height) // (count + 1)
        return tuple(start + gap + at % count * (height + gap) for at in range(len(self._lines)))

    @cached_property
    def _pages(self) -> tuple[Pixels, ...]:
        """What stands still while some lines are seen."""
        words = self._words
        ground = self._press.picture(
            "ground", self._shape.width, self._shape.height, eyebrow=words.eyebrow, title=words.title, site=words.site,
            tempo=words.tempo, rtl=words.rtl, **{"from": self._shape.diagram[0], "to": self._shape.diagram[1]},
        )  # fmt: skip
        pages = []
        for first in range(0, len(self._lines), self._at_once):
            page = ground.copy()
            for at in range(first, min(first + self._at_once, len(self._lines))):
                line = self._lines[at]
                (height, width), top, left = line.picture.shape[:2], self._tops[at], self._left(line)
                page[top : top + height, left : left + width] = line.picture
            pages.append(page)
        return tuple(pages)

    def _hands_at(self, seconds: float) -> Pixels:
        """The hands at a moment; what was drawn before is kept as a file, which takes a hundredth of the room."""
        drawn = [(hand, hand.drawn(seconds), say(str(hand.stroke(seconds)))) for hand in self._hands]
        key = tuple(part for _, svg, word in drawn for part in (svg, word))
        if key not in self._seen:
            width, height = self._shape.width - 2 * _SIDE, self._shape.hands[1] - self._shape.hands[0]
            hands = [self._shown(hand, svg, word) for hand, svg, word in drawn]
            self._seen[key] = self._press.file("hands", width, height, hands=hands)
        return self._press.opened(self._seen[key])

    def _shown(self, hand: MovingHand, inside: str, word: str) -> dict[str, str]:
        for name in ("ink", "quiet", "accent", "paper", "line", "fill"):
            inside = inside.replace(f"var(--ww-{name})", self._colours[name])
        inside = inside.replace("var(--ww-ink, currentColor)", self._colours["ink"])
        svg = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {HAND_WIDTH} {HAND_HEIGHT}">{inside}</svg>'
        return {"svg": svg, "title": say(_TITLES[hand.limb]), "word": word}

    @cached_property
    def _end(self) -> Pixels:
        words = self._words
        return self._press.picture(
            "end", self._shape.width, self._shape.height, title=words.title, address=words.address, site=words.site,
            rtl=words.rtl,
        )  # fmt: skip


def _mixed(one: Pixels, other: Pixels, share: float) -> Pixels:
    return ((1 - share) * one + share * other).astype(np.uint8)


def _rgb(colour: str) -> Pixels:
    return np.array([int(colour[at : at + 2], 16) for at in (1, 3, 5)], dtype=np.uint8)
