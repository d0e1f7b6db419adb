"""The language of a course, out of its settings."""

from __future__ import annotations

from mkdocs.config.defaults import MkDocsConfig

from wristwork.languages.catalogues import SOURCE, Language, language
from wristwork.site.mkdocs.config import WristworkConfig


def course_language(config: MkDocsConfig, own: WristworkConfig) -> Language:
    """The theme's language, with the tutor's own words."""
    return language(str(config.theme.get("language") or SOURCE), own.words)
