"""The strokes of a limb as a chain in time, with the gaps between them.

Time is counted in ticks, a whole number of them to the beat, so that everything is exact. A grace note
is counted on the beat of its main note: it is a stroke of its hand, and the few milliseconds by which
it comes early are never measured as a gap.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

from wristwork.technique.strokes import Kind, Stroke


@dataclass(frozen=True, slots=True)
class TimedStroke:
    """A stroke placed in time: its ``tick``, its ``order`` negative for a grace note, 0 for a main stroke."""

    tick: int
    order: int
    stroke: Stroke

    @property
    def key(self) -> tuple[int, int]:
        return self.tick, self.order

    @property
    def is_main(self) -> bool:
        return self.order == 0


@dataclass(frozen=True)
class Chain:
    """One limb's strokes in time order, in a pass of ``span`` ticks that leads back to its start or not."""

    strokes: tuple[TimedStroke, ...]
    span: int
    loops: bool

    def gaps(self) -> list[int | None]:
        """Ticks from each stroke to the next one: 0 inside an ornament, None after the last one of all."""
        if not self.strokes:
            return []
        inner = [after.tick - before.tick for before, after in pairwise(self.strokes)]
        return [*inner, self.span + self.strokes[0].tick - self.strokes[-1].tick if self.loops else None]

    def times(self) -> list[int | None]:
        """Ticks that the hand has to get from each stroke to the next.

        Inside an ornament that is the time since the stroke before the ornament: the hand makes
        the whole way there before it, not between two grace notes.
        """
        gaps = self.gaps()
        times: list[int | None] = []
        # An ornament never stands across the seam, so the last gap is the one before the first stroke.
        before = gaps[-1] if gaps else None
        for gap in gaps:
            times.append(gap if gap != 0 else before)
            before = gap or before
        return times

    @cached_property
    def moments(self) -> list[int]:
        """The ticks at which the limb plays, each once."""
        return sorted({one.tick for one in self.strokes})

    @cached_property
    def main_moments(self) -> list[int]:
        """The ticks at which it plays a main stroke, each once."""
        return sorted({one.tick for one in self.strokes if one.is_main})

    def burst(self, size: int) -> int | None:
        """The least time from the first of ``size`` strokes to the last, those of one ornament counted once."""
        moments, steps = self.moments, size - 1
        count = len(moments)
        if not count or (not self.loops and count < size):
            return None
        rounds = steps // count + 2
        unrolled = [moment + number * self.span for number in range(rounds) for moment in moments]
        starts = count if self.loops else count - steps
        return min(unrolled[index + steps] - unrolled[index] for index in range(starts))


def placed(played: Sequence[Stroke], ticks: int) -> tuple[TimedStroke, ...]:
    """The strokes in time order, each grace note told how many strokes of its ornament are yet to come."""
    strokes: list[TimedStroke] = []
    moment, graces = -1, 0
    for stroke in reversed(played):
        tick = stroke.at.numerator * (ticks // stroke.at.denominator)
        if tick != moment:
            moment, graces = tick, 0
        is_grace = stroke.kind is Kind.GRACE
        graces += is_grace
        strokes.append(TimedStroke(tick, -graces if is_grace else 0, stroke))
    return tuple(reversed(strokes))


def gaps_between(moments: Sequence[int], span: int, loops: bool) -> list[int]:
    """The ticks between neighbouring moments, round the seam where the pattern loops."""
    gaps = [after - before for before, after in pairwise(moments)]
    return [*gaps, span + moments[0] - moments[-1]] if moments and loops else gaps
