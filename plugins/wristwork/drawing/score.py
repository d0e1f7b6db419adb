"""Pattern → score: what is written where, cut into the parts between which a line may be broken."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import accumulate, pairwise

from wristwork.drawing.linear import OneLine, one_line
from wristwork.drawing.staff_positions import has_one_surface
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
    line: OneLine | None = None
    """Hands and feet in one, where they are drawn in one voice."""

    @property
    def two_voices(self) -> bool:
        """Do hands and feet have a voice each?"""
        return self.pattern.hands is not None and self.pattern.feet is not None and self.line is None

    @property
    def counted(self) -> Pattern:
        """The pattern whose groups are counted aloud."""
        return self.pattern if self.line is None else replace(self.pattern, hands=self.line.lane, feet=None)


def read_score(pattern: Pattern) -> Score:
    """Lay out the first pass of a pattern."""
    played = strokes(pattern)
    if not pattern.loop and pattern.repeat > 1:
        played = tuple(stroke for stroke in played if stroke.at < pattern.beats)
    line = one_line(pattern, played)
    if line is None:
        lanes: tuple[Lane | None, Lane | None] = (pattern.hands, pattern.feet)
        of_hands = [stroke for stroke in played if stroke.limb.is_hand]
        of_feet = [stroke for stroke in played if not stroke.limb.is_hand]
    else:
        lanes, of_hands, of_feet = (line.lane, None), list(line.strokes), []
    bounds = _bounds([lane for lane in lanes if lane])
    hands = read_voices(lanes[0], pattern.time, of_hands, bounds)
    feet = read_voices(lanes[1], pattern.time, of_feet, bounds)
    slots = [_slots(lane, bounds) for lane in lanes if lane]
    cuts = tuple(
        Cut(start, end, max(lane[n] for lane in slots), hands[n], feet[n], end % pattern.time.beats == 0)
        for n, (start, end) in enumerate(pairwise(bounds))
    )
    surfaces = {stroke.on for stroke in played}
    return Score(pattern, pattern.time, cuts, played, has_one_surface(surfaces), line)


def _bounds(lanes: Sequence[Lane]) -> list[int]:
    """The beats at which every lane begins a group, and the end."""
    found = [{0, *accumulate(group.beats for group in lane.groups)} for lane in lanes]
    return sorted(set.intersection(*found))


def _slots(lane: Lane, bounds: list[int]) -> list[int]:
    """How many slots the lane has in each cut."""
    starts = accumulate((group.beats for group in lane.groups), initial=0)
    dealt = deal([(at, group.finest) for at, group in zip(starts, lane.groups, strict=False)], bounds)
    return [sum(counts) for counts in dealt]
