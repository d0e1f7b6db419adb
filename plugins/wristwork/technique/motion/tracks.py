"""A quantity in time as polynomials, one after the other: closed forms that any language evaluates alike."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple


class Segment(NamedTuple):
    """From ``start`` to ``end`` (seconds) the value is a polynomial of the share of the way, lowest power first."""

    start: float
    end: float
    terms: tuple[float, ...]

    def value(self, at: float) -> float:
        share, total = (at - self.start) / (self.end - self.start), 0.0
        for term in reversed(self.terms):
            total = total * share + term
        return total

    def speed(self, at: float) -> float:
        """The change of the value in a second."""
        length = self.end - self.start
        share, total = (at - self.start) / length, 0.0
        for power in range(len(self.terms) - 1, 0, -1):
            total = total * share + power * self.terms[power]
        return total / length


@dataclass(frozen=True, slots=True)
class Track:
    """Segments that follow each other without a gap; ``period`` seconds later they come again, if it is not None."""

    segments: tuple[Segment, ...]
    period: float | None = None

    def value(self, at: float) -> float:
        """The value at a time; before the first segment and after the last it stays what it is there."""
        segment, at = self._find(at)
        return segment.value(at)

    def speed(self, at: float) -> float:
        segment, at = self._find(at)
        return segment.speed(at)

    def _find(self, at: float) -> tuple[Segment, float]:
        first, last = self.segments[0].start, self.segments[-1].end
        at = first + (at - first) % self.period if self.period else min(max(at, first), last)
        index = bisect_right(self.segments, at, key=lambda segment: segment.start) - 1
        return self.segments[max(index, 0)], at


def still(start: float, end: float, value: float) -> Segment:
    """No movement."""
    return Segment(start, end, (value,))


def fall(start: float, end: float, height: float) -> Segment:
    """From rest down to 0 under one acceleration."""
    return Segment(start, end, (height, 0.0, -height))


def lift(start: float, end: float, height: float, speed: float) -> Segment:
    """From 0, at a speed, up to rest at a height, with the least jerk that there can be.

    (Flash and Hogan, "The coordination of arm movements", *Journal of Neuroscience* 5(7), 1985.)
    """
    way = speed * (end - start)
    return Segment(start, end, (0.0, way, 0.0, 10 * height - 6 * way, -15 * height + 8 * way, 6 * height - 3 * way))


def drop(start: float, end: float, height: float) -> Segment:
    """From rest at a height to rest at 0, with the least jerk."""
    return Segment(start, end, (height, 0.0, 0.0, -10 * height, 15 * height, -6 * height))


def bounce(start: float, end: float, height: float) -> Segment:
    """Up from 0 and back to it."""
    return Segment(start, end, (0.0, 4 * height, -4 * height))


def joined(parts: Sequence[Segment], period: float | None) -> Track:
    """A track of segments, those of no length left out."""
    return Track(tuple(part for part in parts if part.end > part.start), period)
