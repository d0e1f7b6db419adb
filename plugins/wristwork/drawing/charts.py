"""Two charts of a course as SVG.

Lengths across are percentages, so that a chart is as wide as its page and its letters keep their size;
lengths down are CSS pixels. Each point and each exercise is a link with a name, so that keyboard,
pointer and screen reader all reach it. Colours and letters come from the page's styles.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import sqrt
from textwrap import wrap

from wristwork.drawing.svg import escape, num
from wristwork.languages.say import say

# Where the scale of the demand chart begins and ends, in percent of its width. The weeks' numbers stand before it.
_LEFT, _RIGHT = 13, 98
_HEAD, _FOOT = 40, 10
_LANE = 20
_POINT, _TARGET = 6, 12
# Points closer than this (in percent of the scale) would cover each other on a phone.
_TOO_CLOSE = 6
# The scale goes one grade past the hardest exercise, and is never so short that a gentle slope looks steep.
_GRADES, _FEWEST_GRADES = 10, 5

# The map: exercises in lines of this height, the ways between them in a gutter on the left (percent of the width).
_LINE, _WEEK_LINE, _SECOND_LINE = 26, 34, 17
_GUTTER, _DOT = 26, 4
_NAMES = 30
# Bows are drawn on paper of this width, which is stretched to the gutter's.
_PAPER = 100
# As many letters as fit beside the gutter on the narrowest phone.
_LONGEST_NAME = 26


@dataclass(frozen=True, slots=True)
class ChartPoint:
    """An exercise in the demand chart: its week, its score and grade at its goal, its link."""

    week: int
    title: str
    score: float
    grade: int
    address: str


@dataclass(frozen=True, slots=True)
class MapExercise:
    """An exercise in the map, in the order of the course; ``week`` None where it belongs to no week."""

    id: str
    title: str
    week: int | None
    address: str


@dataclass(frozen=True, slots=True)
class MapWay:
    """A way in the map between two exercises, by their ids."""

    earlier: str
    later: str
    grows: bool


def demand_chart(points: Iterable[ChartPoint], title: str = "") -> str:
    """The course's demand: a line for each week, a point for each exercise, harder to the right."""
    by_week: dict[int, list[ChartPoint]] = {}
    for point in points:
        by_week.setdefault(point.week, []).append(point)
    scale = _Scale.for_points([point for week in by_week.values() for point in week])
    rows: list[str] = []
    marks: list[str] = []
    hardest: list[tuple[float, float]] = []
    top = float(_HEAD)
    for week in sorted(by_week):
        placed = _lanes(by_week[week], scale)
        height = _LANE * max(2, 1 + max(lane for _, lane in placed))
        rows.append(_row(week, top, height))
        spots = [(point, top + _LANE * (lane + 0.5)) for point, lane in placed]
        marks += [_point(point, scale.across(point.score), y) for point, y in spots]
        hardest.append(max((scale.across(point.score), y) for point, y in spots))
        top += height
    content = f"{_grid(scale, top)}{''.join(rows)}{_slope(hardest)}{''.join(marks)}"
    return _chart("ww-demand-chart", title or say("Demand by week"), top + _FOOT, content)


@dataclass(frozen=True, slots=True)
class _Scale:
    """The scale of the demand chart: ``grades`` grades, each ten points of the score wide."""

    grades: int

    @classmethod
    def for_points(cls, points: Iterable[ChartPoint]) -> _Scale:
        hardest = max((point.grade for point in points), default=0)
        return cls(min(_GRADES, max(_FEWEST_GRADES, hardest + 1)))

    def across(self, score: float) -> float:
        """Where a score stands, in percent of the chart's width."""
        return _LEFT + (_RIGHT - _LEFT) * score / (10 * self.grades)


