"""All that is told of a page's front matter is said: nothing of it stays English where another language is spoken."""

from __future__ import annotations

import pytest

from tests.page.test_causes import SLIPS
from tests.said import bracketed, unsaid
from wristwork.languages.say import say
from wristwork.page.front_matter import Shape
from wristwork.page.page import read_page
from wristwork.page.problem import Problem

MORE = (
    "---\ntitle: x\nweek:: 3 4: 5\n- a\n---\n",
    "---\nweek: 3\nweek: 4\n---\n",
    "---\nweek\n---\n",
    "---\nweek: 3\n? [a\n---\n",
    "---\nweek: 3\nWords of a tutor\n---\n",
    "---\nweek: !!float x\n---\n",
    "---\nweek: !strange x\n---\n",
)


@pytest.mark.parametrize("text", [*(slip[0] for slip in SLIPS), *MORE])
def test_every_slip_in_front_matter(text: str) -> None:
    with bracketed():
        problems = read_page("docs/week.md", text).problems
    assert problems
    assert [unsaid(told) for problem in problems for told in (problem.found, problem.remedy)] == [""] * 2 * len(
        problems
    )


@pytest.mark.parametrize("shape", Shape)
def test_the_shape_of_a_value(shape: Shape) -> None:
    with bracketed():
        assert unsaid(say(shape)) == ""


def test_what_is_allowed() -> None:
    with bracketed():
        told = str(Problem("a.md", 1, 0, "", "", "no-aim", allowed="Because."))
    assert unsaid(told.partition("\n")[2]) == ""
