"""The course's navigation: its weeks in order, then what helps on the way.

A tutor's own ``nav`` stays as it is: weeks to which it gives no name get theirs, and pages that every course
has and it does not name are added at its end.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from copy import copy
from operator import is_not
from typing import Any

from markupsafe import escape
from mkdocs.structure import StructureItem
from mkdocs.structure.nav import Navigation, Section
from mkdocs.structure.pages import Page

from wristwork.course.page_order import nav_pages
from wristwork.languages.say import say
from wristwork.site.reading.course_site import CourseSite

# A year of weeks is printed whole.
LONGEST_SECTION = 53
HOME = ("index.md", "README.md")
SAFE_PRACTICE = "safe-practice"


def course_nav(own: list[Any] | None, site: CourseSite, uris: Sequence[str], common: Sequence[str]) -> list[Any]:
    """The ``nav`` of MkDocs's settings; ``uris`` are all pages, ``common`` those that every course has, in order."""
    titles = {page.src_uri: escape(f"{page.number}. {page.title}") for page in site.weeks}
    there = set(uris)
    if own is not None:
        there_already = {*nav_pages(own), *HOME}
        return [*_numbered(own, titles), *_nested(uri for uri in common if uri in there and uri not in there_already)]
    weeks = _numbered(list(titles), titles)
    helpful = [uri for uri in common if uri in there and uri not in HOME]
    placed = {*titles, *helpful, *HOME}
    rest = [uri for uri in sorted(uris, key=_reading_order) if uri not in placed]
    home = [{say("Home"): uri} for uri in HOME if uri in there][:1]
    return [*home, *([{say("Weeks"): weeks}] if weeks else []), *_nested(helpful), *_nested(rest)]


def near(nav: Navigation, page: Page) -> Navigation:
    """The navigation as the page shows it: of a section of very many pages only those around the page.

    A theme prints the whole navigation on every page; without this the site of a long course would grow
    with the square of its length.
    """
    items = [_shortened(item, page) for item in nav.items]
    return Navigation(items, nav.pages) if any(map(is_not, items, nav.items)) else nav


def _shortened(item: StructureItem, page: Page) -> StructureItem:
    if not isinstance(item, Section) or len(item.children) <= LONGEST_SECTION:
        return item
    index = item.children.index(page) if page.parent is item else 0
    first = max(0, min(index - LONGEST_SECTION // 2, len(item.children) - LONGEST_SECTION))
    short = copy(item)
    short.children = item.children[first : first + LONGEST_SECTION]
    return short


def _numbered(nav: list[Any], titles: Mapping[str, str]) -> list[Any]:
    """The ``nav`` with the weeks that have no title of the tutor's in it named by number and title."""
    numbered: list[Any] = []
    for part in nav:
        if isinstance(part, dict):
            inside = {key: _numbered(value, titles) for key, value in part.items() if isinstance(value, list)}
            numbered.append({**part, **inside})
        else:
            numbered.append({titles[part]: part} if part in titles else part)
    return numbered


def _nested(uris: Iterable[str]) -> list[Any]:
    """Pages by folder, each folder a section, in the order in which they come."""
    parts: list[Any] = []
    sections: dict[str, list[str]] = {}
    for uri in uris:
        folder, slash, _ = uri.partition("/")
        if not slash:
            parts.append(uri)
        elif folder in sections:
            sections[folder].append(uri)
        else:
            sections[folder] = [uri]
            parts.append({_section_title(folder): sections[folder]})
    return parts


def _reading_order(uri: str) -> tuple[list[str], bool, str]:
    """By folder; in a folder the page that opens it comes first."""
    *folders, name = uri.split("/")
    return folders, name not in HOME, name


def _section_title(folder: str) -> str:
    return say("Safe practice") if folder == SAFE_PRACTICE else folder.replace("-", " ").replace("_", " ").capitalize()
