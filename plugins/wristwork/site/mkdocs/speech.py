"""The language of a course, out of its settings."""

from __future__ import annotations

from mkdocs.config.defaults import MkDocsConfig

from wristwork.languages.catalogues import SOURCE, Language, language
from wristwork.site.mkdocs.config import WristworkConfig
from wristwork.site.mkdocs.studio import StudioConfig, read_studio


def course_language(config: MkDocsConfig, own: WristworkConfig) -> Language:
    """The theme's language, with the words of the studio and the course's own, which come first."""
    shared = read_studio(config, own.studio, 1).says
    words = {**dict(shared.words), **dict(own.words)}
    return language(str(config.theme.get("language") or SOURCE), words.items(), own.counting or shared.counting)


def studio_language(says: StudioConfig) -> Language:
    """The language of a studio's own page."""
    return language(says.language or SOURCE, says.words, says.counting)
