"""Slots → note values: what is written on the staff for a group of slots.

Values are exact fractions of a whole note (a quarter is 1/4, a breve 2). The rule is the trade's:
a group is written in the note value of which its length holds as many as it has slots, or the
nearest fewer, with a tuplet number where it holds fewer.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from itertools import pairwise
from math import gcd

from wristwork.pattern.model import Event, Group, Lane, TimeSignature, events

BREVE = Fraction(2)
SHORTEST = Fraction(1, 128)
PLAIN_VALUES = (BREVE, *(Fraction(1, 2**halvings) for halvings in range(8)))


@dataclass(frozen=True, slots=True)
class Ratio:
    """``actual`` notes in the time of ``normal``: a tuplet."""

    actual: int
    normal: int


@dataclass(frozen=True, slots=True)
class GroupValue:
    """How one group is written.

    ``start`` and ``beats`` are in beats; ``slots`` is the number of slots of the coarsest even grid
    that all its notes and rests fall on; ``base`` is the value of one such slot.
    """

    start: Fraction
    beats: int
    slots: int
    base: Fraction
    ratio: Ratio | None

    @property
    def end(self) -> Fraction:
        """Where the group ends, in beats."""
        return self.start + self.beats

    @property
    def slot_length(self) -> Fraction:
        """Length of one slot in beats."""
        return Fraction(self.beats, self.slots)

    @property
    def divides_in_three(self) -> bool:
        """Is the group's whole length, or each of its beats, dotted?"""
        return (self.base * self.slots / self.beats).numerator == 3


@dataclass(frozen=True, slots=True)
class Piece:
    """One written note or rest: from ``at``, ``length`` beats long, written as ``value``."""

    at: Fraction
    length: Fraction
    value: Fraction
    group: int

    @property
    def end(self) -> Fraction:
        """Where the note or rest ends, in beats."""
        return self.at + self.length

    @property
    def dotted(self) -> bool:
        """Does the value take a dot?"""
        return self.value.numerator == 3

    @property
    def undotted(self) -> Fraction:
        """The value of its note head, flags and beams, without the dot."""
        return self.value * 2 / 3 if self.dotted else self.value


@cache
def group_value(slots: int, length: Fraction, beats: int) -> tuple[Fraction, Ratio | None]:
    """The value of one slot, and the tuplet it is in, for a group ``length`` whole notes long."""
    if slots == beats or slots == 1:
        return length / slots, None
    held = {length / value: value for value in PLAIN_VALUES if (length / value).denominator == 1}
    if slots < min(held) and length.numerator == 9:
        # Three dotted beats: only dotted values divide them into fewer than nine.
        dotted = length / 3
        held = {Fraction(3): dotted, Fraction(6): dotted / 2}
    fitting = [count for count in held if count <= slots]
    count = max(fitting) if fitting else min(held)
    return held[count], None if count == slots else Ratio(slots, int(count))


def is_one_value(length: Fraction) -> bool:
    """Is this length (whole notes) a plain note value or one with a single dot, a breve at most?"""
    if length == BREVE:
        return True
    above, below = length.as_integer_ratio()
    shortest = SHORTEST.denominator
    plain = above == 1 and below <= shortest
    dotted = above == 3 and 2 <= below <= 2 * shortest
    return (plain or dotted) and below & (below - 1) == 0


def group_values(lane: Lane, time: TimeSignature, lane_events: Sequence[Event] | None = None) -> tuple[GroupValue, ...]:
    """How each group of a lane is written, reduced to the coarsest even grid that holds what is in it."""
    edges = _edges(events(lane) if lane_events is None else lane_events)
    found: list[GroupValue] = []
    start = Fraction(0)
    for group in lane.groups:
        found.append(_group_value(group, start, time, edges))
        start += group.beats
    return tuple(found)


def silences(lane_events: Sequence[Event]) -> tuple[tuple[Fraction, Fraction], ...]:
    """Start and end of each run of rests, in beats."""
    runs: list[tuple[Fraction, Fraction]] = []
    after_rest = False
    for event in lane_events:
        is_rest = event.what is None
        if is_rest and after_rest:
            runs[-1] = (runs[-1][0], event.end)
        elif is_rest:
            runs.append((event.at, event.end))
        after_rest = is_rest
    return tuple(runs)


def _edges(lane_events: Sequence[Event]) -> frozenset[Fraction]:
    """Where a note or a run of rests begins."""
    notes = {event.at for event in lane_events if event.what is not None}
    return frozenset(notes | {start for start, _ in silences(lane_events)})


def _group_value(group: Group, start: Fraction, time: TimeSignature, edges: frozenset[Fraction]) -> GroupValue:
    slots = len(group.slots)
    step = slots
    for index in range(1, slots):
        if start + index * group.slot_length in edges:
            step = gcd(step, index)
    length = time.beat * group.beats
    reduced = slots // step
    base, ratio = group_value(reduced, length, group.beats)
    if not is_one_value(base):
        reduced, base = group.beats, time.beat
    return GroupValue(start, group.beats, reduced, base, ratio)


