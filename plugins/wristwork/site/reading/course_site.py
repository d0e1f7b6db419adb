"""The course as a site: its pages, its exercises, what is wrong with them, and the HTML of every figure.

Knows addresses and HTML, but not the site generator: the plugin hands over the text of the pages and
takes back figures and files.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cached_property

from markupsafe import Markup

from wristwork.course.course import Exercise, read_teaching
from wristwork.course.curriculum import CurriculumWeek, curriculum
from wristwork.course.exercise import Lesson
from wristwork.course.message import message_head
from wristwork.course.page_order import page_order
from wristwork.course.weeks import DEFAULT_DAYS, Allowance
from wristwork.drawing.card_diagram import CardDiagram
from wristwork.languages.say import say
from wristwork.page.page import Page
from wristwork.page.problem import Problem
from wristwork.pattern.course import Located
from wristwork.pattern.model import DiagramRow, Pattern
from wristwork.site.addresses import relative
from wristwork.site.figure.demand_details import demand_details
from wristwork.site.figure.drawn import Drawings, sticking
from wristwork.site.figure.figure import Link, Surroundings, figure
from wristwork.site.reading.example_data import example_data
from wristwork.site.reading.films import film_of
from wristwork.site.reading.lessons import LessonPage, PageSource, read_lesson
from wristwork.site.reading.paper_places import SHEET
from wristwork.sound.schedule import preview_names
from wristwork.sound.take.fit import Fit
from wristwork.store.making import digest
from wristwork.store.store import Store


@dataclass(frozen=True)
class Placed:
    """A good exercise and the page that teaches it."""

    exercise: Exercise
    page: LessonPage
    key: str
    """What is made from the exercise is kept by this name."""

    @property
    def id(self) -> str:
        return self.exercise.id

    @property
    def title(self) -> str:
        return self.exercise.title

    @property
    def pattern(self) -> Pattern:
        return self.exercise.pattern

    @property
    def version(self) -> str:
        """What a page and the exercise's data both carry, so that no page plays the data of another version."""
        return self.key[:10]

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
        return sticking(self.pattern)

    @cached_property
    def message(self) -> str:
        """How a message about it begins."""
        return message_head(
            self.pattern, self.page.name if self.page.week else say("From {lesson}", lesson=self.page.title)
        )

    @property
    def lesson(self) -> Lesson:
        return Lesson(self.address, self.page.number, self.page.grade)


@dataclass(frozen=True, slots=True)
class Choices:
    """The tutor's choices for the course.

    Rows of the diagrams, sessions a week, the order of some pages, the first day, checks that are allowed,
    whether devices keep the site for later, whether there are papers, and the pages of exercises that may be taken.
    """

    show: tuple[DiagramRow, ...] | None = None
    days: int = DEFAULT_DAYS
    order: tuple[str, ...] = ()
    starts: date | None = None
    allow: tuple[Allowance, ...] = ()
    keeps_offline: bool = False
    has_papers: bool = False
    has_scores: bool = False
    has_clips: bool = False
    library: tuple[Page, ...] = ()


def all_previews(placed: Placed) -> Sequence[str]:
    """The audio files of an exercise, where nothing is left out."""
    return preview_names(placed.pattern)


