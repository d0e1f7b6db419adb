"""The look of one course: its colours, logo, letters and styles, for pages, cards, papers and the worker alike."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import PurePosixPath

from wristwork.look.letters import FAMILY, Letters
from wristwork.look.palette import Palette
from wristwork.site.frontend import colours
from wristwork.site.frontend.assets import asset_files, asset_root
from wristwork.site.frontend.home_icons import dyed_icons, logo_icons

# Where what a build makes for the look is published, in a folder named by its content.
FOLDER = "assets/wristwork"
_LETTERS = "letters.woff2"
# What has the tutor's letters: all that has the house's, and the course's name in the head of a page.
_LETTERING = f"""\
@font-face {{
  font-display: swap;
  font-family: "{FAMILY}";
  font-weight: 100 900;
  src: url("{_LETTERS}") format("woff2");
}}

.md-typeset :is(h1, h2, h3),
.md-header__title,
.ww-hero h1,
.ww-place-head .ww-home,
.ww-place-page :is(h1, h2),
.ww-exercise .ww-title {{
  font-family: "{FAMILY}", "Manrope", var(--ww-sans, system-ui), sans-serif;
  letter-spacing: normal;
}}
"""


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture of the tutor's: where the site has it, and what is in it, told by a digest."""

    address: str
    content: bytes = field(repr=False)
    sum: str = ""

    @property
    def is_shared(self) -> bool:
        """Does it lie outside of the course, which publishes it all the same?"""
        return self.address.startswith(FOLDER)

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
    sheets. ``letters`` are the tutor's own for headings.
    """

    palette: Palette | None = None
    logo: str | None = None
    drawn: Picture | None = None
    icon: str | None = None
    styles: tuple[str, ...] = ()
    letters: Letters | None = None

    @property
    def colours(self) -> Palette:
        """The colours, whoever chose them."""
        return self.palette or colours.house()

    @cached_property
    def style(self) -> tuple[str, bytes] | None:
        """The style sheet that goes over the house's, by its address; None where nothing is chosen."""
        if self.palette is None and self.letters is None:
            return None
        dyed = colours.as_style(self.palette) if self.palette else ""
        lettered = f"/* {self.letters.sum} */\n{_LETTERING}" if self.letters else ""
        content = (dyed + lettered).encode()
        return f"{FOLDER}/{hashlib.sha256(content).hexdigest()[:10]}/look.css", content

    @cached_property
    def files(self) -> Mapping[str, bytes]:
        """What the site holds for the look, by its address."""
        shared = {self.drawn.address: self.drawn.content} if self.drawn and self.drawn.is_shared else {}
        shared = {**shared, **{f"{self.home_icons}/{name}": icon for name, icon in self._home_icons.items()}}
        if self.style is None:
            return shared
        address, content = self.style
        folder = address.rpartition("/")[0]
        letters = {f"{folder}/{_LETTERS}": self.letters.woff2} if self.letters else {}
        return {address: content, self.house_icon: _dyed_icon(self.colours), **letters, **shared}

    @property
    def house_icon(self) -> str:
        """The house's icon, in the colours of the look."""
        folder = self.style[0].rpartition("/")[0] if self.style else asset_root()
        return f"{folder}/icon.svg"

    @property
    def home_icons(self) -> str:
        """The folder of the icons that home screens show."""
        if not (self.drawn or self.palette):
            return f"{asset_root()}/icons"
        told = f"{self.drawn.sum if self.drawn else ''} {self.colours.light['deep']} {self.colours.light['glow']}"
        return f"{FOLDER}/{hashlib.sha256(told.encode()).hexdigest()[:10]}/icons"

    @property
    def _home_icons(self) -> Mapping[str, bytes]:
        ground = self.colours.light["deep"]
        if self.drawn:
            return logo_icons(self.drawn.content, ground)
        return dyed_icons(_dyed_icon(self.colours), ground) if self.palette else {}

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
