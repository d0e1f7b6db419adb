"""The pattern as plain, immutable values.

A :class:`Pattern` is what a tutor's text means once it is read, grown and changed: two lanes of
groups, a time signature, placement rules and a few settings. Positions in time are counted in
beats of the time signature, as exact fractions.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum
from fractions import Fraction
from itertools import accumulate
from typing import NamedTuple

from wristwork.pattern.clicks import PracticeClick
from wristwork.pattern.drums import Drum
from wristwork.pattern.form import Bars, Passage, Repeat, in_order
from wristwork.pattern.notes import BOTH, Event, Gap, Group, Lane, Level, Note, Place, Side, Slot, events, together
from wristwork.pattern.video_span import VideoSpan

# Drums, notes and lanes are words of the model too; they only live in modules of their own.
__all__ = [
    "ALWAYS",
    "BOTH",
    "DiagramRow",
    "Drum",
    "DrumPair",
    "Dynamic",
    "Event",
    "Gap",
    "Group",
    "Hairpin",
    "Lane",
    "Level",
    "Loudness",
    "Note",
    "Pattern",
    "Place",
    "PlacementRule",
    "Side",
    "Slot",
    "Swing",
    "Tempo",
    "TempoAt",
    "TimeSignature",
    "When",
    "WordsAt",
    "events",
    "together",
]


class DiagramRow(StrEnum):
    """The rows of a diagram, top to bottom."""

    COUNT = "count"
    NOTATION = "notation"
    STICKING = "sticking"
    HEIGHTS = "heights"
    NAMES = "names"


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


class Loudness(StrEnum):
    """How loud a passage is, softest first; the levels of its strokes stay apart within it."""

    PP = "pp"
    P = "p"
    MP = "mp"
    MF = "mf"
    F = "f"
    FF = "ff"


class Hairpin(StrEnum):
    """How a dynamic leads to the next one."""

    GROWING = "growing"
    FADING = "fading"


class Dynamic(NamedTuple):
    """A dynamic ``at`` beats from the start, and by which way it leads to the next one, if by any."""

    loudness: Loudness
    at: Fraction
    hairpin: Hairpin | None = None


class WordsAt(NamedTuple):
    """Words over the moment ``at`` beats from the start, or the letter of a section."""

    words: str
    at: Fraction
    is_section: bool = False


class TempoAt(NamedTuple):
    """From ``at`` beats from the start on, the tempo is this share of the goal."""

    share: Fraction
    at: Fraction


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
        """Does a moment, ``at`` beats from the start of bar 1, belong to them?"""
        bar, beat = at // 1 // time.beats + 1, at // 1 % time.beats + 1
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


class Manner(StrEnum):
    """Two ways to lift a stick: hand and stick go up in one piece, or forearm and wrist lead and the bead trails."""

    WRIST = "wrist"
    WHIP = "whip"


@dataclass(frozen=True, slots=True)
class Pattern:
    """A pattern ready to be played and drawn.

    Both lanes are whole bars and equally long (the shorter one is already repeated). ``beats`` is
    one pass of the written bars; ``repeat`` passes make one pass of the exercise. ``drums`` names the drums of
    the notes of the hands, one after the other and over again, and goes before ``placement``.

    A ``pickup`` of so many beats ends the first of the written bars, in which rests stand before it that are neither
    drawn nor played; the last bar may be ``cut_short`` by as many beats, so that it comes round in time. With
    ``repeats`` the written bars are played in another order than they stand in: see :attr:`passages`. The bars ``same``
    as those before are drawn by a sign.
    """

    title: str | None
    time: TimeSignature
    hands: Lane | None
    feet: Lane | None
    id: str | None = None
    tempo: Tempo = Tempo()
    placement: tuple[PlacementRule, ...] | None = None
    drums: tuple[DrumPair | None, ...] | None = None
    swing: Swing | None = None
    words: tuple[WordsAt, ...] = ()
    dynamics: tuple[Dynamic, ...] = ()
    tempos: tuple[TempoAt, ...] = ()
    pickup: int = 0
    cut_short: int = 0
    repeats: tuple[Repeat, ...] = ()
    same: tuple[Bars, ...] = ()
    repeat: int = 1
    loop: bool = True
    motion: Manner = Manner.WRIST
    click: PracticeClick | None = None
    show: tuple[DiagramRow, ...] | None = None
    example: bool = False
    grows_from: str | None = None
    changes: tuple[str, ...] = ()
    requires: tuple[str, ...] = ()
    note: str | None = None
    video: VideoSpan | None = None

    @property
    def leading_lane(self) -> Lane:
        """The hands, or the feet where there are no hands."""
        lane = self.hands or self.feet
        assert lane is not None, "a pattern has at least one lane"
        return lane

    @property
    def beats(self) -> int:
        return self.leading_lane.beats

    @property
    def bars(self) -> int:
        return self.beats // self.time.beats

    @property
    def full_bars(self) -> int:
        """The written bars without the pick-up."""
        return self.bars - self.bars_before_1

    @property
    def bars_before_1(self) -> int:
        """How many bars stand before bar 1: one where there is a pick-up."""
        return 1 if self.pickup else 0

    def since_bar_1(self, at: Fraction) -> Fraction:
        """A moment of the written bars in beats from the start of bar 1."""
        return at - self.time.beats if self.pickup else at

    def bar_start(self, number: int) -> int:
        """The beat of the written bars on which a bar of this number begins; it may be the one after the last."""
        return min((number - 1 + self.bars_before_1) * self.time.beats, self.drawn.end)

    @property
    def drawn(self) -> Passage:
        """What there is of the written bars: from the pick-up to where the last bar ends."""
        return Passage(self.time.beats - self.pickup if self.pickup else 0, self.beats - self.cut_short)

    @property
    def passages(self) -> tuple[Passage, ...]:
        """What is played of the written bars in one pass, in order."""
        return in_order(*self.drawn, self.repeats, self.time.beats, 0 if self.pickup else 1)

    @property
    def played_beats(self) -> int:
        """Beats of one pass as it is played, with all repeats of its bars."""
        if not self.repeats:
            return self.drawn.end - self.drawn.start
        return sum(passage.end - passage.start for passage in self.passages)
