"""The order in which a course's pages are read."""

from __future__ import annotations

from wristwork.course.page_order import page_order

WEEKS = {"docs/week-2.md": 2, "docs/week-10.md": 10, "docs/week-1.md": 1}


def test_numbers_in_names_count_as_numbers():
    assert page_order(WEEKS, WEEKS) == ["docs/week-1.md", "docs/week-2.md", "docs/week-10.md"]


def test_a_nav_comes_first():
    nav = ["docs/week-10.md", "docs/gone.md", "docs/week-1.md"]
    assert page_order(WEEKS, WEEKS, nav) == ["docs/week-10.md", "docs/week-1.md", "docs/week-2.md"]


def test_names_without_numbers_leave_the_order_to_the_weeks():
    weeks = {"course-7/flams.md": 3, "course-7/bounce.md": 1, "course-7/accents.md": 2}
    assert page_order(weeks, weeks) == ["course-7/bounce.md", "course-7/accents.md", "course-7/flams.md"]


def test_a_single_page():
    assert page_order(["week-1.md"], {"week-1.md": 1}) == ["week-1.md"]
