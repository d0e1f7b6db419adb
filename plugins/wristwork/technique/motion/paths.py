"""The strokes of one hand → its motion: bead, hand and wrist in centimetres over time.

From one stroke to the next the bead is lifted to the height that the next one needs, waits there, and falls. Where
there is less time than an unhurried way takes, the wait is gone and lift and fall are the same movement on a smaller
scale: lengths shrink by the square of the time, speeds by the time, and no acceleration grows. A stroke that is a
rebound of the one before comes back from the head by itself; hand and wrist wait for it. `hand-motion.js` works
out the same.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import sqrt
from typing import NamedTuple

from wristwork.pattern.model import Level, Manner
from wristwork.technique.motion.constants import (
    BOUNCE_PULL,
    BUZZ_SHARE,
    BUZZ_SPACING_S,
    FALL,
    HEIGHT_CM,
    LEADS,
    LIFT_S,
    MOST_LIFT_SPEED,
    REBOUND_SHARE,
    Lead,
)
from wristwork.technique.motion.tracks import Segment, Track, bounce, drop, fall, joined, lift, still

# How long a hand waits before the first stroke of a pattern that does not loop, and after its last, in seconds.
AROUND_S = 1.0


class Impact(NamedTuple):
    """The bead meets the head ``at`` this second. ``buzz`` is for how many seconds it is pressed on (0: not at all)."""

    at: float
    level: Level
    is_rebound: bool = False
    buzz: float = 0.0


@dataclass(frozen=True, slots=True)
class Motion:
    """One hand's motion, in cm over the head.

    The ``bead``; the bead as the ``hand`` alone carries it, which takes no part in bounces; and how far the ``wrist``
    is above its place.
    """

    bead: Track
    hand: Track
    wrist: Track


@dataclass(frozen=True, slots=True)
class _Way:
    """From one stroke to the next: lifted until ``lifted``, waiting until ``falls``."""

    start: float
    lifted: float
    falls: float
    end: float
    height: float

    @property
    def landing_speed(self) -> float:
        return 2 * self.height / (self.end - self.falls)


def motion(impacts: Sequence[Impact], period: float | None = None, manner: Manner = Manner.WRIST) -> Motion:
    """How one hand moves through its strokes, in time order; they come again after ``period`` seconds, if at all.

    Raises ValueError where there is no stroke, or where each of them is a rebound of another.
    """
    if not impacts or all(impact.is_rebound for impact in impacts):
        raise ValueError("a motion needs a stroke that is no rebound")
    lead = LEADS[manner]
    bead: list[Segment] = []
    hand: list[Segment] = []
    wrist: list[Segment] = []
    for before, after, speed in _steps(impacts, period):
        bounces = _bounces(before, after, speed)
        start = bounces[-1].end if bounces else before.at
        resting = [still(before.at, start, 0.0)]
        bead += bounces
        hand += resting
        wrist += resting
        if start < after.at:
            way = _way(start, after)
            up = 0.0 if bounces else lead.rebound * _share_of(speed, way)
            carried = _carried(way, up)
            bead += carried
            hand += carried
            wrist += _led(way, lead)
    if period is None:
        waiting, resting_again = _before(impacts[0], lead), _after(impacts[-1], lead)
        bead, hand, wrist = (
            [*first, *middle, *last]
            for first, middle, last in zip(waiting, (bead, hand, wrist), resting_again, strict=True)
        )
    return Motion(joined(bead, period), joined(hand, period), joined(wrist, period))


def _steps(impacts: Sequence[Impact], period: float | None) -> list[tuple[Impact, Impact, float]]:
    """Each stroke, the one after it, and the speed at which it met the head."""
    if period is None:
        ring = [impacts[0]._replace(is_rebound=False), *impacts[1:]]
        speeds = _speeds(ring, _scale(AROUND_S, impacts[0].level))
    else:
        # A whole round more, which begins with a stroke that is no rebound: from it the speeds of all others follow.
        first = next(number for number, impact in enumerate(impacts) if not impact.is_rebound)
        earlier = [impact._replace(at=impact.at - period) for impact in impacts]
        ring, scale = [*earlier[first:], *impacts], _scale_between(impacts[first - 1], impacts[first], period)
        speeds = _speeds(ring, scale)
        ring, speeds = ring[-len(impacts) - 1 :], speeds[-len(impacts) - 1 :]
    return [(before, after, speed) for (before, after), speed in zip(pairwise(ring), speeds, strict=False)]


def _speeds(ring: Sequence[Impact], first: float) -> list[float]:
    """The speed at which each stroke meets the head, in cm/s; ``first`` is the scale of the way to the first one."""
    speeds = [first * _full_speed(ring[0].level)]
    for before, after in pairwise(ring):
        if after.is_rebound:
            speeds.append(_bounce_speed(after, after.at - before.at, speeds[-1]))
        else:
            speeds.append(_scale_between(before, after) * _full_speed(after.level))
    return speeds


def _full_speed(level: Level) -> float:
    return sqrt(2 * FALL[level] * HEIGHT_CM[level])


def _scale_between(before: Impact, after: Impact, period: float = 0.0) -> float:
    gap = after.at - before.at
    gap = gap if gap > 0 else gap + period
    return _scale(gap - _touches(before, gap) * BUZZ_SPACING_S, after.level)


def _touches(impact: Impact, gap: float) -> int:
    """How often a buzz touches the head after its first touch."""
    return int(min(impact.buzz, BUZZ_SHARE * gap) / BUZZ_SPACING_S)


def _bounce_speed(impact: Impact, gap: float, speed: float) -> float:
    """That of a rebound: what comes back, as much as the time and the height allow."""
    return min(REBOUND_SHARE * speed, BOUNCE_PULL * gap / 2, 4 * HEIGHT_CM[impact.level] / gap)


def lift_time(level: Level) -> float:
    """Seconds of an unhurried lift to the height of this level."""
    return LIFT_S * sqrt(HEIGHT_CM[level] / HEIGHT_CM[Level.ACCENT])


def fall_time(level: Level) -> float:
    """Seconds of the fall from there."""
    return sqrt(2 * HEIGHT_CM[level] / FALL[level])


def rising(before: Level, after: Level) -> float:
    """How fast a lift to the height of ``after`` begins with what an unhurried stroke of ``before`` gives back.

    In times the mean speed of that lift, from 0 to :data:`MOST_LIFT_SPEED`.
    """
    given_back = LEADS[Manner.WRIST].rebound * REBOUND_SHARE * _full_speed(before)
    return min(given_back * lift_time(after) / HEIGHT_CM[after], MOST_LIFT_SPEED)


def _scale(gap: float, level: Level) -> float:
    """The share of an unhurried way's time that there is, at most 1."""
    return min(1.0, gap / (lift_time(level) + fall_time(level)))


