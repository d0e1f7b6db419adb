"""The icons of a home screen, which wants pictures of fixed sizes: the tutor's logo, or the house's icon dyed."""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path
from tempfile import TemporaryDirectory

# What the icon takes of its square. Some screens cut a shape of their own out of it: the middle four fifths stay.
_LOGO, _LOGO_IN_A_CUT, _IN_A_CUT = 76, 56, 80
_PAGE = b"""\
#let icon = json(bytes(sys.inputs.icon))
#set page(width: 512pt, height: 512pt, margin: 0pt, fill: if icon.ground == "" { none } else { rgb(icon.ground) })
#let share = icon.share * 1%
#place(center + horizon, image(read("picture", encoding: none), width: share, height: share, fit: "contain"))
"""
_POINTS = 512
_POINTS_PER_INCH = 72


def logo_icons(logo: bytes, ground: str) -> Mapping[str, bytes]:
    """A logo on its ground (``#rrggbb``): PNG files by the names that the house's icons have."""
    return _pressed(logo, {180: (ground, _LOGO), 192: (ground, _LOGO), 512: (ground, _LOGO)}, (ground, _LOGO_IN_A_CUT))


def dyed_icons(icon: bytes, ground: str) -> Mapping[str, bytes]:
    """The house's icon in other colours, on ``ground`` where corners may not be open: PNG files by the same names."""
    return _pressed(icon, {180: (ground, 100), 192: ("", 100), 512: ("", 100)}, (ground, _IN_A_CUT))


def _pressed(picture: bytes, sizes: Mapping[int, tuple[str, int]], cut: tuple[str, int]) -> Mapping[str, bytes]:
    import typst  # takes long to load, and most courses have the house's icons

    with TemporaryDirectory(prefix="wristwork-icons-") as folder:
        page = Path(folder, "icon.typ")
        page.write_bytes(_PAGE)
        page.with_name("picture").write_bytes(picture)
        fonts = typst.Fonts(include_system_fonts=False, include_embedded_fonts=False)
        press = typst.Compiler(root=folder, font_paths=fonts)

        def drawn(pixels: int, ground: str, share: int) -> bytes:
            said = json.dumps({"ground": ground, "share": share})
            ppi = pixels / _POINTS * _POINTS_PER_INCH
            made = press.compile(page, format="png", ppi=ppi, sys_inputs={"icon": said})
            assert isinstance(made, bytes), "an icon is one page"
            return made

        plain = {f"icon-{pixels}.png": drawn(pixels, *how) for pixels, how in sizes.items()}
        return {**plain, "icon-512-full.png": drawn(512, *cut)}
