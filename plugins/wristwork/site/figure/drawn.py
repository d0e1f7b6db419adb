"""Draw a pattern once, and keep what was drawn."""

from __future__ import annotations

from wristwork.drawing import diagram
from wristwork.pattern.model import Pattern, Row
from wristwork.pattern.write import lane_text
from wristwork.site.figure.figure import Drawing
from wristwork.store.cache import Cache, digest

# Stands between the two texts of a kept drawing; no markup holds it.
_BETWEEN = "\x1e"

Rows = tuple[Row, ...] | None


def draw(pattern: Pattern, show: Rows = None) -> Drawing:
    """The reflowing row and the words of a pattern; ``show`` are the rows where it does not say."""
    drawn = diagram(pattern, show)
    return Drawing(drawn.html(), drawn.words.html)


class Drawings:
    """Drawings of a course's patterns, with its choice of rows; ``key`` is the pattern's :meth:`key_of`."""

    def __init__(self, cache: Cache, show: Rows = None) -> None:
        self._cache = cache
        self._show = show

    def key_of(self, pattern: Pattern) -> str:
        """A name for all that can be seen or heard of a pattern: what is made from it is kept by this."""
        lanes = (lane_text(lane) if lane else "" for lane in (pattern.hands, pattern.feet))
        said = (pattern.id, pattern.title, pattern.note, pattern.grows_from, pattern.requires)
        played = (pattern.time, pattern.tempo, pattern.place, pattern.repeat, pattern.loop, pattern.example)
        return digest(*lanes, repr(said), repr(played), repr(pattern.show or self._show))

    def on_page(self, pattern: Pattern, key: str) -> Drawing:
        """What a page shows of a pattern."""

        def make() -> str:
            drawing = draw(pattern, self._show)
            return drawing.row + _BETWEEN + drawing.words

        row, _, told = self._cache.text(".html", digest("drawing", key), make).partition(_BETWEEN)
        return Drawing(row, told)

    def picture(self, pattern: Pattern) -> str:
        """The diagram as one stand-alone SVG file."""
        return diagram(pattern, self._show).svg()


def sticking(pattern: Pattern) -> str:
    """The groups of the hands (of the feet where there are no hands), as typed."""
    lane = pattern.hands or pattern.feet
    assert lane is not None, "a pattern has at least one lane"
    return lane_text(lane)
