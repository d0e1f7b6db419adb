"""Pattern → score: what is written where, cut into the parts between which a line may be broken."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise

from wristwork.drawing.places import has_one_surface
from wristwork.drawing.voices import Voice, deal, read_voices
from wristwork.pattern.model import Lane, Pattern, TimeSignature
from wristwork.technique.strokes import Stroke, strokes


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
    hands = read_voices(pattern.hands, pattern.time, [s for s in played if s.limb.is_hand], bounds)
    feet = read_voices(pattern.feet, pattern.time, [s for s in played if not s.limb.is_hand], bounds)
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
    dealt = deal([(at, len(group.slots)) for at, group in zip(starts, lane.groups, strict=False)], bounds)
    return [sum(counts) for counts in dealt]
