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
from typing import NamedTuple

from wristwork.pattern.model import Event, Group, Lane, TimeSignature, events

BREVE = Fraction(2)
SHORTEST = Fraction(1, 128)
Beats = int | Fraction
"""Beats, whole ones as whole numbers."""
_MOST_HALVED = 12
PLAIN_VALUES = (BREVE, *(Fraction(1, 2**halvings) for halvings in range(8)))


@dataclass(frozen=True, slots=True)
class Ratio:
    """``actual`` notes in the time of ``normal``: a tuplet."""

    actual: int
    normal: int


@dataclass(frozen=True, slots=True)
class GroupValue:
    """How one group is written.

    ``written`` numbers the written group of the lane; one with brackets may be several of these. ``start`` and
    ``beats`` are in beats; ``slots`` is the number of slots of the coarsest even grid
    that all its notes and rests fall on; ``base`` is the value of one such slot, ``slot_length`` its
    length in beats. ``is_pulse`` says that its beats are counted as one, and beamed so.
    """

    written: int
    start: Beats
    beats: Beats
    slots: int
    slot_length: Fraction
    base: Fraction
    ratio: Ratio | None
    is_pulse: bool = False

    @property
    def end(self) -> Beats:
        """Where the group ends, in beats."""
        return self.start + self.beats

    @property
    def divides_in_three(self) -> bool:
        """Is the group's whole length, or each of its beats, dotted?"""
        return (self.base * self.slots / self.beats).numerator == 3


class Piece(NamedTuple):
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
        return is_dotted(self.value)

    @property
    def halvings(self) -> int:
        """How often a whole note is halved to the value without its dot: 2 for a quarter, -1 for a breve."""
        above, below = self.value.as_integer_ratio()
        if above == 2 and below == 1:
            return -1
        return below.bit_length() - (2 if above == 3 else 1)


@cache
def group_value(slots: int, length: Fraction, beats: Beats) -> tuple[Fraction, Ratio | None]:
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


def takes_brackets(group: Group, time: TimeSignature) -> bool:
    """Can what stands in its brackets be written: the group itself is no tuplet, or only has slots halved?"""
    if group.is_even and len(group.parts) * max(group.parts) <= _MOST_HALVED:
        return True
    base, ratio = group_value(len(group.parts), time.beat * group.beats, group.beats)
    return ratio is None and is_one_value(base)


def is_one_value(length: Fraction) -> bool:
    """Is this length (whole notes) a plain note value or one with a single dot, a breve at most?"""
    if length == BREVE:
        return True
    above, below = length.as_integer_ratio()
    shortest = SHORTEST.denominator
    plain = above == 1 and below <= shortest
    dotted = above == 3 and 2 <= below <= 2 * shortest
    return (plain or dotted) and below & (below - 1) == 0


def is_dotted(value: Fraction) -> bool:
    """Does a value (one with a single dot, or plain) take a dot?"""
    return value.numerator == 3


def group_values(lane: Lane, time: TimeSignature, lane_events: Sequence[Event] | None = None) -> tuple[GroupValue, ...]:
    """How each group of a lane is written, reduced to the coarsest even grid that holds what is in it."""
    steps = [stretch.slots for group in lane.groups for stretch in group.stretches]
    for event in _edges(events(lane) if lane_events is None else lane_events):
        steps[event.group] = gcd(steps[event.group], event.slot)
    found: list[GroupValue] = []
    start = 0
    for written, group in enumerate(lane.groups):
        is_pulse = _is_pulse(start, group.beats, time)
        for stretch in group.stretches:
            begins = start if group.is_even else _plain(start + stretch.starts * group.beats)
            beats = group.beats if group.is_even else _plain(stretch.share * group.beats)
            grid = _grid(stretch.slots // steps[len(found)], beats, time)
            found.append(GroupValue(written, begins, beats, *grid, is_pulse=is_pulse))
        start += group.beats
    return tuple(found)


def _plain(beats: Fraction) -> Beats:
    return int(beats) if beats.denominator == 1 else beats


def _is_pulse(start: int, beats: int, time: TimeSignature) -> bool:
    ends = (start + beats) % time.beats
    inside = range(start % time.beats + 1, start % time.beats + beats)
    return bool(time.pulses) and {start % time.beats, ends} <= time.pulse_starts and not time.pulse_starts & set(inside)


def _edges(lane_events: Sequence[Event]) -> Iterator[Event]:
    """What begins a note or a run of rests."""
    after_rest = False
    for event in lane_events:
        is_rest = event.what is None
        if not (is_rest and after_rest):
            yield event
        after_rest = is_rest


@cache
def _grid(slots: int, beats: Beats, time: TimeSignature) -> tuple[int, Fraction, Fraction, Ratio | None]:
    """Slots, their length in beats, their value and tuplet for so many even slots in so many beats."""
    base, ratio = group_value(slots, time.beat * beats, beats)
    if not is_one_value(base):
        slots, base = int(beats), time.beat
    return slots, Fraction(beats) / slots, base, ratio


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


def rest_pieces(silence: Silence, groups: Sequence[GroupValue]) -> Iterator[Piece]:
    """The written rests for a silence, group by group: the fewest that hide no middle of a beat."""
    for number in range(silence.group, len(groups)):
        group = groups[number]
        if group.start >= silence.end:
            return
        first, last = max(silence.start, Fraction(group.start)), min(silence.end, Fraction(group.end))
        yield from pieces_in_group(group, number, first, last, whole_first=False)


def pieces_in_group(
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


class _Joint(NamedTuple):
    """Slots, with two ends, that a value may only pass from one of them to another; ``from_start`` only from the first.

    A dotted beat is counted in its thirds: the last two of them are never one rest.
    """

    slots: list[int]
    from_start: bool = False


def _joints(group: GroupValue) -> list[_Joint]:
    whole, beats = group.slots, group.beats
    if group.ratio or beats <= 1 or whole <= beats or whole % beats:
        return [_inner_joint(0, whole, group.divides_in_three and not group.ratio)]
    each = int(whole // beats)
    by_beat = [_inner_joint(start, start + each, group.divides_in_three) for start in range(0, whole, each)]
    return [_Joint(list(range(0, whole + 1, each))), *by_beat]


def _inner_joint(start: int, end: int, in_three: bool) -> _Joint:
    size = end - start
    in_three = in_three and size % 3 == 0
    parts = 3 if in_three else 2 if size % 2 == 0 else 3 if size % 3 == 0 else 1
    return _Joint(list(range(start, end + 1, size // parts)), in_three)


def _hides(start: int, end: int, joints: list[_Joint]) -> bool:
    for slots, from_start in joints:
        passes = any(start < point < end for point in slots[1:-1])
        starts_well = start <= slots[0] or (start in slots and not from_start)
        ends_well = end >= slots[-1] or end in slots
        if passes and not (starts_well and ends_well):
            return True
    return False
