"""The course as a site: its pages, its exercises, what is wrong with them, and the HTML of every figure.

Knows addresses and HTML, but not the site generator: the plugin hands over the text of the pages and
takes back figures and files.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from wristwork.course.exercise import Lesson, exercise_data, json_bytes
from wristwork.pattern.course import Located, read_course
from wristwork.pattern.fences import Block
from wristwork.pattern.model import Pattern, Row
from wristwork.pattern.problems import Problem
from wristwork.pattern.write import lane_text
from wristwork.site.addresses import relative
from wristwork.site.cache import Cache, digest
from wristwork.site.drawn import Drawings, key_of
from wristwork.site.figure import Link, Surroundings, figure, problem_box, waiting_box
from wristwork.site.lessons import LessonPage, PageProblem, read_lesson


@dataclass(frozen=True, slots=True)
class PageSource:
    """A Markdown page as it stands: ``path`` names it in errors, ``url`` is its address from the site's root."""

    src_uri: str
    path: str
    url: str
    text: str


@dataclass(frozen=True)
class Exercise:
    """A good exercise and the page that teaches it."""

    pattern: Pattern
    page: LessonPage
    located: Located

    @property
    def id(self) -> str:
        assert self.pattern.id is not None, "an exercise has an id"
        return self.pattern.id

    @property
    def title(self) -> str:
        return self.pattern.title or self.id

    @property
    def folder(self) -> str:
        """The exercise's own place, from the site's root."""
        return f"x/{self.id}/"

    @property
    def address(self) -> str:
        """Where it stands in its lesson, from the site's root."""
        return f"{self.page.url}#{self.id}"

    @cached_property
    def sticking(self) -> str:
        """The groups of the hands (of the feet where there are no hands), as typed."""
        lane = self.pattern.hands or self.pattern.feet
        assert lane is not None, "a pattern has at least one lane"
        return lane_text(lane)

    @cached_property
    def key(self) -> str:
        """What is made from the exercise is kept by this name."""
        return key_of(self.pattern)

    @property
    def lesson(self) -> Lesson:
        return Lesson(self.address, self.page.week, self.page.grade)


class CourseSite:
    """Everything the pages of a site need to know of the course."""

    def __init__(self, sources: Iterable[PageSource], cache: Cache, show: tuple[Row, ...] | None = None) -> None:
        self._cache = cache
        self.drawings = Drawings(cache)
        self._show = show
        self.problems: list[Problem | PageProblem] = []
        self.pages: dict[str, LessonPage] = {}
        texts: dict[str, tuple[LessonPage, str]] = {}
        for source in sources:
            page, problems = read_lesson(source.src_uri, source.path, source.url, source.text)
            self.problems += problems
            texts[source.src_uri] = (page, source.text)
        # In the order of teaching: an id that is there twice belongs to the lesson that comes first.
        for page, _ in sorted(texts.values(), key=lambda entry: _order(entry[0])):
            self.pages[page.src_uri] = page
        course = read_course({page.path: texts[page.src_uri][1] for page in self.pages.values()})
        self.problems += course.problems
        self.warnings = course.warnings
        self._fences: dict[str, list[Located]] = {}
        for fence in course.fences:
            self._fences.setdefault(fence.path, []).append(fence)
        self.exercises = self._read_exercises(course.exercises)

    def _read_exercises(self, located: Mapping[str, Located]) -> dict[str, Exercise]:
        by_path = {page.path: page for page in self.pages.values()}
        return {
            name: Exercise(self.shown(fence.pattern), by_path[fence.path], fence)
            for name, fence in located.items()
            if fence.pattern is not None
        }

    def weeks_around(self, page: LessonPage) -> tuple[LessonPage | None, LessonPage | None]:
        """The week before and the week after, None at the ends."""
        at = self._week_numbers[page.src_uri]
        before = self.weeks[at - 1] if at > 0 else None
        return before, self.weeks[at + 1] if at + 1 < len(self.weeks) else None

    @cached_property
    def _week_numbers(self) -> dict[str, int]:
        return {page.src_uri: number for number, page in enumerate(self.weeks)}

    @cached_property
    def weeks(self) -> list[LessonPage]:
        """The week pages in order."""
        return [page for page in self.pages.values() if page.week is not None]

    def exercises_on(self, page: LessonPage) -> list[Exercise]:
        """The exercises that a page teaches, in its order."""
        return self._by_page.get(page.src_uri, [])

    @cached_property
    def _by_page(self) -> dict[str, list[Exercise]]:
        found: dict[str, list[Exercise]] = {}
        for exercise in self.exercises.values():
            found.setdefault(exercise.page.src_uri, []).append(exercise)
        return found

    @cached_property
    def leads_to(self) -> dict[str, list[Exercise]]:
        """For each id the exercises that grow out of it or need it."""
        found: dict[str, list[Exercise]] = {}
        for exercise in self.exercises.values():
            before = [exercise.pattern.grows_from or "", *exercise.pattern.requires]
            for name in dict.fromkeys(name for name in before if name in self.exercises):
                found.setdefault(name, []).append(exercise)
        return found

    def shown(self, pattern: Pattern) -> Pattern:
        """The pattern with the course's choice of rows where it makes none itself."""
        return replace(pattern, show=self._show) if pattern.show is None and self._show else pattern

    def link(self, exercise: Exercise, url: str) -> Link:
        """A link from the page at ``url`` to where an exercise stands in its lesson."""
        return Link(exercise.title, relative(exercise.address, url))

    def page_figures(self, src_uri: str) -> PageFigures:
        """The figures of one page, for the Markdown extension."""
        page = self.pages[src_uri]
        return PageFigures(self, page, self._fences.get(page.path, []))

    def figure(self, exercise: Exercise, url: str) -> str:
        """An exercise's figure for the page at ``url``."""
        named = self.exercises.get(exercise.pattern.grows_from or "")
        around = Surroundings(
            folder=relative(exercise.folder, url),
            grows_from=self.link(named, url) if named else None,
            needs=tuple(self.link(self.exercises[name], url) for name in self.needs(exercise)),
        )
        return figure(exercise.pattern, self.drawings.on_page(exercise.pattern, exercise.key), around)

    def own_figure(self, exercise: Exercise) -> str:
        """An exercise's figure for its own page, which tells what it has to do with others by itself."""
        drawing = self.drawings.on_page(exercise.pattern, exercise.key)
        return figure(exercise.pattern, drawing, Surroundings(folder=""), heading="h1")

    def needs(self, exercise: Exercise) -> list[str]:
        """The ids that an exercise requires, as far as they are good exercises."""
        return [name for name in exercise.pattern.requires if name in self.exercises]

    def example(self, pattern: Pattern) -> str:
        """An example's figure; it carries its own data, for it has no place of its own."""
        pattern = self.shown(pattern)
        key = key_of(pattern)
        data = self._cache.text(".json", digest("example", key), lambda: example_data(pattern))
        return figure(pattern, self.drawings.on_page(pattern, key), Surroundings(data=data))


