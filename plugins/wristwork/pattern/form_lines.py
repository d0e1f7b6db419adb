"""Read the lines that give a piece its form: ``pick-up``, ``repeats`` and ``endings``."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from wristwork.languages.say import say, say_count
from wristwork.pattern.form import Bars, Repeat
from wristwork.pattern.model import Pattern, Place
from wristwork.pattern.problems import Report, all_read
from wristwork.pattern.text import Value

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
        report.add(
            value.place(),
            say("'{typed}' is no pick-up", typed=value.text),
            say("say how many beats it has: pick-up: 1 beat"),
        )
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
            part.place(),
            say("'{typed}' is no repeat", typed=part.text),
            say("name the bars: bars 1 to 4, or bars 5 to 8 three times"),
        )
        return None
    times = int(match[5]) if match[5] else _TIMES[" ".join((match[4] or "twice").split())]
    if not 2 <= times <= MOST_TIMES:
        report.add(
            part.place(),
            say_count("a repeat of {count} time", "a repeat of {count} times", times),
            say("twice to {times} times", times=MOST_TIMES),
        )
        return None
    return WrittenRepeat(bars, times, part.place())


def read_endings(value: Value, report: Report) -> tuple[WrittenEndings, ...] | None:
    """``bar 4 then bar 5, bar 12 then bars 13 to 14``, or None with an error."""
    return all_read(_read_endings(part, report) for part in value.split(","))


def _read_endings(part: Value, report: Report) -> WrittenEndings | None:
    found = [_bars(words) for words in re.split(r"\s+then\s+", part.text.lower())]
    endings = tuple(bars for bars in found if bars is not None)
    if len(endings) < 2 or len(endings) < len(found):
        report.add(
            part.place(),
            say("'{typed}' are no endings", typed=part.text),
            say("name the first and the second: bar 4 then bar 5"),
        )
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
                say("a first ending ({bars}) that ends no repeat", bars=alone.endings[0].said),
                say("repeat the bars up to its end: repeats: bars 1 to {bar}", bar=alone.endings[0].last),
            )
            return None
    return tuple(found)


def _misfit(repeat: Repeat) -> tuple[str, str] | None:
    """Endings that don't follow each other, or that leave nothing to repeat, and the remedy."""
    if not repeat.endings:
        return None
    first = repeat.endings[0]
    if first.first <= repeat.bars.first:
        return (
            say("a first ending ({bars}) that is the whole repeat", bars=first.said),
            say("let the repeat begin before its first ending"),
        )
    after = first.last
    for ending in repeat.endings[1:]:
        if ending.first != after + 1:
            return (
                say("an ending ({bars}) that does not follow bar {bar}", bars=ending.said, bar=after),
                say("the next ending begins with bar {bar}", bar=after + 1),
            )
        after = ending.last
    return None


def _overlaps(before: Sequence[Repeat], repeat: Repeat) -> bool:
    return bool(before) and before[-1].last >= repeat.bars.first


def _overlap(before: Repeat, repeat: Repeat) -> tuple[str, str] | None:
    if before.last < repeat.bars.first:
        return None
    first, last = repeat.bars
    if first == last:
        found = say("a repeat of bar {bar} that begins within the one before it", bar=first)
    else:
        found = say("a repeat of bars {first} to {last} that begins within the one before it", first=first, last=last)
    return found, say("let it begin after bar {bar}, or write its bars out", bar=before.last)


def misformed(pattern: Pattern) -> tuple[str, str] | None:
    """What is wrong with the form of a whole pattern, and the remedy."""
    for repeat in pattern.repeats:
        if repeat.bars.first < 1 or repeat.last > pattern.full_bars:
            found = say_count(
                "a repeat that goes up to bar {bar}, where the pattern has {count} bar",
                "a repeat that goes up to bar {bar}, where the pattern has {count} bars",
                pattern.full_bars,
                bar=repeat.last,
            )
            return found, say("name bars from 1 to {bars}", bars=pattern.full_bars)
    if pattern.played_beats * pattern.repeat > MOST_PLAYED_BARS * pattern.time.beats:
        bars = pattern.played_beats * pattern.repeat // pattern.time.beats
        return (
            say("{bars} bars to play, with all repeats", bars=bars),
            say("{most} is the most: repeat less often", most=MOST_PLAYED_BARS),
        )
    if pattern.pickup and (pattern.loop or pattern.repeat > 1) and pattern.played_beats % pattern.time.beats:
        return (
            say("a pick-up and a whole last bar, which don't come round in time"),
            say("leave the beats of the pick-up out of the last bar, or write loop: no"),
        )
    return None
