import re
from itertools import pairwise

import pytest

from wristwork.drawing import glyphs
from wristwork.drawing.staff_positions import Head, head_glyph, head_shape

WITH_A_HOLE = {
    name for name in glyphs.OUTLINES if name.startswith("notehead") and ("Half" in name or "Whole" in name)
} | {"stringsHarmonic", "pictHalfOpen1", "timeSig0", "timeSig6", "timeSig9"}
NUMBER = re.compile(r"-?\d*\.?\d+(?:e-?\d+)?")


def bounds(name: str) -> tuple[float, float, float, float]:
    """Left, top, right and bottom of an outline's points, in staff spaces."""
    points = [point for _, points in glyphs._commands(glyphs.OUTLINES[name]) for point in points]
    xs, ys = [x / 100 for x, _ in points], [y / 100 for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


@pytest.mark.parametrize("name", glyphs.OUTLINES)
def test_every_outline_is_closed_and_of_a_sensible_size(name):
    outline = glyphs.OUTLINES[name]
    assert outline.count("M") == outline.count("Z")
    left, top, right, bottom = bounds(name)
    assert right - left < 3
    assert bottom - top < 7


@pytest.mark.parametrize("digit", range(10))
def test_digits_of_a_time_signature_are_two_spaces_high(digit):
    _, top, _, bottom = bounds(f"timeSig{digit}")
    assert (top, bottom) == (-0.98, 0.98)


@pytest.mark.parametrize("head", Head)
@pytest.mark.parametrize("halvings", [-1, 0, 1, 2])
def test_every_head_has_a_glyph_as_wide_as_spacing_believes(head, halvings):
    left, _, right, _ = bounds(head_glyph(head, halvings))
    shape = head_shape(head, halvings)
    slack = 0.4 if head is Head.SLASHED else 0.12  # the slash may reach beyond the head
    assert -left == pytest.approx(shape.half_width, abs=slack)
    assert right == pytest.approx(shape.half_width, abs=slack)


@pytest.mark.parametrize("name", ["noteheadHalf", "flag16thUp", "restQuarter", "timeSig8"])
def test_relative_commands_draw_the_same_outline(name):
    """Walks the relative commands and compares the points with the table, in pixels."""
    scale = glyphs.SPACE / 100
    wanted = [(x * scale, y * scale) for _, points in glyphs._commands(glyphs.OUTLINES[name]) for x, y in points]
    here = start = (0.0, 0.0)
    walked = []
    for command, numbers in re.findall(r"([mlcz])([^mlcz]*)", glyphs.outline(name)):
        values = [float(number) for number in NUMBER.findall(numbers)]
        points = list(zip(values[::2], values[1::2], strict=True))
        if command == "z":
            here = start
        for index, (dx, dy) in enumerate(points, start=1):
            point = (here[0] + dx, here[1] + dy)
            walked.append(point)
            if command != "c" or index % 3 == 0:
                here = point
        if command == "m":
            start = here
    assert len(walked) == len(wanted)
    for got, want in zip(walked, wanted, strict=True):
        assert got == pytest.approx(want, abs=0.03)


@pytest.mark.parametrize("name", glyphs.OUTLINES)
def test_outlines_run_clockwise_so_that_overlaps_leave_no_gaps(name):
    contours: list[list[tuple[int, int]]] = []
    for command, points in glyphs._commands(glyphs.OUTLINES[name]):
        if command == "M":
            contours.append([])
        contours[-1] += points
    areas = [sum(x * v - u * y for (x, y), (u, v) in pairwise([*points, points[0]])) for points in contours]
    assert areas[0] > 0
    holes = [area for area in areas if area < 0]
    assert len(holes) == (2 if name == "timeSig8" else 1 if name in WITH_A_HOLE else 0)


def test_down_flags_mirror_up_flags():
    left, top, right, bottom = bounds("flag8thUp")
    assert bounds("flag8thDown") == (left, -bottom, right, -top)
