"""Addresses within the site: all from the site's root, made relative where they are used."""

from __future__ import annotations

import re
from urllib.parse import quote, urljoin, urlsplit

from markupsafe import Markup
from mkdocs.utils import get_relative_url


def relative(target: str, page: str) -> str:
    """The address of ``target`` as a link on ``page``; both from the site's root, ``target`` with its anchor."""
    parts = urlsplit(target)
    address = get_relative_url(parts.path or ".", page or ".")
    if (not parts.path or parts.path.endswith("/")) and not address.endswith("/"):
        address += "/"
    return address + (f"?{parts.query}" if parts.query else "") + (f"#{parts.fragment}" if parts.fragment else "")


def absolute(target: str, site_url: str | None) -> str | None:
    """The full address, or None where the course does not say where it is published."""
    return urljoin(site_url.rstrip("/") + "/", quote(target, safe="/#?=&%")) if site_url else None


def breakable(address: str) -> Markup:
    """An address to be read: where it is too long for its line, it goes on after a slash and not within a word."""
    return Markup("<wbr>").join(re.split("(?<=[^/]/)(?=[^/])", address))