def _lanes(points: Sequence[ChartPoint], scale: _Scale) -> list[tuple[ChartPoint, int]]:
    """Each point with the first lane in which it covers no other, the points in the order of the course."""
    ends: list[float] = []
    lanes: dict[ChartPoint, int] = {}
    for point in sorted(points, key=lambda point: point.score):
        x = scale.across(point.score)
        lane = next((lane for lane, end in enumerate(ends) if x - end >= _TOO_CLOSE), len(ends))
        ends[lane:] = [x, *ends[lane + 1 :]]
        lanes[point] = lane
    return [(point, lanes[point]) for point in points]


def _grid(scale: _Scale, bottom: float) -> str:
    """The grades and the lines between them."""
    lines = "".join(
        f'<line class="ww-grid" x1="{x}%" x2="{x}%" y1="{_HEAD - 6}" y2="{num(bottom)}"/>'
        for x in (num(scale.across(10 * n)) for n in range(scale.grades + 1))
    )
    grades = "".join(
        f'<text class="ww-axis" x="{num(scale.across(10 * n + 5))}%" y="{_HEAD - 12}">{n + 1}</text>'
        for n in range(scale.grades)
    )
    names = "".join(
        f'<text class="ww-axis-name" x="{x}%" y="12">{name}</text>'
        for name, x in ((say("Week"), 0), (say("Grade"), _LEFT))
    )
    return f'<g aria-hidden="true">{lines}{grades}{names}</g>'


def _row(week: int, top: float, height: float) -> str:
    middle = num(top + height / 2 + 4)
    return (
        f'<g aria-hidden="true"><line class="ww-grid" x1="0" x2="{_RIGHT}%" y1="{num(top)}" y2="{num(top)}"/>'
        f'<text class="ww-week" x="0" y="{middle}">{week}</text></g>'
    )


def _slope(hardest: Sequence[tuple[float, float]]) -> str:
    """The line from each week's hardest exercise to the next one's."""
    ends = [(f"{num(x)}%", num(y)) for x, y in hardest]
    return "".join(
        f'<line class="ww-slope" x1="{x}" y1="{y}" x2="{later}" y2="{below}"/>'
        for (x, y), (later, below) in pairwise(ends)
    )


def _point(point: ChartPoint, across: float, y: float) -> str:
    x = f"{num(across)}%"
    told = {"title": point.title, "week": point.week, "grade": point.grade, "score": f"{point.score:.0f}"}
    name = escape(say("{title}: week {week}, grade {grade}, {score} of 100", **told))
    side = "ww-starts" if across < 35 else "ww-ends" if across > 75 else "ww-middle"
    return (
        f'<a class="ww-point" href="{escape(point.address)}" aria-label="{name}">'
        f'<circle class="ww-target" cx="{x}" cy="{num(y)}" r="{_TARGET}"/>'
        f'<circle class="ww-dot" cx="{x}" cy="{num(y)}" r="{_POINT}"/>'
        f'<text class="ww-name {side}" x="{x}" y="{num(y - _TARGET)}" aria-hidden="true">{escape(point.title)}</text>'
        "</a>"
    )


def needs_map(
    exercises: Iterable[MapExercise],
    ways: Iterable[MapWay],
    title: str = "",
    elsewhere: Iterable[MapExercise] = (),
) -> str:
    """The course from top to bottom, with an arc from each exercise to every one that stands on it.

    Ways to exercises ``elsewhere``, which are not drawn here, are told in words.
    """
    listed = tuple(exercises)
    heights: dict[str, float] = {}
    heads: list[str] = []
    y, week = 0.0, object()
    for exercise in listed:
        if exercise.week != week:
            week = exercise.week
            words = say("In no week") if week is None else say("Week {number}", number=week)
            heads.append(f'<text class="ww-week" x="{_NAMES}%" y="{num(y + _WEEK_LINE - 9)}">{words}</text>')
            y += _WEEK_LINE
        heights[exercise.id] = y + _LINE / 2
        y += _LINE + _SECOND_LINE * (len(_wrapped(exercise.title)) - 1)
    titles = {exercise.id: exercise.title for exercise in (*listed, *elsewhere)}
    needs: dict[str, list[MapWay]] = {}
    leads: dict[str, list[MapWay]] = {}
    for way in ways:
        if way.earlier in titles and way.later in titles:
            needs.setdefault(way.later, []).append(way)
            leads.setdefault(way.earlier, []).append(way)
    items = "".join(
        _map_item(exercise, heights, needs.get(exercise.id, []), leads.get(exercise.id, []), titles)
        for exercise in listed
    )
    return _chart("ww-needs-map", title or say("What needs what"), y + _FOOT, f"{''.join(heads)}{items}")


