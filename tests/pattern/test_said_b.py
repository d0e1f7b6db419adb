"""What is wrong in the lines and the slots of a pattern, or with all of it, is told in the course's language."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest

from tests.pattern import (
    test_brackets,
    test_chart,
    test_course,
    test_drums,
    test_hands,
    test_lanes,
    test_places,
    test_pulses,
    test_shared,
    test_video,
)
from tests.said import bracketed, unsaid
from wristwork.pattern import read_course

# What is told of whole groups, of growing and of keys that a pattern lacks is looked after elsewhere.
_ELSEWHERE = re.compile(
    "over|group|held slot|comment|second time$|no title|neither hands|no hands|no id can|from:|is not an|"
    "requires itself|in an example"
)

# What the tables of other tests do not meet.
_MORE = (
    "id: a",
    "id: con",
    "id: ---",
    "qqq: yes",
    " tempo: 60",
    "time: 200/4",
    "feel: swing 9:1",
    "feel: lazy",
    "tempo: 1",
    "repeat: bars 1 to 4",
    "show: qqqqq",
    "requires: ,",
    "place: zzzzz on snare",
    "place: all on zzzzz",
    "hands: R\x07",
    "hands: R\u0301",
    "hands: R\u0378",
    "tempo: 6\u200b0",
    "video: at 3:46",
    "video: lesson.mp4 to 3:46 from",
    "time: 12/4\nright: x over 3 x over 3 x over 3 x over 3\nleft: x over 4 x over 4 x over 4",
    "right: RRRRR R R R\nleft: LLLL L L L",
    "right: x lx x x\nleft: x x x x",
    "right: x x/ x x\nleft: . x . .",
    "right: x xz x x\nleft: . .x . .",
    "right: . .x . .\nleft: x xz x x",
    "right: . .x . .\nleft: x x/ x x",
    "right: x x/ x x\nleft: . .x . .",
    "right: R B R R",
    "right: R L R R",
    "left: L B L L",
    "left: L R L L",
    "hands: R L R (",
    "hands: R L R L | R L R L\nplace: bar 3 on snare",
    "time: 2/4\nhands: R L | R L\ntempos: 90 at 2&",
    "hands: R/----RRR R R R",
    "hands: R/3 - R R",
    "time: 6/8\nhands: RL{RLR}R RLR",
    f"hands: {'R L R L ' * 65}",
    f"time: 32/4\nhands: {'RLRLRLRLRLRL ' * 32 * 12}",
)


def _wrong() -> Iterator[str]:
    """The lines of patterns in each of which something is wrong."""
    yield "  hands: RL\ntitle: One\nfeet: R"
    for fence, _, _, found, _ in test_course.LINES:
        if not _ELSEWHERE.search(found):
            yield fence
    for lines, _ in test_course.REMEDIES:
        if not lines.startswith("from:"):
            yield f"title: One\nhands: R L R L\n{lines}"
    for hands, _, found, _ in test_lanes.SLOT_ERRORS:
        if not _ELSEWHERE.search(found):
            yield f"title: One\nhands: {hands}"
    for table, start in (
        (test_brackets.test_what_is_wrong_is_told_with_its_remedy, "title: One\nhands: "),
        (test_chart.test_what_is_wrong_with_a_strong_accent, "title: One\nhands: "),
        (test_hands.test_what_an_ampersand_can_not_join, "title: One\nhands: "),
        (test_drums.test_other_words_for_a_drum_are_answered_with_its_name, "title: One\nhands: R L\nplace: all on "),
        (test_places.test_what_is_wrong_with_a_moment, "title: One\nhands: R L R L\nplace: "),
        (test_pulses.test_what_is_wrong_with_a_grouping, "title: One\nhands: RL RL RLR\ntime: "),
        (test_video.test_what_is_wrong_is_said_with_its_remedy, "title: One\nhands: R L R L\nvideo: "),
    ):
        for example, *_ in table.pytestmark[0].args[1]:
            yield f"{start}{example}"
    for lines in _MORE:
        hands = "" if re.search("^(hands|right|left):", lines, re.MULTILINE) else "hands: R L R L\n"
        yield f"title: One\n{hands}{lines}"


WRONG = tuple(_wrong())


@pytest.mark.parametrize("lines", WRONG, ids=[lines[:80] for lines in WRONG])
def test_what_is_wrong_is_said(lines: str) -> None:
    with bracketed():
        problems = read_course({"page.md": f"```pattern\n{lines}\n```\n"}).problems
    assert problems
    for problem in problems:
        assert [unsaid(problem.subject or ""), unsaid(problem.found), unsaid(problem.remedy)] == ["", "", ""]


@pytest.mark.parametrize(
    "fence",
    ["take: gear", "take: sixteen", "take: wrong-one", "take: gears\nfrom: gears", "take: gears\nchange: accents off"],
)
def test_what_can_not_be_taken_is_said(fence: str) -> None:
    with bracketed():
        (problem,) = test_shared.read(fence).problems
    assert [unsaid(problem.found), unsaid(problem.remedy)] == ["", ""]


def test_a_library_that_is_not_there_is_said() -> None:
    with bracketed():
        (problem,) = test_shared.read("take: gears", library="").problems
    assert [unsaid(problem.found), unsaid(problem.remedy)] == ["", ""]


def test_a_bar_line_that_does_not_follow_the_pick_up_is_said() -> None:
    with bracketed():
        problem, *_ = read_course(
            {"page.md": "```pattern\ntitle: One\ntime: 2/4\npick-up: 1 beat\nhands: R L | R L\n```\n"}
        ).problems
    assert [unsaid(problem.found), unsaid(problem.remedy)] == ["", ""]
