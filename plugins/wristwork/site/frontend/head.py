"""What the head of every page holds: how the site is put on a home screen and kept at hand."""

from __future__ import annotations

from markupsafe import Markup

from wristwork.site.addresses import absolute, relative
from wristwork.site.frontend.assets import asset_root
from wristwork.site.frontend.look import Look
from wristwork.site.reading.course_site import CourseSite
from wristwork.site.templating import markup

MANIFEST = "manifest.webmanifest"
LIST_PAGE, OWN_PAGE = "practice.md", "my-practice.md"


def head(site: CourseSite, url: str, published: str | None, look: Look, week: int | None) -> Markup:
    """The elements for the head of the page at ``url`` of a site that is ``published`` at an address, or at none yet.

    Scripts find the student's own pages by them, the address that links which are sent begin with, and the ``week``
    that the page belongs to; a page of no week names the first and the last.
    """
    practice_list = site.pages.get(LIST_PAGE)
    return markup(
        "frontend/head.html",
        manifest=relative("", url) + MANIFEST,
        assets=relative(asset_root(), url),
        icons=relative(look.home_icons, url),
        colour=look.colours.light["deep"],
        list=relative(practice_list.url, url) if practice_list else "",
        published=absolute("", published) or "",
        keeps_offline=site.keeps_offline,
        week=week,
        weeks=[page.number for page in site.weeks],
        starts=site.starts or "",
    )
