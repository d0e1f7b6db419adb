"""What is written of strokes: notes, rests and held slots, in groups, in a lane, and when each of them begins."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from enum import Enum, StrEnum
from fractions import Fraction
from functools import lru_cache
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


@dataclass(frozen=True, slots=True)
class Group:
    """One group of slots that share ``beats`` beats evenly."""

    slots: tuple[Slot, ...]
    beats: int = 1

    @property
    def slot_length(self) -> Fraction:
        """Length of one slot in beats."""
        return Fraction(self.beats, len(self.slots))


@dataclass(frozen=True, slots=True)
class Lane:
    """The groups of the hands, or of the feet, in order."""

    groups: tuple[Group, ...]

    @property
    def beats(self) -> int:
        return sum(group.beats for group in self.groups)

    @property
    def slots(self) -> tuple[Slot, ...]:
        return tuple(slot for group in self.groups for slot in group.slots)

    def times(self, count: int) -> Lane:
        """The lane written ``count`` times in a row."""
        return Lane(self.groups * count)


class Event(NamedTuple):
    """A note or rest of one lane in time.

    ``at`` and ``length`` are beats (held slots counted in). ``group`` and ``slot`` number the
    written group in the lane and the slot in that group, both from 0.
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
    found: list[Event] = []
    start = 0
    for number, group in enumerate(lane.groups):
        bounds = _slot_bounds(start, group.beats, len(group.slots))
        length = group.slot_length
        for index, slot in enumerate(group.slots):
            if slot is Gap.HOLD and found:
                last = found[-1]
                found[-1] = Event(last.at, bounds[index + 1] - last.at, last.what, last.group, last.slot)
            else:
                what = slot if isinstance(slot, Note) else None
                found.append(Event(bounds[index], length, what, number, index))
        start += group.beats
    return tuple(found)


@lru_cache(maxsize=4096)
def _slot_bounds(start: int, beats: int, slots: int) -> tuple[Fraction, ...]:
    """Where each slot of a group begins, and where the last one ends; patterns share a few grids."""
    return tuple(Fraction(start * slots + index * beats, slots) for index in range(slots + 1))
