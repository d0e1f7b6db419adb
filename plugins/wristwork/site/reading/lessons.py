"""A page of the course as the site sees it: where it stands, what it is called, which week it is."""

from __future__ import annotations

from dataclasses import dataclass

from wristwork.course.weeks import GRADES, Week, WeekProblem, page_heading, read_front_matter, read_week


@dataclass(frozen=True, slots=True)
class PageSource:
    """A Markdown page as it stands: ``path`` names it in errors, ``url`` is its address from the site's root."""

    src_uri: str
    path: str
    url: str
    text: str


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
        return f"Week {self.week.number}" if self.week else self.title

    @property
    def full_name(self) -> str:
        """The page by week and title."""
        return f"{self.name}: {self.title}" if self.week else self.title


def read_lesson(source: PageSource, days: int) -> tuple[LessonPage, tuple[WeekProblem, ...]]:
    """Read a page; what is wrong in its front matter is left out and told. ``days`` is the course's default."""
    front, _ = read_front_matter(source.path, source.text)
    week, problems = read_week(source.path, source.text, days)
    title = " ".join(str(front.values.get("title") or "").split())
    grade = front.values.get("grade")
    page = LessonPage(
        src_uri=source.src_uri,
        path=source.path,
        url="" if source.url in (".", "./") else source.url,
        title=title or page_heading(source.text) or _from_name(source.src_uri),
        week=week,
        grade=week.grade if week else grade if isinstance(grade, int) and grade in GRADES else None,
    )
    return page, problems


def _from_name(src_uri: str) -> str:
    parts = src_uri.removesuffix(".md").split("/")
    name = parts[-2] if parts[-1] in ("index", "README") and len(parts) > 1 else parts[-1]
    words = name.replace("-", " ").replace("_", " ")
    return words.capitalize() if words.islower() else words
