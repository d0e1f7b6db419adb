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

from wristwork.pattern.model import Event, Lane, TimeSignature, events

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
    that all its notes and rests fall on; ``base`` is the value of one such slot, ``slot_length`` its
    length in beats.
    """

    start: int
    beats: int
    slots: int
    slot_length: Fraction
    base: Fraction
    ratio: Ratio | None

    @property
    def end(self) -> int:
        """Where the group ends, in beats."""
        return self.start + self.beats

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
    def halvings(self) -> int:
        """How often a whole note is halved to the value without its dot: 2 for a quarter, -1 for a breve."""
        if self.value == BREVE:
            return -1
        return self.value.denominator.bit_length() - (2 if self.dotted else 1)


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
    steps = [len(group.slots) for group in lane.groups]
    for event in _edges(events(lane) if lane_events is None else lane_events):
        steps[event.group] = gcd(steps[event.group], event.slot)
    found: list[GroupValue] = []
    start = 0
    for group, step in zip(lane.groups, steps, strict=True):
        found.append(GroupValue(start, group.beats, *_grid(len(group.slots) // step, group.beats, time)))
        start += group.beats
    return tuple(found)


def _edges(lane_events: Sequence[Event]) -> Iterator[Event]:
    """What begins a note or a run of rests."""
    after_rest = False
    for event in lane_events:
        is_rest = event.what is None
        if not (is_rest and after_rest):
            yield event
        after_rest = is_rest


@cache
def _grid(slots: int, beats: int, time: TimeSignature) -> tuple[int, Fraction, Fraction, Ratio | None]:
    """Slots, their length in beats, their value and tuplet for so many even slots in so many beats."""
    base, ratio = group_value(slots, time.beat * beats, beats)
    if not is_one_value(base):
        slots, base = beats, time.beat
    return slots, Fraction(beats, slots), base, ratio


@dataclass(frozen=True, slots=True)
class Silence:
    """A run of rests, from ``start`` to ``end`` in beats; ``group`` is the one it begins in."""

    start: Fraction
    end: Fraction
    group: int


def silences(lane_events: Sequence[Event]) -> tuple[Silence, ...]:
    """The runs of rests of a lane."""
    runs: list[Silence] = []
    after_rest = False
    for event in lane_events:
        is_rest = event.what is None
        if is_rest and after_rest:
            runs[-1] = Silence(runs[-1].start, event.end, runs[-1].group)
        elif is_rest:
            runs.append(Silence(event.at, event.end, event.group))
        after_rest = is_rest
    return tuple(runs)


def note_pieces(event: Event, groups: Sequence[GroupValue], time: TimeSignature) -> tuple[Piece, ...]:
    """The written notes that hold one event, to be tied to each other: one wherever one value can hold it."""
    last = event.group
    if event.length == groups[last].slot_length:
        return (Piece(event.at, event.length, groups[last].base, last),)
    while groups[last].end < event.end:
        last += 1
    if last == event.group:
        return _pieces_in_group(groups[last], last, event.at, event.end, whole_first=True)
    points = [event.at, *(Fraction(group.start) for group in groups[event.group + 1 : last + 1]), event.end]
    best: list[tuple[int, Fraction, tuple[Piece, ...]]] = [(0, Fraction(0), ())]
    for end in range(1, len(points)):
        choices = []
        for start in range(end - 1, -1, -1):
            if points[end] > (points[start] // time.beats + 1) * time.beats:
                break  # from here on a bar line lies between
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
    value = (end - start) * time.beat
    if any(groups[number].ratio for number in numbers) or not is_one_value(value):
        return ()
    return (Piece(start, end - start, value, first),)


def rest_pieces(silence: Silence, groups: Sequence[GroupValue]) -> Iterator[Piece]:
    """The written rests for a silence, group by group: the fewest that hide no middle of a beat."""
    for number in range(silence.group, len(groups)):
        group = groups[number]
        if group.start >= silence.end:
            return
        first, last = max(silence.start, Fraction(group.start)), min(silence.end, Fraction(group.end))
        yield from _pieces_in_group(group, number, first, last, whole_first=False)


def _pieces_in_group(
    group: GroupValue, number: int, start: Fraction, end: Fraction, whole_first: bool
) -> tuple[Piece, ...]:
    """Fewest values for a span of one group; ``whole_first`` lets a single value hide the middle of a beat."""
    length = end - start
    size = int(length / group.slot_length)
    value = group.base if size == 1 else group.base * size
    if (size == 1 or whole_first) and is_one_value(value):
        return (Piece(start, length, value, number),)
    first = int((start - group.start) / group.slot_length)
    bounds = _fewest(first, first + size, group)
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


def unheld_slashes(lane: Lane, time: TimeSignature) -> tuple[Event, ...]:
    """The notes of a lane that carry a slash but are longer than one note value, plain or dotted, can hold.

    A value never crosses a bar line, and one that leaves its group may not touch a tuplet.
    """
    lane_events = events(lane)
    slashed = [event for event in lane_events if event.what is not None and event.what.strokes > 1]
    if not slashed:
        return ()
    groups = group_values(lane, time, lane_events)
    return tuple(event for event in slashed if len(note_pieces(event, groups, time)) > 1)