def note_pieces(event: Event, groups: Sequence[GroupValue], time: TimeSignature) -> tuple[Piece, ...]:
    """The written notes that hold one event, to be tied to each other: one wherever one value can hold it."""
    last = event.group
    while groups[last].end < event.end:
        last += 1
    if last == event.group:
        return _pieces_in_group(groups[last], last, event.at, event.end, whole_first=True)
    points = [event.at, *(group.start for group in groups[event.group + 1 : last + 1]), event.end]
    best: list[tuple[int, Fraction, tuple[Piece, ...]]] = [(0, Fraction(0), ())]
    for end in range(1, len(points)):
        choices = []
        for start in range(end):
            numbers = range(event.group + start, event.group + end)
            span = _span_pieces(points[start], points[end], numbers, groups, time)
            if span:
                count, longest, before = best[start]
                largest = min(longest, *(-piece.value for piece in span))
                choices.append((count + len(span), largest, before + span))
        best.append(min(choices, key=lambda choice: choice[:2]))
    return best[-1][2]


def _span_pieces(
    start: Fraction, end: Fraction, numbers: range, groups: Sequence[GroupValue], time: TimeSignature
) -> tuple[Piece, ...]:
    """The pieces for the part of a note that lies in these groups; none where one value cannot hold it."""
    first = numbers[0]
    if len(numbers) == 1:
        return _pieces_in_group(groups[first], first, start, end, whole_first=True)
    bar_ends = (start // time.beats + 1) * time.beats
    value = (end - start) * time.beat
    if end > bar_ends or any(groups[number].ratio for number in numbers) or not is_one_value(value):
        return ()
    return (Piece(start, end - start, value, first),)


def rest_pieces(start: Fraction, end: Fraction, groups: Sequence[GroupValue]) -> Iterator[Piece]:
    """The written rests for one of the :func:`silences`, group by group: the fewest that hide no middle of a beat."""
    for number, group in enumerate(groups):
        first, last = max(start, group.start), min(end, group.end)
        if first < last:
            yield from _pieces_in_group(group, number, first, last, whole_first=False)


def _pieces_in_group(
    group: GroupValue, number: int, start: Fraction, end: Fraction, whole_first: bool
) -> tuple[Piece, ...]:
    """Fewest values for a span of one group; ``whole_first`` lets a single value hide the middle of a beat."""
    first = int((start - group.start) / group.slot_length)
    last = int((end - group.start) / group.slot_length)
    if whole_first and is_one_value(group.base * (last - first)):
        return (Piece(start, end - start, group.base * (last - first), number),)
    bounds = _fewest(first, last, group)
    return tuple(
        Piece(group.start + a * group.slot_length, (b - a) * group.slot_length, group.base * (b - a), number)
        for a, b in pairwise(bounds)
    )


def _fewest(first: int, last: int, group: GroupValue) -> tuple[int, ...]:
    """Bounds (in slots) that cut a span into the fewest single values; evenly placed ones where there is a choice."""
    joints = _joints(group)
    best: dict[int, tuple[int, int, tuple[int, ...]]] = {first: (0, 0, (first,))}
    for end in range(first + 1, last + 1):
        choices = []
        for start, (count, uneven, bounds) in best.items():
            size = end - start
            if is_one_value(group.base * size) and not _hides(start, end, joints):
                choices.append((count + 1, uneven + (start % size != 0), (*bounds, end)))
        best[end] = min(choices)
    return best[last][2]


def _joints(group: GroupValue) -> list[list[int]]:
    """Sets of slots, each with its two ends, that a value may only pass from one of the set to another."""
    whole, beats = group.slots, group.beats
    if group.ratio or beats == 1 or whole <= beats or whole % beats:
        return [_inner_joints(0, whole, group.divides_in_three and not group.ratio)]
    each = whole // beats
    by_beat = [_inner_joints(start, start + each, group.divides_in_three) for start in range(0, whole, each)]
    return [list(range(0, whole + 1, each)), *by_beat]


def _inner_joints(start: int, end: int, in_three: bool) -> list[int]:
    size = end - start
    parts = 3 if in_three and size % 3 == 0 else 2 if size % 2 == 0 else 3 if size % 3 == 0 else 1
    return list(range(start, end + 1, size // parts))


def _hides(start: int, end: int, joints: list[list[int]]) -> bool:
    for joint in joints:
        passes = any(start < point < end for point in joint[1:-1])
        starts_well = start <= joint[0] or start in joint
        ends_well = end >= joint[-1] or end in joint
        if passes and not (starts_well and ends_well):
            return True
    return False


def holds_one_value(event: Event, lane: Lane, time: TimeSignature) -> bool:
    """Can one note value, plain or with one dot, hold this event, its held slots included?

    A value never crosses a bar line, and one that leaves its group may not touch a tuplet. To ask
    for every slash of a lane at once, use :func:`unheld_slashes`.
    """
    return len(note_pieces(event, group_values(lane, time), time)) == 1


def unheld_slashes(lane: Lane, time: TimeSignature) -> tuple[Event, ...]:
    """The notes of a lane that carry a slash but are longer than one note value can hold."""
    lane_events = events(lane)
    groups = group_values(lane, time, lane_events)
    slashed = (event for event in lane_events if event.what is not None and event.what.strokes > 1)
    return tuple(event for event in slashed if len(note_pieces(event, groups, time)) > 1)
