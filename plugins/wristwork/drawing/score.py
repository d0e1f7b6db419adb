"""Pattern → score: what is written where, cut into the parts between which a line may be broken."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import accumulate, pairwise
from typing import NamedTuple, TypeVar

from wristwork.drawing.places import STAFF_PLACES, has_one_surface
from wristwork.drawing.svg import fraction
from wristwork.pattern.model import Drum, Event, Lane, Level, Note, Pattern, TimeSignature, events
from wristwork.pattern.values import GroupValue, Piece, group_values, note_pieces, rest_pieces, silences
from wristwork.technique.strokes import Kind, Limb, Stroke, strokes

GRACE_FIRST = 12.5  # pixels from a head back to its last grace note
GRACE_GHOST = 3.5  # so much further from a head in parentheses
GRACE_STEP = 9.5  # from grace note to grace note
WHOLE, HALF, QUARTER = 0, 1, 2  # halvings of a whole note

Item = TypeVar("Item")


class Hit(NamedTuple):
    """A stroke as it is drawn.

    ``at`` is in beats from the start of the cut it falls in, ``shift`` the pixels from that column (negative for a
    grace note). ``marks`` are attributes by which a playing cursor finds what is drawn for it.
    """

    stroke: Stroke
    cut: int
    at: float
    shift: float
    marks: str


class Chord(NamedTuple):
    """One written note, with a head for each drum struck at that moment.

    ``at`` is in beats from the start of its cut. ``halvings`` of a whole note make its value without a dot, and
    ``flags`` is how many flags or beams that has. ``heads`` go from the lowest place on the staff to
    the highest, each with the hits that fall on it. The continuation of a tied note has ``ties_back``
    and no hits.
    """

    piece: Piece
    at: float
    halvings: int
    flags: int
    note: Note
    heads: tuple[tuple[Drum, tuple[Hit, ...]], ...]
    graces: tuple[Hit, ...]
    ties_back: bool
    ties_on: bool


class Rest(NamedTuple):
    """One written rest, ``at`` beats from the start of its cut."""

    piece: Piece
    at: float


@dataclass(frozen=True, slots=True)
class Voice:
    """What one lane has in one cut, and how its groups are written (by their numbers in the lane)."""

    chords: tuple[Chord, ...]
    rests: tuple[Rest, ...]
    groups: dict[int, GroupValue]
    hits: dict[Limb, list[Hit]]


@dataclass(frozen=True, slots=True)
class Cut:
    """A part of the pattern that stays whole on a line: from beat ``start`` to beat ``end``.

    ``slots`` are those of the finest lane.
    """

    start: int
    end: int
    slots: int
    hands: Voice
    feet: Voice
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
    played = strokes(pattern)
    if not pattern.loop and pattern.repeat > 1:
        played = tuple(stroke for stroke in played if stroke.at < pattern.beats)
    bounds = _bounds([lane for lane in (pattern.hands, pattern.feet) if lane])
    hands = _voices(pattern.hands, pattern.time, [s for s in played if s.limb.is_hand], bounds)
    feet = _voices(pattern.feet, pattern.time, [s for s in played if not s.limb.is_hand], bounds)
    slots = [_slots(lane, bounds) for lane in (pattern.hands, pattern.feet) if lane]
    cuts = tuple(
        Cut(start, end, max(lane[n] for lane in slots), hands[n], feet[n], end % pattern.time.beats == 0)
        for n, (start, end) in enumerate(pairwise(bounds))
    )
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


def _deal(items: Iterable[tuple[int, Item]], bounds: Sequence[int]) -> list[list[Item]]:
    """Items with their beats, in time order, dealt to the cuts they begin in."""
    dealt: list[list[Item]] = [[] for _ in bounds[1:]]
    number, end = 0, bounds[1]
    for at, item in items:
        while at >= end:
            number += 1
            end = bounds[number + 1]
        dealt[number].append(item)
    return dealt


def _voices(lane: Lane | None, time: TimeSignature, played: list[Stroke], bounds: list[int]) -> list[Voice]:
    """What a lane has in each cut."""
    if lane is None:
        return [Voice((), (), {}, {}) for _ in bounds[1:]]
    lane_events = events(lane)
    groups = group_values(lane, time, lane_events)
    hits = _hits(played, lane_events, bounds)
    by_event: dict[int, list[Hit]] = {}
    for hit in hits:
        by_event.setdefault(hit.stroke.event, []).append(hit)
    chords: list[list[Chord]] = [[] for _ in bounds[1:]]
    for number, event in enumerate(lane_events):
        if event.what is not None:
            pieces = note_pieces(event, groups, time)
            for cut, chord in _chords(event.what, by_event.get(number, []), pieces, bounds):
                chords[cut].append(chord)
    rests: list[list[Rest]] = [[] for _ in bounds[1:]]
    for silence in silences(lane_events):
        for piece in rest_pieces(silence, groups):
            cut, at = _in_cut(piece.at, bounds)
            rests[cut].append(Rest(piece, at))
    in_cuts = _deal(((group.start, (number, group)) for number, group in enumerate(groups)), bounds)
    return [
        Voice(tuple(chords_here), tuple(rests_here), dict(groups_here), _by_limb(hits_here))
        for chords_here, rests_here, groups_here, hits_here in zip(
            chords, rests, in_cuts, _deal(((hit.cut, hit) for hit in hits), range(len(bounds))), strict=True
        )
    ]  # fmt: skip


def _in_cut(at: Fraction, bounds: list[int]) -> tuple[int, float]:
    """The cut that a moment falls in, and the moment in beats from its start."""
    # A float of so small a fraction never lies on the other side of a whole number.
    above, below = at.as_integer_ratio()
    beats = above / below
    cut = bisect_right(bounds, beats) - 1
    return cut, beats - bounds[cut]


def _hits(played: Iterable[Stroke], lane_events: Sequence[Event], bounds: list[int]) -> list[Hit]:
    """Strokes as they are drawn, in playing order."""
    hits: list[Hit] = []
    graces: dict[int, int] = {}
    for stroke in played:
        shift = 0.0
        note = lane_events[stroke.event].what
        if stroke.kind is Kind.GRACE and note is not None:
            index = graces.get(stroke.event, 0)
            graces[stroke.event] = index + 1
            shift = _grace_shift(note, index)
        hits.append(Hit(stroke, *_in_cut(stroke.at, bounds), shift, _marks(stroke)))
    return hits


def _grace_shift(note: Note, index: int) -> float:
    """Pixels from the column of a note to its grace note of this index."""
    parenthesis = GRACE_GHOST if note.level is Level.GHOST else 0
    return -(GRACE_FIRST + parenthesis + (len(note.graces) - 1 - index) * GRACE_STEP)


def _marks(stroke: Stroke) -> str:
    name = f' data-stroke="{stroke.name}"' if stroke.name else ""
    return f' data-at="{fraction(stroke.at)}" data-limb="{stroke.limb}"{name}'


def _from_below(drums: Iterable[Drum]) -> list[Drum]:
    return sorted(drums, key=lambda drum: STAFF_PLACES[drum].step)


def _by_limb(hits: Iterable[Hit]) -> dict[Limb, list[Hit]]:
    found: dict[Limb, list[Hit]] = {}
    for hit in hits:
        found.setdefault(hit.stroke.limb, []).append(hit)
    return found


def _chords(note: Note, hits: Sequence[Hit], pieces: Sequence[Piece], bounds: list[int]) -> Iterator[tuple[int, Chord]]:
    """The written notes of one event, one or several tied to each other, each with its cut."""
    count = len(note.graces)
    graces, main = tuple(hits[:count]), tuple(hits[count:])
    drums = [main[0].stroke.on] if len(note.sides) == 1 else _from_below({hit.stroke.on for hit in main})
    if len(drums) == 1:
        heads: tuple[tuple[Drum, tuple[Hit, ...]], ...] = ((drums[0], main),)
    else:
        heads = tuple((drum, tuple(hit for hit in main if hit.stroke.on is drum)) for drum in drums)
    last = len(pieces) - 1
    for number, piece in enumerate(pieces):
        cut, at = _in_cut(piece.at, bounds)
        halvings = piece.halvings
        flags = max(0, halvings - QUARTER)
        if number == 0:
            yield cut, Chord(piece, at, halvings, flags, note, heads, graces, False, last > 0)
        else:
            silent = tuple((drum, ()) for drum in drums)
            yield cut, Chord(piece, at, halvings, flags, note, silent, (), True, number < last)
