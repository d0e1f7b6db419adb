"""A page of the course as the site sees it: where it stands, what it is called, which week it is."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from wristwork.course.weeks import GRADES, Week, page_title, read_week
from wristwork.languages.lists import headed
from wristwork.languages.say import say
from wristwork.page.page import Page, read_page
from wristwork.page.problem import Problem


@dataclass(frozen=True)
class PageSource:
    """A Markdown page as it stands: ``path`` names it in errors, ``url`` is its address from the site's root."""

    src_uri: str
    path: str
    url: str
    text: str

    @cached_property
    def page(self) -> Page:
        """The page as it is read: once, whoever asks."""
        return read_page(self.path, self.text)


@dataclass(frozen=True, slots=True)
class LessonPage:
    """A page; ``week`` is None where it is no week of the course."""

    src_uri: str
    path: str
    url: str
    title: str
    week: Week | None = None
    grade: int | None = None

    @property
    def number(self) -> int | None:
        """The week's number."""
        return self.week.number if self.week else None

    @property
    def name(self) -> str:
        """The page in a word or two: ``Week 3``, else its title."""
        return say("Week {number}", number=self.week.number) if self.week else self.title

    @property
    def full_name(self) -> str:
        """The page by week and title."""
        return headed(self.name, self.title) if self.week else self.title


def read_lesson(source: PageSource, days: int) -> tuple[LessonPage, tuple[Problem, ...]]:
    """Read a page; what is wrong in its front matter is left out and told. ``days`` is the course's default."""
    week, problems = read_week(source.page, days)
    grade = source.page.front.value("grade")
    page = LessonPage(
        src_uri=source.src_uri,
        path=source.path,
        url="" if source.url in (".", "./") else source.url,
        title=page_title(source.page) or _from_name(source.src_uri),
        week=week,
        grade=week.grade if week else grade if isinstance(grade, int) and grade in GRADES else None,
    )
    return page, problems


def _from_name(src_uri: str) -> str:
    parts = src_uri.removesuffix(".md").split("/")
    name = parts[-2] if parts[-1] in ("index", "README") and len(parts) > 1 else parts[-1]
    words = name.replace("-", " ").replace("_", " ")
    return words.capitalize() if words.islower() else words
