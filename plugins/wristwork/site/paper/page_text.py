"""A page's Markdown as HTML for paper, by the extensions that the course uses; figures are comments in it."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from markdown import Markdown

from wristwork.pattern.model import Pattern
from wristwork.site.markdown.extension import NEEDED_EXTENSIONS
from wristwork.site.markdown.included import Included
from wristwork.site.markdown.page_figures import PageFigures
from wristwork.site.reading.course_site import CourseSite
from wristwork.site.reading.lessons import LessonPage


@dataclass(frozen=True, slots=True)
class MarkdownWays:
    """How the course's Markdown is read: extensions, their settings, and where text that was brought in stands."""

    extensions: Sequence[str] = ()
    configs: Mapping[str, Mapping[str, Any]] = field(default_factory=dict)
    included: Callable[[Sequence[str]], Included | None] = lambda _: None


def page_html(
    markdown: str, page: LessonPage, site: CourseSite, ways: MarkdownWays
) -> tuple[str, tuple[Pattern | None, ...]]:
    """The HTML of a page's Markdown (without its front matter), and the patterns by the numbers in its comments."""
    figures = PageFigures(site, page, ways.included)
    extensions = dict.fromkeys((*ways.extensions, *NEEDED_EXTENSIONS))
    configs = {**ways.configs, "wristwork": {"figures": lambda lines: figures}}
    html = Markdown(extensions=list(extensions), extension_configs=configs).convert(markdown)
    return html, figures.patterns
