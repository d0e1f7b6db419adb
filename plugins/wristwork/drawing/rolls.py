"""Rolls: doubles that run into a single stroke, written as one note with three slashes and tied to that stroke.

What a reader sees is the roll's whole value and its number of strokes; flags count as slashes, so that it always
makes thirty-seconds.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

from wristwork.pattern.model import Event, Level, Note, TimeSignature
from wristwork.pattern.values import GroupValue

SLASHES = 3  # flags and slashes together
_DOUBLE = Fraction(1, 16)  # what a double lasts, in whole notes
_FEWEST_DOUBLES = 2


class Roll(NamedTuple):
    """Doubles from event ``first`` to event ``last``, released by the event after it; ``number`` counts the strokes."""

    first: int
    last: int
    number: int


def read_rolls(lane_events: Sequence[Event], groups: Sequence[GroupValue], time: TimeSignature) -> dict[int, Roll]:
    """The rolls of a lane by their first event."""
    found: dict[int, Roll] = {}
    if not any(event.what is not None and event.what.strokes == 2 for event in lane_events):
        return found
    length = _DOUBLE / time.beat
    index, free = 0, 0  # strokes before ``free`` belong to the roll before
    while index < len(lane_events):
        last = _last_double(lane_events, groups, index, length)
        if last - index + 1 >= _FEWEST_DOUBLES and _is_release(lane_events, last):
            before = index > free and _leads_on(lane_events[index - 1], lane_events[index], length)
            free = _last_single(lane_events, last + 1, length) + 1
            found[index] = Roll(index, last, before + 2 * (last - index + 1) + free - last - 1)
            index = last + 1
        else:
            index = max(last, index) + 1
    return found


def _last_double(lane_events: Sequence[Event], groups: Sequence[GroupValue], first: int, length: Fraction) -> int:
    """Where the doubles that begin here end; before ``first`` where none begins."""
    last = first - 1
    for index in range(first, len(lane_events)):
        event = lane_events[index]
        note = event.what
        if note is None or note.strokes != 2 or len(note.sides) != 1 or event.length != length:
            break
        if groups[event.group].ratio or note.level is Level.GHOST:
            break
        if index > first and (note.level is not Level.TAP or note.graces or not _changes_hand(lane_events, index)):
            break
        last = index
    return last


def _changes_hand(lane_events: Sequence[Event], index: int) -> bool:
    before, after = lane_events[index - 1].what, lane_events[index].what
    return before is not None and after is not None and before.sides != after.sides


def _is_release(lane_events: Sequence[Event], last: int) -> bool:
    """Does a single stroke of the other hand follow on the doubles?"""
    if last + 1 >= len(lane_events):
        return False
    note = lane_events[last + 1].what
    return _is_single(note) and _changes_hand(lane_events, last + 1)


def _is_single(note: Note | None) -> bool:
    if note is None or note.strokes > 1 or note.buzz or note.graces:
        return False
    return len(note.sides) == 1 and note.level is not Level.GHOST


def _leads_on(event: Event, after: Event, length: Fraction) -> bool:
    """Is this an accented single stroke, as long as a double, with which the roll begins?"""
    note = event.what
    if note is None or not _is_single(note) or note.level is not Level.ACCENT or event.length != length:
        return False
    return after.what is not None and note.sides != after.what.sides


def _last_single(lane_events: Sequence[Event], release: int, length: Fraction) -> int:
    """The last of the accents that end the roll: the release, and those that follow on it as fast as the doubles."""
    last = release
    while last + 1 < len(lane_events) and lane_events[last].length == length:
        follower = lane_events[last + 1].what
        if follower is None or not _is_single(follower) or follower.level is not Level.ACCENT:
            break
        if not _changes_hand(lane_events, last + 1) or _leads_to_doubles(lane_events, last + 1):
            break
        last += 1
    return last


def _leads_to_doubles(lane_events: Sequence[Event], index: int) -> bool:
    """Does a double come straight after? Then this stroke begins what follows."""
    after = lane_events[index + 1].what if index + 1 < len(lane_events) else None
    return after is not None and after.strokes > 1
