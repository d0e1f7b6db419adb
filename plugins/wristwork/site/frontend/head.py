"""What the head of every page holds: how the site is put on a home screen and kept at hand."""

from __future__ import annotations

from html import escape

from wristwork.site.addresses import relative
from wristwork.site.frontend.assets import asset_root
from wristwork.site.reading.course_site import CourseSite

MANIFEST = "manifest.webmanifest"
LIST_PAGE, OWN_PAGE = "practice.md", "my-practice.md"
WATER = "#0b4450"


def head(site: CourseSite, url: str) -> str:
    """The elements for the head of the page at ``url``. Scripts find the student's own pages by them."""
    root, assets = relative("", url), relative(asset_root(), url)

    def page(uri: str) -> str:
        return escape(relative(site.pages[uri].url, url)) if uri in site.pages else ""

    return (
        f'<link rel="manifest" href="{root}{MANIFEST}">'
        f'<link rel="apple-touch-icon" href="{assets}/icons/icon-180.png">'
        f'<meta name="theme-color" content="{WATER}">'
        f'<script type="module" id="ww-everywhere" src="{assets}/offline.js" data-list="{page(LIST_PAGE)}" '
        f'data-mine="{page(OWN_PAGE)}"{" data-offline" if site.keeps_offline else ""}></script>'
    )
