"""The house's colours for what reads no style sheet: they stand in ``tokens.css`` alone.

A colour is named by its custom property without ``--ww-``: ``paper``, ``ink``, ``deep``.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache
from pathlib import Path

_TOKENS = Path(__file__).parents[1] / "assets" / "base" / "tokens.css"
_COLOUR = re.compile(r"--ww-([a-z]+): (#[0-9a-f]+);")
_DARK = "@media screen and (prefers-color-scheme: dark)"


@cache
def light() -> Mapping[str, str]:
    """The colours of the light scheme, and those that are the same in both."""
    return _scheme("default")


@cache
def dark() -> Mapping[str, str]:
    """The colours that the dark scheme has for itself."""
    return _scheme("slate")


def _scheme(name: str) -> Mapping[str, str]:
    _, _, after = _TOKENS.read_text(encoding="utf-8").partition(f'[data-md-color-scheme="{name}"] {{')
    return dict(_COLOUR.findall(after.partition("}")[0]))


def dark_by_device() -> str:
    """The dark scheme as a style sheet for pages without a switch: the device chooses, where the reader has not."""
    unchosen = ":root:not([data-md-color-scheme])"
    return f"{_DARK} {{\n  {unchosen} {{\n{_properties(dark())}    color-scheme: dark;\n  }}\n}}\n"


def in_page(*names: str) -> str:
    """These colours as styles of a page that has no style sheet, light or dark as the device likes it."""
    schemes = ("".join(f"--ww-{name}:{scheme[name]};" for name in names) for scheme in (light(), dark()))
    return ":root{{{}}}@media(prefers-color-scheme:dark){{:root{{{}}}}}".format(*schemes)


def _properties(colours: Mapping[str, str]) -> str:
    return "".join(f"    --ww-{name}: {colour};\n" for name, colour in colours.items())
