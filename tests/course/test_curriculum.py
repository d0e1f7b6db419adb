"""The course at a glance: weeks with their grades and loads, and what stands on what."""

from __future__ import annotations

from tests.course.test_checks import good_course
from wristwork.course.course import read_teaching
from wristwork.course.curriculum import curriculum
from wristwork.course.map import Need, needs
from wristwork.page.page import read_pages


def read(pages):
    course, problems = read_teaching(read_pages(pages))
    assert not problems
    return course


def test_every_week_with_what_is_new_and_what_comes_back():
    pages = good_course(3)
    path = "docs/week-03.md"
    pages[path] = pages[path].replace("minutes: 20", "minutes: 24\nagain: [first-1]\ngrade: 2")
    rows = curriculum(read(dict(reversed(pages.items()))))
    assert [row.week.number for row in rows] == [1, 2, 3]
    assert [[exercise.id for exercise in row.new] for row in rows] == [
        ["first-1", "second-1"],
        ["first-2", "second-2"],
        ["first-3", "second-3"],
    ]
    last = rows[2]
    assert [exercise.id for exercise in last.again] == ["first-1"]
    assert (last.week.grade, last.own_grade, last.load.minutes) == (2, 1, 24)


def test_a_week_of_review_takes_its_grade_from_what_it_repeats():
    pages = good_course(2)
    pages["docs/week-02.md"] = "---\nweek: 2\naim: Rest.\nminutes: 20\nagain: [first-1]\n---\n\n# Rest\n"
    rows = curriculum(read(pages))
    assert rows[1].new == ()
    assert rows[1].own_grade == 1


def test_a_week_without_minutes_or_exercises():
    rows = curriculum(read({"week-01.md": "---\nweek: 1\n---\n\n# Reading\n"}))
    assert (rows[0].own_grade, rows[0].load) == (None, None)


def test_ways_lead_from_what_is_needed():
    pages = good_course(2)
    grown = "from: first-1\nrequires: first-1, second-1"
    pages["docs/week-02.md"] = pages["docs/week-02.md"].replace("requires: second-1\nhands: RL RL RL RL", grown)
    course = read(pages)
    assert needs(course) == (
        Need("first-1", "second-1", grows=False),
        Need("first-1", "first-2", grows=True),
        Need("second-1", "first-2", grows=False),
        Need("first-2", "second-2", grows=False),
    )
    assert [exercise.id for exercise in course.leads_to["first-1"]] == ["second-1", "first-2"]
    assert "second-2" not in course.leads_to
