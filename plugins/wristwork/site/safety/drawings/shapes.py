"""The pen that all drawings share: rounded limbs, outlines, arrows, in one line width and a few colours.

Lengths are pixels of a drawing's own view box, angles degrees from straight ahead (right),
positive downwards. Colours are the page's custom properties.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from html import escape

from markupsafe import Markup

INK = "var(--ww-ink, currentColor)"
QUIET = "var(--ww-quiet)"
ACCENT = "var(--ww-accent)"
PAPER = "var(--ww-paper)"
FAINT = "var(--ww-line)"
FILL = "var(--ww-fill)"

LINE = 2.2


@dataclass(frozen=True, slots=True)
class Point:
    """A place in a drawing."""

    x: float
    y: float

    def towards(self, angle: float, length: float) -> Point:
        """The point that far away in that direction."""
        turn = math.radians(angle)
        return Point(self.x + length * math.cos(turn), self.y + length * math.sin(turn))

    def angle_to(self, other: Point) -> float:
        """The direction from here to there."""
        return math.degrees(math.atan2(other.y - self.y, other.x - self.x))

    def distance_to(self, other: Point) -> float:
        """How far it is from here to there."""
        return math.hypot(other.x - self.x, other.y - self.y)

    def __str__(self) -> str:
        return f"{number(self.x)} {number(self.y)}"


def number(value: float) -> str:
    """A coordinate with at most one decimal: a tenth of a pixel is finer than anybody sees."""
    return f"{value:.1f}".removesuffix(".0").replace("-0.0", "0")


def limb(start: Point, start_radius: float, end: Point, end_radius: float) -> str:
    """The path of a limb: two circles and the tangents between them."""
    along = start.angle_to(end)
    lean = math.degrees(math.acos((start_radius - end_radius) / start.distance_to(end)))
    a, b = start.towards(along - lean, start_radius), end.towards(along - lean, end_radius)
    c, d = end.towards(along + lean, end_radius), start.towards(along + lean, start_radius)
    r, s = number(start_radius), number(end_radius)
    wide_start, wide_end = int(start_radius >= end_radius), int(end_radius > start_radius)
    return f"M{a}L{b}A{s} {s} 0 {wide_end} 1 {c}L{d}A{r} {r} 0 {wide_start} 1 {a}Z"


def silhouette(paths: Iterable[str], line: str = INK, inside: str = PAPER) -> str:
    """Overlapping shapes drawn as one body: all outlines first, then all insides over them."""
    joined = "".join(paths)
    return (
        f'<path d="{joined}" fill="none" stroke="{line}" stroke-width="{number(2 * LINE)}" stroke-linejoin="round"/>'
        f'<path d="{joined}" fill="{inside}"/>'
    )


def line(path: str, colour: str = INK, width: float = LINE, dashes: str = "") -> str:
    """An open line."""
    dashed = f' stroke-dasharray="{dashes}"' if dashes else ""
    return (
        f'<path d="{path}" fill="none" stroke="{colour}" stroke-width="{number(width)}" stroke-linecap="round"'
        f' stroke-linejoin="round"{dashed}/>'
    )


def shape(path: str, inside: str = PAPER, colour: str = INK, width: float = LINE) -> str:
    """A closed shape with an outline."""
    return (
        f'<path d="{path}" fill="{inside}" stroke="{colour}" stroke-width="{number(width)}" stroke-linejoin="round"/>'
    )


def circle(centre: Point, radius: float, inside: str = PAPER, colour: str = INK, width: float = LINE) -> str:
    """A circle with an outline."""
    return (
        f'<circle cx="{number(centre.x)}" cy="{number(centre.y)}" r="{number(radius)}" fill="{inside}"'
        f' stroke="{colour}" stroke-width="{number(width)}"/>'
    )


def arrow_head(tip: Point, angle: float, size: float = 9) -> str:
    """A filled arrow head that points in that direction."""
    back, other = tip.towards(angle + 152, size), tip.towards(angle - 152, size)
    return f'<path d="M{tip}L{back}L{other}Z" fill="{ACCENT}"/>'


def text(at: Point, words: str, anchor: str = "middle", size: float = 13, colour: str = INK, bold: bool = False) -> str:
    """Words, with their baseline at the point."""
    weight = ' font-weight="700"' if bold else ""
    return (
        f'<text x="{number(at.x)}" y="{number(at.y)}" text-anchor="{anchor}" font-size="{number(size)}"'
        f' fill="{colour}"{weight}>{escape(words)}</text>'
    )


def badge(at: Point, label: str) -> str:
    """A numbered disc that a list beside the drawing explains."""
    return circle(at, 10, PAPER, ACCENT, 1.6) + text(Point(at.x, at.y + 4.5), label, bold=True)


def drawing(name: str, title: str, description: str, width: int, height: int, body: str) -> Markup:
    """A whole SVG on one line, with its name and its text alternative."""
    return Markup(
        f'<svg class="ww-drawing" xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}" width="{width}"'
        f' height="{height}" role="img" aria-labelledby="ww-{name}-title ww-{name}-desc" font-family="inherit">'
        f'<title id="ww-{name}-title">{escape(title)}</title><desc id="ww-{name}-desc">{escape(description)}</desc>'
        f"{body}</svg>"
    )
