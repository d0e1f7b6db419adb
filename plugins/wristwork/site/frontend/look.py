"""The look of one course: its colours, logo, letters and styles, for pages, cards, papers and the worker alike."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import PurePosixPath

from wristwork.look.palette import Palette
from wristwork.site.frontend import colours
from wristwork.site.frontend.assets import asset_files, asset_root

# Where what a build makes for the look is published, in a folder named by its content.
FOLDER = "assets/wristwork"


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture of the tutor's: where the site has it, and what is in it, told by a digest."""

    address: str
    content: bytes = field(repr=False)
    sum: str = ""

    @property
    def suffix(self) -> str:
        """The kind of picture by its ending, as in ``.svg``."""
        return PurePosixPath(self.address).suffix.lower()


def picture(address: str, content: bytes) -> Picture:
    """A picture with its digest."""
    return Picture(address, content, hashlib.sha256(content).hexdigest())


@dataclass(frozen=True)
class Look:
    """How a course looks.

    ``palette`` is None for the house's own colours. ``logo`` and ``icon`` are addresses from the site's root, or
    elsewhere; ``drawn`` is the logo as a picture where there is one to draw. ``styles`` are the tutor's own style
    sheets.
    """

    palette: Palette | None = None
    logo: str | None = None
    drawn: Picture | None = None
    icon: str | None = None
    styles: tuple[str, ...] = ()

    @property
    def colours(self) -> Palette:
        """The colours, whoever chose them."""
        return self.palette or colours.house()

    @cached_property
    def style(self) -> tuple[str, bytes] | None:
        """The style sheet that goes over the house's, by its address; None where nothing is chosen."""
        if self.palette is None:
            return None
        content = colours.as_style(self.palette).encode()
        return f"{FOLDER}/{hashlib.sha256(content).hexdigest()[:10]}/look.css", content

    @property
    def files(self) -> Mapping[str, bytes]:
        """What the site holds for the look, by its address."""
        if self.palette is None or self.style is None:
            return {}
        return {**dict([self.style]), self.house_icon: _dyed_icon(self.palette)}

    @property
    def house_icon(self) -> str:
        """The house's icon, in the colours of the look."""
        folder = self.style[0].rpartition("/")[0] if self.style else asset_root()
        return f"{folder}/icon.svg"

    @property
    def over_house(self) -> tuple[str, ...]:
        """The style sheets of a page that come after the house's, in their order."""
        return ((self.style[0],) if self.style else ()) + self.styles


HOUSE_LOOK = Look()


def _dyed_icon(palette: Palette) -> bytes:
    house = colours.house().light
    icon = asset_files()["icon.svg"].decode()
    for name in ("deep", "glow"):
        icon = icon.replace(house[name], palette.light[name])
    return icon.encode()
