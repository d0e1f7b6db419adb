"""Repeat signs, brackets of endings, signs for bars as before, the line at the end."""

from __future__ import annotations

from xml.etree.ElementTree import Element

from wristwork.drawing.score import Score
from wristwork.exchange.score.elements import add
from wristwork.pattern.model import Pattern

_STYLES = {"left": "heavy-light", "right": "light-heavy"}


class BarLines:
    """Writes what stands at the two ends of each bar, the bars counted as students count them."""

    def __init__(self, pattern: Pattern, score: Score) -> None:
        self._pattern = pattern
        self._starts, self._ends = score.repeat_starts, score.repeat_ends
        self._last = pattern.full_bars
        self._goes_round = not pattern.repeats and (pattern.loop or pattern.repeat > 1)
        self._endings = [
            (ending, turns, ending is repeat.endings[-1])
            for repeat in pattern.repeats
            for ending, turns in zip(repeat.endings, repeat.turns, strict=True)
        ]

    def left(self, bar: Element, number: int) -> None:
        """Write what stands before a bar: where a repeat or an ending begins."""
        begins = self._pattern.bar_start(number) in self._starts
        ending = next((each for each in self._endings if each[0].first == number), None)
        if not begins and ending is None:
            return
        line = add(bar, "barline", location="left")
        if begins:
            add(line, "bar-style", _STYLES["left"])
        if ending is not None:
            _, turns, _ = ending
            add(line, "ending", number=_numbers(turns), type="start")
        if begins:
            add(line, "repeat", direction="forward")

    def right(self, bar: Element, number: int) -> None:
        """Write what stands after a bar: where a repeat leads back, where an ending or the whole ends."""
        times = self._times(number)
        ending = next((each for each in self._endings if each[0].last == number), None)
        if times is None and ending is None and number != self._last:
            return
        line = add(bar, "barline", location="right")
        if times is not None or number == self._last:
            add(line, "bar-style", _STYLES["right"])
        if ending is not None:
            _, turns, is_last = ending
            add(line, "ending", number=_numbers(turns), type="discontinue" if is_last else "stop")
        if times is not None:
            again = add(line, "repeat", direction="backward")
            if times > 1:
                again.set("times", str(times))

    def _times(self, number: int) -> int | None:
        """How often is played what leads back here, 0 where nothing says it; None where nothing leads back."""
        end = self._pattern.bar_start(number + 1)
        if end in self._ends:
            return self._ends[end]
        return self._pattern.repeat if number == self._last and self._goes_round else None


def _numbers(turns: tuple[int, ...]) -> str:
    return ",".join(map(str, turns))