def _way(start: float, after: Impact) -> _Way:
    scale = _scale(after.at - start, after.level)
    lifted = start + scale * lift_time(after.level)
    falls = max(lifted, after.at - scale * fall_time(after.level))
    return _Way(start, lifted, falls, after.at, scale * scale * HEIGHT_CM[after.level])


def _share_of(speed: float, way: _Way) -> float:
    """The speed at which the bead leaves the head."""
    return min(REBOUND_SHARE * speed, MOST_LIFT_SPEED * way.height / (way.lifted - way.start))


def _carried(way: _Way, speed: float) -> list[Segment]:
    return [
        lift(way.start, way.lifted, way.height, speed),
        still(way.lifted, way.falls, way.height),
        fall(way.falls, way.end, way.height),
    ]


def _led(way: _Way, lead: Lead) -> list[Segment]:
    """The wrist's part of a way."""
    height = lead.share * way.height
    lifted = way.start + lead.lift * (way.lifted - way.start)
    drops = max(lifted, way.falls - lead.ahead_s)
    return [
        lift(way.start, lifted, height, 0.0),
        still(lifted, drops, height),
        drop(drops, way.end, height),
    ]


def _bounces(before: Impact, after: Impact, speed: float) -> list[Segment]:
    """What the bead does by itself: the whole way to a rebound, or the touches of a buzz."""
    gap = after.at - before.at
    if after.is_rebound:
        return [bounce(before.at, after.at, _bounce_speed(after, gap, speed) * gap / 4)]
    count, spacing = _touches(before, gap), BUZZ_SPACING_S
    height = min(REBOUND_SHARE * speed, BOUNCE_PULL * spacing) * spacing / 4
    starts = [before.at + number * spacing for number in range(count + 1)]
    return [
        bounce(start, end, height * (1 - number / (2 * count))) for number, (start, end) in enumerate(pairwise(starts))
    ]


def _before(first: Impact, lead: Lead) -> tuple[list[Segment], list[Segment], list[Segment]]:
    """Waiting at the height of the first stroke, and falling to it."""
    height = HEIGHT_CM[first.level]
    way = _Way(first.at - AROUND_S, first.at - AROUND_S, first.at - fall_time(first.level), first.at, height)
    bead = _carried(way, 0.0)
    return bead, bead, _led(way, lead)


def _after(last: Impact, lead: Lead) -> tuple[list[Segment], list[Segment], list[Segment]]:
    """Back to the height of a tap, and waiting there."""
    height, lifted, end = HEIGHT_CM[Level.TAP], last.at + lift_time(Level.TAP), last.at + AROUND_S
    way = _Way(last.at, lifted, end, end, height)
    bead = _carried(way, 0.0)[:2]
    return bead, bead, _led(way, lead)[:2]
