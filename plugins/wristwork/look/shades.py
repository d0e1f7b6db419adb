"""Colours as a screen shows them and as eyes see them: contrast, and the nearest shade that can be read.

A colour is a text like ``#0b4450``. Contrast is the ratio of WCAG 2.2, from 1 to 21. Shades of a colour differ in the
lightness of Oklab (Björn Ottosson, 2020) and keep its hue.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from math import cbrt, hypot
from typing import NamedTuple

# How a colour is typed.
EXAMPLE = "#7a2e1d"
_COLOUR = re.compile(r"#?([0-9a-fA-F]{3}|[0-9a-fA-F]{6})")
# Steps of lightness from black to white: finer than eyes tell apart.
_STEPS = 250


class Seen(NamedTuple):
    """A colour as eyes see it: lightness from 0 to 1, and its tint along two axes (green to red, blue to yellow)."""

    light: float
    a: float
    b: float

    @property
    def chroma(self) -> float:
        """How strong the tint is; 0 for greys."""
        return hypot(self.a, self.b)

    def tinted(self, hue: Seen, strength: float) -> Seen:
        """This lightness with the hue of another colour, as strong as asked."""
        share = strength / hue.chroma if hue.chroma > 1e-6 else 0.0
        return Seen(self.light, hue.a * share, hue.b * share)


def read_colour(text: str) -> str | None:
    """A colour that somebody typed, as six figures; None for what is no colour."""
    found = _COLOUR.fullmatch(text.strip())
    if found is None:
        return None
    figures = found[1].lower()
    return "#" + (figures if len(figures) == 6 else "".join(2 * figure for figure in figures))


def contrast(one: str, other: str) -> float:
    """The contrast of two colours, whichever is the lighter."""
    dark, light = sorted((_luminance(one), _luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def nearest_shade(colour: str, holds: Callable[[str], bool]) -> str:
    """The shade nearest to a colour that holds; the colour itself where it does. Raises ValueError where none holds."""
    if holds(colour):
        return colour
    seen = see(colour)
    for step in range(1, _STEPS + 1):
        for way in (-1, 1):
            light = seen.light + way * step / _STEPS
            shade = show(Seen(min(1.0, max(0.0, light)), seen.a, seen.b))
            if holds(shade):
                return shade
    raise ValueError(f"no shade of {colour} holds")


def see(colour: str) -> Seen:
    """What eyes see of a colour."""
    red, green, blue = map(_linear, _channels(colour))
    long = cbrt(0.4122214708 * red + 0.5363325363 * green + 0.0514459929 * blue)
    middle = cbrt(0.2119034982 * red + 0.6806995451 * green + 0.1073969566 * blue)
    short = cbrt(0.0883024619 * red + 0.2817188376 * green + 0.6299787005 * blue)
    return Seen(
        0.2104542553 * long + 0.7936177850 * middle - 0.0040720468 * short,
        1.9779984951 * long - 2.4285922050 * middle + 0.4505937099 * short,
        0.0259040371 * long + 0.7827717662 * middle - 0.8086757660 * short,
    )


def show(seen: Seen) -> str:
    """The colour that a screen shows; a tint that no screen has at this lightness is made weaker until one has it."""
    for part in range(100, -1, -4):
        channels = _on_screen(Seen(seen.light, seen.a * part / 100, seen.b * part / 100))
        if all(-0.002 <= channel <= 1.002 for channel in channels):
            break
    return "#" + "".join(f"{round(255 * _gamma(min(1.0, max(0.0, channel)))):02x}" for channel in channels)


def _on_screen(seen: Seen) -> tuple[float, float, float]:
    long = (seen.light + 0.3963377774 * seen.a + 0.2158037573 * seen.b) ** 3
    middle = (seen.light - 0.1055613458 * seen.a - 0.0638541728 * seen.b) ** 3
    short = (seen.light - 0.0894841775 * seen.a - 1.2914855480 * seen.b) ** 3
    return (
        4.0767416621 * long - 3.3077115913 * middle + 0.2309699292 * short,
        -1.2684380046 * long + 2.6097574011 * middle - 0.3413193965 * short,
        -0.0041960863 * long - 0.7034186147 * middle + 1.7076147010 * short,
    )


def _luminance(colour: str) -> float:
    red, green, blue = map(_linear, _channels(colour))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _channels(colour: str) -> tuple[float, float, float]:
    red, green, blue = (int(colour[start : start + 2], 16) / 255 for start in (1, 3, 5))
    return red, green, blue


def _linear(channel: float) -> float:
    return channel / 12.92 if channel <= 0.04045 else ((channel + 0.055) / 1.055) ** 2.4


def _gamma(channel: float) -> float:
    return channel * 12.92 if channel <= 0.0031308 else 1.055 * channel ** (1 / 2.4) - 0.055
