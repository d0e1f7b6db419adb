"""Names of strokes and drums: in full where there is room, each as near to its stroke as the others let it be."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import combinations, count, pairwise
from typing import NamedTuple

from wristwork.drawing.labels import Label, initials, parts
from wristwork.drawing.score import Cut
from wristwork.drawing.spacing import Extent, SpacedRow, Spacing, settle
from wristwork.technique.strokes import Limb

DRUM_GAP = 8.0
NAME_EDGE, DRUM_EDGE = 2.0, 4.0
DRUM_GIVE = 3.0  # at the edge of a cut, the name of a drum may be so far off its note
NAME_GAP, NAME_GIVE = 4.0, 3.5
FULL_GAP, INITIAL_GAP = 3.0, 1.5  # as they are settled in the end
_MOST_LINES = 2  # for names of drums that keep their lines
NAME_FAR = 7.0  # further from its stroke a name is not read as its name

Names = Mapping[Limb, list[Label]]


class PlacedLabel(NamedTuple):
    """A text with its middle ``x`` pixels from the left edge of its cut, on line ``line`` (from 0) of its row."""

    label: Label
    x: float
    line: int = 0


def first_that_fits(
    cut: Cut, names: Names, spaced: Callable[[Names, float], Spacing], in_full: bool
) -> tuple[Names, float, Spacing]:
    """The names in full; where there is no room their initials; at the very worst one for each written note."""
    if not names:
        return names, FULL_GAP, spaced(names, FULL_GAP)
    if in_full:
        spacing = spaced(names, FULL_GAP)
        if _all_fit(names, spacing, FULL_GAP):
            return names, FULL_GAP, spacing
    short = initials(cut)
    spacing = spaced(short, INITIAL_GAP)
    if any(width_of_all(found, INITIAL_GAP) > spacing.width for found in short.values()):
        short = {limb: [together[0] for together in parts(found)] for limb, found in short.items()}
        spacing = spaced(short, INITIAL_GAP)
    return short, INITIAL_GAP, spacing


def _all_fit(names: Names, spacing: Spacing, gap: float) -> bool:
    return not spacing.tight or all(_fit(found, spacing, gap) for found in names.values())


def width_of_all(labels: Sequence[Label], gap: float) -> float:
    """What the names of one hand take side by side."""
    return sum([label.width + gap for label in labels]) - gap + 2 * NAME_EDGE


def name_rows(names: Names) -> Iterator[SpacedRow]:
    """Names keep clear of each other; those of one drag or diddle may move apart together."""
    for found in names.values():
        together = parts(found)
        yield SpacedRow([_joint_extent(labels) for labels in together], NAME_GAP, NAME_GIVE, NAME_EDGE, NAME_EDGE)
        for before, after in pairwise(together):
            if len(before) > 1 or len(after) > 1:
                yield SpacedRow([before[-1].extent, after[0].extent], NAME_GAP, NAME_GIVE, NAME_EDGE, NAME_EDGE)


def _joint_extent(labels: Sequence[Label]) -> Extent:
    if len(labels) == 1:
        return labels[0].extent
    cut_beat = sum(label.cut_beat for label in labels) / len(labels)
    shift = sum(label.shift for label in labels) / len(labels)
    half = (sum(label.width + NAME_GAP for label in labels) - NAME_GAP) / 2
    return Extent(cut_beat, half - shift, half + shift)


def drum_rows(drums: Names) -> Iterator[SpacedRow]:
    """Names of drums are staggered on two lines, so every other one has to be clear."""
    edge = DRUM_EDGE - DRUM_GIVE
    for found in filter(None, drums.values()):
        for first in (0, 1):
            yield SpacedRow([label.extent for label in found[first::2]], DRUM_GAP, low=edge, high=edge, free=True)


def in_columns(labels: Sequence[Label], spacing: Spacing) -> list[PlacedLabel]:
    """Texts in the columns of their moments."""
    return [PlacedLabel(label, spacing.x(label.cut_beat) + label.shift) for label in labels]


def settled(labels: Sequence[Label], spacing: Spacing, gap: float) -> list[PlacedLabel]:
    """The names of a hand, moved out of each other's way."""
    wanted = [spacing.x(label.cut_beat) + label.shift for label in labels]
    places = settle(wanted, [label.width for label in labels], gap, NAME_EDGE, spacing.width - NAME_EDGE)
    return [PlacedLabel(label, x) for label, x in zip(labels, places, strict=True)]


def _fit(labels: Sequence[Label], spacing: Spacing, gap: float) -> bool:
    """Do the names of a hand stand where their strokes are, or nearly so?"""
    if width_of_all(labels, gap) > spacing.width:
        return False
    placed = iter(settled(labels, spacing, gap))
    for together in parts(labels):
        drifts = [next(placed).x - spacing.x(label.cut_beat) - label.shift for label in together]
        if abs(sum(drifts)) > NAME_FAR * len(together):
            return False
    return True


def within_edges(labels: Sequence[Label], spacing: Spacing) -> list[PlacedLabel]:
    """Names of drums under their strokes, as far as the edges of the cut let them be."""
    found = []
    for label in labels:
        half = label.width / 2
        x = max(DRUM_EDGE + half, min(spacing.x(label.cut_beat) + label.shift, spacing.width - DRUM_EDGE - half))
        found.append(PlacedLabel(label, x))
    return found


def staggered(cuts: Sequence[Sequence[PlacedLabel]]) -> list[list[PlacedLabel]]:
    """The names of drums under one hand, cut by cut, on lines where they are clear of each other.

    A drum keeps its line throughout. Where that would take more than two lines, or a drum is named twice so close
    together that its names meet, each name stands on the first line that has room for it.
    """
    meeting = _meeting(cuts)
    lines = _line_of_each_drum(meeting)
    meets_itself = any(drum in others for drum, others in meeting.items())
    if meets_itself or max(lines.values(), default=0) >= _MOST_LINES:
        return [_first_lines(labels) for labels in cuts]
    return [[placed._replace(line=lines[placed.label.text]) for placed in labels] for labels in cuts]


def _meeting(cuts: Sequence[Sequence[PlacedLabel]]) -> dict[str, set[str]]:
    """For each drum, in the order of their names, those whose names come too near to one of its names."""
    meeting: dict[str, set[str]] = {placed.label.text: set() for labels in cuts for placed in labels}
    for labels in cuts:
        for one, other in combinations(labels, 2):
            if abs(one.x - other.x) < (one.label.width + other.label.width) / 2 + DRUM_GAP:
                meeting[one.label.text].add(other.label.text)
                meeting[other.label.text].add(one.label.text)
    return meeting


def _line_of_each_drum(meeting: Mapping[str, set[str]]) -> dict[str, int]:
    """For each drum the first line on which it meets no other."""
    lines: dict[str, int] = {}
    for drum, others in meeting.items():
        taken = {lines.get(other) for other in others}
        lines[drum] = next(line for line in count() if line not in taken)
    return lines


def _first_lines(labels: Sequence[PlacedLabel]) -> list[PlacedLabel]:
    ends: list[float] = []
    found = []
    for placed in labels:
        half = placed.label.width / 2
        line = next((line for line, end in enumerate(ends) if end + DRUM_GAP <= placed.x - half), len(ends))
        ends[line : line + 1] = [placed.x + half]
        found.append(placed._replace(line=line))
    return found
