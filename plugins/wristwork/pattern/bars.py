"""Hold a written lane against its time signature, and tell the time signature where none is written."""

from __future__ import annotations

from collections.abc import Sequence

from wristwork.pattern.groups import WrittenLane
from wristwork.pattern.model import TimeSignature
from wristwork.pattern.problems import Report
from wristwork.pattern.settings import MOST_UPPER
from wristwork.wording import counted

MOST_TOLD_BEATS = 7


def tell_time(lanes: Sequence[WrittenLane], report: Report) -> TimeSignature | None:
    """The time signature that the lanes (hands first, one at least) imply, or None with an error that asks for one.

    Told from the first lane that has bar lines, else from the first.
    """
    lined = [lane for lane in lanes if lane.has_bar_lines]
    lane = lined[0] if lined else lanes[0]
    if lane.has_bar_lines:
        beats = lane.bars[0].beats
        if 1 <= beats <= MOST_UPPER:
            return TimeSignature(beats, 4)
    else:
        beats = lane.lane.beats
        if beats % 4 == 0:
            return TimeSignature(4, 4)
        if beats <= MOST_TOLD_BEATS:
            return TimeSignature(beats, 4)
    report.add(
        lane.place,
        f"{beats} beats, from which no time signature can be told",
        "write one: time: 4/4 (and bar lines where they help)",
    )
    return None


def check_bars(
    lane: WrittenLane, time: TimeSignature, report: Report, *, is_implied: bool = False, first: int = 1
) -> bool:
    """Whether each bar holds exactly the beats of the time signature; those that don't are reported.

    ``is_implied`` says that the time signature is not written but told from the first bar. ``first`` is the number of
    the first bar: 0 where it is a pick-up.
    """
    if lane.has_bar_lines:
        return _check_written(lane, time, report, is_implied, first)
    return _check_counted(lane, time, report, first)


def _check_written(lane: WrittenLane, time: TimeSignature, report: Report, is_implied: bool, first: int) -> bool:
    source = f"{time} (told from the first bar)" if is_implied else f"{time}"
    for number, bar in enumerate(lane.bars, start=first):
        if bar.beats != time.beats:
            report.add(
                bar.place,
                f"bar {number} holds {counted(bar.beats, 'beat')}, where {source} asks for {time.beats}",
                "one group is one beat: add or take out groups, or move the bar line"
                + (", or write the time signature: time: 4/4" if is_implied else ", or change the time signature"),
            )
    return all(bar.beats == time.beats for bar in lane.bars)


def _check_counted(lane: WrittenLane, time: TimeSignature, report: Report, first: int) -> bool:
    beat = 0
    bar_place = lane.place
    for group, place in zip(lane.lane.groups, lane.places, strict=True):
        filled = beat % time.beats
        if filled == 0:
            bar_place = place
        if filled + group.beats > time.beats:
            report.add(
                place,
                f"a group over {group.beats} beats that crosses a bar line in {time}",
                "no group crosses a bar line: start it earlier, or split it",
            )
            return False
        beat += group.beats
    if beat % time.beats:
        report.add(
            bar_place,
            f"the last bar (bar {beat // time.beats + first}) holds {counted(beat % time.beats, 'beat')}, "
            f"where {time} asks for {time.beats}",
            "fill the bar with groups or rests, or change the time signature",
        )
    return beat % time.beats == 0
