"""A stand-alone drawing in other colours than the house's."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

# What a drawing's colours are for.
DRAWN_IN: Mapping[str, str] = MappingProxyType(
    {"ink": "#10262b", "quiet": "#4a6469", "line": "#5b757b", "fill": "#dceaea", "accent": "#a34c0c"}
)


def in_colours(svg: str, colours: Mapping[str, str]) -> str:
    """The drawing in these colours, by what they are for; words in it may hold whatever they like."""
    before, style, after = svg.partition("</style>")
    for name, colour in DRAWN_IN.items():
        before = before.replace(colour, colours[name])
    return before + style + after
