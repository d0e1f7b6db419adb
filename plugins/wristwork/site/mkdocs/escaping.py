"""What the theme prints as it is, made safe to print.

The theme escapes neither the course's name and description nor titles of the navigation nor what a page says of itself
in its front matter. A sentence that was copied into one of them may hold ``<`` or ``"``: it is text, not markup. Texts
become :class:`~markupsafe.Markup`, which a template that does escape leaves alone.
"""

from __future__ import annotations

from collections.abc import Iterable, MutableMapping
from typing import Any

from markupsafe import escape
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure import StructureItem
from mkdocs.structure.nav import Navigation, Section

_SETTINGS = ("site_name", "site_description", "site_author", "repo_name")
# A page's title has its own place: it is the first thing that is known of a page.
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
    """Make what a page says of itself safe."""
    for name in _OF_A_PAGE:
        if name in meta:
            meta[name] = escape(str(meta[name]))
