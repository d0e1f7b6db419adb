"""The pattern as plain, immutable values.

A :class:`Pattern` is what a tutor's text means once it is read, grown and changed: two lanes of
groups, a time signature, placement rules and a few settings. Positions in time are counted in
beats of the time signature, as exact fractions.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from enum import Enum, StrEnum
from fractions import Fraction
from functools import lru_cache
from itertools import accumulate
from typing import NamedTuple

from wristwork.pattern.drums import Drum as Drum  # a word of the model, kept with its row in a module of its own


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


class Row(StrEnum):
    """The rows of a diagram, top to bottom."""

    COUNT = "count"
    NOTATION = "notation"
    STICKING = "sticking"
    HEIGHTS = "heights"
    NAMES = "names"


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
    order played. Where both hands play and not alike, ``left`` is what the left one plays, and level
    and buzz are the right one's; :func:`together` makes such a note.
    """

    sides: tuple[Side, ...]
    level: Level = Level.TAP
    graces: tuple[Side, ...] = ()
    strokes: int = 1
    buzz: bool = False
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


@dataclass(frozen=True, slots=True)
class TimeSignature:
    """``upper``/``lower``, with the beat that the signature implies.

    ``pulses`` are the unlike groups of beats in which a bar is counted, where it is: 2, 2 and 3 of 7/8.
    """

    upper: int
    lower: int
    pulses: tuple[int, ...] = ()

    @property
    def compound(self) -> bool:
        return not self.pulses and self.lower >= 8 and self.upper > 3 and self.upper % 3 == 0

    @property
    def beats(self) -> int:
        """Beats in one bar."""
        return self.upper // 3 if self.compound else self.upper

    @property
    def beat(self) -> Fraction:
        """Length of one beat in whole notes."""
        return Fraction(3 if self.compound else 1, self.lower)

    @property
    def pulse_starts(self) -> frozenset[int]:
        """The beats of a bar (from 0) that begin a pulse: every beat where a bar has no unlike groups."""
        return frozenset(accumulate(self.pulses[:-1], initial=0)) if self.pulses else frozenset(range(self.beats))

    def pulse_at(self, beat: int) -> int:
        """How many beats a group fills that begins on this beat of the pattern (from 0), unless it says otherwise."""
        starts = dict(zip(accumulate(self.pulses, initial=0), self.pulses, strict=False))
        return starts.get(beat % self.beats, 1)

    @property
    def signature(self) -> str:
        """What stands on the staff: ``7/8``."""
        return f"{self.upper}/{self.lower}"

    def __str__(self) -> str:
        return f"{self.signature} as {'+'.join(map(str, self.pulses))}" if self.pulses else self.signature


@dataclass(frozen=True, slots=True)
class Tempo:
    """Beats a minute: where to start, where to arrive, by which step."""

    start: int = 60
    goal: int = 60
    step: int = 4


@dataclass(frozen=True, slots=True)
class Swing:
    """Of two notes of value ``unit`` (in whole notes) the first is played longer.

    ``ratio`` is long to short where it is written; else it follows the tempo.
    """

    unit: Fraction = Fraction(1, 8)
    ratio: tuple[int, int] | None = None


@dataclass(frozen=True, slots=True)
class When:
    """The moments that a rule speaks of, all numbers from 1: where one of the three is empty, all of that kind.

    ``beats`` are whole beats with everything that begins in them; ``counts`` are single moments, each a
    beat and how far it is on the way to the next one.
    """

    bars: tuple[int, ...] = ()
    beats: tuple[int, ...] = ()
    counts: tuple[tuple[int, Fraction], ...] = ()

    def holds(self, at: Fraction, time: TimeSignature) -> bool:
        """Does a moment, ``at`` beats from the start of the pattern, belong to them?"""
        bar, beat = int(at) // time.beats + 1, int(at) % time.beats + 1
        if self.bars and bar not in self.bars:
            return False
        return (not self.beats or beat in self.beats) and (not self.counts or (beat, at % 1) in self.counts)


ALWAYS = When()


@dataclass(frozen=True, slots=True)
class PlacementRule:
    """``who when on drums``, the drums taken in turn.

    Who: which hand (None for both), or with ``foot`` which foot, or with ``graces`` its grace notes; what level
    (None for strokes of every level).
    """

    side: Side | None
    foot: bool
    level: Level | None
    drums: tuple[Drum, ...]
    when: When = ALWAYS
    graces: bool = False
    typed_at: Place | None = field(default=None, compare=False, repr=False)


# The drum of the right hand and of the left, where a line of drums names them.
DrumPair = tuple[Drum, Drum]


@dataclass(frozen=True, slots=True)
class Pattern:
    """A pattern ready to be played and drawn.

    Both lanes are whole bars and equally long (the shorter one is already repeated). ``beats`` is
    one pass of the written bars; ``repeat`` passes make one pass of the exercise. ``drums`` names the drums of
    the notes of the hands, one after the other and over again, and goes before ``place``.
    """

    title: str | None
    time: TimeSignature
    hands: Lane | None
    feet: Lane | None
    id: str | None = None
    tempo: Tempo = Tempo()
    place: tuple[PlacementRule, ...] | None = None
    drums: tuple[DrumPair | None, ...] | None = None
    swing: Swing | None = None
    repeat: int = 1
    loop: bool = True
    show: tuple[Row, ...] | None = None
    example: bool = False
    grows_from: str | None = None
    changes: tuple[str, ...] = ()
    requires: tuple[str, ...] = ()
    note: str | None = None

    @property
    def beats(self) -> int:
        lane = self.hands or self.feet
        assert lane is not None, "a pattern has at least one lane"
        return lane.beats

    @property
    def bars(self) -> int:
        return self.beats // self.time.beats


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
