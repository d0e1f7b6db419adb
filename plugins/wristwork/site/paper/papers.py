"""The papers of a course: a sheet of each exercise, a few pages of each week, the book."""

from __future__ import annotations

import posixpath
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cached_property, partial
from hashlib import sha256
from pathlib import Path
from typing import NamedTuple
from urllib.parse import quote

from wristwork.course.safety.safe_practice import Topic
from wristwork.languages.say import say_count
from wristwork.paper.book import Book, Chapter, book_pdf
from wristwork.paper.press import Paper, Press
from wristwork.paper.sheet import Sheet, sheet_pdf
from wristwork.paper.week import WeekExercise, WeekPaper, week_pdf
from wristwork.pattern.changes import left_handed
from wristwork.pattern.model import Pattern
from wristwork.site.addresses import absolute
from wristwork.site.exercise.place_page import SiteName
from wristwork.site.overview.made_pages import PICTURES
from wristwork.site.paper.page_text import MarkdownWays, page_html
from wristwork.site.reading.course_site import CourseSite, Placed
from wristwork.site.reading.lessons import LessonPage
from wristwork.site.reading.paper_places import BOOK, SHEET, week_paper
from wristwork.site.safety.safe_pages import finished
from wristwork.site.week.dates import week_days_words
from wristwork.store.making import digest
from wristwork.store.publication import Publication

_KEY = "key.md"


class CoursePages(NamedTuple):
    """What the book needs beside the course's exercises.

    ``topics`` are the pages on safe practice by ``src_uri``, ``ways`` tell how Markdown is read, ``pictures`` are the
    files of pictures by their paths among the pages.
    """

    description: str
    topics: Mapping[str, Topic]
    ways: MarkdownWays
    pictures: Mapping[str, Path]


class Papers:
    """Makes the papers of one course; the press is opened when it is needed."""

    def __init__(
        self, site: CourseSite, name: SiteName, paper: Paper, pages: CoursePages, mirrored: bool = False
    ) -> None:
        """``mirrored`` papers are for somebody who leads with the left hand."""
        self._site = site
        self._name = name
        self._paper = paper
        self._pages = pages
        self._mirrored = mirrored
        self._press: Press | None = None

    @property
    def press(self) -> Press:
        if self._press is None:
            self._press = Press(self._paper.head)
        return self._press

    def write(self, publication: Publication) -> None:
        """All papers where they are on the site: sheets in the exercises' own places, the week's beside its page."""
        for placed in self._site.exercises.values():
            publication.place(f"{placed.folder}{SHEET}", f"{self._sheet_key(placed)}.pdf", partial(self.sheet, placed))
        for page in self._site.weeks:
            address = week_paper(page)
            (publication.folder / address).parent.mkdir(parents=True, exist_ok=True)
            publication.place(address, f"{self._week_key(page)}.pdf", partial(self.week, page))
        if self._site.exercises:
            publication.place(BOOK, f"{self._book_key()}.pdf", self.book)

    def sheet(self, placed: Placed) -> bytes:
        """An exercise's sheet."""
        of = Sheet(
            self._for_reader(placed.pattern), placed.page.full_name, self._address(placed.folder), self._site.show
        )
        return sheet_pdf(self.press, of, self._paper)

    def week(self, page: LessonPage) -> bytes:
        """A week's pages."""
        week = page.week
        assert week is not None, "only weeks have papers of their own"
        exercises = (
            WeekExercise(self._for_reader(placed.pattern), self._address(placed.folder))
            for placed in self._site.practised_on(page)
        )
        of = WeekPaper(
            name=page.name,
            title=page.title,
            aim=week.aim,
            facts=tuple(_facts(page, self._site)),
            sessions=self._site.course.plans[page.path],
            exercises=tuple(exercises),
            address=self._address(page.url),
            show=self._site.show,
        )
        return week_pdf(self.press, of, self._paper)

    def book(self) -> bytes:
        """The whole course."""
        of = Book(
            title=self._name.name,
            description=self._pages.description,
            chapters=self._chapters,
            address=self._name.url,
            addresses={uri: self._address(page.url) or "" for uri, page in self._site.pages.items() if self._name.url},
            picture=self._pages.pictures.get,
            mark=lambda name: PICTURES[name]() if name in PICTURES else "",
            show=self._site.show,
        )
        return book_pdf(self.press, of, self._paper)

    @property
    def _common(self) -> tuple[str, ...]:
        return repr(self._paper), repr(self._mirrored), repr(self._name), repr(self._site.show)

    def _sheet_key(self, placed: Placed) -> str:
        return digest("sheet", placed.key, placed.page.full_name, *self._common)

    def _week_key(self, page: LessonPage) -> str:
        exercises = [placed.key for placed in self._site.practised_on(page)]
        plan = self._site.course.plans[page.path]
        return digest("week's paper", repr(page), repr(plan), *_facts(page, self._site), *exercises, *self._common)

    def _book_key(self) -> str:
        chapters = self._chapters
        shown = (path for name, path in self._pages.pictures.items() if _is_named(name, chapters))
        pictures = [sha256(path.read_bytes()).hexdigest() for path in shown]
        return digest("book", *map(repr, chapters), *pictures, self._pages.description, *self._common)

    @cached_property
    def _chapters(self) -> tuple[Chapter, ...]:
        return tuple(map(self._chapter, self._pages_in_order))

    @property
    def _pages_in_order(self) -> Sequence[LessonPage]:
        """How to read, safe practice, the weeks, and what else teaches exercises."""
        pages, topics = self._site.pages, self._pages.topics
        on_safety = sorted(topics, key=lambda uri: list(Topic).index(topics[uri]))
        first = [pages[uri] for uri in (_KEY, *on_safety) if uri in pages]
        others = [page for page in pages.values() if not page.week and self._site.exercises_on(page)]
        return list(dict.fromkeys([*first, *self._site.weeks, *others]))

    def _chapter(self, page: LessonPage) -> Chapter:
        html, patterns = page_html(self._text(page), page, self._site, self._pages.ways)
        return Chapter(
            uri=page.src_uri,
            title=page.title,
            html=html,
            figures=tuple(pattern and self._for_reader(pattern) for pattern in patterns),
            eyebrow=page.name if page.week else "",
            aim=(page.week.aim or "") if page.week else "",
            number=page.number,
        )

    def _text(self, page: LessonPage) -> str:
        """The Markdown of a page without its front matter; that of a safe-practice page whole."""
        read = self._site.course.pages[page.path]
        text = "\n".join(read.lines[read.front.length :])
        topic = self._pages.topics.get(page.src_uri)
        if topic is None:
            return text
        return finished(topic, text, standard_text=read.front.value("standard-text") in (True, "yes"))

    def _for_reader(self, pattern: Pattern) -> Pattern:
        return left_handed(pattern) if self._mirrored else pattern

    def _address(self, url: str) -> str | None:
        return absolute(url, self._name.url)


def _is_named(path: str, chapters: Iterable[Chapter]) -> bool:
    """May a picture be in one of the chapters?"""
    name = quote(posixpath.basename(path))
    return any(name in chapter.html for chapter in chapters)


def _facts(page: LessonPage, site: CourseSite) -> Iterator[str]:
    week = page.week
    if week is None:
        return
    if days := week_days_words(site.starts, week.number):
        yield days
    if week.minutes:
        yield say_count(
            "{count} session of {minutes} minutes",
            "{count} sessions of {minutes} minutes",
            week.days,
            minutes=week.minutes,
        )
