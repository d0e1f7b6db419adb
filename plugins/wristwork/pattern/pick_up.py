"""A pick-up: the beats before bar 1, kept as the end of a bar whose beginning is neither drawn nor played."""

from __future__ import annotations

from dataclasses import replace

from wristwork.languages.say import say_count
from wristwork.pattern.groups import WrittenBar, WrittenLane
from wristwork.pattern.model import Gap, Group, Lane, TimeSignature
from wristwork.pattern.problems import Report

_REST = Group((Gap.REST,))


def with_pick_up(lane: WrittenLane, beats: int, time: TimeSignature, report: Report) -> WrittenLane:
    """The lane with a whole bar for its pick-up of so many beats; a bar line in the wrong place is reported.

    A last bar that lacks the beats of the pick-up is filled with rests.
    """
    if lane.has_bar_lines and lane.bars[0].beats != beats:
        report.add(
            lane.bars[0].place,
            say_count(
                "{count} beat before the first bar line, where the pick-up has {beats}",
                "{count} beats before the first bar line, where the pick-up has {beats}",
                lane.bars[0].beats,
                beats=beats,
            ),
            say_count("put the first bar line after {count} beat", "put the first bar line after {count} beats", beats),
        )
    first, *rest = lane.bars
    before = (_REST,) * (time.beats - beats)
    bars = [replace(first, groups=(*before, *first.groups)), *rest]
    places = (*(first.place for _ in before), *lane.places)
    if is_cut_short(lane, beats, time):
        bars[-1] = replace(bars[-1], groups=(*bars[-1].groups, *(_REST for _ in range(beats))))
        places = (*places, *(lane.place for _ in range(beats)))
    groups = tuple(group for bar in bars for group in bar.groups)
    return replace(lane, lane=Lane(groups), bars=tuple(bars), places=places)


def is_cut_short(lane: WrittenLane, beats: int, time: TimeSignature) -> bool:
    """Does the last bar lack the beats of the pick-up?"""
    last: WrittenBar = lane.bars[-1]
    if lane.has_bar_lines:
        return last.beats == time.beats - beats
    return lane.lane.beats > beats and (lane.lane.beats - beats) % time.beats == time.beats - beats


def lengthened(lane: Lane, beats: int, first: int) -> Lane:
    """The lane repeated from beat ``first`` on until it is ``beats`` long, of which what is repeated is a part."""
    head: list[Group] = []
    for group in lane.groups:
        if first <= 0:
            break
        head.append(group)
        first -= group.beats
    body = lane.groups[len(head) :]
    size = sum(group.beats for group in body)
    return Lane((*head, *body * ((beats - lane.beats) // size + 1))) if size else lane