def example_data(pattern: Pattern) -> str:
    """What a player needs to play an example: the data of an exercise that is nowhere."""
    stand_in = replace(pattern, id="example", title=pattern.title or "Example")
    return json_bytes(exercise_data(stand_in, Lesson(""))).decode().rstrip()


class PageFigures:
    """The figures of one page of the course, for :mod:`wristwork.site.extension`.

    While Markdown works a figure is only a comment that holds its number: diagrams are long, and every
    processor and index on the way would read all of them. :meth:`fill` puts them in at the end.
    """

    def __init__(self, site: CourseSite, page: LessonPage, fences: Sequence[Located]) -> None:
        self._site = site
        self._page = page
        self._waiting: dict[str, list[Located]] = {}
        for fence in fences:
            self._waiting.setdefault(_key(fence.text), []).append(fence)
        self.ids = [exercise.id for exercise in site.exercises_on(page)]
        self._figures: list[Located] = []
        self.problems: list[Problem] = []

    def html(self, block: Block) -> str:
        """The comment that stands for the figure of a fence."""
        same = self._waiting.get(_key(block.text))
        fence = (same.pop(0) if len(same) > 1 else same[0]) if same else self._foreign(block)
        self._figures.append(fence)
        return f"<!--ww-figure {len(self._figures) - 1}-->"

    def fill(self, html: str) -> str:
        """The page with every figure in its place."""
        return _FIGURE.sub(lambda mark: self._figure(mark), html) if self._figures else html

    def _figure(self, mark: re.Match[str]) -> str:
        number = int(mark[1])
        return self._finished(self._figures[number]) if number < len(self._figures) else mark[0]

    def _finished(self, fence: Located) -> str:
        pattern = fence.pattern
        if pattern is None:
            return problem_box(fence.problems) if fence.problems else waiting_box(fence.name, _from(fence))
        exercise = self._site.exercises.get(pattern.id or "")
        return self._site.figure(exercise, self._page.url) if exercise else self._site.example(pattern)

    def _foreign(self, block: Block) -> Located:
        """A fence that is not in the page's file: a snippet or another plugin brought it in."""
        (fence,) = read_course({self._page.path: f"```pattern\n{block.text}\n```"}).fences
        if fence.pattern is not None and not fence.pattern.example:
            fence = replace(fence, pattern=None, problems=(*fence.problems, _not_in_page(fence)))
        self.problems += fence.problems
        return fence


_FIGURE = re.compile(r"<!--ww-figure (\d+)-->")


def _not_in_page(fence: Located) -> Problem:
    return Problem(
        fence.path,
        fence.place,
        fence.name,
        "an exercise that does not stand in the page's own file",
        "write it in the page, or make it an example: example: yes",
    )


def _from(fence: Located) -> str:
    words = re.search(r"^from:[ \t]*(\S+)", fence.text, re.MULTILINE)
    return words[1] if words else "the pattern"


def _order(page: LessonPage) -> tuple[bool, int, str]:
    return page.week is None, page.week or 0, page.src_uri


def _key(text: str) -> str:
    """A fence's text, however white space was evened out on its way."""
    return "\n".join(" ".join(line.split()) for line in text.split("\n"))
