"""Which notes a beam joins, and where its parts run."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from itertools import groupby, pairwise
from typing import NamedTuple

from wristwork.drawing.voices import QUARTER, Chord, Rest, Voice
from wristwork.pattern.values import GroupValue

_MIDDLE = Fraction(1, 2)
_UNBROKEN = 4  # parts of fewer slots are not told apart


class Run(NamedTuple):
    """Notes of one beat under one beam, or a single note with its flags.

    ``groups`` are the values of what it lies in, by their numbers: several where brackets make unlike stretches.
    ``starts`` is when the first of them does, in beats from the start of the cut. ``covers`` is true where
    nothing else is in its group, so that a tuplet needs no bracket.
    """

    chords: tuple[Chord, ...]
    groups: dict[int, GroupValue]
    starts: float
    covers: bool

    @property
    def beamed(self) -> bool:
        """Is there a beam at all?"""
        return len(self.chords) > 1


@dataclass(frozen=True, slots=True)
class BeamPart:
    """A stretch of the beam of one ``level`` (1 is the outermost), between chords of the run by their index.

    A stub has one index twice and ``points`` to the right (1) or left (-1).
    """

    level: int
    first: int
    last: int
    points: int = 0


def runs(voice: Voice) -> list[Run]:
    """The beamed or flagged notes of a voice, by beat; longer notes and their rests part them."""
    found: list[Run] = []
    first = min((group.start for group in voice.groups.values()), default=0)
    for _, same in groupby(voice.groups.items(), key=lambda item: item[1].written):
        groups = dict(same)
        chords = [chord for chord in voice.chords if chord.piece.group in groups]
        rests = [rest for rest in voice.rests if rest.piece.group in groups]
        starts = float(min(group.start for group in groups.values()) - first)
        for together in _together(chords, rests, next(iter(groups.values()))):
            covers = len(groups) == 1 and _covers(together, chords, rests)
            found.append(Run(tuple(together), groups, starts, covers))
    return found


def _together(chords: Sequence[Chord], rests: Sequence[Rest], group: GroupValue) -> list[list[Chord]]:
    found: list[list[Chord]] = []
    walls = [rest.cut_beat for rest in rests if rest.piece.halvings <= QUARTER]
    last: Chord | None = None
    for chord in chords:
        if not chord.flags:
            last = None
            continue
        joins = last is not None and not any(last.cut_beat < wall < chord.cut_beat for wall in walls)
        if joins and last is not None and (group.ratio or group.is_pulse or int(last.cut_beat) == int(chord.cut_beat)):
            found[-1].append(chord)
        else:
            found.append([chord])
        last = chord
    return found


def _covers(together: Sequence[Chord], chords: Sequence[Chord], rests: Sequence[Rest]) -> bool:
    inside = all(together[0].cut_beat < rest.cut_beat < together[-1].cut_beat for rest in rests)
    return len(together) > 1 and len(together) == len(chords) and inside


def beam_parts(run: Run) -> tuple[BeamPart, ...]:
    """The beams of a run, outermost first."""
    if len(run.groups) > 1:
        return _parts(tuple(chord.flags for chord in run.chords), *_in_stretches(run))
    (group,) = run.groups.values()
    slot_length = float(group.slot_length)
    slots = tuple(round((chord.cut_beat - run.starts) / slot_length) for chord in run.chords)
    step = _break_step(group)
    joined = tuple(not step or before // step == after // step for before, after in pairwise(slots))
    return _parts(tuple(chord.flags for chord in run.chords), slots, joined)


def _in_stretches(run: Run) -> tuple[tuple[int, ...], tuple[bool, ...]]:
    """The slots of a run's chords, each in its own stretch, and whether inner beams join each with the next.

    They break at the middle of a beat, where that is the end of a stretch.
    """
    inside = [(chord.piece.at, run.groups[chord.piece.group]) for chord in run.chords]
    slots = tuple(int((at - group.start) / group.slot_length) for at, group in inside)
    joined = tuple(after is before or after.start % 1 != _MIDDLE for (_, before), (_, after) in pairwise(inside))
    return slots, joined


@lru_cache(maxsize=1024)
def _parts(counts: tuple[int, ...], slots: tuple[int, ...], joined: tuple[bool, ...]) -> tuple[BeamPart, ...]:
    """The beams of notes with so many flags on these slots; few beats differ, so most are found again."""
    parts = [BeamPart(1, 0, len(counts) - 1)]
    for level in range(2, max(counts) + 1):
        first = 0
        while first < len(counts):
            last = first
            while last + 1 < len(counts) and counts[first] >= level <= counts[last + 1] and joined[last]:
                last += 1
            if counts[first] >= level:
                points = 0 if last > first else _stub_points(first, slots, joined)
                parts.append(BeamPart(level, first, last, points))
            first = last + 1
    return tuple(parts)


def _break_step(group: GroupValue) -> int:
    """So many slots apart the inner beams break, so that the eye finds the parts of a full beat; 0 for nowhere."""
    if group.ratio or group.slots % group.beats:
        return 0
    step, left = divmod(group.slots // group.beats, 3 if group.divides_in_three else 2)
    return 0 if left or step < _UNBROKEN else int(step)


def _stub_points(index: int, slots: Sequence[int], joined: Sequence[bool]) -> int:
    """A stub points into the beat: to the note with which its note makes up a longer value."""
    if index == len(slots) - 1:
        return -1
    if index == 0 or not joined[index - 1]:
        return 1
    if not joined[index]:
        return -1
    return 1 if slots[index] % 2 == 0 else -1
