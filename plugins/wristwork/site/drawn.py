"""Draw a pattern once, and keep what was drawn."""

from __future__ import annotations

from wristwork.drawing import diagram, words
from wristwork.pattern.model import Pattern
from wristwork.pattern.write import lane_text
from wristwork.site.cache import Cache, digest
from wristwork.site.figure import Drawing

# Stands between the two texts of a kept drawing; no markup holds it.
_BETWEEN = "\x1e"


def draw(pattern: Pattern) -> Drawing:
    """The reflowing row and the words of a pattern."""
    return Drawing(diagram(pattern).html(), words(pattern).html)


def picture(pattern: Pattern) -> str:
    """The diagram as one stand-alone SVG file."""
    return diagram(pattern).svg()


class Drawings:
    """Drawings of patterns, from the cache where they were made before; ``key`` is the pattern's :func:`key_of`."""

    def __init__(self, cache: Cache) -> None:
        self._cache = cache

    def on_page(self, pattern: Pattern, key: str) -> Drawing:
        """What a page shows of a pattern."""

        def make() -> str:
            drawing = draw(pattern)
            return drawing.row + _BETWEEN + drawing.words

        row, _, words = self._cache.text(".html", digest("drawing", key), make).partition(_BETWEEN)
        return Drawing(row, words)


def key_of(pattern: Pattern) -> str:
    """A name for all that can be seen or heard of a pattern: what is made from it is kept by this."""
    lanes = (lane_text(lane) if lane else "" for lane in (pattern.hands, pattern.feet))
    words = (pattern.id, pattern.title, pattern.note, pattern.grows_from, pattern.requires, pattern.show)
    played = (pattern.time, pattern.tempo, pattern.place, pattern.repeat, pattern.loop, pattern.example)
    return digest(*lanes, repr(words), repr(played))
