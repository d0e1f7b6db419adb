"""What is written of strokes: notes, rests and held slots, in groups, in a lane, and when each of them begins."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from enum import Enum, StrEnum
from fractions import Fraction
from functools import cache, cached_property, lru_cache
from itertools import pairwise
from math import ceil
from typing import NamedTuple


class Side(StrEnum):
    """Which hand, or which foot."""

    RIGHT = "right"
    LEFT = "left"

    @property
    def other(self) -> Side:
        return Side.LEFT if self is Side.RIGHT else Side.RIGHT

    @property
    def letter(self) -> str:
        return "R" if self is Side.RIGHT else "L"


BOTH = (Side.RIGHT, Side.LEFT)


class Level(StrEnum):
    """How loud a stroke is, softest first."""

    GHOST = "ghost"
    TAP = "tap"
    ACCENT = "accent"


@dataclass(frozen=True, slots=True)
class Place:
    """A place in a page: line and column, both from 1, counted in characters of the file."""

    line: int
    column: int


@dataclass(frozen=True, slots=True)
class Note:
    """One written slot that sounds.

    ``sides`` holds one hand (or foot), or both for a ``B``. ``strokes`` is how many strokes share
    the note's value (1, or 2 to 4 for a slash). ``graces`` are the hands of the grace notes in the
    order played. ``strong`` is an accent louder than others. Where both hands play and not alike,
    ``left`` is what the left one plays and all else the right one's; :func:`together` makes such a note.
    """

    sides: tuple[Side, ...]
    level: Level = Level.TAP
    graces: tuple[Side, ...] = ()
    strokes: int = 1
    buzz: bool = False
    strong: bool = False
    left: Note | None = None
    typed_at: Place | None = field(default=None, compare=False, repr=False)

    @property
    def is_both(self) -> bool:
        return len(self.sides) == 2

    @property
    def hands(self) -> tuple[Note, ...]:
        """What each hand (or foot) plays by itself, right before left; grace notes stay with a single one."""
        if not self.is_both:
            return (self,)
        return replace(self, sides=(Side.RIGHT,), left=None), self.left or replace(self, sides=(Side.LEFT,))

    def of(self, side: Side) -> Note:
        """What one of the sides plays by itself."""
        return next(note for note in self.hands if side in note.sides)

    def each(self, change: Callable[[Note], Note]) -> Note:
        """The note with a change made to what each of its hands plays by itself."""
        return together(*(change(note) for note in self.hands)) if self.is_both else change(self)

    @property
    def has_buzz(self) -> bool:
        """Does any of its hands buzz?"""
        return self.buzz or (self.left is not None and self.left.buzz)

    @property
    def levels(self) -> frozenset[Level]:
        """The levels of its hands: one, or two where they differ."""
        return frozenset((self.level,)) if self.left is None else frozenset((self.level, self.left.level))


def together(right: Note, left: Note) -> Note:
    """One note for both hands out of what each plays; alike means a plain ``B``. They share a number of strokes."""
    alike = replace(right, sides=(Side.LEFT,)) == left
    return replace(right, sides=BOTH, left=None if alike else left)


class Gap(Enum):
    """The two slots that start no stroke."""

    REST = "."
    HOLD = "-"


Slot = Note | Gap


class Stretch(NamedTuple):
    """A stretch of a group whose slots are even: where it starts and how much it takes of the group's length."""

    starts: Fraction
    share: Fraction
    slots: int


@dataclass(frozen=True, slots=True)
class Group:
    """One group of slots that share ``beats`` beats: evenly, or in equal parts.

    ``parts`` are how many slots stand in each of its equal parts, one or (in brackets) several; it is empty where
    no slots stand in brackets.
    """

    slots: tuple[Slot, ...]
    beats: int = 1
    parts: tuple[int, ...] = ()

    @property
    def stretches(self) -> tuple[Stretch, ...]:
        """The group in as few stretches as it can be written in, each on an even grid."""
        return _stretches(self.parts) if self.parts else _whole(len(self.slots))

    @property
    def is_even(self) -> bool:
        """Do all its slots fall on one grid that brackets only halve?"""
        return len(self.stretches) == 1

    @property
    def starts(self) -> tuple[Fraction, ...]:
        """When its slots begin, in beats from its start."""
        return _slot_bounds(0, self.beats, self.parts or len(self.slots))[:-1]

    @property
    def finest(self) -> int:
        """How many slots it would have if all were as short as the shortest."""
        return max(ceil(stretch.slots / stretch.share) for stretch in self.stretches)


