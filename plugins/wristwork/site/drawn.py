"""Draw a pattern, once."""

from __future__ import annotations

import json
from html import escape

from wristwork.pattern.model import Pattern
from wristwork.pattern.write import lane_text
from wristwork.site.cache import Cache, digest
from wristwork.site.figure import Drawing


def draw(pattern: Pattern) -> Drawing:
    """Row, stand-alone picture and words of a pattern."""
    text = lane_text(pattern.hands or pattern.feet)
    svg = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 620 240" font-family="system-ui,sans-serif" font-size="20"><rect width="620" height="240" fill="#eee"/><text x="20" y="60">{escape(text)}</text></svg>'
    return Drawing(f'<code>{escape(text)}</code>', svg, "<p>Beat 1.</p>")


def draw_cached(pattern: Pattern, cache: Cache) -> Drawing:
    """The same, kept by content."""

    def make() -> str:
        drawing = draw(pattern)
        return json.dumps([drawing.row, drawing.svg, drawing.words], ensure_ascii=False)

    return Drawing(*json.loads(cache.text(".json", digest("drawing", repr(pattern)), make)))
