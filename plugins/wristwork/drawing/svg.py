"""Writing SVG: short numbers, escaped text, a few elements."""

from __future__ import annotations

import re
from collections.abc import Iterable
from fractions import Fraction

# What XML 1.0 cannot hold even escaped.
_NOT_XML = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def num(value: float) -> str:
    """A number of CSS pixels; five digits are finer than any screen."""
    return f"{value:.5g}"


def joined(numbers: Iterable[float]) -> str:
    """Numbers in a row; a minus sign parts them as well as a space does."""
    written = ""
    for number in numbers:
        text = num(number)
        written += text if not written or text[0] == "-" else f" {text}"
    return written


def escape(text: str) -> str:
    """Text that is safe between tags and in a double-quoted attribute, in HTML and in XML."""
    clean = _NOT_XML.sub("\ufffd", text)
    return clean.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;").replace('"', "&quot;")


def fraction(value: Fraction) -> str:
    """``a/b`` in lowest terms, whole numbers too."""
    above, below = value.as_integer_ratio()
    return f"{above}/{below}"


def path(data: str, attributes: str = "") -> str:
    """A path element, nothing where there is nothing to draw."""
    return f'<path{attributes} d="{data}"/>' if data else ""


def rect(x: float, y: float, width: float, height: float) -> str:
    """Path data of an upright rectangle."""
    return f"M{x:.5g} {y:.5g}h{width:.5g}v{height:.5g}h{-width:.5g}z"


def group(name: str, content: str, x: float = 0, y: float = 0, attributes: str = "") -> str:
    """A group of a class, moved; nothing where it is empty."""
    if not content:
        return ""
    move = f' transform="translate({x:.5g} {y:.5g})"' if x or y else ""
    return f'<g class="{name}"{move}{attributes}>{content}</g>'
