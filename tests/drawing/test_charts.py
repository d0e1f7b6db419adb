"""The curriculum's charts: every exercise a named link, nothing a title says becomes markup."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ElementTree

from wristwork.drawing.charts import ChartPoint, MapExercise, MapWay, demand_chart, needs_map
from wristwork.drawing.demand_bars import demand_bars
from wristwork.pattern import read_one
from wristwork.technique.demand import demand

SVG = "{http://www.w3.org/2000/svg}"
POINTS = [
    ChartPoint(1, "Low taps", 5.8, 1, "week-01/#low-taps"),
    ChartPoint(1, "High strokes", 6.2, 1, "week-01/#high-strokes"),
    ChartPoint(2, "All four", 21.3, 3, "week-02/#all-four"),
    ChartPoint(4, "Two Heights", 83.0, 9, "week-04/#two-heights"),
]
EXERCISES = [
    MapExercise("low-taps", "Low taps", 1, "week-01/#low-taps"),
    MapExercise("high-strokes", "High strokes", 1, "week-01/#high-strokes"),
    MapExercise("all-four", "All four", 2, "week-02/#all-four"),
    MapExercise("a-library-piece", "Something that has a title too long for one line", None, "library/"),
]
WAYS = [
    MapWay("low-taps", "high-strokes", grows=True),
    MapWay("low-taps", "all-four", grows=False),
    MapWay("high-strokes", "all-four", grows=False),
    MapWay("high-strokes", "nowhere", grows=False),
]


def links(svg):
    tree = ElementTree.fromstring(svg)
    return {each.get("href"): each.get("aria-label") for each in tree.iter(f"{SVG}a")}


def dots(svg):
    """Where the points are: percent across, pixels down."""
    tree = ElementTree.fromstring(svg)
    found = [each for each in tree.iter(f"{SVG}circle") if each.get("class") == "ww-dot"]
    return [(float(each.get("cx").rstrip("%")), float(each.get("cy"))) for each in found]


def test_each_point_of_the_demand_chart_is_a_link_with_a_name():
    assert links(demand_chart(POINTS)) == {
        "week-01/#low-taps": "Low taps: week 1, grade 1, 6 of 100",
        "week-01/#high-strokes": "High strokes: week 1, grade 1, 6 of 100",
        "week-02/#all-four": "All four: week 2, grade 3, 21 of 100",
        "week-04/#two-heights": "Two Heights: week 4, grade 9, 83 of 100",
    }


def test_points_stand_further_right_the_harder_and_further_down_the_later():
    low, high, four, last = dots(demand_chart(POINTS))
    assert low[0] < high[0] < four[0] < last[0]
    assert low[1] < four[1] < last[1]


def test_points_that_would_cover_each_other_stand_in_lanes():
    low, high, *_ = dots(demand_chart(POINTS))
    assert abs(low[1] - high[1]) >= 12


def test_the_two_ends_of_the_scale_stay_inside():
    ends = [ChartPoint(1, "None", 0, 1, "a"), ChartPoint(1, "All", 100, 10, "b")]
    assert all(10 < x < 100 for x, _ in dots(demand_chart(ends)))


def test_each_exercise_of_the_map_is_a_link_that_says_its_ways():
    assert links(needs_map(EXERCISES, WAYS)) == {
        "week-01/#low-taps": "Low taps, week 1; leads to High strokes, All four",
        "week-01/#high-strokes": "High strokes, week 1; grows out of Low taps; leads to All four",
        "week-02/#all-four": "All four, week 2; needs Low taps, High strokes",
        "library/": "Something that has a title too long for one line",
    }


def test_arcs_lead_from_the_earlier_exercise_to_the_later_one():
    svg = needs_map(EXERCISES, WAYS)
    down = [y for _, y in dots(svg)]
    arcs = re.findall(r'class="ww-arc (\S+)" d="M\S+ (\S+)C\S+ \S+ \S+ \S+ \S+ (\S+?)"', svg)
    assert sorted(arcs) == sorted(
        [
            ("ww-grows", str(int(down[0])), str(int(down[1]))),
            ("ww-needs", str(int(down[0])), str(int(down[2]))),
            ("ww-needs", str(int(down[1])), str(int(down[2]))),
            ("ww-leads", str(int(down[0])), str(int(down[1]))),
            ("ww-leads", str(int(down[0])), str(int(down[2]))),
            ("ww-leads", str(int(down[1])), str(int(down[2]))),
        ]
    )


def test_a_long_title_goes_on_two_lines():
    svg = needs_map(EXERCISES, [])
    assert ">Something that has a title<" in svg
    assert ">too long for one line<" in svg


def test_titles_and_addresses_never_become_markup():
    hostile = '"><script>alert(1)</script>&'
    for svg in (
        demand_chart([ChartPoint(1, hostile, 50, 6, hostile)], hostile),
        needs_map([MapExercise("one", hostile, 1, hostile)], [], hostile),
    ):
        tree = ElementTree.fromstring(svg)
        assert tree.get("aria-label") == hostile
        assert not list(tree.iter(f"{SVG}script"))
        assert list(links(svg)) == [hostile]


def test_charts_without_exercises_are_empty_but_whole():
    assert links(demand_chart([])) == links(needs_map([], [])) == {}


def test_bars_say_each_measure_in_words():
    pattern = read_one("title: Any title\nhands: R>LRR L>RLL")
    bars = demand_bars(demand(pattern, 80))
    assert [bar.words for bar in bars[1:5]] == [
        "right hand 2.7 strokes a second",
        "right hand 1.3 height changes a second",
        "right hand 0.56 seconds for the quickest lift",
        "left hand 2.7 strokes a second",
    ]
    assert bars[0].words.startswith("demand ")
    assert all(0 <= bar.percent <= 100 for bar in bars)


def test_a_hand_that_rests_has_no_bars():
    bars = demand_bars(demand(read_one("title: Any title\nhands: R R R R"), 80))
    assert not any("left" in bar.words for bar in bars)