@dataclass(frozen=True)
class Lane:
    """The groups of the hands, or of the feet, in order."""

    groups: tuple[Group, ...]

    @cached_property
    def beats(self) -> int:
        return sum(group.beats for group in self.groups)

    @property
    def slots(self) -> tuple[Slot, ...]:
        return tuple(slot for group in self.groups for slot in group.slots)

    @cached_property
    def events(self) -> tuple[Event, ...]:
        """Its notes and rests in time order; whatever is made of a pattern asks for them."""
        return tuple(_events(self))

    def times(self, count: int) -> Lane:
        """The lane written ``count`` times in a row."""
        return Lane(self.groups * count)


class Event(NamedTuple):
    """A note or rest of one lane in time.

    ``at`` and ``length`` are beats (held slots counted in). ``group`` and ``slot`` number the
    stretch in the lane (a written group is one, where its slots are even) and the slot in that stretch, both from 0.
    """

    at: Fraction
    length: Fraction
    what: Note | None
    group: int
    slot: int

    @property
    def end(self) -> Fraction:
        return self.at + self.length


def events(lane: Lane) -> tuple[Event, ...]:
    """The notes and rests of a lane in time order; a held slot lengthens what stands before it."""
    return lane.events


def _events(lane: Lane) -> list[Event]:
    found: list[Event] = []
    start = number = 0
    for group in lane.groups:
        bounds = _slot_bounds(start, group.beats, group.parts or len(group.slots))
        lengths = _slot_lengths(group.beats, group.parts or len(group.slots))
        places = _places(group.parts) if group.parts else None
        for index, slot in enumerate(group.slots):
            if slot is Gap.HOLD and found:
                last = found[-1]
                found[-1] = Event(last.at, bounds[index + 1] - last.at, last.what, last.group, last.slot)
            else:
                what = slot if isinstance(slot, Note) else None
                stretch, place = places[index] if places else (0, index)
                found.append(Event(bounds[index], lengths[index], what, number + stretch, place))
        start += group.beats
        number += len(group.stretches) if places else 1
    return found


@lru_cache(maxsize=4096)
def _slot_bounds(start: int, beats: int, slots: int | tuple[int, ...]) -> tuple[Fraction, ...]:
    """Where each slot of a group begins, and where the last one ends; patterns share a few grids.

    ``slots`` are a number of even ones, or the parts of a group.
    """
    if isinstance(slots, int):
        return tuple(Fraction(start * slots + index * beats, slots) for index in range(slots + 1))
    each = Fraction(beats, len(slots))
    inside = (number + Fraction(index, count) for number, count in enumerate(slots) for index in range(count))
    return (*(start + each * at for at in inside), Fraction(start + beats))


@lru_cache(maxsize=4096)
def _slot_lengths(beats: int, slots: int | tuple[int, ...]) -> tuple[Fraction, ...]:
    """How long each slot of a group is."""
    return tuple(after - before for before, after in pairwise(_slot_bounds(0, beats, slots)))


@cache
def _whole(slots: int) -> tuple[Stretch, ...]:
    return (Stretch(Fraction(0), Fraction(1), slots),)


@cache
def _stretches(
    parts: tuple[int, ...], starts: Fraction = Fraction(0), share: Fraction = Fraction(1)
) -> tuple[Stretch, ...]:
    """Parts that a halving makes alike are one stretch; else they are told apart by thirds, or by halves.

    Of three thirds the first two may be one, as a quarter rest stands for two eighths of a dotted beat.
    """
    if len(parts) == 1 or _are_halved(parts):
        return (Stretch(starts, share, len(parts) * max(parts)),)
    count = next((count for count in (3, 2) if len(parts) % count == 0), len(parts))
    size, each = len(parts) // count, share / count
    chunks = [(parts[size * number : size * (number + 1)], each) for number in range(count)]
    if count == 3 and _are_halved(parts[: 2 * size]):
        chunks = [(parts[: 2 * size], 2 * each), chunks[2]]
    found: list[Stretch] = []
    for chunk, length in chunks:
        found += _stretches(chunk, starts, length)
        starts += length
    return tuple(found)


def _are_halved(parts: tuple[int, ...]) -> bool:
    return all(count & (count - 1) == 0 for count in parts)


@cache
def _places(parts: tuple[int, ...]) -> tuple[tuple[int, int], ...]:
    """For each slot of a group in parts the stretch it stands in, and its place on the grid of that stretch."""
    stretches = _stretches(parts)
    found = []
    for at in _slot_bounds(0, 1, parts)[:-1]:
        number = max(number for number, stretch in enumerate(stretches) if stretch.starts <= at)
        stretch = stretches[number]
        found.append((number, int((at - stretch.starts) / stretch.share * stretch.slots)))
    return tuple(found)
