"""How fast a piece goes on where its sections have tempos of their own."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from wristwork.pattern.model import Pattern

_ONE = Fraction(1)


class PaceSpan(NamedTuple):
    """From this played beat of a pass on the tempo is ``share`` of the piece's; ``elapsed`` has gone by until there."""

    start: Fraction
    share: Fraction
    elapsed: Fraction


@dataclass(frozen=True, slots=True)
class Pace:
    """The tempos of a pass of so many beats, which then comes again.

    What goes by is counted in beats of the piece's own tempo.
    """

    spans: tuple[PaceSpan, ...]
    beats: int

    @property
    def is_even(self) -> bool:
        """Has all of it the piece's own tempo?"""
        return all(span.share == 1 for span in self.spans)

    def share_at(self, beat: Fraction) -> Fraction:
        """The tempo at a played beat, as a share of the piece's; a count-in has that of the first beat."""
        return self._span(max(beat, Fraction(0)) % self.beats).share

    def elapsed(self, beat: Fraction) -> Fraction:
        """How many beats of the piece's own tempo have gone by at a played beat."""
        if self.is_even:
            return beat
        if beat < 0:
            return beat / self.spans[0].share
        rounds, rest = divmod(beat, self.beats)
        span = self._span(rest)
        return rounds * self._whole + span.elapsed + (rest - span.start) / span.share

    @property
    def _whole(self) -> Fraction:
        last = self.spans[-1]
        return last.elapsed + (self.beats - last.start) / last.share

    def _span(self, beat: Fraction) -> PaceSpan:
        return self.spans[bisect_right(self.spans, beat, key=lambda span: span.start) - 1]


# Every stroke of a pattern asks for it.
@lru_cache(maxsize=256)
def pace(pattern: Pattern) -> Pace:
    """The pace of one pass of the bars as they are played."""
    spans: list[PaceSpan] = []
    for start, share in _changes(pattern):
        if not spans:
            spans.append(PaceSpan(start, share, Fraction(0)))
        elif spans[-1].share != share:
            before = spans[-1]
            spans.append(PaceSpan(start, share, before.elapsed + (start - before.start) / before.share))
    return Pace(tuple(spans), pattern.played_beats)


def _changes(pattern: Pattern) -> Iterator[tuple[Fraction, Fraction]]:
    """The played beats at which a passage or a tempo begins, and the tempo's share there."""
    played = 0
    for passage in pattern.passages:
        before = [mark.share for mark in pattern.tempos if mark.at <= passage.start]
        yield Fraction(played), before[-1] if before else _ONE
        for mark in pattern.tempos:
            if passage.start < mark.at < passage.end:
                yield mark.at - passage.start + played, mark.share
        played += passage.end - passage.start
