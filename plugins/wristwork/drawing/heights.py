"""The stick-height lanes: where the bead of the stick is, all the time.

The line of a hand is one curve over the whole pattern, laid out on one long strip of all cuts side
by side, and then cut where the cuts end. So it joins exactly at every seam, and from the end back to
the start where the pattern loops.

Lift and fall are those of the motion (``technique.motion``): how long each takes, how the lift begins with what the
stroke before gives back, how the fall gathers speed. A pixel is a share of a second for that, whatever the tempo, and a
height always reaches the line that says it: the lane shows which heights are meant, where in the motion of a fast
tempo all of them shrink.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from wristwork.pattern.model import Level
from wristwork.technique.motion.paths import fall_time, lift_time, rising

# Pixels above the head of the drum.
BEAD: dict[Level, float] = {Level.ACCENT: 38, Level.TAP: 13, Level.GHOST: 6.5}
RESTING = BEAD[Level.TAP]

# Pixels from left to right for a second of lift or fall.
PX_PER_S = 84.0
# A curve that rises like a lift of the least jerk: for a lift that begins with so many times its mean speed, how long
# its handles are at foot and head, as shares of its width. It is then nowhere off by a hundredth of its height.
_HANDLES = (
    (0.0, 0.498, 0.498),
    (0.4, 0.509, 0.488),
    (0.8, 0.524, 0.469),
    (1.2, 0.538, 0.430),
    (1.6, 0.512, 0.380),
    (2.0, 0.421, 0.421),
    (2.5, 0.379, 0.498),
)
# A buzz: pixels from bounce to bounce, how high the first one is, and what it leaves of the way to the next stroke.
_RIPPLE, _RIPPLE_HEIGHT, _BACK_UP_SHARE, _BACK_UP = 4.5, 4.5, 0.4, 40.0


class Touch(NamedTuple):
    """The bead meets the head: at ``x`` on the strip of all cuts, coming from the height of this level.

    In a buzz it bounces on the head ``until`` further right.
    """

    x: float
    level: Level
    until: float = 0.0


Point = tuple[float, float]
Curve = tuple[Point, Point, Point, Point]


def bead_line(touches: Sequence[Touch], strip: float, before: Level, after: Level, loops: bool) -> list[Curve]:
    """The curve of one hand from the left end of the strip (0) to its right end, y up from the head.

    ``before`` is the level whose height the bead waits at before the first stroke of a pattern that
    does not loop, ``after`` that to which it comes back after the last.
    """
    if not touches:
        return [_level_line(0, strip, RESTING)]
    first, last = touches[0], touches[-1]
    curves: list[Curve] = []
    if loops:
        curves += _between(last._replace(x=last.x - strip, until=last.until - strip), first.x, first.level)
    else:
        curves += _fall_from(0, first.x, before)
    for one, other in pairwise(touches):
        curves += _between(one, other.x, other.level)
    if loops:
        curves += _between(last, first.x + strip, first.level)
    else:
        bounces, start = _bounces(last, 2 * strip)
        scale = min(1.0, (2 * strip - start) / (PX_PER_S * lift_time(after)))
        lift, lifted = _lift(start, after, scale, _given_back(last, after))
        curves += [*bounces, lift, _level_line(lifted, 2 * strip, BEAD[after])]
    return curves


def _between(touch: Touch, end: float, level: Level) -> list[Curve]:
    """From one stroke to the next: bounce if it is a buzz, up to where the next begins, wait there, whip down."""
    bounces, start = _bounces(touch, end)
    scale = min(1.0, (end - start) / (PX_PER_S * (lift_time(level) + fall_time(level))))
    lift, lifted = _lift(start, level, scale, _given_back(touch, level))
    fall, falls = _fall(end, level, scale)
    return [*bounces, lift, _level_line(lifted, max(lifted, falls), BEAD[level]), fall]


def _given_back(touch: Touch, level: Level) -> float:
    """The speed at which the bead leaves the head, as times the mean speed of its lift; after a buzz there is none."""
    return 0.0 if touch.until > touch.x else rising(touch.level, level)


def _bounces(touch: Touch, end: float) -> tuple[list[Curve], float]:
    """The ripples of a buzz, each lower than the one before, and where they end: in time for the next stroke."""
    length = min(touch.until, end - min(_BACK_UP_SHARE * (end - touch.x), _BACK_UP)) - touch.x
    count = round(length / _RIPPLE)
    if count < 1:
        return [], touch.x
    step = length / count
    curves: list[Curve] = []
    for number in range(count):
        x = touch.x + number * step
        height = _RIPPLE_HEIGHT * (1 - number / (2 * count)) * 4 / 3
        curves.append(((x, 0.0), (x + step / 4, height), (x + 3 * step / 4, height), (x + step, 0.0)))
    return curves, touch.x + length


def _fall_from(start: float, end: float, level: Level) -> list[Curve]:
    fall, falls = _fall(end, level, min(1.0, (end - start) / (PX_PER_S * fall_time(level))))
    return [_level_line(start, max(start, falls), BEAD[level]), fall]


def _lift(start: float, level: Level, scale: float, speed: float) -> tuple[Curve, float]:
    height, reach = BEAD[level], scale * PX_PER_S * lift_time(level)
    _, foot, head = min(_HANDLES, key=lambda handles: abs(handles[0] - speed))
    lifted = start + reach
    rise = foot * speed * height
    return ((start, 0.0), (start + foot * reach, rise), (lifted - head * reach, height), (lifted, height)), lifted


def _fall(end: float, level: Level, scale: float) -> tuple[Curve, float]:
    """A parabola, as a curve of the third order holds it exactly."""
    height, reach = BEAD[level], scale * PX_PER_S * fall_time(level)
    third = reach / 3
    falls = end - reach
    return ((falls, height), (falls + third, height), (end - third, height * 2 / 3), (end, 0.0)), falls


def _level_line(start: float, end: float, height: float) -> Curve:
    third = (end - start) / 3
    return (start, height), (start + third, height), (end - third, height), (end, height)


def clipped(curves: Sequence[Curve], left: float, right: float) -> list[Curve]:
    """The part of a line between two places on the strip. The curves run on from each other."""
    found: list[Curve] = []
    for number in range(bisect_right(curves, left, key=lambda curve: curve[3][0]), len(curves)):
        curve = curves[number]
        if curve[0][0] >= right:
            break
        part = curve if curve[0][0] >= left else split_curve(curve, left)[1]
        part = part if part[3][0] <= right else split_curve(part, right)[0]
        if part[0][0] < part[3][0]:
            found.append(part)
    return found


def split_curve(curve: Curve, x: float) -> tuple[Curve, Curve]:
    """Both parts of a curve that runs from left to right, cut at ``x``."""
    (a, height), (b, by), (c, cy), (d, dy) = curve
    if height == by == cy == dy:
        return _level_line(a, x, height), _level_line(x, d, height)
    low, high = 0.0, 1.0
    for _ in range(20):  # halving finds the place to less than a thousandth of a pixel
        t = (low + high) / 2
        s = 1 - t
        if s * s * (s * a + 3 * t * b) + t * t * (3 * s * c + t * d) < x:
            low = t
        else:
            high = t
    before, after = _cut(curve, high)
    meet = (x, before[3][1])
    return (*before[:3], meet), (meet, *after[1:])


def _cut(curve: Curve, share: float) -> tuple[Curve, Curve]:
    a, b, c, d = curve
    ab, bc, cd = _mix(a, b, share), _mix(b, c, share), _mix(c, d, share)
    abc, bcd = _mix(ab, bc, share), _mix(bc, cd, share)
    middle = _mix(abc, bcd, share)
    return (a, ab, abc, middle), (middle, bcd, cd, d)


def _mix(a: Point, b: Point, share: float) -> Point:
    return a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share


def path_data(curves: Sequence[Curve], left: float, base: float) -> str:
    """A line as path data, ``left`` on the strip at x 0 and the head of the drum at y ``base``.

    It is written in tenths of a pixel, each step from where the last one ended: alike ways look alike in the file.
    """
    if not curves:
        return ""
    x, y = round(10 * (curves[0][0][0] - left)), round(10 * (base - curves[0][0][1]))
    written = [f"M{x / 10:g} {y / 10:g}"]
    for _, (bx, by), (cx, cy), (dx, dy) in curves:
        next_x, next_y = round(10 * (dx - left)), round(10 * (base - dy))
        if by == cy == dy:
            if next_x > x:
                written.append(f"h{(next_x - x) / 10:g}")
        else:
            first = _step(round(10 * (bx - left)) - x, round(10 * (base - by)) - y)
            second = _step(round(10 * (cx - left)) - x, round(10 * (base - cy)) - y)
            written.append(f"c{(first + second).lstrip()}{_step(next_x - x, next_y - y)}")
        x, y = next_x, next_y
    return "".join(written)


# Few steps differ: strokes of one level follow each other on an even grid.
@lru_cache(maxsize=4096)
def _step(x: int, y: int) -> str:
    """A step of so many tenths of a pixel, each number parted from the one before it."""
    return "".join(f"{number / 10:g}" if number < 0 else f" {number / 10:g}" for number in (x, y))
