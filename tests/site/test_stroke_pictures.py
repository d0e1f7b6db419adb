"""The strokes as pictures: their lines end where the strokes end, and who can't see them is told what moves."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest

from wristwork.site.overview.made_pages import SLOTS
from wristwork.site.overview.stroke_pictures import HEAD_Y, four_strokes, one_stroke, two_manners
from wristwork.site.safety.drawings.shapes import ACCENT
from wristwork.technique.motion.constants import HEIGHT_CM
from wristwork.technique.strokes import Height, StrokeName

LEVELS = {Height.HIGH: "accent", Height.LOW: "tap"}


def bead_line(name: StrokeName) -> list[float]:
    """The heights of the bead along its line, in cm."""
    paths = re.findall(rf'<path d="(M[^"]+)" fill="none" stroke="{re.escape(ACCENT)}"', one_stroke(name))
    (path,) = paths
    return [(HEAD_Y - float(place.split()[1])) / 5 for place in path[1:].split("L")]


@pytest.mark.parametrize("name", StrokeName)
def test_the_line_goes_from_the_start_of_the_stroke_by_the_head_to_its_end(name: StrokeName) -> None:
    heights = {LEVELS[height]: HEIGHT_CM[LEVELS[height]] for height in Height}
    line = bead_line(name)
    assert line[0] == pytest.approx(heights[LEVELS[name.starts]], abs=0.05)
    assert line[-1] == pytest.approx(heights[LEVELS[name.ends]], abs=0.05)
    assert min(line) < 1.5
    assert max(line) <= max(line[0], line[-1]) + 0.05


def test_all_are_well_formed_named_and_told() -> None:
    pictures = ElementTree.fromstring(f"<div>{four_strokes()}{two_manners()}</div>")
    drawings = pictures.findall(".//{*}svg")
    assert len(drawings) == 6
    for svg in drawings:
        title, told = svg.get("aria-labelledby", "").split()
        texts = {element.get("id"): element.text for element in svg if element.get("id")}
        assert texts[title]
        assert len(texts[told] or "") > 60
    ids = re.findall(r' id="([^"]+)"', str(four_strokes() + two_manners()))
    assert len(ids) == len(set(ids))


def test_each_stroke_has_a_mark_of_its_own() -> None:
    assert {f"{name}-stroke" for name in StrokeName} | {"moving-strokes", "two-manners"} <= SLOTS.keys()
