"""What a page that is of no theme wears: where its styles are, its icon, the logo in its head."""

from __future__ import annotations

from typing import TypedDict
from urllib.parse import urlsplit

from wristwork.site.addresses import relative
from wristwork.site.frontend.assets import asset_root
from wristwork.site.frontend.look import Look


class Dress(TypedDict):
    """Addresses as links on one page; ``icon_type`` where the kind of the icon is known."""

    assets: str
    styles: list[str]
    icon: str
    icon_type: str
    logo: str


def dressed(look: Look, here: str) -> Dress:
    """What the page at ``here`` wears."""
    assets = relative(asset_root(), here)
    icon = _from(look.icon or look.house_icon, here)
    return Dress(
        assets=assets,
        styles=[relative(style, here) for style in look.over_house],
        icon=icon,
        icon_type="image/svg+xml" if icon.endswith(".svg") else "",
        logo=_from(look.logo, here) if look.logo else "",
    )


def _from(address: str, here: str) -> str:
    """An address as a link on a page; one on another host stays what it is."""
    return address if urlsplit(address).netloc else relative(address, here)
