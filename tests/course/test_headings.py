"""The heading of a page: found in any text, and in no time."""

from __future__ import annotations

import time

import pytest

from wristwork.course.page_order import page_order
from wristwork.course.prose import page_heading
from wristwork.page.page import read_page


@pytest.mark.parametrize(
    "text", ["# Week 1" + " " * 40_000 + "x", "# " + "#" * 40_000 + "x", "# a" + "\t #" * 20_000, "# {" + "{" * 40_000]
)
def test_a_long_heading_takes_no_time(text: str) -> None:
    start = time.perf_counter()
    assert page_heading(read_page("a.md", text))
    assert time.perf_counter() - start < 1


def test_a_comment_of_a_pattern_is_no_heading() -> None:
    page = read_page("a.md", "```pattern\n# my own note\nid: x\n```\n\n# The *real* `R` one ##\n")
    assert page_heading(page) == "The real R one"


def test_digits_of_other_kinds_are_no_numbers() -> None:
    assert page_order(["5²5.md", "week-10.md", "week-2.md"], {}) == ["5²5.md", "week-2.md", "week-10.md"]
