"""The curriculum: every week at a glance, the demand of its exercises, and what stands on what.

A large course comes in parts, see :mod:`wristwork.site.overview.parts`.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from html import escape

from wristwork.course.course import Exercise
from wristwork.course.curriculum import CurriculumWeek
from wristwork.course.map import ways
from wristwork.course.weeks import Week
from wristwork.drawing.charts import ChartPoint, MapExercise, MapWay, demand_chart, needs_map
from wristwork.site.addresses import relative
from wristwork.site.figure.figure import Link
from wristwork.site.overview.parts import exercises_at, part_at, part_links
from wristwork.site.reading.course_site import CourseSite, Placed
from wristwork.wording import counted

ADDRESS = "curriculum/"
_GRADES = "Grades go from 1 to 10: the tutor’s, and one worked out from the strokes. Neither is an exam’s grade."


def week_overview(site: CourseSite, url: str) -> str:
    """Every week with its aim, grade, minutes and exercises, for the page at ``url``."""
    pages = {page.path: page for page in part_at(site, url).lessons}
    rows = [(row, pages[row.week.path]) for row in site.curriculum if row.week.path in pages]
    items = "".join(_week(row, relative(page.url, url), site, url) for row, page in rows)
    lead = f'<p>{_sum(site.curriculum)}</p><p class="ww-aside">{_GRADES}</p>{part_links(site, url, ADDRESS)}'
    return f'<div class="ww-curriculum">{lead}<ol>{items}</ol></div>'


def _sum(weeks: Iterable[CurriculumWeek]) -> str:
    """How long the course is, in a sentence."""
    rows = list(weeks)
    exercises = counted(sum(len(row.new) for row in rows), "exercise")
    minutes = [row.week.minutes for row in rows if row.week.minutes]
    if not minutes:
        return f"{counted(len(rows), 'week')}, {exercises}."
    fewest, most = min(minutes), max(minutes)
    length = f"{most} minutes" if fewest == most else f"{fewest} to {most} minutes"
    return f"{counted(len(rows), 'week')}, {exercises}, sessions of {length}."


def _week(row: CurriculumWeek, href: str, site: CourseSite, url: str) -> str:
    week = row.week
    aim = f'<p class="ww-aim" dir="auto">{escape(week.aim)}</p>' if week.aim else ""
    new = _exercises("New", row.new, site, url)
    again = _exercises("Again", row.again, site, url)
    return (
        f'<li><div><span class="ww-number">Week {week.number}</span>'
        f'<h2><a href="{escape(href)}"><bdi>{escape(week.title)}</bdi></a></h2>{aim}</div>'
        f"<dl>{new}{again}{_fact('Grade', _grades(week, row.own_grade))}{_fact('Practice', _practice(week))}</dl></li>"
    )


def _fact(name: str, words: str) -> str:
    return f"<div><dt>{name}</dt><dd>{words}</dd></div>" if words else ""


def _grades(week: Week, own: int | None) -> str:
    """The tutor's grade and the tool's own, as far as there are any."""
    if own is None:
        return str(week.grade or "")
    worked_out = f"<small>worked out: {own}</small>"
    return f"{week.grade} {worked_out}" if week.grade else worked_out


def _practice(week: Week) -> str:
    return f"{week.days} × {week.minutes} minutes" if week.minutes else ""


def _exercises(name: str, exercises: Iterable[Exercise], site: CourseSite, url: str) -> str:
    links = "".join(
        f"<li>{site.link(placed, url).html}</li>" for placed in site.named(exercise.id for exercise in exercises)
    )
    return f'<div class="ww-wide"><dt>{name}</dt><dd><ul>{links}</ul></dd></div>' if links else ""


def demand_by_week(site: CourseSite, url: str) -> str:
    """The chart of demand, and the same as a table."""
    graded = [(placed, placed.page.number) for placed in exercises_at(site, url) if placed.page.number is not None]
    if not graded:
        return "<p>This course has no exercises in its weeks yet.</p>"
    graded.sort(key=lambda pair: pair[1])
    points = [
        ChartPoint(week, placed.title, demand.score, demand.grade, relative(placed.address, url))
        for placed, week in graded
        for demand in [placed.exercise.at_goal]
    ]
    rows = "".join(_row(point) for point in points)
    return (
        f"{demand_chart(points)}"
        '<details class="ww-as-table"><summary>The same as a table</summary><table class="ww-table">'
        "<caption>Demand of each exercise at its goal tempo, of 100</caption>"
        '<thead><tr><th scope="col">Exercise</th><th scope="col">Week</th><th scope="col">Demand</th>'
        f'<th scope="col">Grade</th></tr></thead><tbody>{rows}</tbody></table></details>'
    )


def _row(point: ChartPoint) -> str:
    link = Link(point.title, point.address).html
    return f'<tr><th scope="row">{link}</th><td>{point.week}</td><td>{point.score:.0f}</td><td>{point.grade}</td></tr>'


def what_needs_what(site: CourseSite, url: str) -> str:
    """The map of the exercises and the ways between them."""
    if not site.exercises:
        return "<p>This course has no exercises yet.</p>"
    ordered = sorted(exercises_at(site, url), key=_by_week)
    exercises = [_map_exercise(placed, url) for placed in ordered]
    here = {exercise.id for exercise in exercises}
    found = [MapWay(way.earlier, way.later, way.grows) for way in ways(site.course) if {way.earlier, way.later} & here]
    others = site.named(name for way in found for name in (way.earlier, way.later))
    elsewhere = {placed.id: _map_exercise(placed, url) for placed in others if placed.id not in here}
    drawn = needs_map(exercises, found, elsewhere=list(elsewhere.values()))
    return drawn + _on_paper(exercises, found, elsewhere) + _from_elsewhere(exercises, found, elsewhere)


def _map_exercise(placed: Placed, url: str) -> MapExercise:
    return MapExercise(placed.id, placed.title, placed.page.number, relative(placed.address, url))


def _from_elsewhere(
    exercises: Iterable[MapExercise], found: Iterable[MapWay], elsewhere: Mapping[str, MapExercise]
) -> str:
    """What stands on exercises of other parts, to which the map has no bows."""
    needed: dict[str, list[str]] = {}
    for way in found:
        if way.earlier in elsewhere:
            needed.setdefault(way.later, []).append(_named(elsewhere[way.earlier]))
    items = "".join(
        f"<li>{Link(row.title, row.address).html} on {', '.join(needed[row.id])}</li>"
        for row in exercises
        if row.id in needed
    )
    lead = "<p>What stands on exercises of other parts:</p>"
    return f'<div class="ww-elsewhere">{lead}<ul>{items}</ul></div>' if items else ""


def _named(exercise: MapExercise) -> str:
    week = f" (week {exercise.week})" if exercise.week is not None else ""
    return f"{Link(exercise.title, exercise.address).html}{week}"


def _on_paper(exercises: Iterable[MapExercise], found: Iterable[MapWay], elsewhere: Mapping[str, MapExercise]) -> str:
    """The same as a list, for print: nothing can be pointed at there to tell the bows apart."""
    rows = list(exercises)
    titles = {row.id: row.title for row in (*rows, *elsewhere.values())}
    needs: dict[str, list[str]] = {}
    for way in found:
        needs.setdefault(way.later, []).append(f"<bdi>{escape(titles[way.earlier])}</bdi>")
    items = "".join(
        f"<li><strong><bdi>{escape(row.title)}</bdi></strong> on {', '.join(needs[row.id])}</li>"
        for row in rows
        if row.id in needs
    )
    return f'<ul class="ww-on-paper">{items}</ul>' if items else ""


def _by_week(placed: Placed) -> tuple[bool, int]:
    """The weeks in order, then what belongs to none."""
    return placed.page.number is None, placed.page.number or 0