def _map_item(
    exercise: MapExercise,
    heights: dict[str, float],
    needs: Sequence[MapWay],
    leads: Sequence[MapWay],
    titles: dict[str, str],
) -> str:
    """One exercise: its link, the ways that lead to it, and (shown when it is pointed at) those that lead on."""
    y = heights[exercise.id]
    arcs = [_arc(way, heights, "ww-grows" if way.grows else "ww-needs") for way in needs if way.earlier in heights]
    arcs += [_arc(way, heights, "ww-leads") for way in leads if way.later in heights]
    said = [
        exercise.title
        if exercise.week is None
        else say("{title}, week {week}", title=exercise.title, week=exercise.week)
    ]
    said += _list(say("grows out of {titles}"), [titles[way.earlier] for way in needs if way.grows])
    said += _list(say("needs {titles}"), [titles[way.earlier] for way in needs if not way.grows])
    said += _list(say("leads to {titles}"), [titles[way.later] for way in leads])
    lines = _wrapped(exercise.title)
    name = "".join(
        f'<tspan x="{_NAMES}%" dy="{_SECOND_LINE if number else 0}">{escape(line)}</tspan>'
        for number, line in enumerate(lines)
    )
    height = _LINE + _SECOND_LINE * (len(lines) - 1)
    return (
        f'<a class="ww-step" href="{escape(exercise.address)}" aria-label="{escape("; ".join(said))}">{_bows(arcs, y)}'
        f'<rect class="ww-target" x="{_GUTTER - 2}%" y="{num(y - _LINE / 2)}" width="100%" height="{height}"/>'
        f'<circle class="ww-dot" cx="{_GUTTER}%" cy="{num(y)}" r="{_DOT}"/>'
        f'<text class="ww-name" y="{num(y + 5)}" aria-hidden="true">{name}</text></a>'
    )


def _arc(way: MapWay, heights: dict[str, float], kind: str) -> str:
    """A bow in the gutter, the wider the further apart its ends are."""
    start, end = num(heights[way.earlier]), num(heights[way.later])
    far = abs(heights[way.later] - heights[way.earlier])
    # A bow reaches three quarters of the way to the points that pull it.
    bow = num(_PAPER - 4 / 3 * min(_PAPER - 4, 2.5 * sqrt(far)))
    return f'<path class="ww-arc {kind}" d="M{_PAPER} {start}C{bow} {start} {bow} {end} {_PAPER} {end}"/>'


def _bows(arcs: Sequence[str], y: float) -> str:
    """The bows of an exercise on paper that is as wide as the gutter, whatever that is."""
    if not arcs:
        return ""
    # A pixel high at the exercise's own height: what is drawn above and below may stick out.
    return (
        f'<svg class="ww-bows" y="{num(y)}" width="{_GUTTER}%" height="1" viewBox="0 {num(y)} {_PAPER} 1" '
        f'preserveAspectRatio="none">{"".join(arcs)}</svg>'
    )


def _wrapped(title: str) -> list[str]:
    """A title in one line or two."""
    return wrap(title, _LONGEST_NAME, max_lines=2, placeholder=" …") or [""]


def _list(told: str, titles: Sequence[str]) -> list[str]:
    return [told.format(titles=", ".join(titles))] if titles else []


def _chart(kind: str, title: str, height: float, content: str) -> str:
    # A list of links rather than a picture: a picture would hide them from a screen reader.
    return (
        f'<svg class="ww-chart {kind}" xmlns="http://www.w3.org/2000/svg" role="group" aria-label="{escape(title)}" '
        f'width="100%" height="{num(height)}">{content}</svg>'
    )