class CourseSite:
    """Everything the pages of a site need to know of the course.

    ``heard`` tells which audio files an exercise has in its own place; ``hearing`` is the ``src_uri`` of the page on
    looking after one's hearing; ``claimed`` are ids that pages may hold which cannot be read. ``take`` tells how an
    exercise lies on what is played in its video.
    """

    def __init__(
        self,
        sources: Iterable[PageSource],
        store: Store,
        choices: Choices = Choices(),
        heard: Callable[[Placed], Sequence[str]] = all_previews,
        hearing: str | None = None,
        claimed: frozenset[str] = frozenset(),
        take: Callable[[Placed], Fit | None] = lambda _: None,
    ) -> None:
        self._store = store
        self.heard = heard
        self._hearing = hearing
        self._take = take
        self._drawings = Drawings(store, choices.show)
        self.show = choices.show
        self.starts = choices.starts
        self.keeps_offline = choices.keeps_offline
        self.has_papers = choices.has_papers
        self.has_scores = choices.has_scores
        self.has_clips = choices.has_clips
        by_uri = {source.src_uri: source for source in sources}
        read = {uri: read_lesson(source, choices.days) for uri, source in by_uri.items()}
        numbers = {uri: page.number for uri, (page, _) in read.items() if page.number is not None}
        self.pages = {uri: read[uri][0] for uri in page_order(by_uri, numbers, choices.order)}
        ordered = [by_uri[uri].page for uri in self.pages]
        self.course, problems = read_teaching(
            ordered,
            choices.days,
            choices.allow,
            claimed=claimed,
            demanded=self._drawings.demand,
            library=choices.library,
        )
        self.problems: list[Problem] = [*problems, *self.course.text.problems]
        self.warnings = self.course.text.warnings
        self.exercises = self._placed()

    def _placed(self) -> dict[str, Placed]:
        by_path = {page.path: page for page in self.pages.values()}
        return {
            name: Placed(exercise, by_path[exercise.path], self._drawings.key_of(exercise.pattern))
            for name, exercise in self.course.exercises.items()
        }

    @cached_property
    def curriculum(self) -> tuple[CurriculumWeek, ...]:
        """Every week at a glance."""
        return curriculum(self.course)

    @cached_property
    def weeks(self) -> list[LessonPage]:
        """The week pages by their number."""
        return sorted((page for page in self.pages.values() if page.week), key=lambda page: page.number or 0)

    def weeks_around(self, page: LessonPage) -> tuple[LessonPage | None, LessonPage | None]:
        """The week before and the week after, None at the ends."""
        index = self._week_numbers[page.src_uri]
        before = self.weeks[index - 1] if index > 0 else None
        return before, self.weeks[index + 1] if index + 1 < len(self.weeks) else None

    @cached_property
    def _week_numbers(self) -> dict[str, int]:
        return {page.src_uri: number for number, page in enumerate(self.weeks)}

    def exercises_on(self, page: LessonPage) -> list[Placed]:
        """The exercises that a page teaches, in its order."""
        return self._by_page.get(page.src_uri, [])

    def practised_on(self, page: LessonPage) -> list[Placed]:
        """What a page teaches, and what its week takes up again after that."""
        return [*self.exercises_on(page), *self.named(page.week.again if page.week else ())]

    @cached_property
    def _by_page(self) -> dict[str, list[Placed]]:
        found: dict[str, list[Placed]] = {}
        for placed in self.exercises.values():
            found.setdefault(placed.page.src_uri, []).append(placed)
        return found

    def leads_to(self, placed: Placed) -> list[Placed]:
        """The exercises that grow out of this one or need it."""
        return [self.exercises[later.id] for later in self.course.leads_to.get(placed.id, ())]

    def named(self, ids: Iterable[str | None]) -> list[Placed]:
        """The exercises of these ids, as far as they are good exercises."""
        return [self.exercises[name] for name in ids if name in self.exercises]

    def link(self, placed: Placed, url: str) -> Link:
        """A link from the page at ``url`` to where an exercise stands in its lesson."""
        return Link(placed.title, relative(placed.address, url))

    def fences_on(self, page: LessonPage) -> list[Located]:
        """The pattern fences of a page, good and bad, in its order."""
        return self._fences.get(page.path, [])

    @cached_property
    def _fences(self) -> dict[str, list[Located]]:
        found: dict[str, list[Located]] = {}
        for fence in self.course.text.fences:
            found.setdefault(fence.path, []).append(fence)
        return found

    def figure(self, placed: Placed, url: str) -> Markup:
        """An exercise's figure for the page at ``url``."""
        grows_from = self.named([placed.pattern.grows_from])
        around = Surroundings(
            folder=relative(placed.folder, url),
            version=placed.version,
            grows_from=self.link(grows_from[0], url) if grows_from else None,
            needs=tuple(self.link(needed, url) for needed in self.named(placed.pattern.requires)),
            leads_to=tuple(self.link(later, url) for later in self.leads_to(placed)),
            demand=demand_details(placed.exercise.at_goal),
            message=placed.message,
            sounds=self._sounds(placed, relative(placed.folder, url)),
            hearing=self._hearing_from(url),
            sheet=self._sheet(relative(placed.folder, url)),
            grade=placed.exercise.at_goal.grade,
            has_score=self.has_scores,
            has_clip=self.has_clips,
            film=film_of(placed.pattern, url, self._take(placed)),
        )
        return figure(placed.pattern, self._drawings.on_page(placed.pattern, placed.key), around)

    def own_figure(self, placed: Placed) -> Markup:
        """An exercise's figure for its own page."""
        drawing = self._drawings.on_page(placed.pattern, placed.key)
        return figure(placed.pattern, drawing, self.own_surroundings(placed), heading="h1")

    def own_surroundings(self, placed: Placed) -> Surroundings:
        """What an exercise's figure on its own page holds beside the pattern."""
        taught = self.exercises_on(placed.page)
        index = taught.index(placed)
        before, after = taught[index - 1] if index else None, taught[index + 1] if index + 1 < len(taught) else None
        grows_from = self._own_places([placed.pattern.grows_from], placed)
        return Surroundings(
            folder="",
            version=placed.version,
            lesson=Link(placed.page.full_name, relative(placed.address, placed.folder)),
            grows_from=grows_from[0] if grows_from else None,
            needs=self._own_places(placed.pattern.requires, placed),
            leads_to=self._own_places([later.id for later in self.leads_to(placed)], placed),
            message=placed.message,
            demand=demand_details(placed.exercise.at_goal),
            sounds=self._sounds(placed, ""),
            hearing=self._hearing_from(placed.folder),
            sheet=self._sheet(""),
            grade=placed.exercise.at_goal.grade,
            has_score=self.has_scores,
            has_clip=self.has_clips,
            film=film_of(placed.pattern, placed.folder, self._take(placed)),
            before=relative(before.folder, placed.folder) if before else None,
            after=relative(after.folder, placed.folder) if after else None,
        )

    def _own_places(self, ids: Iterable[str | None], placed: Placed) -> tuple[Link, ...]:
        """Links from an exercise's own page to those of others."""
        return tuple(Link(other.title, relative(other.folder, placed.folder)) for other in self.named(ids))

    def _sounds(self, placed: Placed, folder: str) -> tuple[Link, ...]:
        """The audio files of an exercise whose own place is at ``folder``."""
        tempo = placed.pattern.tempo
        words = {
            "start.mp3": say("At the starting tempo, {tempo} beats a minute", tempo=tempo.start),
            "goal.mp3": say("At the goal tempo, {tempo} beats a minute", tempo=tempo.goal),
        }
        return tuple(Link(words[name], folder + name) for name in self.heard(placed))

    def _sheet(self, folder: str) -> str | None:
        return f"{folder}{SHEET}" if self.has_papers else None

    def _hearing_from(self, url: str) -> str | None:
        page = self.pages.get(self._hearing or "")
        return relative(page.url, url) if page else None

    def picture(self, placed: Placed) -> str:
        """An exercise's diagram as one stand-alone SVG file."""
        return self._drawings.picture(placed.pattern)

    def on_card(self, placed: Placed) -> CardDiagram:
        """An exercise's diagram as a link preview shows it."""
        return self._drawings.on_card(placed.pattern)

    def example(self, pattern: Pattern, url: str) -> Markup:
        """An example's figure for the page at ``url``; it carries its own data, for it has no place of its own."""
        key = self._drawings.key_of(pattern)
        data = self._store.text(f"{digest('example', key)}.json", lambda: example_data(pattern))
        around = Surroundings(data=data, hearing=self._hearing_from(url))
        return figure(pattern, self._drawings.on_page(pattern, key), around)
