"""Lines of a diagram on paper: as many bars as can be read from a stand, and none left over alone."""

from __future__ import annotations

import re

import pytest

from wristwork.drawing.printed import SMALLEST, printed_lines
from wristwork.pattern import read_one

A4_POINTS = 470.0


def lines(bars: int, room: float = A4_POINTS) -> list[float]:
    hands = " | ".join(["R>LRL RLRL"] * bars)
    pattern = read_one(f"example: yes\ntitle: x\ntempo: 60\nhands: {hands}\n")
    return [line.width for line in printed_lines(pattern, room)]


@pytest.mark.parametrize("bars", range(1, 10))
def test_no_line_is_wider_than_the_paper_and_no_bar_is_left_over_alone(bars: int) -> None:
    widths = lines(bars)
    assert max(widths) <= A4_POINTS + 1e-6
    assert bars == 1 or min(widths) >= max(widths) / 2.6


def test_less_room_makes_more_lines_and_never_smaller_letters_than_can_be_read() -> None:
    pattern = read_one("example: yes\ntitle: x\ntempo: 60\nhands: R>LRL RLRL | R>LRL RLRL | R>LRL RLRL | R>LRL RLRL\n")
    counts = [len(printed_lines(pattern, room)) for room in (1000.0, 470.0, 240.0)]
    assert counts == sorted(counts)
    assert counts[0] < counts[-1]
    for line in printed_lines(pattern, 470.0):
        natural = float(re.search(r'viewBox="0 \S+ (\S+) ', line.svg)[1])
        assert line.width / natural >= SMALLEST - 1e-6
