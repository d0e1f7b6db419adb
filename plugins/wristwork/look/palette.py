"""The colours of a site by what they are for, light and dark, and which of them must stand out from which.

A colour is named by its custom property without ``--ww-``: ``paper``, ``ink``, ``deep``. What a palette has is told by
the house's own, ``tokens.css``.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from typing import NamedTuple

from wristwork.look.shades import Seen, contrast, nearest_shade, see, show

# Of WCAG 2.2, level AA: text (1.4.3), and lines and marks that are to be seen (1.4.11).
TEXT, MARKS = 4.5, 3.0
WHITE = "#ffffff"
_COLOUR = re.compile(r"--ww-([a-z]+): (#[0-9a-f]{6});")


@dataclass(frozen=True, slots=True)
class Palette:
    """The colours of the light scheme with those that are the same in both, and the dark scheme's own."""

    light: Mapping[str, str]
    dark: Mapping[str, str]


class Pair(NamedTuple):
    """What stands on a ground, and the least contrast of the two. ``ground`` may be white."""

    colour: str
    ground: str
    least: float


def _pairs(colours: Sequence[str], grounds: Sequence[str], least: float = TEXT) -> tuple[Pair, ...]:
    return tuple(Pair(colour, ground, least) for colour in colours for ground in grounds)


_WATERS = ("shallow", "deep", "deeper", "deepest")
# In either scheme.
ON_PAPER = (
    *_pairs(("ink", "quiet", "accent", "water", "link", "danger"), ("paper", "raised")),
    *_pairs(("ink", "quiet", "water", "link"), ("fill",)),
    *_pairs(("accent", "line"), ("fill",), MARKS),
    *_pairs(("line",), ("paper", "raised"), MARKS),
)
# On the deep colours, which are the same in both.
ON_WATER = (
    *_pairs(_WATERS, ("white",)),
    *_pairs(("mist", "haze", "fog", "glow"), ("deep", "deeper", "deepest")),
    *_pairs(("night",), ("glow",)),
)
_SECOND = ("accent", "brass", "glow")
_KEPT = ("danger",)
# Chosen colours are not made stronger than this many times the tint of the house's.
_STRONGEST = 1.15


def read_palette(style: str) -> Palette:
    """The palette that a style sheet holds, under the names of the two schemes."""
    return Palette(_scheme(style, "default"), _scheme(style, "slate"))


def _scheme(style: str, name: str) -> Mapping[str, str]:
    _, _, after = style.partition(f'[data-md-color-scheme="{name}"] {{')
    return dict(_COLOUR.findall(after.partition("}")[0]))


def weak_pairs(palette: Palette) -> Iterator[tuple[str, Pair, float]]:
    """Every pair that does not hold, with its scheme and the contrast that it has."""
    schemes = {"light": (palette.light, (*ON_PAPER, *ON_WATER)), "dark": ({**palette.light, **palette.dark}, ON_PAPER)}
    for name, (colours, pairs) in schemes.items():
        for pair in pairs:
            has = contrast(colours[pair.colour], _ground(colours, pair))
            if has < pair.least:
                yield name, pair, has


def _ground(colours: Mapping[str, str], pair: Pair) -> str:
    return WHITE if pair.ground == "white" else colours[pair.ground]


def dyed(pattern: Palette, main: str, second: str) -> Palette:
    """A palette like another one in the hues of two colours, in which every pair holds.

    The deep colours are shades of the first, the accents of the second: the nearest to it that can be read.
    """
    deep, light = see(pattern.light["deep"]), dict(_dyed(pattern.light, pattern, main, second))
    light["deep"] = nearest_shade(main, lambda shade: contrast(shade, WHITE) >= TEXT)
    for name in ("deeper", "deepest"):
        there = see(light["deep"])
        light[name] = show(Seen(there.light * see(pattern.light[name]).light / deep.light, there.a, there.b))
    light |= {"shallow": light["deep"], "water": light["deep"], "link": light["deep"], "accent": second}
    dark = dict(_dyed(pattern.dark, pattern, main, second))
    held = _held(light, (*ON_PAPER, *ON_WATER))
    # What the dark scheme has of the light one stays what it is.
    own = _held({**held, **dark}, ON_PAPER)
    return Palette(held, {name: own[name] for name in dark})


def _dyed(colours: Mapping[str, str], pattern: Palette, main: str, second: str) -> Iterator[tuple[str, str]]:
    strengths = {main: _strength(main, pattern.light["deep"]), second: _strength(second, pattern.light["accent"])}
    for name, colour in colours.items():
        chosen = second if name in _SECOND else main
        there = see(colour)
        dye = show(there.tinted(see(chosen), there.chroma * strengths[chosen]))
        yield name, colour if name in _KEPT or there.chroma < 1e-3 else dye


def _strength(colour: str, of: str) -> float:
    return min(_STRONGEST, see(colour).chroma / see(of).chroma)


def _held(colours: Mapping[str, str], pairs: Sequence[Pair]) -> dict[str, str]:
    """The colours, each in its nearest shade that stands out from all it stands on."""
    held = dict(colours)
    for name in dict.fromkeys(pair.colour for pair in pairs):
        grounds = [(_ground(held, pair), pair.least) for pair in pairs if pair.colour == name]
        held[name] = nearest_shade(held[name], partial(_stands_out, grounds))
    return held


def _stands_out(grounds: Sequence[tuple[str, float]], colour: str) -> bool:
    return all(contrast(colour, ground) >= least for ground, least in grounds)
