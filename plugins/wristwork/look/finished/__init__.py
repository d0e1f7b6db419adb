"""The finished looks that a course can choose from: a style sheet of colours for each, and a row here."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from types import MappingProxyType

from wristwork.look.palette import Palette, read_palette

# The demonstration's own, which a course has that says nothing, is not among them: it is `tokens.css`.
LOOKS: Mapping[str, str] = MappingProxyType(
    {
        "maple": "maple.css",
        "felt": "felt.css",
        "lacquer": "lacquer.css",
    }
)


@cache
def finished_look(name: str) -> Palette:
    """The palette of a look by its name."""
    return read_palette((files(__package__) / LOOKS[name]).read_text(encoding="utf-8"))
