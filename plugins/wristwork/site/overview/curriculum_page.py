"""The curriculum: every week at a glance, the demand of its exercises, and what stands on what.

A large course comes in parts, see :mod:`wristwork.site.overview.parts`.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from markupsafe import Markup

from wristwork.course.course import Exercise
from wristwork.course.curriculum import CurriculumWeek
from wristwork.course.map import needs
from wristwork.drawing.charts import ChartPoint, MapExercise, MapWay, demand_chart, needs_map
from wristwork.languages.say import marked, say, say_count
from wristwork.site.addresses import relative
from wristwork.site.figure.figure import Link
from wristwork.site.overview.parts import exercises_at, part_at, part_links
from wristwork.site.reading.course_site import CourseSite, Placed
from wristwork.site.reading.paper_places import BOOK
from wristwork.site.templating import markup

ADDRESS = "curriculum/"
_GRADES = marked("Grades go from 1 to 10. They are no exam’s grades.")


@dataclass(frozen=True, slots=True)
class _WeekAtAGlance:
    """A week at a glance: ``grade`` is the tutor's, ``own_grade`` the tool's."""

    number: int
    title: Link
    aim: str | None
    new: tuple[Link, ...]
    again: tuple[Link, ...]
    grade: int | None
    own_grade: int | None
    practice: str


@dataclass(frozen=True, slots=True)
class _Demanded:
    """A row of the table of demand; ``demand`` is of 100."""

    title: Link
    week: int
    demand: str
    grade: int


@dataclass(frozen=True, slots=True)
class _Needed:
    """An exercise that another one stands on."""

    title: Link
    week: int | None


@dataclass(frozen=True, slots=True)
class _Standing:
    """An exercise with what it stands on."""

    title: Link
    needs: tuple[_Needed, ...]


def week_overview(site: CourseSite, url: str) -> Markup:
    """Every week with its aim, grade, minutes and exercises, for the page at ``url``."""
    pages = {page.path: page for page in part_at(site, url).lessons}
    return markup(
        "overview/week_overview.html",
        length=_sum(site.curriculum),
        grades=say(_GRADES),
        book=relative(BOOK, url) if site.has_papers and site.exercises else None,
        part_links=part_links(site, url, ADDRESS),
        weeks=tuple(
            _week(row, relative(pages[row.week.path].url, url), site, url)
            for row in site.curriculum
            if row.week.path in pages
        ),
    )


def _sum(weeks: Iterable[CurriculumWeek]) -> str:
    """How long the course is, in a sentence."""
    rows = list(weeks)
    length = say_count("{count} week", "{count} weeks", len(rows))
    exercises = say_count("{count} exercise", "{count} exercises", sum(len(row.new) for row in rows))
    minutes = [row.week.minutes for row in rows if row.week.minutes]
    if not minutes:
        return f"{length}, {exercises}."
    fewest, most = min(minutes), max(minutes)
    told = {"weeks": length, "exercises": exercises, "least": fewest, "most": most}
    if fewest == most:
        return say("{weeks}, {exercises}, sessions of {most} minutes.", **told)
    return say("{weeks}, {exercises}, sessions of {least} to {most} minutes.", **told)


def _week(row: CurriculumWeek, href: str, site: CourseSite, url: str) -> _WeekAtAGlance:
    week = row.week
    return _WeekAtAGlance(
        week.number,
        Link(week.title, href),
        week.aim,
        _exercises(row.new, site, url),
        _exercises(row.again, site, url),
        week.grade,
        row.own_grade,
        say("{days} × {minutes} minutes", days=week.days, minutes=week.minutes) if week.minutes else "",
    )


def _exercises(exercises: Iterable[Exercise], site: CourseSite, url: str) -> tuple[Link, ...]:
    return tuple(site.link(placed, url) for placed in site.named(exercise.id for exercise in exercises))


def demand_by_week(site: CourseSite, url: str) -> Markup:
    """The chart of demand, and the same as a table."""
    graded = [(placed, placed.page.number) for placed in exercises_at(site, url) if placed.page.number is not None]
    if not graded:
        return Markup("<p>{}</p>").format(say("This course has no exercises in its weeks yet."))
    graded.sort(key=lambda pair: pair[1])
    points = [
        ChartPoint(week, placed.title, demand.score, demand.grade, relative(placed.address, url))
        for placed, week in graded
        for demand in [placed.exercise.at_goal]
    ]
    rows = tuple(
        _Demanded(Link(point.title, point.address), point.week, f"{point.score:.0f}", point.grade) for point in points
    )
    return markup("overview/demand_by_week.html", chart=Markup(demand_chart(points)), rows=rows)


def what_needs_what(site: CourseSite, url: str) -> Markup:
    """The map of the exercises and the ways between them."""
    if not site.exercises:
        return Markup("<p>{}</p>").format(say("This course has no exercises yet."))
    ordered = sorted(exercises_at(site, url), key=_by_week)
    exercises = [_map_exercise(placed, url) for placed in ordered]
    here = {exercise.id for exercise in exercises}
    found = [MapWay(way.earlier, way.later, way.grows) for way in needs(site.course) if {way.earlier, way.later} & here]
    others = site.named(name for way in found for name in (way.earlier, way.later))
    elsewhere = {placed.id: _map_exercise(placed, url) for placed in others if placed.id not in here}
    drawn = needs_map(exercises, found, elsewhere=list(elsewhere.values()))
    return markup(
        "overview/what_needs_what.html",
        map=Markup(drawn),
        # For print, where nothing can be pointed at to tell the bows apart.
        on_paper=_standing(exercises, found, {**{row.id: row for row in exercises}, **elsewhere}),
        # To these the map has no bows.
        elsewhere=_standing(exercises, found, elsewhere),
    )


def _map_exercise(placed: Placed, url: str) -> MapExercise:
    return MapExercise(placed.id, placed.title, placed.page.number, relative(placed.address, url))


def _standing(
    exercises: Iterable[MapExercise], found: Iterable[MapWay], needed: Mapping[str, MapExercise]
) -> tuple[_Standing, ...]:
    """The exercises that stand on any of the ``needed`` ones, each with these."""
    needs: dict[str, list[_Needed]] = {}
    for way in found:
        if way.earlier in needed:
            earlier = needed[way.earlier]
            needs.setdefault(way.later, []).append(_Needed(Link(earlier.title, earlier.address), earlier.week))
    return tuple(_Standing(Link(row.title, row.address), tuple(needs[row.id])) for row in exercises if row.id in needs)


def _by_week(placed: Placed) -> tuple[bool, int]:
    """The weeks in order, then what belongs to none."""
    return placed.page.number is None, placed.page.number or 0
