"""The same input gives the same bytes, whatever the day.

MkDocs stamps every page with the day of the build: it shows in the sitemap and in the header of
its compressed twin. A page whose day was set by something that knows it (from version control,
say) keeps that day.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

from mkdocs.structure.pages import Page
from mkdocs.utils import get_build_date

# Any fixed day does: the sitemap leaves it out, only the header of the compressed file holds it.
NO_DAY = "1980-01-01"
_LAST_CHANGE = re.compile(rf"[ \t]*<lastmod>{NO_DAY}</lastmod>[ \t]*\n?")


def forget_build_day(pages: Iterable[Page]) -> None:
    """Take the day of the build off the pages that have no day of their own."""
    today = get_build_date()
    for page in pages:
        if page.update_date == today:
            page.update_date = NO_DAY


def without_day(sitemap: str) -> str:
    """The sitemap without the days that nobody knows."""
    return _LAST_CHANGE.sub("", sitemap)
