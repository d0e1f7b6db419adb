"""The house's colours for what reads no style sheet: they stand in ``tokens.css`` alone.

A colour is named by its custom property without ``--ww-``: ``paper``, ``ink``, ``deep``.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path

from wristwork.look.palette import Palette, read_palette

_TOKENS = Path(__file__).parents[1] / "assets" / "base" / "tokens.css"
_SLATE = '[data-md-color-scheme="slate"]'
_DARK = "@media screen and (prefers-color-scheme: dark)"


@cache
def house() -> Palette:
    """The colours of a course that says nothing of them."""
    return read_palette(_TOKENS.read_text(encoding="utf-8"))


def dark_by_device() -> str:
    """The dark scheme as a style sheet for pages without a switch: the device chooses, where the reader has not."""
    return _dark_by_device(f"{_properties(house().dark)}    color-scheme: dark;\n")


def _dark_by_device(properties: str) -> str:
    return f"{_DARK} {{\n  :root:not([data-md-color-scheme]) {{\n{properties}  }}\n}}\n"


def as_style(palette: Palette) -> str:
    """A palette as a style sheet that goes over the house's, on screens alone: paper is black and white."""
    schemes = ((':root,\n  [data-md-color-scheme="default"]', palette.light), (_SLATE, palette.dark))
    blocks = "".join(f"  {names} {{\n{_properties(colours)}  }}\n" for names, colours in schemes)
    return f"@media screen {{\n{blocks}}}\n{_dark_by_device(_properties(palette.dark))}"


def in_page(palette: Palette, *names: str) -> str:
    """These colours as styles of a page that has no style sheet, light or dark as the device likes it."""
    schemes = ("".join(f"--ww-{name}:{scheme[name]};" for name in names) for scheme in (palette.light, palette.dark))
    return ":root{{{}}}@media(prefers-color-scheme:dark){{:root{{{}}}}}".format(*schemes)


def _properties(colours: Mapping[str, str]) -> str:
    return "".join(f"    --ww-{name}: {colour};\n" for name, colour in colours.items())
