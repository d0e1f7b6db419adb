"""Notes → written notes: which values are tied to each other, and which strokes are slashes.

A reader counts by the beats, so a note that begins off the beat is tied where the next beat begins, and one that
passes the middle of a bar is tied there unless it fills the bar from its start. A slash divides a written value
by its own rule; where that gives other strokes than are played, each stroke is written as a note of its own.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil, floor, lcm

from wristwork.pattern.model import Event, Lane, TimeSignature, events
from wristwork.pattern.values import (
    GroupValue,
    Piece,
    group_values,
    is_dotted,
    is_one_value,
    pieces_in_group,
)

_EIGHTH, _QUARTER = Fraction(1, 8), Fraction(1, 4)
_MOST_SLASHES = 3
_WITH_A_MIDDLE = 4  # bars of so many beats, or more


@dataclass(frozen=True, slots=True)
class Slashes:
    """How many slashes go through a stem, and whether a small 3 stands beside them."""

    count: int
    three: bool = False


BARE = Slashes(0)


@dataclass(frozen=True, slots=True)
class WrittenNote:
    """A part of an event as it stands on the staff: values tied to each other, and the slashes through their stems.

    ``first`` numbers the first of the event's strokes that it stands for, of which there are ``strokes``.
    """

    pieces: tuple[Piece, ...]
    slashes: Slashes = BARE
    first: int = 0
    strokes: int = 1


def written_notes(event: Event, groups: Sequence[GroupValue], time: TimeSignature) -> tuple[WrittenNote, ...]:
    """How an event is written: as one note, or with a note for each of its strokes where slashes would mislead."""
    strokes = event.what.strokes if event.what else 1
    if strokes == 1:
        return (WrittenNote(note_pieces(event, groups, time)),)
    value = _one_value(event, groups, time)
    slashes = slashes_for(value, strokes) if value else None
    if value and slashes and (slashes.three or not _hides_a_beat(event, groups, time)):
        whole = Piece(event.at, event.length, value, event.group)
        return (WrittenNote((whole,), slashes, strokes=strokes),)
    length = event.length / strokes
    return tuple(
        WrittenNote(_stroke_pieces(event, event.at + number * length, length, groups, time), first=number)
        for number in range(strokes)
    )


def slashes_for(value: Fraction, strokes: int) -> Slashes | None:
    """The slashes by which a reader plays so many even strokes in a value (in whole notes); None if there are none.

    The first slash through a stem without flags makes eighths; each flag and each further slash halves them.
    Three strokes in a plain value are a triplet: one slash with a small 3.
    """
    shortest = min(_EIGHTH, value / (3 if is_dotted(value) else 2))
    for count in range(1, _MOST_SLASHES + 1):
        if value == strokes * shortest:
            return Slashes(count)
        shortest /= 2
    return Slashes(1, three=True) if strokes == 3 and value <= _QUARTER and not is_dotted(value) else None


def note_pieces(event: Event, groups: Sequence[GroupValue], time: TimeSignature) -> tuple[Piece, ...]:
    """The values that hold one event, to be tied to each other: the fewest that hide no beat."""
    group = groups[event.group]
    if event.length == group.slot_length and (group.beats <= 1 or group.ratio):
        return (Piece(event.at, event.length, group.base, event.group),)
    if event.end <= group.end and (group.beats <= 1 or group.ratio):
        return pieces_in_group(group, event.group, event.at, event.end, whole_first=True)
    points = list(_points(event, groups))
    best: list[tuple[int, Fraction, tuple[Piece, ...]]] = [(0, Fraction(0), ())]
    for end in range(1, len(points)):
        choices = []
        for start in range(end - 1, -1, -1):
            (first, number), last = points[start], points[end][0]
            if last > (first // time.beats + 1) * time.beats:
                break  # from here on a bar line lies between
            span = _span_pieces(first, last, number, points[end - 1][1], groups, time)
            if span:
                count, longest, before = best[start]
                largest = min(longest, *(-piece.value for piece in span))
                choices.append((count + len(span), largest, before + span))
        best.append(min(choices, key=lambda choice: choice[:2]))
    return best[-1][2]


def _points(event: Event, groups: Sequence[GroupValue]) -> Iterator[tuple[Fraction, int]]:
    """Where an event may be cut, its two ends too, each with the group that follows: at beats that no tuplet hides."""
    number = event.group
    yield event.at, number
    while True:
        group = groups[number]
        if not group.ratio:
            for beat in range(floor(group.start) + 1, ceil(group.end)):
                if event.at < beat < event.end:
                    yield Fraction(beat), number
        if group.end >= event.end:
            break
        number += 1
        yield Fraction(group.end), number
    yield event.end, number


def _span_pieces(
    start: Fraction, end: Fraction, first: int, last: int, groups: Sequence[GroupValue], time: TimeSignature
) -> tuple[Piece, ...]:
    """The pieces for a stretch of a note, in the groups ``first`` to ``last``; none where one value may not hold it."""
    if groups[first].ratio or groups[last].ratio:
        return pieces_in_group(groups[first], first, start, end, whole_first=True) if first == last else ()
    value = (end - start) * time.beat
    if is_one_value(value):
        return () if _passes_a_beat(start, end, time) else (Piece(start, end - start, value, first),)
    if first != last or end > start // 1 + 1:
        return ()
    return pieces_in_group(_fine(groups[first], start, end), first, start, end, whole_first=True)


def _passes_a_beat(start: Fraction, end: Fraction, time: TimeSignature) -> bool:
    """Would a single value from ``start`` to ``end`` (within a bar) hide where a beat or the middle of the bar is?"""
    if start.denominator > 1:
        return end > start // 1 + 1
    bar = start // time.beats * time.beats
    if time.pulses:
        inside = range(int(start - bar) + 1, ceil(end - bar))
        return start - bar not in time.pulse_starts and bool(time.pulse_starts & set(inside))
    if time.beats < _WITH_A_MIDDLE or time.beats % 2 or start == bar:
        return False
    return start < bar + time.beats // 2 < end


def _fine(group: GroupValue, *moments: Fraction) -> GroupValue:
    """The same group on a grid so fine that these moments fall on it."""
    parts = lcm(*(((moment - group.start) / group.slot_length).denominator for moment in moments))
    if parts == 1:
        return group
    return replace(
        group, slots=group.slots * parts, slot_length=group.slot_length / parts, base=group.base / parts
    )  # fmt: skip


def _stroke_pieces(
    event: Event, at: Fraction, length: Fraction, groups: Sequence[GroupValue], time: TimeSignature
) -> tuple[Piece, ...]:
    """The values that hold one stroke of an event that is written out."""
    number = event.group
    while groups[number].end <= at:
        number += 1
    group = groups[number]
    if group.ratio:
        return (Piece(at, length, group.base * (length / group.slot_length), number),)
    stroke = Event(at, length, event.what, number, 0)
    return note_pieces(stroke, [*groups[:number], _fine(group, at, min(at + length, Fraction(group.end))),
                                *groups[number + 1 :]], time)  # fmt: skip


def _one_value(event: Event, groups: Sequence[GroupValue], time: TimeSignature) -> Fraction | None:
    """The single note value, plain or dotted, that an event lasts; it never crosses a bar line or leaves a tuplet."""
    group = groups[event.group]
    if event.end <= group.end:
        value = group.base * (event.length / group.slot_length)
        return value if is_one_value(value) else None
    if event.end > (event.at // time.beats + 1) * time.beats:
        return None
    for touched in groups[event.group :]:
        if touched.start >= event.end:
            break
        if touched.ratio:
            return None
    value = event.length * time.beat
    return value if is_one_value(value) else None


def _hides_a_beat(event: Event, groups: Sequence[GroupValue], time: TimeSignature) -> bool:
    return not groups[event.group].ratio and _passes_a_beat(event.at, event.end, time)


@dataclass(frozen=True, slots=True)
class UnheldSlash:
    """A note whose slashes cannot be written: its strokes share what is no single note value, or they are ``three``
    in a plain value that is longer than a quarter, for which there is no sign."""

    event: Event
    three: bool


def unheld_slashes(lane: Lane, time: TimeSignature) -> tuple[UnheldSlash, ...]:
    """The notes of a lane whose slashes cannot be written."""
    lane_events = events(lane)
    slashed = [event for event in lane_events if event.what is not None and event.what.strokes > 1]
    if not slashed:
        return ()
    groups = group_values(lane, time, lane_events)
    found = []
    for event in slashed:
        value = _one_value(event, groups, time)
        if value is None:
            found.append(UnheldSlash(event, three=False))
        elif event.what and event.what.strokes == 3 and not is_dotted(value) and slashes_for(value, 3) is None:
            found.append(UnheldSlash(event, three=True))
    return tuple(found)
