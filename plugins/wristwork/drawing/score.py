"""Pattern → score: what is written where, cut into the parts between which a line may be broken."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from itertools import accumulate, pairwise

from wristwork.drawing.linear import LinearLane, one_line
from wristwork.drawing.staff_positions import has_one_surface
from wristwork.drawing.voices import EMPTY, Hit, Voice, deal, read_voices
from wristwork.pattern.model import Lane, Pattern, TimeSignature
from wristwork.technique.strokes import Limb, Stroke, as_written


@dataclass(frozen=True, slots=True)
class Cut:
    """A part of the pattern that stays whole on a line: from beat ``start`` to beat ``end``.

    ``slots`` are those of the finest lane. ``same`` is how many bars a sign stands for that fills it, 0 where it
    holds notes; then ``unseen`` are the strokes of the hands that the sign stands for.
    """

    start: int
    end: int
    slots: int
    hands: Voice
    feet: Voice
    ends_bar: bool
    same: int = 0
    unseen: Mapping[Limb, Sequence[Hit]] = field(default_factory=dict)

    @property
    def beats(self) -> int:
        """Its length in beats."""
        return self.end - self.start


@dataclass(frozen=True)
class Score:
    """The whole first pass of a pattern, ready to be drawn."""

    pattern: Pattern
    time: TimeSignature
    cuts: tuple[Cut, ...]
    strokes: tuple[Stroke, ...]
    one_surface: bool
    line: LinearLane | None = None
    """Hands and feet in one, where they are drawn in one voice."""

    @cached_property
    def repeat_starts(self) -> frozenset[int]:
        """The beats on which a repeat begins, but for the first of all, where none has to be told."""
        pattern = self.pattern
        return frozenset(pattern.bar_start(repeat.bars.first) for repeat in pattern.repeats) - {pattern.drawn.start}

    @cached_property
    def repeat_ends(self) -> dict[int, int]:
        """By the beat at which a sign leads back, how often what it ends is played; 0 where endings tell that."""
        found: dict[int, int] = {}
        for repeat in self.pattern.repeats:
            if not repeat.endings:
                found[self.pattern.bar_start(repeat.bars.last + 1)] = repeat.times
            for ending in repeat.endings[:-1]:
                found[self.pattern.bar_start(ending.last + 1)] = 0
        return found

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
    played = as_written(pattern)
    line = one_line(pattern, played)
    if line is None:
        lanes: tuple[Lane | None, Lane | None] = (pattern.hands, pattern.feet)
        of_hands = [stroke for stroke in played if stroke.limb.is_hand]
        of_feet = [stroke for stroke in played if not stroke.limb.is_hand]
    else:
        lanes, of_hands, of_feet = (line.lane, None), list(line.strokes), []
    same = _signs(pattern)
    bounds = _bounds([lane for lane in lanes if lane], pattern, same)
    hands = read_voices(lanes[0], pattern.time, of_hands, bounds)
    feet = read_voices(lanes[1], pattern.time, of_feet, bounds)
    slots = [_slots(lane, bounds) for lane in lanes if lane]
    cuts = tuple(
        Cut(start, end, end - start, EMPTY, EMPTY, True, same[start] // pattern.time.beats, hands[n].hits)
        if start in same
        else Cut(start, end, max(lane[n] for lane in slots), hands[n], feet[n], end % pattern.time.beats == 0)
        for n, (start, end) in enumerate(pairwise(bounds))
        if pattern.drawn.start <= start < pattern.drawn.end
    )
    surfaces = {stroke.on for stroke in played}
    return Score(pattern, pattern.time, cuts, played, has_one_surface(surfaces), line)


def _bounds(lanes: Sequence[Lane], pattern: Pattern, same: Mapping[int, int]) -> list[int]:
    """The beats at which every lane begins a group, and the end; none within bars in place of which a sign stands."""
    found = [{0, *accumulate(group.beats for group in lane.groups)} for lane in lanes]
    inside = {beat for start, beats in same.items() for beat in range(start + 1, start + beats)}
    return sorted(set.intersection(*found) - inside)


def _signs(pattern: Pattern) -> dict[int, int]:
    """How many beats a sign fills that stands for bars as before, by the beat it begins on.

    Where another lane or another drum makes them differ, their notes are drawn.
    """
    bar = pattern.time.beats
    found: dict[int, int] = {}
    for bars in pattern.same:
        start, length = bars.first * bar, (bars.last + 1 - bars.first) * bar
        if start + length <= pattern.drawn.end and _heard(pattern, start, length) == _heard(
            pattern, start - length, length
        ):
            found[start] = length
    return found


def _heard(pattern: Pattern, start: int, length: int) -> list[tuple[object, ...]]:
    """What is played in so many beats of the written bars, in beats from their start."""
    return [
        (stroke.at - start, stroke.length, stroke.limb, stroke.level, stroke.kind, stroke.on, stroke.louder_db)
        for stroke in as_written(pattern)
        if start <= stroke.at < start + length
    ]


def _slots(lane: Lane, bounds: list[int]) -> list[int]:
    """How many slots the lane has in each cut."""
    starts = accumulate((group.beats for group in lane.groups), initial=0)
    dealt = deal([(at, group.finest) for at, group in zip(starts, lane.groups, strict=False)], bounds)
    return [sum(counts) for counts in dealt]
