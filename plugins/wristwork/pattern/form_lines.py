"""Read the lines that give a piece its form: ``pick-up``, ``repeats`` and ``endings``."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from wristwork.pattern.form import Bars, Repeat
from wristwork.pattern.model import Pattern, Place
from wristwork.pattern.problems import Report, all_read
from wristwork.pattern.text import Value
from wristwork.wording import counted

MOST_TIMES = 8
MOST_PLAYED_BARS = 256
_TIMES = {"twice": 2, "three times": 3, "four times": 4}
_BARS = re.compile(r"bars?\s+(\d{1,3})(?:\s+to\s+(\d{1,3}))?")
_REPEAT = re.compile(rf"({_BARS.pattern})(?:\s+(twice|three\s+times|four\s+times|(\d)\s+times))?")
_PICK_UP = re.compile(r"(\d{1,2})(?:\s+beats?)?")


@dataclass(frozen=True, slots=True)
class WrittenRepeat:
    """Bars that are repeated, and where that is written."""

    bars: Bars
    times: int
    place: Place


@dataclass(frozen=True, slots=True)
class WrittenEndings:
    """The endings of one repeat, first one first, and where they are written."""

    endings: tuple[Bars, ...]
    place: Place


def read_pick_up(value: Value, report: Report) -> int | None:
    """``1 beat``, or None with an error."""
    match = _PICK_UP.fullmatch(value.text.lower())
    if match is None or int(match[1]) == 0:
        report.add(value.place(), f"'{value.text}' is no pick-up", "say how many beats it has: pick-up: 1 beat")
        return None
    return int(match[1])


def read_repeats(value: Value, report: Report) -> tuple[WrittenRepeat, ...] | None:
    """``bars 1 to 4, bars 5 to 8 three times``, or None with an error."""
    return all_read(_read_repeat(part, report) for part in value.split(","))


def _read_repeat(part: Value, report: Report) -> WrittenRepeat | None:
    match = _REPEAT.fullmatch(part.text.lower())
    bars = _bars(match[1]) if match else None
    if match is None or bars is None:
        report.add(
            part.place(), f"'{part.text}' is no repeat", "name the bars: bars 1 to 4, or bars 5 to 8 three times"
        )
        return None
    times = int(match[5]) if match[5] else _TIMES[" ".join((match[4] or "twice").split())]
    if not 2 <= times <= MOST_TIMES:
        report.add(part.place(), f"a repeat of {counted(times, 'time')}", f"twice to {MOST_TIMES} times")
        return None
    return WrittenRepeat(bars, times, part.place())


def read_endings(value: Value, report: Report) -> tuple[WrittenEndings, ...] | None:
    """``bar 4 then bar 5, bar 12 then bars 13 to 14``, or None with an error."""
    return all_read(_read_endings(part, report) for part in value.split(","))


def _read_endings(part: Value, report: Report) -> WrittenEndings | None:
    found = [_bars(words) for words in re.split(r"\s+then\s+", part.text.lower())]
    endings = tuple(bars for bars in found if bars is not None)
    if len(endings) < 2 or len(endings) < len(found):
        report.add(part.place(), f"'{part.text}' are no endings", "name the first and the second: bar 4 then bar 5")
        return None
    return WrittenEndings(endings, part.place())


def _bars(text: str) -> Bars | None:
    match = _BARS.fullmatch(text.strip())
    if match is None:
        return None
    bars = Bars(int(match[1]), int(match[2] or match[1]))
    return bars if bars.first <= bars.last else None


def joined_repeats(
    repeats: Sequence[WrittenRepeat], endings: Sequence[WrittenEndings], report: Report
) -> tuple[Repeat, ...] | None:
    """The repeats with the endings that belong to each, by bars, or None with an error."""
    found: list[Repeat] = []
    for written in sorted(repeats, key=lambda each: each.bars):
        own = next((each for each in endings if each.endings[0].last == written.bars.last), None)
        times = max(written.times, len(own.endings)) if own else written.times
        repeat = Repeat(written.bars, times, own.endings if own else ())
        problem = _misfit(repeat) or (_overlap(found[-1], repeat) if found else None)
        if problem is not None:
            report.add(own.place if own and not _overlaps(found, repeat) else written.place, *problem)
            return None
        found.append(repeat)
    known = [repeat.endings for repeat in found]
    for alone in endings:
        if alone.endings not in known:
            report.add(
                alone.place,
                f"a first ending ({alone.endings[0]}) that ends no repeat",
                f"repeat the bars up to its end: repeats: bars 1 to {alone.endings[0].last}",
            )
            return None
    return tuple(found)


def _misfit(repeat: Repeat) -> tuple[str, str] | None:
    """Endings that don't follow each other, or that leave nothing to repeat, and the remedy."""
    if not repeat.endings:
        return None
    first = repeat.endings[0]
    if first.first <= repeat.bars.first:
        return f"a first ending ({first}) that is the whole repeat", "let the repeat begin before its first ending"
    after = first.last
    for ending in repeat.endings[1:]:
        if ending.first != after + 1:
            return (
                f"an ending ({ending}) that does not follow bar {after}",
                f"the next ending begins with bar {after + 1}",
            )
        after = ending.last
    return None


def _overlaps(before: Sequence[Repeat], repeat: Repeat) -> bool:
    return bool(before) and before[-1].last >= repeat.bars.first


def _overlap(before: Repeat, repeat: Repeat) -> tuple[str, str] | None:
    if before.last < repeat.bars.first:
        return None
    return (
        f"a repeat of {repeat.bars} that begins within the one before it",
        f"let it begin after bar {before.last}, or write its bars out",
    )


def misformed(pattern: Pattern) -> tuple[str, str] | None:
    """What is wrong with the form of a whole pattern, and the remedy."""
    for repeat in pattern.repeats:
        if repeat.bars.first < 1 or repeat.last > pattern.full_bars:
            has = counted(pattern.full_bars, "bar")
            return f"a repeat that goes up to bar {repeat.last}, where the pattern has {has}", (
                f"name bars from 1 to {pattern.full_bars}"
            )
    if pattern.played_beats * pattern.repeat > MOST_PLAYED_BARS * pattern.time.beats:
        bars = pattern.played_beats * pattern.repeat // pattern.time.beats
        return f"{bars} bars to play, with all repeats", f"{MOST_PLAYED_BARS} is the most: repeat less often"
    if pattern.pickup and (pattern.loop or pattern.repeat > 1) and pattern.played_beats % pattern.time.beats:
        return (
            "a pick-up and a whole last bar, which don't come round in time",
            "leave the beats of the pick-up out of the last bar, or write loop: no",
        )
    return None
