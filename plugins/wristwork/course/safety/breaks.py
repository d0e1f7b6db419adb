"""Breaks: never more than 25 minutes of playing without one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from wristwork.course.safety import facts

PLAYING_AT_MOST = int(facts.BREAK_EVERY.value)
# Our own setting: long enough to put the sticks down, stand up and move.
BREAK_MINUTES = 3
# A break may come so many minutes earlier or later than halfway, if that leaves an exercise in one piece.
EARLIER_OR_LATER = 5


@dataclass(frozen=True, slots=True)
class SessionStretch:
    """Minutes of one part of a session (by its place in the list), or of a break where ``part`` is None."""

    part: int | None
    minutes: int


def breaks_needed(minutes: int) -> tuple[int, ...]:
    """The breaks, in minutes each, that a session of so many minutes has to hold."""
    count = 0
    while minutes - count * BREAK_MINUTES > PLAYING_AT_MOST * (count + 1):
        count += 1
    return (BREAK_MINUTES,) * count


def broken_up(parts: Sequence[int], breaks: Sequence[int]) -> tuple[SessionStretch, ...]:
    """The parts in order with the breaks among them, at even distances.

    A break stands between two parts where that leaves no stretch too long, else inside a part.
    ``parts`` are the minutes of the parts; together with the breaks they must keep to the limit.
    """
    break_minutes = _break_minutes(parts, len(breaks))
    stretches: list[SessionStretch] = []
    minute = 0
    waiting = list(zip(break_minutes, breaks, strict=True))
    for number, minutes in enumerate(parts):
        end = minute + minutes
        while waiting and waiting[0][0] < end:
            break_minute, length = waiting.pop(0)
            if break_minute > minute:
                stretches.append(SessionStretch(number, break_minute - minute))
            stretches.append(SessionStretch(None, length))
            minute = break_minute
        stretches.append(SessionStretch(number, end - minute))
        minute = end
    return tuple(stretches)


def _break_minutes(parts: Sequence[int], count: int) -> list[int]:
    """Minutes of playing before each of ``count`` breaks."""
    total = sum(parts)
    ends = [sum(parts[: number + 1]) for number in range(len(parts))]
    found: list[int] = []
    for number in range(count):
        before = found[-1] if found else 0
        # What follows must still fit between the breaks that are left.
        earliest = max(before + 1, total - PLAYING_AT_MOST * (count - number))
        latest = before + PLAYING_AT_MOST
        ideal = before + round((total - before) / (count - number + 1))
        # Nobody rests just before the ease-off.
        between = [end for end in ends[:-2] if earliest <= end <= latest and abs(end - ideal) <= EARLIER_OR_LATER]
        found.append(min(between, key=lambda end: abs(end - ideal)) if between else min(max(ideal, earliest), latest))
    return found
