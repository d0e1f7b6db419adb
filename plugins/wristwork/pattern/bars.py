"""Hold a written lane against its time signature, and tell the time signature where none is written."""

from __future__ import annotations

from collections.abc import Sequence

from wristwork.languages.say import say, say_count
from wristwork.pattern.groups import WrittenLane
from wristwork.pattern.model import TimeSignature
from wristwork.pattern.problems import Report
from wristwork.pattern.settings import MOST_UPPER

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
        say("{beats} beats, from which no time signature can be told", beats=beats),
        say("write one: time: 4/4 (and bar lines where they help)"),
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
    misfit = _implied_misfit if is_implied else _misfit
    for number, bar in enumerate(lane.bars, start=first):
        if bar.beats != time.beats:
            report.add(bar.place, *misfit(number, bar.beats, time))
    return all(bar.beats == time.beats for bar in lane.bars)


def _misfit(number: int, beats: int, time: TimeSignature) -> tuple[str, str]:
    """What is wrong with a bar under a time signature that is written, and the remedy."""
    found = say_count(
        "bar {bar} holds {count} beat, where {time} asks for {beats}",
        "bar {bar} holds {count} beats, where {time} asks for {beats}",
        beats,
        bar=number,
        time=time,
        beats=time.beats,
    )
    return found, say(
        "one group is one beat: add or take out groups, or move the bar line, or change the time signature"
    )


def _implied_misfit(number: int, beats: int, time: TimeSignature) -> tuple[str, str]:
    """The same under one that is told from the first bar."""
    found = say_count(
        "bar {bar} holds {count} beat, where {time} (told from the first bar) asks for {beats}",
        "bar {bar} holds {count} beats, where {time} (told from the first bar) asks for {beats}",
        beats,
        bar=number,
        time=time,
        beats=time.beats,
    )
    return found, say(
        "one group is one beat: add or take out groups, or move the bar line, or write the time signature: time: 4/4"
    )


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
                say("a group over {beats} beats that crosses a bar line in {time}", beats=group.beats, time=time),
                say("no group crosses a bar line: start it earlier, or split it"),
            )
            return False
        beat += group.beats
    if beat % time.beats:
        report.add(
            bar_place,
            say_count(
                "the last bar (bar {bar}) holds {count} beat, where {time} asks for {beats}",
                "the last bar (bar {bar}) holds {count} beats, where {time} asks for {beats}",
                beat % time.beats,
                bar=beat // time.beats + first,
                time=time,
                beats=time.beats,
            ),
            say("fill the bar with groups or rests, or change the time signature"),
        )
    return beat % time.beats == 0
