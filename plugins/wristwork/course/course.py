"""The course as a whole: its weeks in the order of its pages, and what each of them teaches."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from functools import cached_property

from wristwork.course.known import known
from wristwork.course.plan import (
    SHORTEST_TURN,
    Ended,
    PlannedExercise,
    Session,
    ended,
    has_room_to_look_back,
    sessions,
)
from wristwork.course.revision import Return, RevisedWeek, Revision, revision
from wristwork.course.weeks import DEFAULT_DAYS, Allowance, Week, read_week
from wristwork.page.page import Page
from wristwork.page.problem import Problem
from wristwork.pattern.course import CourseText, Located, read_patterns
from wristwork.pattern.model import Pattern
from wristwork.technique.demand import Demand, demand


def demand_at_goal(pattern: Pattern) -> Demand:
    """The demand of a pattern at its goal tempo."""
    return demand(pattern, pattern.tempo.goal)


@dataclass(frozen=True)
class Exercise:
    """An exercise where it is taught. ``order`` counts the exercises of the course from 0, as its pages have them.

    ``demanded`` tells the demand at the goal tempo: by working it out, or from where it was worked out before.
    """

    pattern: Pattern
    fence: Located
    week: Week | None
    order: int
    demanded: Callable[[Pattern], Demand] = field(default=demand_at_goal, compare=False, repr=False)

    @property
    def id(self) -> str:
        assert self.pattern.id is not None, "an exercise has an id"
        return self.pattern.id

    @property
    def title(self) -> str:
        return self.pattern.title or self.id

    @property
    def path(self) -> str:
        return self.fence.path

    @property
    def needs(self) -> tuple[str, ...]:
        """The ids it stands on: what it grows out of, then what it requires."""
        grows_from = [self.pattern.grows_from] if self.pattern.grows_from else []
        return tuple(dict.fromkeys([*grows_from, *self.pattern.requires]))

    def line_of(self, key: str) -> int:
        """The line of a key of its pattern, or of the fence where the key is not there."""
        return self.fence.places.get(key, self.fence.place).line

    @cached_property
    def at_goal(self) -> Demand:
        """Its demand at the goal tempo."""
        return self.demanded(self.pattern)


@dataclass(frozen=True)
class Course:
    """Weeks in the order of the pages, exercises by id in the same order.

    ``pages`` holds every page by its path; ``files`` are the paths of all other files and of
    pages that are made by the tool, None where nobody knows them. ``allow`` are the course's own allowances.
    """

    weeks: tuple[Week, ...]
    exercises: Mapping[str, Exercise]
    text: CourseText
    pages: Mapping[str, Page] = field(default_factory=dict)
    files: frozenset[str] | None = None
    allow: tuple[Allowance, ...] = ()

    @cached_property
    def numbered(self) -> tuple[Week, ...]:
        """The weeks by their number."""
        return tuple(sorted(self.weeks, key=lambda week: week.number))

    @cached_property
    def _by_path(self) -> dict[str, list[Exercise]]:
        found: dict[str, list[Exercise]] = {}
        for exercise in self.exercises.values():
            found.setdefault(exercise.path, []).append(exercise)
        return found

    def taught_in(self, week: Week) -> tuple[Exercise, ...]:
        """The exercises that a week's page teaches, in its order."""
        return tuple(self._by_path.get(week.path, ()))

    def met_again_in(self, week: Week) -> tuple[Exercise, ...]:
        """The exercises of other weeks that come back in this one."""
        known = (self.exercises.get(name) for name in week.again)
        return tuple(exercise for exercise in known if exercise is not None and exercise.path != week.path)

    def practised_in(self, week: Week) -> tuple[Exercise, ...]:
        """All that the week's sessions hold: what comes back first, then what is new."""
        return (*self.met_again_in(week), *self.taught_in(week))

    @cached_property
    def leads_to(self) -> Mapping[str, tuple[Exercise, ...]]:
        """For each id the exercises that stand on it, in the order of the course."""
        found: dict[str, list[Exercise]] = {}
        for exercise in self.exercises.values():
            for name in exercise.needs:
                found.setdefault(name, []).append(exercise)
        return {name: tuple(later) for name, later in found.items()}

    @cached_property
    def plans(self) -> Mapping[str, tuple[Session, ...]]:
        """The practice sessions of every week, by the path of its page; none for a week without minutes."""
        plans: dict[str, tuple[Session, ...]] = {}
        so_far: dict[str, int] = {}
        returns = dict(zip((week.path for week in self.numbered), self.revision.returns, strict=True))
        for week in self.numbered:
            back = [self._coming_back(each) for each in returns[week.path]]
            plans[week.path] = sessions(week, self._pieces(week, so_far), back=back)
            # What was only looked back at is a step slower than it was.
            so_far |= {name: max(tempo, so_far.get(name, 0)) for name, tempo in ended(plans[week.path]).items()}
        return plans

    def known_before(self, week: Week) -> tuple[str, ...]:
        """What a student knows when a week begins, as far as warm-ups ask for it."""
        before = (exercise for exercise in self.exercises.values() if exercise.week)
        return known(exercise.pattern for exercise in before if exercise.week and exercise.week.number < week.number)

    @cached_property
    def revision(self) -> Revision:
        """What comes back of earlier weeks, in the order of :attr:`numbered`."""
        return revision(map(self._revised, self.numbered))

    def _revised(self, week: Week) -> RevisedWeek:
        practised = self.practised_in(week)
        met = frozenset(exercise.id for exercise in practised)
        has_room = week.minutes is not None and has_room_to_look_back(week.minutes, len(practised), SHORTEST_TURN)
        return RevisedWeek(
            number=week.number,
            taught=tuple(exercise.id for exercise in self.taught_in(week)),
            met=met,
            refreshed=frozenset(name for exercise in practised for name in exercise.needs),
            room=week.days if has_room and week.revises else 0,
        )

    def _coming_back(self, each: Return) -> PlannedExercise:
        return PlannedExercise.of(self.exercises[each.id].pattern).coming_back(each.times)

    def _pieces(self, week: Week, so_far: Ended) -> Iterable[PlannedExercise]:
        again = self.met_again_in(week)
        for exercise in self.practised_in(week):
            is_again = exercise in again
            piece = PlannedExercise.of(exercise.pattern, again=is_again)
            yield piece.going_on_from(so_far.get(exercise.id)) if is_again else piece


def read_teaching(
    pages: Iterable[Page],
    days: int = DEFAULT_DAYS,
    allow: tuple[Allowance, ...] = (),
    files: frozenset[str] | None = None,
    claimed: frozenset[str] = frozenset(),
    demanded: Callable[[Pattern], Demand] = demand_at_goal,
    library: Iterable[Page] = (),
) -> tuple[Course, tuple[Problem, ...]]:
    """The course that some pages make (in the order of teaching), and what is wrong in their front matter.

    ``claimed`` are ids that pages may hold which cannot be read. ``demanded`` tells an exercise's demand
    at its goal tempo. ``library`` are pages whose exercises these may take.
    """
    weeks: dict[str, Week] = {}
    problems: list[Problem] = []
    by_path = {page.path: page for page in pages}
    for path, page in by_path.items():
        week, found = read_week(page, days)
        problems += found
        if week is not None:
            weeks[path] = week
    text = read_patterns(by_path.values(), claimed, library)
    exercises = {
        name: Exercise(fence.pattern, fence, weeks.get(fence.path), order, demanded)
        for order, (name, fence) in enumerate(text.exercises.items())
        if fence.pattern is not None
    }
    return Course(tuple(weeks.values()), exercises, text, by_path, files, allow), tuple(problems)
