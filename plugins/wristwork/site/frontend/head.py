"""What the head of every page holds: how the site is put on a home screen and kept at hand."""

from __future__ import annotations

from html import escape

from wristwork.site.addresses import absolute, relative
from wristwork.site.frontend.assets import asset_root
from wristwork.site.reading.course_site import CourseSite

MANIFEST = "manifest.webmanifest"
LIST_PAGE, OWN_PAGE = "practice.md", "my-practice.md"
WATER = "#0b4450"


def head(site: CourseSite, url: str, published: str | None, week: int | None) -> str:
    """The elements for the head of the page at ``url`` of a site that is ``published`` at an address, or at none yet.

    Scripts find the student's own pages by them, the address that links which are sent begin with, and the ``week``
    that the page belongs to; a page of no week names the first and the last.
    """
    root, assets = relative("", url), relative(asset_root(), url)

    def page(uri: str) -> str:
        return escape(relative(site.pages[uri].url, url)) if uri in site.pages else ""

    numbers = [one.number for one in site.weeks]
    if week is None and numbers:
        weeks = f' data-weeks="{numbers[0]} {numbers[-1]}" data-starts="{site.starts or ""}"'
    else:
        weeks = f' data-week="{week}"' if week is not None else ""
    where = f'data-list="{page(LIST_PAGE)}" data-site="{escape(absolute("", published) or "")}"'
    return (
        f'<link rel="manifest" href="{root}{MANIFEST}">'
        f'<link rel="apple-touch-icon" href="{assets}/icons/icon-180.png">'
        f'<meta name="theme-color" content="{WATER}">'
        f'<script type="module" id="ww-everywhere" src="{assets}/offline.js" '
        f"{where}{f' data-offline{weeks}' if site.keeps_offline else ''}></script>"
    )
