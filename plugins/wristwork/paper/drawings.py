"""Drawings of a page in the colours of paper."""

from __future__ import annotations

import re
from collections.abc import Sequence

from wristwork.languages.say import say
from wristwork.paper.text import Block

_COLOUR = re.compile(r"var\(--ww-(\w+)[^)]*\)")
# What a drawing's colours are on paper; all others are black.
_ON_PAPER = {"quiet": "#444", "paper": "#fff", "line": "#999", "fill": "#e3e3e3"}
_SIZE = re.compile(r'viewBox="[\d.-]+ [\d.-]+ (?P<width>[\d.]+) [\d.]+"')
_TOLD = re.compile(r"<desc[^>]*>(?P<words>.*?)</desc>", re.DOTALL)
_POINTS_TO_THE_PIXEL = 0.6


def drawn_in_a_row(blocks: Sequence[Block]) -> Block:
    """Drawings in a row that wraps, in the colours of paper."""
    pictures = []
    for block in blocks:
        svg = _COLOUR.sub(lambda found: _ON_PAPER.get(found[1], "#000"), block["svg"])
        size, told = _SIZE.search(svg), _TOLD.search(svg)
        width = float(size["width"]) * _POINTS_TO_THE_PIXEL if size else 200.0
        words = told["words"] if told else block["caption"]
        pictures.append((svg, width, block["caption"], words or say("A drawing.")))
    return {"kind": "drawings", "pictures": pictures}
