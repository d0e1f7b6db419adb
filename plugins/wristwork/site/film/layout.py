"""How large a film is, where things stand in it, and what it says. Known without anything that draws."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Shape:
    """Pixels of a film, and from where to where its diagram and its hands stand."""

    width: int
    height: int
    diagram: tuple[int, int]
    hands: tuple[int, int]


SQUARE = Shape(720, 720, (104, 422), (432, 668))
UPRIGHT = Shape(720, 1280, (120, 884), (920, 1180))


@dataclass(frozen=True, slots=True)
class FilmWords:
    """What stands in a film: ``address`` is the exercise's own, as it is read out."""

    title: str
    eyebrow: str
    tempo: str
    site: str
    address: str
    rtl: bool = False
