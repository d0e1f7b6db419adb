"""The form of a piece: what of its written bars is played again, and in which order all are played."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from wristwork.languages.say import say


class Bars(NamedTuple):
    """Bars from ``first`` to ``last``, both played, counted from 1; a pick-up is bar 0."""

    first: int
    last: int

    def __str__(self) -> str:
        """As a tutor types them."""
        return f"bar {self.first}" if self.first == self.last else f"bars {self.first} to {self.last}"

    @property
    def said(self) -> str:
        """As a sentence speaks of them."""
        if self.first == self.last:
            return say("bar {bar}", bar=self.first)
        return say("bars {first} to {last}", first=self.first, last=self.last)


@dataclass(frozen=True, slots=True)
class Repeat:
    """Bars that are played ``times`` times.

    With ``endings`` the bars end with the first of them, and the others follow it: each is played in its turn, the
    first one as often as there are too few of them.
    """

    bars: Bars
    times: int = 2
    endings: tuple[Bars, ...] = ()

    @property
    def last(self) -> int:
        """The last bar of all that belongs to it."""
        return self.endings[-1].last if self.endings else self.bars.last

    @property
    def turns(self) -> tuple[tuple[int, ...], ...]:
        """By ending, the turns in which it is played, counted from 1."""
        first = self.times - len(self.endings) + 1
        return tuple(
            tuple(range(1, first + 1)) if number == 0 else (first + number,) for number in range(len(self.endings))
        )

    def played(self) -> list[Bars]:
        """The stretches of bars in the order in which they are played."""
        if not self.endings:
            return [self.bars] * self.times
        body = Bars(self.bars.first, self.endings[0].first - 1)
        found: list[Bars] = []
        for ending, turns in zip(self.endings, self.turns, strict=True):
            for _ in turns:
                found += [Bars(body.first, ending.last)] if ending is self.endings[0] else [body, ending]
        return found


class Passage(NamedTuple):
    """A stretch that is played in one go, from beat ``start`` of the written bars to beat ``end``."""

    start: int
    end: int


def in_order(start: int, end: int, repeats: Sequence[Repeat], beats: int, first_bar: int) -> tuple[Passage, ...]:
    """What is played from beat ``start`` to ``end``, with all repeats; the first bar has number ``first_bar``."""
    found: list[Passage] = []
    at = start
    for repeat in repeats:
        found.append(Passage(at, (repeat.bars.first - first_bar) * beats))
        for bars in repeat.played():
            found.append(Passage((bars.first - first_bar) * beats, (bars.last + 1 - first_bar) * beats))
        at = (repeat.last + 1 - first_bar) * beats
    found.append(Passage(at, end))
    joined: list[Passage] = []
    for passage in found:
        clipped = Passage(passage.start, min(passage.end, end))
        if clipped.start >= clipped.end:
            continue
        if joined and joined[-1].end == clipped.start:
            clipped = Passage(joined.pop().start, clipped.end)
        joined.append(clipped)
    return tuple(joined)
