"""Draw a pattern once, and keep what was drawn."""

from __future__ import annotations

from html import escape
from pathlib import Path

from wristwork.pattern.model import Pattern
from wristwork.pattern.write import lane_text
from wristwork.site.cache import Cache, digest
from wristwork.site.figure import Drawing

# Stands between the two texts of a kept drawing; no markup holds it.
_BETWEEN = "\x1e"


def draw(pattern: Pattern) -> Drawing:
    """The reflowing row and the words of a pattern."""
    lane = pattern.hands or pattern.feet
    text = lane_text(lane) if lane else ""
    return Drawing(f"<code>{escape(text)}</code>", "<p>Beat 1.</p>")


def picture(pattern: Pattern) -> str:
    """The diagram as one stand-alone SVG file."""
    lane = pattern.hands or pattern.feet
    text = lane_text(lane) if lane else ""
    return (
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 620 240" font-family="system-ui,sans-serif" '
        f'font-size="20"><rect width="620" height="240" fill="#eee"/><text x="20" y="60">{escape(text)}</text></svg>'
    )


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

    def picture(self, pattern: Pattern, key: str) -> Path:
        """The file that holds the stand-alone picture."""
        return self._cache.file(".svg", digest("picture", key), lambda: picture(pattern).encode())


def key_of(pattern: Pattern) -> str:
    """A name for all that can be seen or heard of a pattern: what is made from it is kept by this."""
    lanes = (lane_text(lane) if lane else "" for lane in (pattern.hands, pattern.feet))
    words = (pattern.id, pattern.title, pattern.note, pattern.grows_from, pattern.requires, pattern.show)
    played = (pattern.time, pattern.tempo, pattern.place, pattern.repeat, pattern.loop, pattern.example)
    return digest(*lanes, repr(words), repr(played))
