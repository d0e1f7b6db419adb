"""Where things stand from left to right: columns spaced by time, wide enough for all that hangs on them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import ceil
from typing import NamedTuple

WIDEST = 242
"""With a gutter beside it, a cut of this many CSS pixels still fits on a phone 320 pixels wide."""
HALF_A_LINE = 156
"""Two cuts of this many CSS pixels share a line on a phone 390 pixels wide."""
NARROWEST = 46
"""No narrower than the gutter, which the cut before hides (see :mod:`wristwork.drawing.gutter`)."""
EDGE = 1
LEAD = 16  # from the left edge of a cut to its first column, where nothing needs more

# Pixels from slot to slot, by the slots of a cut: as near as they can be read. A page lets a line grow till it is full.
_PITCH = {1: 48, 2: 26, 3: 26, 4: 27, 5: 27, 6: 26.5, 7: 25.5, 8: 24.5, 9: 23.5, 10: 22.5, 11: 21.3, 12: 20}
_CLOSEST_PITCH, _CROWDED_PITCH, _MOST_SLOTS = 15.0, 18.0, 16
_LEAST_PACE = 8.0
_BEAT_PITCH = 26.0  # from beat to beat of a long note, so that its count is no single number
_SAME_MOMENT = 1e-6  # beats: less is only the rounding of thirds and fifths
_HEADS_CLEAR = 11  # hands and feet at different moments: so far apart that no heads touch


class Extent(NamedTuple):
    """What reaches ``left`` and ``right`` of a moment, ``cut_beat`` beats from the start of the cut."""

    cut_beat: float
    left: float
    right: float


class SpacedRow(NamedTuple):
    """What stands in one row, in time order.

    ``gap`` is the least distance between neighbours and ``give`` how far something may be moved
    from its place. ``low`` is taken at the left (by a time signature), ``high`` at the right. For what is ``free`` a
    cut grows at its edges where it has room to; beyond that it may be moved as far as they ask.
    """

    extents: Sequence[Extent]
    gap: float
    give: float = 0
    low: float = EDGE
    high: float = EDGE
    free: bool = False


class Spacing(NamedTuple):
    """The columns of one cut: a moment ``t`` beats from its start is at ``start + pace * t``.

    It is ``tight`` where the widest cut did not give everything the room it asked for.
    """

    start: float
    pace: float
    width: int
    tight: bool

    def x(self, beats: float) -> float:
        """Where a moment stands, in beats from the start of the cut."""
        return self.start + self.pace * beats


def widest(slots: int) -> float:
    """Pixels that a cut of so many slots may take.

    Where a stretched group of one lane ties together more slots of the other than a phone has room for, the cut is
    drawn as wide as it needs, and a narrow page condenses it.
    """
    return WIDEST if slots <= _MOST_SLOTS else _CROWDED_PITCH * slots


def space(
    beats: int, slots: int, rows: Sequence[SpacedRow], moments: Iterable[float], end_room: float, least: float
) -> Spacing:
    """Space one cut, ``least`` pixels wide or more.

    ``moments`` are all its onsets. ``end_room`` is what a bar line takes at the right. A cut grows with what
    hangs on its columns, up to the widest; beyond that, what is in it comes closer together.
    """
    rows = [row for row in rows if row.extents]
    pitch = _PITCH.get(slots) or max(_CLOSEST_PITCH, WIDEST / slots)
    most = widest(slots)
    lead = min(LEAD, pitch / 2)
    need = max([pitch * slots / beats, min(pitch, _BEAT_PITCH), *map(_least_pace, rows)])
    edged = [row for row in rows if not row.free]
    start, width = _around(need, beats, edged, lead, end_room)
    tight = width > most or least > most
    pace = need
    if not tight:
        clear = _HEADS_CLEAR / _closest(moments)
        pace = max(need, min(clear, need + (most - width) / beats))
        start, width = _around(pace, beats, edged, lead, end_room) if pace > need else (start, width)
    while width > most and pace > _LEAST_PACE:  # what hangs on the last column may keep the width from following
        pace = max(_LEAST_PACE, pace - max(0.5, (width - most) / beats))
        start, width = _around(pace, beats, edged, lead, end_room)
    if len(edged) < len(rows):
        grown_start, grown_width = _around(pace, beats, rows, lead, end_room)
        share = _share_of_room(width, grown_width, most)
        start, width = start + share * (grown_start - start), width + share * (grown_width - width)
    return Spacing(round(start, 1), pace, max(NARROWEST, ceil(min(least, most)), ceil(width)), tight)


def _share_of_room(width: float, grown: float, most: float) -> float:
    """How much of the way from one width to another a cut may grow without costing a phone another line."""
    limit = HALF_A_LINE if width <= HALF_A_LINE else most
    return max(0, min(1, (limit - width) / (grown - width))) if grown > width else 0


def _around(pace: float, beats: int, rows: Sequence[SpacedRow], lead: float, end_room: float) -> tuple[float, float]:
    """Where the first column stands, and the width, for a pace."""
    start, end = lead, pace * beats - lead + end_room
    for row in rows:
        low, high = row.low - row.give, row.high - row.give
        for cut_beat, left, right in row.extents:
            column = pace * cut_beat
            if low + left - column > start:
                start = low + left - column
            if column + right + high > end:
                end = column + right + high
    return start, start + end


def _least_pace(row: SpacedRow) -> float:
    """Pixels a beat so that no two neighbours come too close."""
    least, between = 0.0, row.gap - 2 * row.give
    for before, after in pairwise(row.extents):
        apart = after.cut_beat - before.cut_beat
        if apart > _SAME_MOMENT:
            least = max(least, (before.right + after.left + between) / apart)
    return least


def _closest(moments: Iterable[float]) -> float:
    """The shortest time between two onsets, in beats (a whole beat where there is one onset)."""
    apart = (after - before for before, after in pairwise(sorted(moments)))
    return min((time for time in apart if time > _SAME_MOMENT), default=1)


@dataclass(slots=True)
class _Cluster:
    """Texts that touch: where their centres want to be, and where they are from the left edge."""

    wanted: list[float]
    offsets: list[float]
    width: float
    left: float = 0

    def place(self, low: float, high: float) -> None:
        drift = sum(self.wanted) - sum(self.offsets)
        self.left = max(low, min(drift / len(self.wanted), high - self.width))

    def take_in(self, after: _Cluster, gap: float) -> None:
        self.wanted += after.wanted
        self.offsets += [self.width + gap + offset for offset in after.offsets]
        self.width += gap + after.width


def _have_room(wanted: Sequence[float], widths: Sequence[float], gap: float, low: float, high: float) -> bool:
    """Are texts clear of each other and of the edges where they want to be?"""
    if wanted[0] - widths[0] / 2 < low or wanted[-1] + widths[-1] / 2 > high:
        return False
    for number in range(1, len(wanted)):
        if wanted[number] - wanted[number - 1] < (widths[number] + widths[number - 1]) / 2 + gap:
            return False
    return True


def settle(wanted: Sequence[float], widths: Sequence[float], gap: float, low: float, high: float) -> list[float]:
    """Centres for texts in a row: each as near to its wanted place as its neighbours and the edges let it be."""
    if not wanted or _have_room(wanted, widths, gap, low, high):
        return list(wanted)
    clusters: list[_Cluster] = []
    for centre, width in zip(wanted, widths, strict=True):
        cluster = _Cluster([centre], [width / 2], width)
        cluster.place(low, high)
        while clusters and clusters[-1].left + clusters[-1].width + gap > cluster.left:
            before = clusters.pop()
            before.take_in(cluster, gap)
            before.place(low, high)
            cluster = before
        clusters.append(cluster)
    return [cluster.left + offset for cluster in clusters for offset in cluster.offsets]
