"""What the theme prints as it is, made safe to print.

The theme escapes neither the course's name and description nor titles of the navigation nor what a page says of itself
in its front matter. A sentence that was copied into one of them may hold ``<`` or ``"``: it is text, not markup. Texts
become :class:`~markupsafe.Markup`, which a template that does escape leaves alone.
"""

from __future__ import annotations

import html
from collections.abc import Iterable, MutableMapping
from typing import Any

from markupsafe import escape
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure import StructureItem
from mkdocs.structure.nav import Navigation, Section

from wristwork.page.front_matter import shape
from wristwork.page.settings import TEXTS_OF_OTHERS

_SETTINGS = ("site_name", "site_description", "site_author", "repo_name")
_OF_A_PAGE = ("description", "author")


def escape_settings(config: MkDocsConfig) -> None:
    """Make the settings that stand on every page safe; to be called when all else has read them."""
    for name in _SETTINGS:
        if config[name] is not None:
            config[name] = escape(config[name])


def escape_titles(nav: Navigation) -> None:
    """Make the titles that come from the settings safe; a page that has none there takes its own."""
    for item in _within(nav.items):
        title = vars(item).get("title")
        if title is not None:
            item.title = escape(title)


def _within(items: Iterable[StructureItem]) -> Iterable[StructureItem]:
    for item in items:
        yield item
        if isinstance(item, Section):
            yield from _within(item.children)


def escape_meta(meta: MutableMapping[str, Any]) -> None:
    """Make what a page says of itself safe. What is no text, which a preview has told, is as if it were not there."""
    for name in ("title", *TEXTS_OF_OTHERS):
        if shape(meta.get(name)):
            del meta[name]
    if meta.get("title") is not None:
        meta["title"] = html.escape(str(meta["title"]), quote=False)
    for name in _OF_A_PAGE:
        if name in meta:
            meta[name] = escape(str(meta[name]))
