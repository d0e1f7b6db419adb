"""How a pattern is counted aloud: the number of every beat, and a word for what lies between."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import lru_cache
from math import gcd
from typing import NamedTuple

from wristwork.drawing.counting_words import COUNTINGS, WORDLESS, Words, counting_name
from wristwork.pattern.model import Group, Lane, Note, Pattern, TimeSignature

_FINEST_OF_FEET = 6
_CLOSE_TO_A_NUMBER = Fraction(1, 8)


class Count(NamedTuple):
    """A word that is said ``at`` beats from the start; ``on_beat`` where it is the number of a beat (of a pulse)."""

    at: Fraction
    word: str
    on_beat: bool


def counts(pattern: Pattern) -> Iterator[Count]:
    """All that is counted in one pass of a pattern, see :func:`group_counts`."""
    for start, counted in group_counts(pattern):
        for at, word, on_beat in counted:
            yield Count(start + at, word, on_beat)


def group_counts(pattern: Pattern) -> Iterator[tuple[int, tuple[Count, ...]]]:
    """By group, the beat it begins on and what is counted in it, from there.

    What is counted are the slots of the hands, or those of the feet in a beat where they are finer (and where there
    are no hands).
    """
    lane = pattern.leading_lane
    finer = _fine_beats(pattern.feet) if pattern.hands and pattern.feet else {}
    start = 0
    for group in lane.groups:
        if not group.is_even:
            yield start, _counted_parts(group, start % pattern.time.beats, pattern.time)
            start += group.beats
            continue
        slots = group.stretches[0].slots
        if group.beats == 1 and finer.get(start, 0) % slots == 0:
            slots = max(slots, finer.get(start, 0))
        yield start, _counted(slots, group.beats, start % pattern.time.beats, pattern.time)
        start += group.beats


def slot_words(slots: int, first: int, time: TimeSignature) -> tuple[str, ...]:
    """What is said to each slot of beat ``first`` (from 0) of a bar; nothing where they have no words but numbers."""
    table = _words(time)
    words = table.get(slots)
    return () if words is None or WORDLESS in words else (str(first + 1), *words)


def group_words(group: Group, first: int, time: TimeSignature) -> tuple[str, ...]:
    """What is said to each slot of a group on beat ``first`` of a bar; nothing where they have no words but numbers."""
    if not group.parts:
        return slot_words(len(group.slots), first, time) if group.beats == 1 else ()
    counted = {count.at: count.word for count in _counted_parts(group, first, time)}
    return tuple(counted[at].replace(WORDLESS, "then") for at in group.starts)


def _counted_parts(group: Group, first: int, time: TimeSignature) -> tuple[Count, ...]:
    """The counts of a group with brackets: each slot has the word of the count that its own stretch is told in."""
    table = _words(time)
    found = {
        Fraction(beat): Count(Fraction(beat), str(first + beat + 1), first + beat in time.pulse_starts)
        for beat in range(group.beats)
    }
    for at in group.starts:
        stretch = [stretch for stretch in group.stretches if stretch.starts * group.beats <= at][-1]
        begins = stretch.starts * group.beats == at
        to_a_beat = Fraction(len(group.parts), group.beats) if begins else stretch.slots / stretch.share / group.beats
        part = at % 1 * to_a_beat
        words = table.get(int(to_a_beat)) if part.denominator == to_a_beat.denominator == 1 else None
        if at not in found:
            found[at] = Count(at, words[int(part) - 1] if words else WORDLESS, False)
    return tuple(found[at] for at in sorted(found))


def _fine_beats(feet: Lane) -> dict[int, int]:
    """By beat, how many even slots hold all that the feet play in it, where that can be counted."""
    found: dict[int, int] = {}
    start = 0
    for group in feet.groups:
        if group.beats == 1 and group.is_even:
            slots = group.stretches[0].slots
            onsets = [
                int(at * slots) for at, slot in zip(group.starts, group.slots, strict=True) if isinstance(slot, Note)
            ]
            even = slots // gcd(slots, *onsets)
            if even in COUNTINGS[counting_name()].simple and even <= _FINEST_OF_FEET:
                found[start] = even
        start += group.beats
    return found


def _words(time: TimeSignature, counting: str | None = None) -> Words:
    found = COUNTINGS[counting or counting_name()]
    return found.compound if time.compound else found.simple


def _counted(slots: int, beats: int, first: int, time: TimeSignature) -> tuple[Count, ...]:
    """The counts of a group of so many slots that begins on beat ``first`` (from 0) of a bar."""
    return _counted_as(counting_name(), slots, beats, first, time)


@lru_cache(maxsize=1024)
def _counted_as(counting: str, slots: int, beats: int, first: int, time: TimeSignature) -> tuple[Count, ...]:
    table = _words(time, counting)
    parts = slots // gcd(slots, beats)  # that many to a beat is the coarsest count that all slots fall on
    words = table.get(parts) or _numbers(parts, beats)
    found = {
        Fraction(beat): Count(Fraction(beat), str(first + beat + 1), first + beat in time.pulse_starts)
        for beat in range(beats)
    }
    for slot in range(slots):
        at = Fraction(slot * beats, slots)
        part = int(at % 1 * parts)
        if part and not (words[part - 1] == WORDLESS and beats > 1 and _is_close_to_a_number(at)):
            found[at] = Count(at, words[part - 1], False)
    return tuple(found[at] for at in sorted(found))


def _numbers(parts: int, beats: int) -> tuple[str, ...]:
    """What has no words is numbered within its beat; over several beats, whose numbers stand there, it has a dot."""
    return tuple(str(number) for number in range(2, parts + 1)) if beats == 1 else (WORDLESS,) * (parts - 1)


def _is_close_to_a_number(at: Fraction) -> bool:
    past = at % 1
    return min(past, 1 - past) < _CLOSE_TO_A_NUMBER
