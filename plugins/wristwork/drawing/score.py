"""Pattern → score: what is written where, cut into the parts between which a line may be broken."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import accumulate, pairwise
from typing import TypeVar

from wristwork.drawing.places import STAFF_PLACES, has_one_surface
from wristwork.pattern.model import Drum, Event, Lane, Note, Pattern, TimeSignature, events
from wristwork.pattern.values import GroupValue, Piece, group_values, note_pieces, rest_pieces, silences
from wristwork.technique.strokes import Kind, Limb, Stroke, strokes

Item = TypeVar("Item")


@dataclass(frozen=True, slots=True)
class Chord:
    """One written note, with a head for each drum struck at that moment.

    ``heads`` go from the lowest place on the staff to the highest, each with the strokes that fall
    on it. The continuation of a tied note has ``ties_back`` and no strokes.
    """

    piece: Piece
    note: Note
    heads: tuple[tuple[Drum, tuple[Stroke, ...]], ...]
    graces: tuple[Stroke, ...]
    ties_back: bool
    ties_on: bool

    @property
    def at(self) -> Fraction:
        """When it begins, in beats."""
        return self.piece.at


@dataclass(frozen=True, slots=True)
class Voice:
    """What one lane has in one cut, and how its groups are written (by their numbers in the lane)."""

    chords: tuple[Chord, ...]
    rests: tuple[Piece, ...]
    groups: dict[int, GroupValue]
    tied_over: Chord | None
    """The tied note that sounds on from before this cut to after it, with nothing to write here."""


NOTHING = Voice((), (), {}, None)


@dataclass(frozen=True, slots=True)
class Cut:
    """A part of the pattern that stays whole on a line: from beat ``start`` to beat ``end``."""

    start: int
    end: int
    slots: int
    """Slots of the finest lane."""
    hands: Voice
    feet: Voice
    strokes: tuple[Stroke, ...]
    ends_bar: bool

    @property
    def beats(self) -> int:
        """Its length in beats."""
        return self.end - self.start


@dataclass(frozen=True, slots=True)
class Score:
    """The whole first pass of a pattern, ready to be drawn."""

    pattern: Pattern
    time: TimeSignature
    cuts: tuple[Cut, ...]
    strokes: tuple[Stroke, ...]
    one_surface: bool


def read_score(pattern: Pattern) -> Score:
    """Lay out the first pass of a pattern."""
    played = tuple(stroke for stroke in strokes(pattern) if stroke.at < pattern.beats)
    bounds = _bounds([lane for lane in (pattern.hands, pattern.feet) if lane])
    hands = _voices(pattern.hands, pattern.time, [s for s in played if s.limb.is_hand], bounds)
    feet = _voices(pattern.feet, pattern.time, [s for s in played if not s.limb.is_hand], bounds)
    slots = [_slots(lane, bounds) for lane in (pattern.hands, pattern.feet) if lane]
    by_cut = _deal([(stroke.at, stroke) for stroke in played], bounds)
    cuts = tuple(
        Cut(start, end, max(lane[number] for lane in slots), hands[number], feet[number], tuple(by_cut[number]),
            end % pattern.time.beats == 0)
        for number, (start, end) in enumerate(pairwise(bounds))
    )  # fmt: skip
    return Score(pattern, pattern.time, cuts, played, has_one_surface({stroke.on for stroke in played}))


def _bounds(lanes: Sequence[Lane]) -> list[int]:
    """The beats at which every lane begins a group, and the end."""
    found = [{0, *accumulate(group.beats for group in lane.groups)} for lane in lanes]
    return sorted(set.intersection(*found))


def _slots(lane: Lane, bounds: list[int]) -> list[int]:
    """How many slots the lane has in each cut."""
    starts = accumulate((group.beats for group in lane.groups), initial=0)
    dealt = _deal([(at, len(group.slots)) for at, group in zip(starts, lane.groups, strict=False)], bounds)
    return [sum(counts) for counts in dealt]


def _deal(items: Sequence[tuple[Fraction | int, Item]], bounds: list[int]) -> list[list[Item]]:
    """Items with their beats, in time order, dealt to the cuts they begin in."""
    dealt: list[list[Item]] = [[] for _ in bounds[1:]]
    number = 0
    for at, item in items:
        while at >= bounds[number + 1]:
            number += 1
        dealt[number].append(item)
    return dealt


def _voices(lane: Lane | None, time: TimeSignature, played: list[Stroke], bounds: list[int]) -> list[Voice]:
    if lane is None:
        return [NOTHING] * (len(bounds) - 1)
    lane_events = events(lane)
    groups = group_values(lane, time, lane_events)
    by_event: dict[int, list[Stroke]] = {}
    for stroke in played:
        by_event.setdefault(stroke.event, []).append(stroke)
    written = [
        chord
        for number, event in enumerate(lane_events)
        if event.what is not None
        for chord in _chords(event, event.what, by_event.get(number, []), groups, time)
    ]
    rests = [piece for start, end in silences(lane_events) for piece in rest_pieces(start, end, groups)]
    chords_by_cut = _deal([(chord.at, chord) for chord in written], bounds)
    rests_by_cut = _deal([(piece.at, piece) for piece in rests], bounds)
    groups_by_cut = _deal([(group.start, (number, group)) for number, group in enumerate(groups)], bounds)
    voices: list[Voice] = []
    last: Chord | None = None
    for chords, silent, in_cut in zip(chords_by_cut, rests_by_cut, groups_by_cut, strict=True):
        tied_over = last if last and last.ties_on and not chords else None
        voices.append(Voice(tuple(chords), tuple(silent), dict(in_cut), tied_over))
        last = chords[-1] if chords else last
    return voices


def _chords(
    event: Event, note: Note, played: list[Stroke], groups: Sequence[GroupValue], time: TimeSignature
) -> list[Chord]:
    """The written notes of one event: one, or several tied to each other."""
    graces = tuple(stroke for stroke in played if stroke.kind is Kind.GRACE)
    main = [stroke for stroke in played if stroke.kind is not Kind.GRACE]
    drums = sorted({stroke.on for stroke in main}, key=lambda drum: STAFF_PLACES[drum].step)
    heads = tuple((drum, tuple(stroke for stroke in main if stroke.on is drum)) for drum in drums)
    silent_heads = tuple((drum, ()) for drum in drums)
    pieces = note_pieces(event, groups, time)
    last = len(pieces) - 1
    return [
        Chord(piece, note, silent_heads if number else heads, () if number else graces, number > 0, number < last)
        for number, piece in enumerate(pieces)
    ]


def limb_strokes(score: Score, limb: Limb) -> tuple[Stroke, ...]:
    """The chain of one limb, grace notes before their main note."""
    return tuple(stroke for stroke in score.strokes if stroke.limb is limb)
