"""Bars that are counted in unlike groups, as 7/8 in 2+2+3: one written group fills one of them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from wristwork.pattern.groups import WrittenBar, WrittenLane
from wristwork.pattern.model import Group, Lane, TimeSignature


def in_pulses(lane: WrittenLane, time: TimeSignature) -> WrittenLane:
    """The lane with every group as long as the pulse it begins; one stretched with ``over`` keeps its beats."""
    if not time.pulses:
        return lane
    bars: list[WrittenBar] = []
    beat = 0
    for bar in lane.bars:
        start = 0 if lane.has_bar_lines else beat
        groups = tuple(_fill(bar.groups, start, time))
        bars.append(replace(bar, groups=groups))
        beat = start + sum(group.beats for group in groups)
    flat = tuple(group for bar in bars for group in bar.groups)
    return replace(lane, lane=Lane(flat), bars=tuple(bars))


def _fill(groups: tuple[Group, ...], beat: int, time: TimeSignature) -> Iterator[Group]:
    for group in groups:
        size = group.beats if group.beats > 1 else time.pulse_at(beat)
        yield replace(group, beats=size)
        beat += size
