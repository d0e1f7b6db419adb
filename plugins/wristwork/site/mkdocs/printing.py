"""The papers of a course as its settings want them, for a build and for ``wristwork print`` alike."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from pathlib import Path

from mkdocs.config.defaults import MkDocsConfig

from wristwork.course.safety.safe_practice import Topic
from wristwork.paper.book import PICTURES
from wristwork.paper.press import Letterhead, Paper
from wristwork.site.exercise.place_page import SiteName
from wristwork.site.frontend.look import Look
from wristwork.site.markdown.included import find_included
from wristwork.site.mkdocs.sources import course_folder
from wristwork.site.paper.page_text import MarkdownWays
from wristwork.site.paper.papers import CoursePages, Papers
from wristwork.site.reading.course_site import CourseSite


def letterhead(look: Look) -> Letterhead:
    """What papers show of a course's look. They are black on white but for a line of it, and a logo on its ground."""
    logo = look.drawn
    return Letterhead(
        colour=look.palette.light["deep"] if look.palette else None,
        logo=(f"logo{logo.suffix}", logo.content) if logo else None,
        sum=logo.sum if logo else "",
        ground=look.colours.light["deep"],
        letters=look.letters,
    )


def course_papers(
    config: MkDocsConfig,
    site: CourseSite,
    name: SiteName,
    topics: Mapping[str, Topic],
    paper: Paper,
    mirrored: bool = False,
) -> Papers:
    """The papers; ``mirrored`` for somebody who leads with the left hand."""
    included = partial(find_included, course_folder(config), config.site_dir)
    ways = MarkdownWays(tuple(config.markdown_extensions), config.mdx_configs, included)
    docs = Path(config.docs_dir)
    pictures = {
        path.relative_to(docs).as_posix(): path
        for path in sorted(docs.rglob("*"))
        if path.suffix.lower() in PICTURES and path.is_file()
    }
    pages = CoursePages(config.site_description or "", topics, ways, pictures)
    return Papers(site, name, paper, pages, mirrored)
