"""The figures of one page of the course, from the fence in its Markdown to its place in the finished page."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import replace

from wristwork.languages.say import say
from wristwork.page.problem import PATTERN, Problem
from wristwork.pattern.course import Located, read_course
from wristwork.pattern.fences import Block
from wristwork.pattern.model import Pattern
from wristwork.site.figure.figure import problem_box, waiting_box
from wristwork.site.markdown.included import Included
from wristwork.site.reading.course_site import CourseSite
from wristwork.site.reading.lessons import LessonPage

_FIGURE = re.compile(r"<!--ww-figure (\d+)-->")


class PageFigures:
    """The figures of one page of the course, for :mod:`wristwork.site.markdown.extension`.

    While Markdown works a figure is only a comment that holds its number: diagrams are long, and every
    processor and index on the way would read all of them. :meth:`fill` puts them in at the end. ``included`` finds the
    file that holds some lines which the page's own does not.
    """

    def __init__(
        self, site: CourseSite, page: LessonPage, included: Callable[[Sequence[str]], Included | None] = lambda _: None
    ) -> None:
        self._included = included
        self._site = site
        self._page = page
        self._waiting: dict[str, list[Located]] = {}
        for fence in site.fences_on(page):
            self._waiting.setdefault(_key(fence.text), []).append(fence)
        self.first = 0
        self.ids = [placed.id for placed in site.exercises_on(page)]
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

    @property
    def patterns(self) -> tuple[Pattern | None, ...]:
        """What the fences hold, by the numbers of their comments; None where one is wrong."""
        return tuple(fence.pattern for fence in self._figures)

    @property
    def can_play(self) -> bool:
        """Whether any of the figures holds something to play."""
        return any(fence.pattern is not None for fence in self._figures)

    def _figure(self, mark: re.Match[str]) -> str:
        number = int(mark[1])
        return self._finished(self._figures[number]) if number < len(self._figures) else mark[0]

    def _finished(self, fence: Located) -> str:
        pattern = fence.pattern
        if pattern is None:
            return problem_box(fence.problems) if fence.problems else waiting_box(fence.name, fence.grows_from)
        placed = self._site.exercises.get(pattern.id or "")
        return self._site.figure(placed, self._page.url) if placed else self._site.example(pattern, self._page.url)

    def _foreign(self, block: Block) -> Located:
        """A fence that is not in the page's file: a snippet or another plugin brought it in."""
        fence = self._as_if_alone(block)
        if fence.problems or fence.pattern is None or not fence.pattern.example:
            # All files of the course are read for it: only where there is something to tell, or to grow out of.
            fence = self._where_it_stands(block) or fence
        if fence.pattern is not None and not fence.pattern.example:
            fence = replace(fence, pattern=None, problems=(*fence.problems, _not_in_page(fence)))
        self.problems += fence.problems
        return fence

    def _where_it_stands(self, block: Block) -> Located | None:
        """The fence as the file has it that it was brought in from."""
        place = self._included([line.text for line in (block.fence, *block.lines)])
        fences = read_course({place.path: place.text}).fences if place else ()
        return next((fence for fence in fences if place and fence.place.line == place.line), None)

    def _as_if_alone(self, block: Block) -> Located:
        """The fence by itself, where no file holds it: another plugin made it. Its lines are none of the page's."""
        (fence,) = read_course({self._page.path: f"```pattern\n{block.text}\n```"}).fences
        return replace(fence, problems=tuple(replace(each, line=0, column=0) for each in fence.problems))


def _not_in_page(fence: Located) -> Problem:
    return Problem(
        fence.path,
        fence.place.line,
        fence.place.column,
        say("an exercise that does not stand in the page's own file"),
        say("write it in the page, or make it an example: example: yes"),
        PATTERN,
        say("pattern '{name}'", name=fence.name),
        fence.name,
    )


def _key(text: str) -> str:
    """A fence's text, however white space was evened out on its way."""
    return "\n".join(" ".join(line.split()) for line in text.split("\n"))
