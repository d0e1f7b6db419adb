"""Pages that every course has without writing them, and the slots in which lists of the course stand.

A page is Markdown, kept in ``pages/``; a tutor's own page at the same address wins. A slot is the
comment ``<!-- wristwork: NAME -->``: it is filled in the finished page, so that long tables cost nothing
on the way through Markdown and the search index. A tutor may put a slot into any page.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from wristwork.course.safety.safe_practice import Topic
from wristwork.languages.pages import spoken_page
from wristwork.page.marks import MARK, WORD
from wristwork.site.overview.curriculum_page import demand_by_week, week_overview, what_needs_what
from wristwork.site.overview.exercise_index import exercise_table
from wristwork.site.overview.films import all_films
from wristwork.site.overview.home import week_list
from wristwork.site.overview.parts import parts
from wristwork.site.overview.stroke_pictures import four_strokes, one_stroke, two_manners
from wristwork.site.reading.course_site import CourseSite
from wristwork.site.safety.safe_pages import standard_page
from wristwork.site.student.pages import my_practice, practice_list
from wristwork.technique.strokes import StrokeName

PAGES = Path(__file__).parent / "pages"
_TITLE = re.compile(r"^title: (?P<title>.*)\n", re.MULTILINE)


def _everywhere(make: Callable[[], str]) -> Callable[[CourseSite, str], str]:
    """What is the same in every course and on every page."""
    return lambda site, url: make()


# Pictures that are the same in every course.
PICTURES: Mapping[str, Callable[[], str]] = {
    "moving-strokes": four_strokes,
    **{f"{name}-stroke": partial(one_stroke, name) for name in StrokeName},
    "two-manners": two_manners,
}

# What fills a slot: the course and the address of the page → HTML.
SLOTS: Mapping[str, Callable[[CourseSite, str], str]] = {
    "exercises": exercise_table,
    "weeks": week_list,
    "practice-list": practice_list,
    "my-practice": my_practice,
    "curriculum": week_overview,
    "demand-chart": demand_by_week,
    "needs-map": what_needs_what,
    "videos": all_films,
    **{name: _everywhere(make) for name, make in PICTURES.items()},
}

CURRICULUM = "curriculum.md"
# In the order in which navigation lists them. Folders of `pages/` become sections.
MADE = ("my-practice.md", "practice.md", CURRICULUM, "exercises.md", "key.md")


@dataclass(frozen=True, slots=True)
class MadePage:
    """A page by its path among the course's pages."""

    src_uri: str
    markdown: str


def made_pages(
    site_name: str, description: str | None, topics: Iterable[Topic], has_weeks: bool = True
) -> Iterator[MadePage]:
    """Every page the tool makes: the home page, the safe-practice pages on these topics, and those of the course.

    A collection without weeks has no curriculum.
    """
    lead = f"\n\n{_plain(description)}" if description else ""
    yield MadePage("index.md", f"# {_plain(site_name)}{lead}\n")
    for name in MADE if has_weeks else [name for name in MADE if name != CURRICULUM]:
        yield MadePage(name, spoken_page(PAGES, name))
    for topic in topics:
        yield MadePage(topic.src_uri, standard_page(topic))


def part_pages(site: CourseSite) -> Iterator[MadePage]:
    """Pages for the further parts of a large course's index and curriculum; the search knows the first ones."""
    for part in parts(site)[1:]:
        for name in ("exercises", "curriculum") if site.weeks else ("exercises",):
            text = spoken_page(PAGES, f"{name}.md")
            title = rf"title: \g<title>, {part.within}\nsearch: {{exclude: true}}\n"
            yield MadePage(f"{name}/part-{part.number}.md", _TITLE.sub(title, text, count=1))


def fill_slots(html: str, site: CourseSite, url: str) -> str:
    """The page with its slots filled; an unknown mark stays the comment it is."""

    def filled(slot: re.Match[str]) -> str:
        make = SLOTS.get(slot["name"])
        return make(site, url) if make else slot[0]

    return MARK.sub(filled, html) if WORD in html else html


def _plain(text: str) -> str:
    """Text that Markdown takes as it is."""
    return re.sub(r"([\\`*_{}\[\]()#+.!<>&|~-])", r"\\\1", " ".join(text.split()))
