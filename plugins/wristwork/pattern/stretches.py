"""The groups of a lane while it is read: gathered bar by bar, with the signs for bars that are as those before."""

from __future__ import annotations

from dataclasses import replace

from wristwork.languages.say import marked, say, say_count
from wristwork.pattern.form import Bars
from wristwork.pattern.model import Group, Place
from wristwork.pattern.problems import Report

_BESIDE_A_SIGN = (
    marked("a % beside other groups, where it stands for a whole bar"),
    marked("put bar lines round it: RL RL | % | RL RL"),
)


class Stretches:
    """Groups as they come, kept apart by bar lines; what is wrong goes to the report, and is remembered."""

    def __init__(self, report: Report) -> None:
        self.bars: list[list[tuple[Group, Place]]] = [[]]
        self.lines: list[Place] = []
        self.has_error = False
        self._report = report
        self._signs: list[Bars] = []
        self._is_again = False

    def error(self, place: Place, found: str, remedy: str) -> None:
        self._report.add(place, found, remedy)
        self.has_error = True

    def bar_line(self, place: Place) -> None:
        self.bars.append([])
        self.lines.append(place)
        self._is_again = False

    def again(self, count: int, place: Place) -> None:
        """A sign for one bar or two that are as those before."""
        first = len(self.bars) - 1
        before = self.bars[max(0, first - count) : first]
        if self.bars[-1] or self._is_again:
            self.error(place, *map(say, _BESIDE_A_SIGN))
        elif len(before) < count or not all(before):
            found = say_count(
                "a sign for {count} bar as before, with no such bars before it",
                "a sign for {count} bars as before, with no such bars before it",
                count,
            )
            self.error(place, found, say("write the bars out first: RL RL | %"))
        else:
            self.bars[-1:] = [[(group, place) for group, _ in bar] for bar in before]
            self.lines += [place] * (count - 1)
            self._signs.append(Bars(first, first + count - 1))
            self._is_again = True

    @property
    def same(self) -> tuple[Bars, ...]:
        """The bars with a sign, counted as in :meth:`framed`."""
        empty = next((number for number, bar in enumerate(self.bars) if bar), 0)
        return tuple(Bars(bars.first - empty, bars.last - empty) for bars in self._signs)

    def group(self, group: Group, place: Place) -> None:
        if self._is_again:
            self.error(place, *map(say, _BESIDE_A_SIGN))
        self.bars[-1].append((group, place))

    def stretch(self, beats: int) -> None:
        group, place = self.bars[-1][-1]
        self.bars[-1][-1] = (replace(group, beats=beats), place)

    def framed(self) -> list[tuple[list[tuple[Group, Place]], Place | None]]:
        """The bars with the bar line that closes each; lines at either end are only a frame."""
        closed: list[tuple[list[tuple[Group, Place]], Place | None]] = [
            (bar, self.lines[number] if number < len(self.lines) else None) for number, bar in enumerate(self.bars)
        ]
        while len(closed) > 1 and not closed[0][0]:
            closed = closed[1:]
        while len(closed) > 1 and not closed[-1][0]:
            closed = closed[:-1]
        return closed
